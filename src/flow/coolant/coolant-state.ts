import type { Case } from '#car';
import { stateOf } from '../circuit/circuit-fluid.ts';
import { caseOf, type CaseOf, type ReadyCircuit } from '../circuit/circuit-state.ts';
import type { CoolantAnswer } from '../circuit/coolant-answer.ts';
import { vesselFinder } from '../circuit/drawn-circuit.ts';
import { standardPressure } from '../fluids/standard-atmosphere.ts';
import { airTraps } from './air-traps.ts';
import { waterPressures } from './water-pressures.ts';
import { type HeatAnswer, type HeatBranch, heatNet } from './heat-net.ts';
import { type CoreAir, type Radiator, radiatorOf } from './radiator.ts';
import { LEAST_TRAP_MM, trapWords } from './trap-words.ts';
import { type WaterFlow, waterFlow } from '../circuit/water-flow.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import type { Refused } from '../refused.ts';

/** Water is reckoned up to here [C]: what is known of glycol ends a little above. */
const MOST_C = 125;
/** From here on the water's own growth and vapour hold the cap shut at its pressure; below, the header is at the air's. Common practice, no source. */
const CAP_HOLDS_FROM_C = 70;
const JUST_LIQUID_C = 1;
const USUAL_AIR_C = 25;
const SETTLED_K = 1e-7;
const MOST_ROUNDS = 60;

/** The water of a car in one case. */
export interface CoolantState {
  readonly asked: CaseOf;
  readonly flow: WaterFlow;
  readonly gasPa: (vessel: string) => number;
  readonly heat: HeatAnswer | undefined;
  readonly answer: CoolantAnswer;
}

/** What is fixed of a case while a temperature is looked for. */
interface Frame {
  readonly ready: ReadyCircuit;
  readonly asked: CaseOf;
  readonly air: CoreAir;
  readonly radiators: ReadonlyMap<string, Radiator>;
  readonly heaters: ReadonlySet<string>;
  /** The flow last found, to begin the next from. */
  last?: SettledNetwork;
}

/** Flow, temperatures, pressures and heights of a water circuit in a case, or in a line why not. */
export function coolantState(ready: ReadyCircuit, at: Case): CoolantState | Refused {
  const plain = caseOf(ready, at);
  if (typeof plain === 'string') return { why: plain, where: [] };
  const outsideAbsPa = standardPressure(at.altitudeM ?? 0);
  const air: CoreAir = {
    airC: at.airC ?? USUAL_AIR_C,
    absPa: outsideAbsPa,
    ...(at.coreAirMPerS === undefined ? {} : { mPerS: at.coreAirMPerS }),
  };
  const radiators = radiatorsOf(ready, plain);
  if (typeof radiators === 'string') return { why: radiators, where: [] };
  const heaters = new Set(ready.elements.filter(({ passage }) => passage?.heats === true).map(({ id }) => id));
  const frame: Frame = { ready, asked: plain, air, radiators, heaters };
  const heatW = at.heatToWaterKw === undefined ? null : at.heatToWaterKw * 1000;
  const settled = heatW === null || heatW <= 0 ? { settlesC: null, rounds: 0 } : settles(frame, heatW);
  if ('why' in settled) return settled;
  const outletC = at.coolantC ?? settled.settlesC ?? plain.temperatureC;
  const solved = flowAt(frame, outletC);
  if ('why' in solved) return solved;
  const { asked, flow, gasPa } = solved;
  const unit = heatAt(frame, asked, flow, 1000);
  const unitOverK = unit === undefined ? 0 : outletOf(frame, unit, flow) - air.airC;
  const carriedOffW = unitOverK > 0 ? (1000 * (outletC - air.airC)) / unitOverK : 0;
  const heat = carriedOffW === 0 ? undefined : heatAt(frame, asked, flow, carriedOffW);
  const temperatures = temperaturesOf(ready, heat, outletC);
  const pressures = waterPressures(ready, asked, flow, temperatures.lineC, outsideAbsPa);
  const header = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'header')?.vessel.part;
  const answer: CoolantAnswer = {
    outsideAbsPa,
    headerPa: header === undefined ? 0 : gasPa(header),
    airC: air.airC,
    statedC: at.coolantC ?? null,
    outletC,
    carriedOffW,
    heatW,
    settlesC: settled.settlesC,
    settleRounds: settled.rounds,
    imbalanceShare: heat === undefined || heat.heatInW === 0 ? 0 : heat.imbalanceW / Math.abs(heat.heatInW),
    passages: temperatures.passages,
    stillLines: flow.stillLines,
    traps: airTraps(ready.drawn, asked.pull, LEAST_TRAP_MM).map(trapWords),
    ...pressures,
  };
  return { asked, flow, gasPa, heat, answer };
}

function radiatorsOf(ready: ReadyCircuit, asked: CaseOf): ReadonlyMap<string, Radiator> | string {
  const out = new Map<string, Radiator>();
  for (const { id, words, passage } of ready.elements) {
    if (passage?.duty === undefined) continue;
    const radiator = radiatorOf(passage.duty, words, measuredFluid(ready, asked));
    if (typeof radiator === 'string') return radiator;
    out.set(id, radiator);
  }
  return out;
}

const DUTY_MEASURED_C = 90;

/** Duties are measured hot, whatever the case. */
const measuredFluid = (ready: ReadyCircuit, asked: CaseOf) => {
  const hot = stateOf(ready.fluid!, DUTY_MEASURED_C);
  return typeof hot === 'string' ? asked.fluid : hot;
};

