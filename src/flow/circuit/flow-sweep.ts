import type { Case } from '#car';
import type { SettledNetwork } from '../network/solve-network.ts';
import { caseOf, liquidFlow, type LiquidFlow, type ReadyCircuit } from './circuit-state.ts';
import { temperatureIn } from './circuit-fluid.ts';

/** One speed of a sweep: what comes through the main passage, and where the pressure stands. Above the air outside. */
export interface SweepPoint {
  readonly rpm: number;
  /** Through the passage that the circuit is there for [m3/s]. */
  readonly flowM3S: number;
  /** Before that passage [Pa]. */
  readonly pressurePa: number;
  /** At the inlet of the pump that drives it [Pa]. */
  readonly inletPa: number;
}

/** A circuit over engine speed at one temperature, standing on the level. */
export interface FlowSweep {
  readonly circuit: string;
  /** The case whose temperature it has. */
  readonly case: string;
  readonly temperatureC: number;
  /** What the pressure is taken before. */
  readonly passage: string;
  readonly points: readonly SweepPoint[];
  /** Speeds that could not be solved, with the first reason. */
  readonly refused: { readonly count: number; readonly why: string } | null;
}

const STEPS = 15;
const FROM_RPM = 800;
/** The least top speed of a sweep, where cases only stand still [rpm]. */
const LEAST_TOP_RPM = 3000;

/**
 * Pressure and flow of the liquid side over engine speed, cold and hot: from 800 rpm to the fastest case in 15 steps, at the
 * least and the greatest temperature of the cases with the engine running. Gas in vessels is taken at the air outside or as
 * stated; empty where no pump is driven by the engine.
 */
export function flowSweeps(ready: ReadyCircuit, cases: readonly Case[]): FlowSweep[] {
  const running = cases.filter(({ engineRpm }) => engineRpm > 0);
  const driven = ready.drawn.pumps.some(({ driveRatio, atRpm }) => driveRatio !== undefined || atRpm !== undefined);
  if (!driven || running.length === 0) return [];
  const heat = (at: Case): number => temperatureIn(ready.drawn.circuit, at).temperatureC;
  const cold = running.reduce((a, b) => (heat(b) < heat(a) ? b : a));
  const hot = running.reduce((a, b) => (heat(b) > heat(a) ? b : a));
  const topRpm = Math.max(LEAST_TOP_RPM, ...running.map(({ engineRpm }) => engineRpm));
  return (heat(cold) === heat(hot) ? [hot] : [cold, hot]).map((at) => sweep(ready, at, topRpm));
}

function sweep(ready: ReadyCircuit, at: Case, topRpm: number): FlowSweep {
  const { g: _, pitchDeg: _pitch, rollDeg: _roll, ...level } = at;
  const solved: { rpm: number; flow: LiquidFlow }[] = [];
  let refused: FlowSweep['refused'] = null;
  let warm: SettledNetwork | undefined;
  const refuse = (why: string): void => {
    refused = { count: (refused?.count ?? 0) + 1, why: refused?.why ?? why };
  };
  const gasPa = (vessel: string): number =>
    (ready.insides.find(({ drawn }) => drawn.vessel.part === vessel)?.drawn.vessel.pressureBar ?? 0) * 1e5;
  for (let step = 0; step < STEPS; step++) {
    const rpm = FROM_RPM + ((topRpm - FROM_RPM) * step) / (STEPS - 1);
    const asked = caseOf(ready, { ...level, engineRpm: rpm });
    if (typeof asked === 'string') {
      refuse(asked);
      continue;
    }
    const flow = liquidFlow(ready, asked, gasPa, warm);
    if ('why' in flow) refuse(flow.why);
    else {
      warm = flow.answer;
      solved.push({ rpm, flow });
    }
  }
  const main = mainPassage(solved.at(-1)?.flow);
  return {
    circuit: ready.drawn.circuit.id,
    case: at.id,
    temperatureC: temperatureIn(ready.drawn.circuit, at).temperatureC,
    passage: main?.words ?? '',
    points: solved.map(({ rpm, flow }) => pointOf(rpm, flow, main?.id)),
    refused,
  };
}

/** Where most of the pump's work goes: gallery and bearings, or the engine's water side. */
const mainPassage = (flow: LiquidFlow | undefined) =>
  flow?.passages.toSorted((a, b) => b.dropPa * b.flowM3S - a.dropPa * a.flowM3S)[0];

function pointOf(rpm: number, flow: LiquidFlow, main: string | undefined): SweepPoint {
  const passage = flow.passages.find(({ id }) => id === main);
  const pump = flow.pumps.toSorted((a, b) => b.flowM3S - a.flowM3S)[0];
  return {
    rpm,
    flowM3S: passage?.flowM3S ?? pump?.flowM3S ?? 0,
    pressurePa: passage?.fromPa ?? pump?.toPa ?? 0,
    inletPa: pump?.fromPa ?? 0,
  };
}
