import type { Case } from '#car';
import { netInto, type ReadyCircuit } from '../circuit/circuit-state.ts';
import { pullG } from '../circuit/pull.ts';
import { airDensity } from '../fluids/air.ts';
import { bubbleReynolds, dwellTime, riseOfRigidBubble, smallestRisenBubble } from '../fluids/bubble-rise.ts';
import { type CarG, Levels } from '../tank/level.ts';
import { coverOf, reachMm } from '../tank/outlet.ts';
import { ggPictures, greatestG, type GreatestG, leastFill } from '../tank/under-g.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import { OUTSIDE_PA } from './froth.ts';
import { feedMouths, fillsAt, gOfPull, type Mouth, pickUps } from './mouths.ts';
import type { DeAeration, PickUpInCase, TankInCase, TankUnderG } from './tank-answer.ts';
import { depthMm, floorMm, LEVEL } from './tank-depth.ts';
import { waveIn } from './tank-wave.ts';

/** No car is asked for more. */
export const MOST_G = 3;
const DIRECTIONS_DEG = Array.from({ length: 16 }, (_, i) => i * 22.5);
const PICTURE_G = Array.from({ length: 41 }, (_, i) => (i - 20) / 10);

/** At the least fill itself the bore is covered to the last digit only. */
const LEAST_AND_A_HAIR = 1 + 1e-9;

const known = new WeakMap<ReadyCircuit, readonly TankUnderG[]>();

/** Each tank of a dry sump at any g; worked out once for a circuit. */
export function tanksUnderG(ready: ReadyCircuit, cases: readonly Case[]): readonly TankUnderG[] {
  const had = known.get(ready);
  if (had !== undefined) return had;
  const made = feedMouths(ready).map((mouth) => tankUnderG(ready, mouth, cases));
  known.set(ready, made);
  return made;
}

/** The fill a vessel runs with, never more than it holds [m3]. */
const runningM3 = ({ tank, inside }: Mouth): number => Math.min(tank.volumeM3, (inside.drawn.vessel.fillL ?? 0) / 1000);

/** Less than this is no fill that a car runs with [m3]. */
const LEAST_FILL_M3 = 5e-5;
const isAnyOil = (oilM3: number): boolean => oilM3 >= LEAST_FILL_M3;

function tankUnderG(ready: ReadyCircuit, mouth: Mouth, cases: readonly Case[]): TankUnderG {
  const { tank, outlet, inside } = mouth;
  const running = runningM3(mouth);
  const stated = inside.drawn.vessel.leastFillL;
  const least = leastOfCases(mouth, cases);
  const justCovered = least === null ? undefined : Math.min(least.oilM3 * LEAST_AND_A_HAIR, tank.volumeM3);
  const lower = stated === undefined ? justCovered : Math.min(tank.volumeM3, stated / 1000);
  const fills = lower === undefined || lower === running ? [running] : [running, lower];
  const asked = [...new Set([...fills, ...(justCovered === undefined ? [] : [justCovered])])];
  const hidden = (ready.drawn.circuit.hiddenL ?? 0) / 1000;
  return {
    part: inside.drawn.part.id,
    outlet: mouth.spot,
    line: mouth.line,
    holdsM3: tank.volumeM3,
    runningM3: running,
    statedLeastM3: stated === undefined ? null : stated / 1000,
    least,
    greatest: asked.filter(isAnyOil).map((oilM3) => ({ oilM3, rows: greatestAt(mouth, oilM3, DIRECTIONS_DEG) })),
    pictures: ggPictures(tank, [outlet], asked.filter(isAnyOil), {
      verticalG: 1,
      longitudinalG: PICTURE_G,
      lateralG: PICTURE_G,
    }),
    airOverM3: { running: tank.volumeM3 - running, standing: tank.volumeM3 - running - hidden },
    keeps: keepsOf(pickUps(ready)),
  };
}

function keepsOf(mouths: readonly Mouth[]): TankUnderG['keeps'] {
  const vessels = [...new Set(mouths.map(({ inside }) => inside))];
  return vessels.map((inside) => {
    const own = mouths.filter((mouth) => mouth.inside === inside);
    const rows = own.map(({ tank, outlet }) => {
      const levels = new Levels(tank);
      levels.look(LEVEL);
      const bottomMm = outlet.atMm[2] - reachMm(outlet, levels.up);
      const overFloorMm = bottomMm - floorMm(tank);
      const below = (mm: number): number => levels.below(mm).volumeM3;
      return { belowM3: below(bottomMm), overFloorMm, atFloorM3: below(bottomMm - overFloorMm) };
    });
    const lowest = rows.reduce((low, row) => (row.belowM3 < low.belowM3 ? row : low), rows[0]!);
    const { part, fillL } = inside.drawn.vessel;
    return { vessel: part, ...lowest, statedM3: (fillL ?? 0) / 1000 };
  });
}

/** The greatest g by direction on the level, up to 3 g. */
export const greatestAt = (
  { tank, outlet }: Pick<Mouth, 'tank' | 'outlet'>,
  oilM3: number,
  directionsDeg: readonly number[],
): readonly GreatestG[] => greatestG(tank, outlet, oilM3, { directionsDeg, verticalG: 1, mostG: MOST_G });

function leastOfCases(mouth: Mouth, cases: readonly Case[]): TankUnderG['least'] {
  let most: { oilM3: number; case: string } | null = null;
  for (const at of cases) {
    const least = leastFill(mouth.tank, mouth.outlet, [gOfPull(pullG(at))]);
    if (least === undefined) return null;
    if (most === null || least.oilM3 > most.oilM3) most = { oilM3: least.oilM3, case: at.id };
  }
  return most;
}