/** Gas over the water: as stated, or the cap's pressure where the water is hot. */
export function gasOver(ready: ReadyCircuit, temperatureC: number): (vessel: string) => number {
  const byPart = new Map(ready.drawn.vessels.map(({ vessel }) => [vessel.part, vessel]));
  return (part) => {
    const vessel = byPart.get(part);
    if (vessel?.pressureBar !== undefined) return vessel.pressureBar * 1e5;
    return temperatureC >= CAP_HOLDS_FROM_C ? (vessel?.capBar ?? 0) * 1e5 : 0;
  };
}

function flowAt(
  frame: Frame,
  temperatureC: number,
): { asked: CaseOf; flow: WaterFlow; gasPa: (vessel: string) => number } | Refused {
  const { ready, asked: plain } = frame;
  const fluid = stateOf(ready.fluid!, temperatureC);
  if (typeof fluid === 'string') return { why: fluid, where: [] };
  const asked = { ...plain, temperatureC, fluid };
  const gasPa = gasOver(ready, temperatureC);
  const flow = waterFlow(ready, asked, gasPa, frame.last);
  if ('why' in flow) return flow;
  frame.last = flow.answer;
  return { asked, flow, gasPa };
}

/** The net of warmth: all mouths of a vessel are one place, since its water mixes. */
function heatAt(frame: Frame, asked: CaseOf, flow: WaterFlow, heatW: number): HeatAnswer | undefined {
  const { ready, radiators, heaters, air } = frame;
  const vesselOf = vesselFinder(ready.drawn);
  const placeOf = (spot: string): string => vesselOf(spot) ?? ready.drawn.joints.of(spot);
  const branches = ready.sorted.liquid.map(({ id, from, to }): HeatBranch => {
    const flowM3S = flow.flowOf.get(id) ?? 0;
    const radiator = radiators.get(id);
    return {
      id,
      from: placeOf(from),
      to: placeOf(to),
      flowM3S,
      ...(heaters.has(id) ? { heatW: heatW / heaters.size } : {}),
      ...(radiator === undefined ? {} : { offWPerK: radiator.heatPerK(flowM3S, asked.fluid, air) }),
    };
  });
  return heatNet(branches, asked.fluid.densityKgM3 * asked.fluid.specificHeatJKgK, air.airC);
}

/** Mean of what leaves the engine, by flow [C]. */
function outletOf({ heaters }: Frame, heat: HeatAnswer, flow: WaterFlow): number {
  let [sum, weight] = [0, 0];
  for (const id of heaters) {
    const size = Math.abs(flow.flowOf.get(id) ?? 0);
    sum += size * (heat.branchC.get(id)?.outC ?? 0);
    weight += size;
  }
  return weight > 0 ? sum / weight : Number.NaN;
}

/**
 * The outlet temperature at which the heat is carried off: flow, fluid and thermostat at that temperature give that
 * temperature. What they give falls or hardly rises with it, so a bracket is narrowed (regula falsi, Illinois), which
 * settles where a damped fixed point would swing about a thermostat.
 */
function settles(frame: Frame, heatW: number): { settlesC: number | null; rounds: number } | Refused {
  let rounds = 0;
  let refused: Refused | undefined;
  const over = (outletC: number): number | undefined => {
    rounds++;
    const solved = flowAt(frame, outletC);
    if ('why' in solved) {
      refused = solved;
      return undefined;
    }
    const heat = heatAt(frame, solved.asked, solved.flow, heatW);
    const gives = heat === undefined ? Number.NaN : outletOf(frame, heat, solved.flow);
    return Number.isFinite(gives) ? gives - outletC : undefined;
  };
  // Plain water is not worked with below its freezing point, however cold the air is.
  const isLiquid = typeof stateOf(frame.ready.fluid!, frame.air.airC) !== 'string';
  let [low, high] = [isLiquid ? frame.air.airC : Math.max(frame.air.airC, JUST_LIQUID_C), MOST_C];
  let [atLow, atHigh] = [over(low), over(high)];
  if (refused !== undefined) return refused;
  if (atLow === undefined || atHigh === undefined || atHigh > 0 || atLow < 0) return { settlesC: null, rounds };
  let side = 0;
  while (high - low > SETTLED_K && rounds < MOST_ROUNDS) {
    const middle: number = (low * atHigh - high * atLow) / (atHigh - atLow);
    const here = over(middle);
    if (here === undefined) return refused ?? { settlesC: null, rounds };
    if (Math.abs(here) < SETTLED_K) return { settlesC: middle, rounds };
    if (here > 0) {
      [low, atLow] = [middle, here];
      if (side === 1) atHigh /= 2;
      side = 1;
    } else {
      [high, atHigh] = [middle, here];
      if (side === -1) atLow /= 2;
      side = -1;
    }
  }
  return { settlesC: (low + high) / 2, rounds };
}

function temperaturesOf(
  ready: ReadyCircuit,
  heat: HeatAnswer | undefined,
  outletC: number,
): { lineC: (line: string) => number; passages: CoolantAnswer['passages'] } {
  const at = (id: string) => heat?.branchC.get(id) ?? { inC: outletC, outC: outletC };
  return {
    lineC: (line) => at(line).outC,
    passages: ready.sorted.liquid
      .filter(({ kind }) => kind === 'passage')
      .map(({ id }) => {
        const { inC, outC } = at(id);
        return { id, inC, outC, heatW: heat?.branchW.get(id) ?? 0 };
      }),
  };
}
