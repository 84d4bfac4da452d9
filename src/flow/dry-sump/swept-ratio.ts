import type { Pump } from '#car';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';

/** What a stage sweeps in a turn of the engine [cc]. */
export const sweptPerTurn = (pump: Pump): number => (pump.displacementCcRev ?? 0) * (pump.driveRatio ?? 0);

/** What the pressure stages sweep in a turn of the engine [cc]. */
export const pressurePerTurn = ({ sorted }: Pick<ReadyCircuit, 'sorted'>): number =>
  sorted.liquid.reduce((sum, { kind, pump }) => sum + (kind === 'pump' ? sweptPerTurn(pump!) : 0), 0);

/** Displacement of the scavenge over that of the pressure stages; undefined where either is not known. */
export function sweptRatio(ready: Pick<ReadyCircuit, 'sorted'>): number | undefined {
  const scavenge = ready.sorted.scavenge
    .flatMap(({ stages }) => stages)
    .reduce((sum, { pump }) => sum + sweptPerTurn(pump.pump!), 0);
  const pressure = pressurePerTurn(ready);
  return pressure === 0 || scavenge === 0 ? undefined : scavenge / pressure;
}
