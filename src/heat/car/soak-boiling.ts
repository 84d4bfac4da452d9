import type { NetMoment } from '../balance/in-time.ts';
import type { LineBoils } from '../heat-answer.ts';
import { waterLatentHeat } from '../laws/latent-heat.ts';
import { type HeatModel, SECTORS } from './heat-model.ts';
import { fluidStands } from './line-limits.ts';
import type { CaseState } from './net-in-case.ts';
import { fluidNode, type NetLayout } from './net-layout.ts';

/**
 * Water lines that boil after switching off: from which minute, and how much water the heat beyond the boiling point would boil away at
 * the least. The balance itself does not know boiling: what it says above that point would go into steam.
 */
export function boilsOver(
  model: HeatModel,
  layout: NetLayout,
  state: Omit<CaseState, 'zones'>,
  moments: readonly NetMoment[],
): readonly LineBoils[] {
  return model.lines.flatMap((line, i): LineBoils[] => {
    const fluid = state.fluids[i]!;
    const stands = fluid.carries === 'water' ? fluidStands(model, line, fluid) : null;
    if (stands === null) return [];
    const nodes = layout.lines[i]!;
    const storesJPerK = Array.from({ length: nodes.segments }, (_, s) => {
      const { body, lengthMm } = line.patches[s * SECTORS]!;
      const m3 = ((Math.PI / 4) * line.walls[body]!.boreMm ** 2 * lengthMm) / 1e9;
      return m3 * fluid.densityKgM3 * fluid.specificHeatJKgK;
    });
    const beyondJ = ({ c }: NetMoment): number =>
      storesJPerK.reduce((sum, jPerK, s) => sum + jPerK * Math.max(0, c[fluidNode(nodes, s)]! - stands.limitC), 0);
    const first = moments.find((moment) => beyondJ(moment) > 0);
    if (first === undefined) return [];
    const mostJ = Math.max(...moments.map(beyondJ));
    const litres = (1000 * mostJ) / (waterLatentHeat(stands.limitC) * fluid.densityKgM3);
    return [{ line: line.line.id, atC: stands.limitC, fromMin: first.seconds / 60, litres }];
  });
}
