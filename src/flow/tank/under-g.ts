import { type CarG, checkFill, Levels } from './level.ts';
import { type Cover, coverOf, type Covering, type Outlet, outletIn, topMm } from './outlet.ts';
import type { Tank } from './tank.ts';
import { needPositive, needNumber, FlowError } from '../flow-error.ts';

const NONE: Omit<Cover, 'outlet'> = { covering: 'uncovered', share: 0, headMm: 0 };

/** How each outlet of a tank, or each pick-up of a pan, stands at one g and fill. Without any pull none is covered. */
export function covers(tank: Tank, outlets: readonly Outlet[], g: CarG, oilM3: number): readonly Cover[] {
  const inside = outlets.map((outlet) => outletIn(tank, outlet));
  return readCovers(new Levels(tank), inside, g, oilM3);
}

function readCovers(levels: Levels, outlets: readonly Outlet[], g: CarG, oilM3: number): readonly Cover[] {
  checkFill(levels.tank, oilM3);
  if (!levels.look(g)) return outlets.map(({ id }) => ({ outlet: id, ...NONE }));
  const surface = levels.surface(oilM3);
  return outlets.map((outlet) => coverOf(outlet, surface));
}

/** The least oil at which an outlet's whole bore is covered at a g, and what that is of the tank. */
export interface LeastFill {
  readonly oilM3: number;
  readonly share: number;
}

/**
 * The least fill at which the bore is covered at every one of these g: what lies below the plane through its highest point.
 * Undefined where no fill does it: the highest point of the bore is the highest point of the tank, or there is no pull.
 */
export function leastFill(tank: Tank, outlet: Outlet, gs: readonly CarG[]): LeastFill | undefined {
  const inside = outletIn(tank, outlet);
  const levels = new Levels(tank);
  let most = 0;
  for (const g of gs) {
    const oilM3 = leastAt(levels, inside, g);
    if (oilM3 === undefined) return undefined;
    most = Math.max(most, oilM3);
  }
  return { oilM3: most, share: most / tank.volumeM3 };
}

/** Above this share of the tank the plane lies at its very top: no fill covers the bore. */
const BRIM = 1 - 1e-12;

function leastAt(levels: Levels, outlet: Outlet, g: CarG): number | undefined {
  if (!levels.look(g)) return undefined;
  const { volumeM3 } = levels.below(topMm(outlet, levels.up));
  return volumeM3 > levels.tank.volumeM3 * BRIM ? undefined : volumeM3;
}

/** Oil drawn from a tank and oil coming back, and how well its level is known. */
export interface Draw {
  readonly drawnM3S: number;
  readonly returnedM3S: number;
  /** What the level may be wrong by, to the bad side: taken off the oil first. */
  readonly unsureM3?: number;
}

/**
 * Seconds at a held g until the bore begins to draw air, oil leaving faster than it comes back. Infinity where it does not
 * leave faster; 0 where the bore stands out of the oil already.
 */
export function secondsCovered(tank: Tank, outlet: Outlet, g: CarG, oilM3: number, draw: Draw): number {
  checkFill(tank, oilM3);
  for (const [name, value] of Object.entries(draw))
    if (!(value >= 0 && Number.isFinite(value))) throw new FlowError(`${tank.name} ${name}`, value, '0 or more');
  const least = leastFill(tank, outlet, [g]);
  const spare = least === undefined ? 0 : oilM3 - (draw.unsureM3 ?? 0) - least.oilM3;
  if (spare <= 0) return 0;
  const net = draw.drawnM3S - draw.returnedM3S;
  return net > 0 ? spare / net : Infinity;
}

/** What to show over longitudinal and lateral g. */
export interface GGWish {
  readonly oilM3: number;
  readonly verticalG: number;
  readonly longitudinalG: readonly number[];
  readonly lateralG: readonly number[];
}

/** Coverings over the plane of longitudinal and lateral g: `cells[i][k]` is longitudinal i, lateral k, one entry an outlet. */
export interface GGPicture extends GGWish {
  readonly tank: string;
  readonly outlets: readonly string[];
  readonly cells: readonly (readonly (readonly Cover[])[])[];
}