/** How each tank of a dry sump stands in a case. */
export function tanksInCase(ready: ReadyCircuit, state: DrySumpState): readonly TankInCase[] {
  const g = gOfPull(state.asked.pull);
  const ups = pickUps(ready).flatMap((mouth) => pickUpInCase(mouth, state, g));
  return feedMouths(ready).flatMap((mouth) => tankInCase(ready, mouth, state, g, ups));
}

const fillOf = (mouth: Mouth, state: DrySumpState): number =>
  Math.min(mouth.tank.volumeM3, state.asked.vessels.get(mouth.inside.drawn.vessel.part)?.fillM3 ?? 0);

function pickUpInCase(mouth: Mouth, state: DrySumpState, g: CarG): PickUpInCase[] {
  const levels = new Levels(mouth.tank);
  if (!levels.look(g)) return [];
  const [firstM3, , wholeM3] = fillsAt(levels, mouth.outlet);
  return [
    {
      spot: mouth.spot,
      stage: mouth.pump,
      words: mouth.words,
      vessel: mouth.inside.drawn.vessel.part,
      cover: coverOf(mouth.outlet, { up: levels.up, heightMm: levels.heightMm(fillOf(mouth, state)) }),
      firstM3,
      wholeM3,
    },
  ];
}

function tankInCase(
  ready: ReadyCircuit,
  mouth: Mouth,
  state: DrySumpState,
  g: CarG,
  ups: readonly PickUpInCase[],
): TankInCase[] {
  const { tank, outlet } = mouth;
  const levels = new Levels(tank);
  if (!levels.look(g)) return [];
  const part = mouth.inside.drawn.part.id;
  const oilM3 = fillOf(mouth, state);
  const cover = coverOf(outlet, { up: levels.up, heightMm: levels.heightMm(oilM3) });
  const leastM3 = leastFill(tank, outlet, [g])?.oilM3 ?? null;
  const drawnM3S = state.liquid.lines.find(({ line }) => line === mouth.line)?.flowM3S ?? 0;
  // Liquid comes back by scavenge stages, and straight from the circuit: all that flows in but is not drawn.
  const returnedM3S = (state.scavenge.oilInto.get(part) ?? 0) + drawnM3S + netInto(ready, state.liquid, part);
  const back = keptBack(state, ups);
  return [
    {
      part,
      outlet: mouth.spot,
      oilM3,
      cover,
      leastM3,
      drawnM3S,
      returnedM3S,
      keptBackM3: back.m3,
      secondsCovered: secondsOf(leastM3 === null ? 0 : oilM3 - leastM3, drawnM3S - returnedM3S, back),
      wave: waveIn(mouth, state, g, oilM3),
      pickUps: ups,
      air: deAeration(mouth, state, oilM3, drawnM3S),
    },
  ];
}

/** A pan or pot that keeps oil back at this g, and how fast it fills. */
interface KeptBack {
  readonly m3: number;
  readonly rows: readonly { readonly vessel: string; readonly m3: number; readonly inM3S: number }[];
}

function keptBack(state: DrySumpState, ups: readonly PickUpInCase[]): KeptBack {
  const vessels = [...new Set(ups.map(({ vessel }) => vessel))];
  const rows = vessels.map((vessel) => {
    const first = Math.min(...ups.filter((row) => row.vessel === vessel).map(({ firstM3 }) => firstM3));
    const stands = state.asked.vessels.get(vessel)?.fillM3 ?? 0;
    return { vessel, m3: Math.max(0, first - stands), inM3S: state.oilInto(vessel) };
  });
  return { m3: rows.reduce((sum, { m3, inM3S }) => sum + (inM3S > 0 ? m3 : 0), 0), rows };
}

/**
 * Seconds until what is spare over the bore is gone: the net draw takes it all the time, and what runs into a pan whose
 * pick-ups stand bare is missing until they draw again.
 */
function secondsOf(spareM3: number, netM3S: number, { rows }: KeptBack): number {
  if (spareM3 <= 0) return 0;
  const fills = rows
    .filter(({ m3, inM3S }) => m3 > 0 && inM3S > 0)
    .map(({ m3, inM3S }) => ({ untilS: m3 / inM3S, inM3S }))
    .toSorted((a, b) => a.untilS - b.untilS);
  let [left, now] = [spareM3, 0];
  let rate = Math.max(0, netM3S) + fills.reduce((sum, { inM3S }) => sum + inM3S, 0);
  for (const { untilS, inM3S } of fills) {
    const gone = rate * (untilS - now);
    if (gone >= left) return now + left / rate;
    left -= gone;
    now = untilS;
    rate -= inM3S;
  }
  // What is left of a sum of flows that cancel is rounding.
  return rate > 1e-12 ? now + left / rate : Infinity;
}

function deAeration(mouth: Mouth, state: DrySumpState, oilM3: number, flowM3S: number): DeAeration | null {
  if (oilM3 <= 0 || flowM3S <= 0) return null;
  const { fluid, temperatureC } = state.asked;
  const dwellS = dwellTime(oilM3, flowM3S);
  const depthM = depthMm(mouth, oilM3) / 1000;
  const air = airDensity(temperatureC, OUTSIDE_PA);
  const smallestM = smallestRisenBubble(depthM, dwellS, fluid.viscosityPaS, fluid.densityKgM3, air);
  const speed = riseOfRigidBubble(smallestM, fluid.viscosityPaS, fluid.densityKgM3, air);
  return {
    dwellS,
    depthM,
    smallestM,
    reynolds: bubbleReynolds(smallestM, speed, fluid.viscosityPaS, fluid.densityKgM3),
  };
}
