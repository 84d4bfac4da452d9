import { type Case, findPort } from '#car';
import type { Vec } from '#geometry';
import { stateOf } from '../circuit/circuit-fluid.ts';
import { caseOf, type CaseOf, type ReadyCircuit } from '../circuit/circuit-state.ts';
import type { Thermosiphon } from '../circuit/coolant-answer.ts';
import { partOf, vesselFinder } from '../circuit/drawn-circuit.ts';
import type { Element } from '../circuit/elements.ts';
import { heightMmG, STANDARD_FALL } from '../circuit/pull.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import { standardPressure } from '../fluids/standard-atmosphere.ts';
import { airTraps } from './air-traps.ts';
import { boilsAtC } from './boiling.ts';
import { gasOver } from './coolant-state.ts';
import { LEAST_TRAP_MM } from './trap-words.ts';

/** Paths are weighed by what they lose at this flow [m3/s]: half a litre a minute. */
const WEIGHED_M3S = 0.5 / 60_000;
/** Hotter than this is not worked with, as glycol is not known there [C]. */
const HOTTEST_C = 130;

/**
 * Flow that buoyancy drives round a laminar loop.
 *
 *     Q = (rho_cold - rho_hot) g H pi D^4/(128 mu L)
 *
 * @param densityGapKgM3 - cold less hot [kg/m3]
 * @param heightM - of the hot leg [m]
 * @param boreM - [m]
 * @param lengthM - of the whole loop [m]
 * @param viscosityPaS - [Pa s]
 * @returns flow [m3/s]
 * @valid laminar: Reynolds below 2000
 * @source poiseuille-1840
 * @example laminarSiphonFlow(10, 0.4, 0.008, 3, 0.0005) // 2.629e-6
 */
export const laminarSiphonFlow = (
  densityGapKgM3: number,
  heightM: number,
  boreM: number,
  lengthM: number,
  viscosityPaS: number,
): number => (densityGapKgM3 * STANDARD_FALL * heightM * Math.PI * boreM ** 4) / (128 * viscosityPaS * lengthM);

