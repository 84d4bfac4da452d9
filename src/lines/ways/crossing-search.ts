import { type Vec, addScaled, distance, dot, scale, sub, unit } from '#geometry';
import { type CrossingWish, WEB_MM, isHoleFree } from './crossing.ts';
import type { PlacedJoint } from './joints.ts';
import type { PanelPlace } from './panel-face.ts';

/** A joint of the line that the tool may move about on its panel. */
export interface Movable {
  /** Which of the line's joints. */
  readonly n: number;
  readonly wish: CrossingWish;
}

/** A set of places for a line's joints, and what the line through them costs [mm]. */
export interface PlacedLine<T> {
  readonly joints: readonly PlacedJoint[];
  readonly cost: number;
  readonly found: T;
}

/** Steps across the panel from the best place, tried in turn [mm]. */
const STEPS_MM = [24, 8] as const;
/** A hose in a grommet may run this far off the panel's normal; common practice, no source [deg]. */
export const GROMMET_TILT_DEG = 15;
const TILTS_DEG = [15, 6] as const;
/** Cheaper by less is not worth another hole [mm]. */
const WORTH_MM = 0.5;
/** Places all over a panel that are hoped about, this far apart [mm]. */
const SPREAD_MM = 40;
/** Of those the most hopeful are worked out, so far from each other [mm]. */
const APART_MM = 90;
/** Dearer than hoped for by so much: loops, many clamps. */
const DEAR = 1.6;
/** So many steps that do not help, one after the other, and the next are shorter. */
const IN_VAIN = 3;
/** Hopes tell two places apart no better than this [mm]. */
const DOUBT_MM = 25;

/** How many sets of places are worked out at most: hopeful ones all over the panel, then steps from the best. */
export interface MoveEffort {
  readonly places: number;
  /** Of the hopeful ones, searched in full where nothing else helps. */
  readonly fully: number;
  readonly steps: number;
}

export interface Trials<T> {
  /** What the line can be hoped to cost through these joints [mm]; cheap to ask. */
  readonly hopeOf: (joints: readonly PlacedJoint[]) => number;
  /** The line worked out through these joints, briefly or in full; null where that gives no way below a cost. */
  readonly tryAt: (
    joints: readonly PlacedJoint[],
    belowMm: number,
    fully: boolean,
  ) => { readonly cost: number; readonly found: T } | null;
}

/**
 * The joints moved on their panels while that makes the line cheaper, both sides counted: to the most hopeful places all over the
 * panel, then from the best of them by shrinking steps, going on as long as a step helps. Never dearer than the start.
 */
export function movedCheaper<T>(
  start: PlacedLine<T>,
  movables: readonly Movable[],
  { hopeOf, tryAt }: Trials<T>,
  effort: MoveEffort,
): PlacedLine<T> {
  let best = start;
  let hope = hopeOf(start.joints);
  let left = effort.places;
  let inVain = 0;
  const isBetter = (joints: readonly PlacedJoint[] | null, fully = false): boolean => {
    if (joints === null || left <= 0) return false;
    const hoped = hopeOf(joints);
    if (hoped > hope + DOUBT_MM) return false;
    left--;
    const tried = tryAt(joints, best.cost - WORTH_MM, fully);
    inVain++;
    if (tried === null || tried.cost >= best.cost - WORTH_MM) return false;
    inVain = 0;
    best = { joints, ...tried };
    hope = hoped;
    return true;
  };
  for (const movable of movables) {
    const hopeful = hopefulPlaces(best.joints, movable, hopeOf, effort.places);
    for (const joints of hopeful) isBetter(joints);
    // Far dearer than hoped for, and nothing found briefly elsewhere: it may want a longer look there too.
    left = best === start && start.cost > DEAR * hope ? effort.fully : 0;
    for (const joints of hopeful) isBetter(joints, true);
    left = effort.places;
  }
  left = effort.steps;
  STEPS_MM.forEach((stepMm, round) => {
    inVain = 0;
    for (const movable of movables)
      for (const move of movesOf(movable, best.joints[movable.n]!, stepMm, TILTS_DEG[round]!))
        while (inVain < IN_VAIN && isBetter(withMoved(best.joints, movable, move)));
  });
  return best;
}

