import type { Case } from '#car';
import { drawnCircuit } from './circuit/drawn-circuit.ts';
import { readyCircuit, type ReadyCircuit } from './circuit/circuit-state.ts';
import { type FlowSweep, flowSweeps } from './circuit/flow-sweep.ts';
import { pullG } from './circuit/pull.ts';
import { fillIn, type VesselInside } from './circuit/vessel-state.ts';
import { feedMouths, gOfPull } from './dry-sump/mouths.ts';
import { casesOf, type FlowAsk } from './flow-of-car.ts';
import { tankSection, type TankSection } from './tank/tank-section.ts';

/** A tank as it stands in one case. */
export interface TankView {
  readonly circuit: string;
  readonly part: string;
  readonly case: string;
  readonly section: TankSection;
}

/** What is drawn of the circuits beside their answer: over engine speed, and their tanks. */
export interface FlowViews {
  readonly sweeps: readonly FlowSweep[];
  readonly tanks: readonly TankView[];
}

/** Sweeps over engine speed and tanks under g, for every circuit that flows. */
export function flowViews(ask: FlowAsk): FlowViews {
  const cases = casesOf(ask.car);
  const out = { sweeps: [] as FlowSweep[], tanks: [] as TankView[] };
  const circuits = (ask.car.circuits ?? []).filter(({ kind }) => kind !== 'other');
  circuits.forEach((circuit, i) => {
    if (ask.watch?.(i, circuits.length) === false) return;
    const ready = readyCircuit(ask.car, drawnCircuit(ask.car, ask.shelf, circuit, ask.ways), ask.meshes);
    out.sweeps.push(...flowSweeps(ready, cases));
    if (circuit.kind !== 'dry-sump') return;
    for (const inside of ready.insides) {
      if (inside.drawn.vessel.kind !== 'tank') continue;
      out.tanks.push(...tankViews(ready, inside, cases));
    }
  });
  return out;
}

/** Each tank cut along the pull of each case, with the mouths that feed the engine. */
function tankViews(ready: ReadyCircuit, inside: VesselInside, cases: readonly Case[]): TankView[] {
  const { tank } = inside;
  const outlets = feedMouths(ready).flatMap((mouth) => (mouth.inside === inside ? [mouth.outlet] : []));
  if (tank === null || outlets.length === 0) return [];
  return cases.map((at) => ({
    circuit: ready.drawn.circuit.id,
    part: inside.drawn.vessel.part,
    case: at.id,
    section: tankSection(tank, outlets, gOfPull(pullG(at)), fillIn(inside, at)),
  }));
}
