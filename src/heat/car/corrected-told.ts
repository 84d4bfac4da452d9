import type { NetAt } from './heat-shares.ts';
import { airOfNode, type ToldC } from './line-heat.ts';
import type { Corrections } from './readings.ts';

/** What is told with agreed readings in it: the rise over the air of each corrected thing times its factor. */
export function correctedTold({ model, layout, ...here }: NetAt, told: ToldC, corrections: Corrections): ToldC {
  const { rises } = corrections;
  if (rises.size === 0) return told;
  const factors = new Map<number, readonly [factor: number, airC: number]>();
  const take = (id: string, first: number, count: number): void => {
    const factor = rises.get(id);
    if (factor === undefined) return;
    for (let node = first; node < first + count; node++) {
      const air = airOfNode({ model, layout, ...here }, node);
      factors.set(node, [factor, air]);
    }
  };
  model.parts.forEach(({ part }, i) => take(part.part.id, layout.partNode[i]!, 1));
  model.panels.forEach(({ id, patches }, i) => take(id, layout.panelNode[i]!, patches.length / 2));
  model.lines.forEach(({ line }, i) => {
    const { head, tail } = layout.lines[i]!;
    take(line.id, head, tail - head + 1);
  });
  return {
    ...told,
    c: (node) => {
      const row = factors.get(node);
      const c = told.c(node);
      return row === undefined ? c : row[1] + row[0] * (c - row[1]);
    },
  };
}
