import type { Case } from '#car';
import {
  caseOf,
  type CaseOf,
  type LiquidFlow,
  liquidFlow,
  netInto,
  type ReadyCircuit,
} from '../circuit/circuit-state.ts';
import type { LineFlow } from '../circuit/flow-answer.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import { gasBalance, type GasBalance } from './gas-balance.ts';
import { noStarts, scavengeFlow, type ScavengeFlow } from './scavenge.ts';

/** A dry sump in one case: pressure side, scavenge side and gas, each in keeping with the others. */
export interface DrySumpState {
  readonly asked: CaseOf;
  readonly liquid: LiquidFlow;
  readonly scavenge: ScavengeFlow;
  readonly gas: GasBalance;
  /** Gas over the oil in a vessel [Pa above the outside]. */
  readonly gasPa: (vessel: string) => number;
  /** Oil that comes into a pan or pot [m3/s]. */
  readonly oilInto: (vessel: string) => number;
  /** Drains that run by gravity, with the oil they carry [m3/s]. */
  readonly drains: readonly { readonly line: string; readonly oilM3S: number }[];
}

/** The gas changes what the oil does by little: three rounds settle it to a pascal. */
const ROUNDS = 3;

/** Works a dry sump out in a case, or says in a line why not. */
export function drySumpState(
  ready: ReadyCircuit,
  at: Case,
  warm?: SettledNetwork,
): DrySumpState | { readonly why: string; readonly where: readonly string[] } {
  const asked = caseOf(ready, at);
  if (typeof asked === 'string') return { why: asked, where: [] };
  const pan = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'pan')?.vessel.part;
  let gas: GasBalance | null = null;
  let result: DrySumpState | null = null;
  let start = warm;
  const starts = noStarts();
  for (let round = 0; round < ROUNDS; round++) {
    const known = gas?.gasPa;
    const gasPa = (vessel: string): number => known?.get(vessel) ?? 0;
    const liquid = liquidFlow(ready, asked, gasPa, start);
    if ('why' in liquid) return liquid;
    start = liquid.answer;
    const drained = drainedInto(ready, liquid);
    const oilInto = (vessel: string): number =>
      Math.max(0, netInto(ready, liquid, vessel)) + (drained.get(vessel) ?? 0);
    const scavenge = scavengeFlow(ready, asked, oilInto, gasPa, { starts, isLast: round === ROUNDS - 1 });
    gas = gasBalance(ready, asked.temperatureC, gasInflow(ready, scavenge, pan, at), gas?.answer);
    result = { asked, liquid, scavenge, gas, gasPa, oilInto, drains: drainRows(ready, liquid) };
  }
  return result!;
}

/** Blow-by comes into the crankcase; stages carry air from pans and pots to the tank. */
export function gasInflow(
  ready: ReadyCircuit,
  scavenge: ScavengeFlow,
  pan: string | undefined,
  at: Case,
): Map<string, number> {
  const inflow = new Map<string, number>();
  const add = (vessel: string, m3s: number) => inflow.set(vessel, (inflow.get(vessel) ?? 0) + m3s);
  for (const { vessel } of ready.drawn.vessels) {
    add(vessel.part, (scavenge.airInto.get(vessel.part) ?? 0) - (scavenge.airOutOf.get(vessel.part) ?? 0));
  }
  if (pan !== undefined) add(pan, (at.blowByLMin ?? 0) / 60_000);
  return inflow;
}

/** What a housing lets go runs down its drain: by vessel, the oil that arrives by gravity. */
export function drainedInto(ready: ReadyCircuit, liquid: LiquidFlow): Map<string, number> {
  const into = new Map<string, number>();
  for (const { line, oilM3S } of drainRows(ready, liquid)) {
    const to = ready.drawn.lines.get(line)?.to.split('.')[0];
    if (to !== undefined) into.set(to, (into.get(to) ?? 0) + oilM3S);
  }
  return into;
}

function drainRows(ready: ReadyCircuit, liquid: LiquidFlow): { readonly line: string; readonly oilM3S: number }[] {
  return ready.sorted.drains.map((element) => {
    const from = element.from.split('.')[0] ?? '';
    const share = ready.sorted.drains.filter((other) => other.from.split('.')[0] === from).length;
    return { line: element.id, oilM3S: Math.max(0, netInto(ready, liquid, from)) / share };
  });
}

/** All lines of the circuit that were worked out, in the order of the car file. */
export const allLines = (state: DrySumpState): readonly LineFlow[] => [
  ...state.liquid.lines,
  ...state.scavenge.lines,
  ...state.gas.lines,
];
