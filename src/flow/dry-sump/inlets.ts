import type { LiquidFlow, ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import type { ScavengeFlow } from './scavenge.ts';

/** Static pressure at the inlet of a pressure stage that a line leads to [Pa]: what a gauge there would read. */
export function feedInletPa({ lines }: LiquidFlow, fluid: FluidState, line: string): number | undefined {
  const flow = lines.find((row) => row.line === line);
  return flow === undefined ? undefined : flow.toPa - (fluid.densityKgM3 * flow.velocityMS ** 2) / 2;
}

/** Pressure at the inlet of a scavenge stage that a line leads to, as deep as models of froth have it [Pa]. */
export function stageInletPa({ stages }: ScavengeFlow, ready: ReadyCircuit, line: string): number | undefined {
  const to = ready.drawn.lines.get(line)?.to;
  const pump = ready.drawn.pumps.find(
    ({ from }) => to !== undefined && ready.drawn.joints.of(from) === ready.drawn.joints.of(to),
  );
  return stages.find(({ id }) => id === pump?.id)?.inletSpreadPa[0];
}

/** Either of the two. */
export const inletPa = (state: DrySumpState, ready: ReadyCircuit, line: string): number | undefined =>
  feedInletPa(state.liquid, state.asked.fluid, line) ?? stageInletPa(state.scavenge, ready, line);
