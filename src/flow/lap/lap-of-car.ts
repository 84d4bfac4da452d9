import { readyCircuit } from '../circuit/circuit-state.ts';
import { drawnCircuit } from '../circuit/drawn-circuit.ts';
import type { FlowAsk } from '../flow-of-car.ts';
import type { DriveLog } from './drive-log.ts';
import { lapOf } from './lap.ts';
import type { LapAnswer, LapRefused } from './lap-answer.ts';

/** The log run through every dry sump of the car; a circuit that cannot run it says why in one line. */
export function lapsOfCar(
  ask: FlowAsk,
  log: DriveLog,
): readonly (LapAnswer | (LapRefused & { readonly circuit: string }))[] {
  return (ask.car.circuits ?? [])
    .filter(({ kind }) => kind === 'dry-sump')
    .map((circuit) => {
      const ready = readyCircuit(ask.car, drawnCircuit(ask.car, ask.shelf, circuit, ask.ways), ask.meshes);
      const lap = lapOf(ready, log, { shelf: ask.shelf });
      return 'why' in lap ? { circuit: circuit.id, ...lap } : lap;
    });
}
