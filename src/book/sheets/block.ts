import type { Drawing, Shape } from '../drawing.ts';
import type { Stack } from '../stack.ts';
import { block, brokenText, type TextStyle } from '../text-block.ts';

/** A piece of a sheet that is not broken over two pages. */
export interface Block {
  readonly shapes: readonly Shape[];
  readonly height: number;
  /** Room above it, not wanted at the head of a page. */
  readonly space?: number;
  /** It does not stand last on a page: what follows comes with it. */
  readonly isHead?: boolean;
  /** Put above it where it is the first of a page: the head of a table that goes on. */
  readonly again?: Block;
  /** The same with less air in it, where that saves a page. */
  readonly close?: { readonly shapes: readonly Shape[]; readonly height: number };
}

/** "1 line", "31 lines". */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** Rows of a text that stay together: a longer one may go on overleaf. */
const ROWS_TOGETHER = 6;

export interface TextWish {
  readonly space?: number;
  readonly indent?: number;
  readonly isHead?: boolean;
}

/** A text broken to a width. */
export function textBlocks(text: string, width: number, style: TextStyle, wish: TextWish = {}): Block[] {
  const indent = wish.indent ?? 0;
  const rows = brokenText(text, width - indent, style.size, style.weight ?? 'regular');
  const blocks: Block[] = [];
  for (let i = 0; i < rows.length; i += ROWS_TOGETHER) {
    const made = block([indent, 0], rows.slice(i, i + ROWS_TOGETHER), style);
    blocks.push({
      ...made,
      ...(i === 0 && wish.space !== undefined ? { space: wish.space } : {}),
      ...(wish.isHead === true ? { isHead: true } : {}),
    });
  }
  return blocks;
}

/** A heading over what follows. */
export const headingBlocks = (text: string, width: number, size: number, space = size * 1.6): Block[] =>
  textBlocks(text, width, { size: size * 1.25, weight: 'bold' }, { space, isHead: true });

export const drawingBlock = (drawing: Drawing, space = 0): Block => ({
  shapes: drawing.shapes,
  height: drawing.height,
  space,
});

export const stackBlock = (stack: Stack, space = 0): Block => ({ shapes: stack.shapes, height: stack.height, space });

/** Blocks one below the other as one that is not broken. */
export function together(blocks: readonly Block[], space?: number): Block {
  let height = 0;
  const shapes = blocks.map((one, i): Shape => {
    if (i > 0) height += one.space ?? 0;
    const group = { kind: 'group', offset: [0, height], shapes: one.shapes } as const;
    height += one.height;
    return group;
  });
  const above = space ?? blocks[0]?.space;
  return { shapes, height, ...(above === undefined ? {} : { space: above }) };
}