/** The flow at which what drives and what is lost are equal; the loss rises with the flow. */
export function siphonFlow(drivePa: number, lossPa: (flowM3S: number) => number): number {
  if (drivePa <= 0) return 0;
  let [low, high] = [1e-12, 1e-1];
  for (let i = 0; i < 80; i++) {
    const middle = Math.sqrt(low * high);
    if (lossPa(middle) < drivePa) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}

/** What runs by itself through each hot part, the engine just switched off. */
export function thermosiphons(ready: ReadyCircuit, at: Case): Thermosiphon[] {
  const asked = caseOf(ready, { ...at, engineRpm: 0 });
  if (typeof asked === 'string') return [];
  return ready.sorted.liquid.filter(isSoaked).flatMap((hot) => siphonOf(ready, asked, hot) ?? []);
}

/** A part that water runs through and that is neither engine nor radiator nor valve: a turbo's housing. */
export function isSoaked({ kind, passage, from, to }: Element): boolean {
  if (kind !== 'passage' || passage === undefined) return false;
  const plain = passage.boreMm !== undefined || passage.curveLMinKpa !== undefined;
  return (
    plain &&
    passage.heats !== true &&
    passage.duty === undefined &&
    passage.thermostat === undefined &&
    from.includes('.') &&
    partOf(from) === partOf(to)
  );
}

/** Loss round the loop of a hot part with a pump that drives so much through it, and the heat carried off before it boils. */
export function pumpedLoop(
  ready: ReadyCircuit,
  at: Case,
  words: string,
  flowM3S: number,
): { readonly lossPa: number; readonly mostW: number } | undefined {
  const asked = caseOf(ready, { ...at, engineRpm: 0 });
  const hot = ready.sorted.liquid.find((element) => element.words === words && isSoaked(element));
  const loop = typeof asked === 'string' || hot === undefined ? undefined : loopOf(ready, asked, hot);
  if (typeof asked === 'string' || hot === undefined || loop === undefined) return undefined;
  const { fluid } = asked;
  const { riseK, hotC } = boilsIn(ready, asked, hot, loop);
  const hotFluid = stateOf(ready.fluid!, hotC);
  if (typeof hotFluid === 'string' || riseK <= 0) return undefined;
  return {
    lossPa: lossOf(asked, hotFluid, hotC, hot, loop)(flowM3S),
    mostW: flowM3S * fluid.densityKgM3 * fluid.specificHeatJKgK * riseK,
  };
}

interface Loop {
  readonly up: readonly Element[];
  readonly down: readonly Element[];
  /** Port at which the hot leg ends in a vessel. */
  readonly mouth: string;
  readonly vessel: string;
}

/** Heights of a loop, and how hot its hot leg can be before it boils. */
interface Boils {
  readonly heightMm: number;
  readonly lacksMm: number;
  readonly hotC: number;
  readonly riseK: number;
}

function boilsIn(ready: ReadyCircuit, asked: CaseOf, hot: Element, loop: Loop): Boils {
  const height = (spot: string): number => {
    const atMm = findPort(ready.car, spot)?.port.atMm;
    return atMm === undefined ? 0 : heightMmG(asked.pull, atMm);
  };
  const middleMm = (height(hot.from) + height(hot.to)) / 2;
  const heightMm = height(loop.mouth) - middleMm;
  const state = asked.vessels.get(loop.vessel);
  const surfaceMm = state?.surfaceMmG ?? height(loop.mouth);
  const lacksMm = (state?.mouths.get(loop.mouth)?.share ?? 1) > 0 ? 0 : Math.max(0, height(loop.mouth) - surfaceMm);
  const absPa =
    standardPressure(asked.at.altitudeM ?? 0) +
    gasOver(ready, asked.temperatureC)(loop.vessel) +
    (asked.fluid.densityKgM3 * STANDARD_FALL * Math.max(0, surfaceMm - middleMm)) / 1000;
  const hotC = Math.min(HOTTEST_C, boilsAtC(asked.fluid, asked.temperatureC, absPa));
  return { heightMm, lacksMm, hotC, riseK: Math.max(0, hotC - asked.temperatureC) };
}

function siphonOf(ready: ReadyCircuit, asked: CaseOf, hot: Element): Thermosiphon | undefined {
  const loop = loopOf(ready, asked, hot);
  if (loop === undefined) return undefined;
  const { heightMm, lacksMm, hotC, riseK } = boilsIn(ready, asked, hot, loop);
  const hotFluid = stateOf(ready.fluid!, hotC);
  if (typeof hotFluid === 'string') return undefined;
  const gap = asked.fluid.densityKgM3 - hotFluid.densityKgM3;
  const drivePa = (gap * STANDARD_FALL * heightMm) / 1000;
  const headMm = (gap / asked.fluid.densityKgM3) * heightMm;
  const why = whyStalled(
    ready,
    asked.pull,
    [hot, ...loop.up, ...loop.down],
    { heightMm, riseK, lacksMm, headMm },
    loop,
  );
  const flowM3S = why === undefined ? siphonFlow(drivePa, lossOf(asked, hotFluid, hotC, hot, loop)) : 0;
  return {
    part: partOf(hot.from),
    words: hot.words,
    lines: [...loop.up, ...loop.down].filter(({ kind }) => kind === 'line').map(({ id }) => id),
    runs: why === undefined ? 'ahead' : 'stalls',
    heightMm,
    flowM3S,
    mostW: flowM3S * asked.fluid.densityKgM3 * asked.fluid.specificHeatJKgK * riseK,
    riseK,
    ...(why === undefined ? {} : { why }),
    lacksMm,
  };
}

function whyStalled(
  ready: ReadyCircuit,
  pull: Vec,
  loop: readonly Element[],
  at: { heightMm: number; riseK: number; lacksMm: number; headMm: number },
  { mouth }: Loop,
): string | undefined {
  if (at.riseK <= 0) return 'it boils as soon as the pump stands';
  if (at.heightMm <= 0) return 'its outlet falls: hot water does not go down by itself';
  if (at.lacksMm > at.headMm)
    return `${mouth} stands ${at.lacksMm.toFixed(0)} mm over the water in the header, and warmth lifts it ${at.headMm.toFixed(0)} mm`;
  const lines = new Set(loop.map(({ id }) => id));
  const trap = airTraps(ready.drawn, pull, LEAST_TRAP_MM).find(({ line }) => line !== undefined && lines.has(line));
  if (trap !== undefined && trap.depthMm > at.headMm)
    return `air or steam stands in ${trap.line}, ${trap.depthMm.toFixed(0)} mm deep, and warmth lifts ${at.headMm.toFixed(0)} mm`;
  return undefined;
}

/** Loss round the loop: the hot leg with hot water, the rest with cold. */
function lossOf(asked: CaseOf, hotFluid: FluidState, hotC: number, hot: Element, loop: Loop) {
  const laws = [
    ...[hot, ...loop.up].map((element) => element.law(hotFluid, asked.at, hotC)),
    ...loop.down.map((element) => element.law(asked.fluid, asked.at, asked.temperatureC)),
  ];
  return (flowM3S: number): number => laws.reduce((sum, law) => sum + Math.abs(law(flowM3S).dropPa), 0);
}

function loopOf(ready: ReadyCircuit, asked: CaseOf, hot: Element): Loop | undefined {
  const vesselOf = vesselFinder(ready.drawn);
  const others = ready.sorted.liquid.filter((element) => element !== hot && element.kind !== 'relief');
  const weigh = (element: Element): number =>
    Math.abs(element.law(asked.fluid, asked.at, asked.temperatureC)(WEIGHED_M3S).dropPa) + 1e-6;
  const up = leastLoss(ready, others, hot.to, (spot) => vesselOf(spot) !== undefined, weigh);
  if (up === undefined) return undefined;
  const vessel = vesselOf(up.spot)!;
  const left = others.filter((element) => !up.path.includes(element));
  const wet = (spot: string): boolean =>
    vesselOf(spot) === vessel && (asked.vessels.get(vessel)?.mouths.get(spot)?.share ?? 1) > 0;
  const down = leastLoss(ready, left, hot.from, wet, weigh);
  if (down === undefined) return undefined;
  return { up: up.path, down: down.path, mouth: up.spot, vessel };
}

/** The path of least loss from a spot to the nearest that is wanted; by joints, each settled once. */
function leastLoss(
  ready: ReadyCircuit,
  elements: readonly Element[],
  from: string,
  isEnd: (spot: string) => boolean,
  weigh: (element: Element) => number,
): { readonly path: readonly Element[]; readonly spot: string } | undefined {
  const { joints } = ready.drawn;
  const open = new Map([[joints.of(from), { cost: 0, path: [] as readonly Element[], spot: from }]]);
  const settled = new Set<string>();
  for (;;) {
    let nearest: string | undefined;
    for (const [joint, { cost }] of open)
      if (!settled.has(joint) && (nearest === undefined || cost < open.get(nearest)!.cost)) nearest = joint;
    if (nearest === undefined) return undefined;
    const here = open.get(nearest)!;
    if (isEnd(here.spot)) return here;
    settled.add(nearest);
    for (const element of elements) {
      for (const [a, b] of [
        [element.from, element.to],
        [element.to, element.from],
      ] as const) {
        if (joints.of(a) !== nearest) continue;
        const cost = here.cost + weigh(element);
        const key = joints.of(b);
        if (cost < (open.get(key)?.cost ?? Number.POSITIVE_INFINITY))
          open.set(key, { cost, path: [...here.path, element], spot: b });
      }
    }
  }
}
