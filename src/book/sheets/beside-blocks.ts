import type { Block } from './block.ts';

/** Two columns of blocks as one: what stands at the same place in both makes one row. */
export function besideBlocks(left: readonly Block[], right: readonly Block[], offset: number): Block[] {
  return Array.from({ length: Math.max(left.length, right.length) }, (_, i): Block => {
    const pair = [left[i], right[i]];
    return merged(pair, offset);
  });
}

function merged([a, b]: readonly (Block | undefined)[], offset: number): Block {
  const one = a ?? { shapes: [], height: 0 };
  if (b === undefined) return one;
  const [closeOne, closeOther] = [one.close ?? one, b.close ?? b];
  const again = one.again === undefined && b.again === undefined ? {} : { again: merged([one.again, b.again], offset) };
  return {
    ...one,
    shapes: [...one.shapes, { kind: 'group', offset: [offset, 0], shapes: b.shapes }],
    height: Math.max(one.height, b.height),
    close: {
      shapes: [...closeOne.shapes, { kind: 'group', offset: [offset, 0], shapes: closeOther.shapes }],
      height: Math.max(closeOne.height, closeOther.height),
    },
    ...again,
  };
}
