import type { NetAt } from './heat-shares.ts';
import { airOfNode, type ToldC } from './line-heat.ts';
import type { CaseState } from './net-in-case.ts';
import { fluidNode } from './net-layout.ts';
import type { Corrections } from './readings.ts';

/**
 * What is told with agreed readings in it: the rise over the air of each corrected thing times its factor. What flows in a line, or stood
 * in it when the engine stopped, came in as the case says: of it only what it has taken up since is corrected.
 */
export function correctedTold(
  { model, layout, ...here }: NetAt,
  told: ToldC,
  corrections: Corrections,
  { fluids, isOff }: Pick<CaseState, 'fluids' | 'isOff'>,
): ToldC {
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
    const nodes = layout.lines[i]!;
    take(line.id, nodes.head, nodes.tail - nodes.head + 1);
    const { flowM3S, inC } = fluids[i]!;
    const factor = rises.get(line.id);
    if (factor === undefined || (flowM3S === 0 && !isOff)) return;
    for (const node of [nodes.head, nodes.tail]) factors.set(node, [factor, inC]);
    for (let s = 0; s < nodes.segments; s++) factors.set(fluidNode(nodes, s), [factor, inC]);
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