/** The joint at the most hopeful places all over its panel, apart from each other; the most hopeful first. */
function hopefulPlaces(
  joints: readonly PlacedJoint[],
  movable: Movable,
  hopeOf: (joints: readonly PlacedJoint[]) => number,
  count: number,
): (readonly PlacedJoint[])[] {
  const { halfU, halfV } = movable.wish.face.flat;
  const [p0, q0] = movable.wish.face.coordinates(joints[movable.n]!.at);
  const all: { joints: readonly PlacedJoint[]; hope: number }[] = [];
  for (let p = -Math.floor(halfU / SPREAD_MM); p <= halfU / SPREAD_MM; p++)
    for (let q = -Math.floor(halfV / SPREAD_MM); q <= halfV / SPREAD_MM; q++) {
      const moved = withMoved(joints, movable, { p: p * SPREAD_MM - p0, q: q * SPREAD_MM - q0 });
      if (moved !== null) all.push({ joints: moved, hope: hopeOf(moved) });
    }
  all.sort((a, b) => a.hope - b.hope);
  const kept: (readonly PlacedJoint[])[] = [];
  for (const { joints: there } of all) {
    if (kept.length >= count) break;
    const at = there[movable.n]!.at;
    if (kept.every((k) => distance(k[movable.n]!.at, at) > APART_MM)) kept.push(there);
  }
  return kept;
}

type Move = { readonly p: number; readonly q: number } | { readonly lean: Vec; readonly deg: number };

/** Across the panel in its two directions; and leaned to either side, where a hose only passes. */
function movesOf({ wish }: Movable, { kind }: PlacedJoint, stepMm: number, deg: number): Move[] {
  const { u, v } = wish.face.flat;
  const across = [
    { p: stepMm, q: 0 },
    { p: -stepMm, q: 0 },
    { p: 0, q: stepMm },
    { p: 0, q: -stepMm },
  ];
  return kind === 'grommet'
    ? [...across, ...[u, scale(u, -1), v, scale(v, -1)].map((lean) => ({ lean, deg }))]
    : across;
}

/** The joints with one of them moved; null where it cannot be there. */
function withMoved(joints: readonly PlacedJoint[], { n, wish }: Movable, move: Move): PlacedJoint[] | null {
  const joint = joints[n]!;
  const [p, q] = wish.face.coordinates(joint.at);
  const place = 'lean' in move ? wish.face.placeAt(p, q) : wish.face.placeAt(p + move.p, q + move.q);
  if (place === null || !isHoleFree(wish, place)) return null;
  const isApart = (other: PlacedJoint): boolean =>
    distance(other.at, place.at) >= other.holeRadiusMm + wish.holeRadiusMm + WEB_MM;
  if (!joints.every((other, k) => k === n || other.part !== joint.part || isApart(other))) return null;
  const direction = directionAt(place, joint, move);
  if (direction === null) return null;
  return joints.map((other, k) => (k === n ? { ...joint, at: place.at, direction } : other));
}

function directionAt(place: PanelPlace, { kind, direction }: PlacedJoint, move: Move): Vec | null {
  const normal = dot(place.normal, direction) >= 0 ? place.normal : scale(place.normal, -1);
  if (kind !== 'grommet') return normal;
  if (!('lean' in move)) return withinLean(normal, direction);
  const next = withinLean(normal, addScaled(direction, move.lean, Math.tan((move.deg * Math.PI) / 180)));
  return distance(next, direction) < 1e-6 ? null : next;
}

/** A direction no farther off the normal than a grommet allows. */
export function withinLean(normal: Vec, direction: Vec): Vec {
  const along = dot(direction, normal);
  const aside = sub(direction, scale(normal, along));
  const most = Math.tan((GROMMET_TILT_DEG * Math.PI) / 180);
  const share = Math.hypot(...aside) / along;
  return unit(share <= most ? direction : addScaled(normal, aside, most / (share * along)));
}
