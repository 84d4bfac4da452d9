import { type Car, findPort, linesById, partsById } from '#car';
import type { FlowAnswer } from '#flow';
import type { Vec } from '#geometry';
import { flowSnags } from './flow-snags.ts';
import type { Snag } from './snag.ts';

/**
 * What the circuits leave open, each at its place on the car: where the finding has none, at the far end of its line (that is where a
 * suction line meets its pump), or amid the ports of its part. What is about a line or part that is gone since is left out.
 */
export function placedFlowSnags(car: Car, flow: FlowAnswer): Snag[] {
  const lines = linesById(car);
  const parts = partsById(car);
  return flowSnags(flow).flatMap((snag): Snag[] => {
    if (snag.line !== undefined && !lines.has(snag.line)) return [];
    if (snag.atMm !== undefined) return [snag];
    const line = snag.line === undefined ? undefined : lines.get(snag.line);
    const atMm =
      line === undefined
        ? amid((parts.get(snag.part ?? '')?.ports ?? []).map((port) => port.atMm))
        : findPort(car, line.to)?.port.atMm;
    return [atMm === undefined ? snag : { ...snag, atMm: [atMm[0], atMm[1], atMm[2]] }];
  });
}

function amid(points: readonly Readonly<Vec>[]): Vec | undefined {
  if (points.length === 0) return undefined;
  const mean = (axis: 0 | 1 | 2): number => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  return [mean(0), mean(1), mean(2)];
}