/** The g-g pictures of several fills; each direction is looked along once for all of them. */
export function ggPictures(
  tank: Tank,
  outlets: readonly Outlet[],
  oils: readonly number[],
  wish: Omit<GGWish, 'oilM3'>,
): readonly GGPicture[] {
  for (const oilM3 of oils) checkFill(tank, oilM3);
  const inside = outlets.map((outlet) => outletIn(tank, outlet));
  const levels = new Levels(tank);
  const cells = oils.map(() => wish.longitudinalG.map((): (readonly Cover[])[] => []));
  wish.longitudinalG.forEach((longitudinalG, i) => {
    for (const lateralG of wish.lateralG) {
      const isPulled = levels.look({ longitudinalG, lateralG, verticalG: wish.verticalG });
      oils.forEach((oilM3, fill) => {
        const surface = { up: levels.up, heightMm: isPulled ? levels.heightMm(oilM3) : 0 };
        const cover = isPulled
          ? inside.map((outlet) => coverOf(outlet, surface))
          : inside.map(({ id }) => ({ outlet: id, ...NONE }));
        cells[fill]![i]!.push(cover);
      });
    }
  });
  return oils.map((oilM3, fill) => ({
    ...wish,
    oilM3,
    tank: tank.name,
    outlets: inside.map(({ id }) => id),
    cells: cells[fill]!,
  }));
}

/** The greatest g that an outlet survives in one direction of the plan. */
export interface GreatestG {
  /** Which way the car accelerates, clockwise from above: 0 speeding up, 90 a right-hand corner, 180 braking, 270 left. */
  readonly directionDeg: number;
  /** Covered from 0 up to this g. */
  readonly g: number;
  /** Covered up to the most that was asked for. */
  readonly isAll: boolean;
}

/** Step of the search outward [g]: a gap in the covering that is narrower than this may be stepped over. */
const STEP_G = 0.02;
const HALVINGS = 40;

/** The g in a direction of the plan, at a vertical g. */
export function gToward(directionDeg: number, g: number, verticalG: number): CarG {
  const turn = (directionDeg * Math.PI) / 180;
  return { longitudinalG: g * Math.cos(turn), lateralG: g * Math.sin(turn), verticalG };
}

/** For each direction the greatest g up to which the whole bore stays covered, found by steps from 0 and then by halving. */
export function greatestG(
  tank: Tank,
  outlet: Outlet,
  oilM3: number,
  wish: { readonly directionsDeg: readonly number[]; readonly verticalG: number; readonly mostG: number },
): readonly GreatestG[] {
  checkFill(tank, oilM3);
  needPositive('mostG', wish.mostG, 'g');
  needNumber('verticalG', wish.verticalG, 'g');
  const inside = outletIn(tank, outlet);
  const levels = new Levels(tank);
  return wish.directionsDeg.map((directionDeg) => {
    const isCovered = (g: number): boolean =>
      readCovers(levels, [inside], gToward(directionDeg, g, wish.verticalG), oilM3)[0]!.covering === 'covered';
    const g = lastCovered(isCovered, wish.mostG);
    return { directionDeg, g, isAll: g === wish.mostG };
  });
}

function lastCovered(isCovered: (g: number) => boolean, mostG: number): number {
  if (!isCovered(0)) return 0;
  const steps = Math.ceil(mostG / STEP_G);
  let held = 0;
  for (let i = 1; i <= steps; i++) {
    let lost = Math.min(mostG, i * STEP_G);
    if (isCovered(lost)) {
      held = lost;
      continue;
    }
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (held + lost) / 2;
      if (isCovered(middle)) held = middle;
      else lost = middle;
    }
    return held;
  }
  return mostG;
}

/** The worst of several coverings, in words that name it. */
export const worstCovering = (cover: readonly Cover[]): Covering =>
  cover.some((c) => c.covering === 'uncovered')
    ? 'uncovered'
    : cover.some((c) => c.covering === 'partly')
      ? 'partly'
      : 'covered';
