import type { LiquidFlow, ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import type { ScavengeFlow } from './scavenge.ts';

/** Static pressure at the inlet of a pressure stage that a line leads to [Pa]: what a gauge there would read. */
export function feedInletPa({ lines }: LiquidFlow, fluid: FluidState, line: string): number | undefined {
  const flow = lines.find((row) => row.line === line);
  return flow === undefined ? undefined : flow.toPa - (fluid.densityKgM3 * flow.velocityMS ** 2) / 2;
}

/** Pressure at an inlet [Pa], and how deep it may be as models of froth have it. */
export interface Inlet {
  readonly pa: number;
  readonly deepestPa: number;
}

/** At the inlet of a scavenge stage that a line leads to. */
export function stageInlet({ stages }: ScavengeFlow, ready: ReadyCircuit, line: string): Inlet | undefined {
  const to = ready.drawn.lines.get(line)?.to;
  const pump = ready.drawn.pumps.find(
    ({ from }) => to !== undefined && ready.drawn.joints.of(from) === ready.drawn.joints.of(to),
  );
  const stage = stages.find(({ id }) => id === pump?.id);
  return stage === undefined ? undefined : { pa: stage.inletPa, deepestPa: stage.inletSpreadPa[0] };
}

/** Either of the two. */
export const inletOf = (state: DrySumpState, ready: ReadyCircuit, line: string): Inlet | undefined =>
  plainly(feedInletPa(state.liquid, state.asked.fluid, line)) ?? stageInlet(state.scavenge, ready, line);

/** Liquid alone: nothing is spread. */
export const plainly = (pa: number | undefined): Inlet | undefined =>
  pa === undefined ? undefined : { pa, deepestPa: pa };
