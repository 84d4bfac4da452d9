import { add, cross, norm, scale, sub, type Vec } from '#geometry';
import { type BestPlane, bestPlane } from '../surface/best-plane.ts';

interface Tape {
  readonly a: number;
  readonly b: number;
  readonly mm: number;
}

/** Where each corner begins before the readings are balanced. */
export interface FirstPlaces {
  readonly places: readonly (Vec | undefined)[];
  readonly untold: readonly number[];
  readonly placeless: boolean;
  /** Plane of the corners that have a place. */
  readonly plane?: BestPlane;
}

/**
 * Corners that have a place stand there; the others where two tapes from told corners cross in the plane, on the side that
 * keeps the panel's corners in order. Without any place the first two tapes lay the panel down in x, y.
 */
export function firstPlaces(given: readonly (readonly number[] | undefined)[], tapes: readonly Tape[]): FirstPlaces {
  const places: (Vec | undefined)[] = given.map((at) => (at === undefined ? undefined : [at[0]!, at[1]!, at[2]!]));
  const placeless = places.every((at) => at === undefined);
  if (placeless) layDown(places, tapes);
  const told = places.filter((at): at is Vec => at !== undefined);
  const plane = placeless
    ? { middle: [0, 0, 0] as Vec, normal: [0, 0, 1] as Vec, narrowMm: 0 }
    : told.length >= 3
      ? bestPlane(told)
      : undefined;
  let goesOn = plane !== undefined;
  while (goesOn) {
    goesOn = false;
    for (let k = 0; k < places.length; k++) {
      if (places[k] !== undefined) continue;
      const at = crossed(k, places, tapes, plane!);
      if (at === undefined) continue;
      places[k] = at;
      goesOn = true;
    }
  }
  const untold = places.flatMap((at, k) => (at === undefined ? [k] : []));
  return { places, untold, placeless, ...(plane === undefined ? {} : { plane }) };
}

/** The first side along x, from a tape along it. */
function layDown(places: (Vec | undefined)[], tapes: readonly Tape[]): void {
  const n = places.length;
  const side = tapes.find(({ a, b }) => (a + 1) % n === b || (b + 1) % n === a) ?? tapes[0];
  if (side === undefined) return;
  const [from, to] = (side.a + 1) % n === side.b ? [side.a, side.b] : [side.b, side.a];
  places[from] = [0, 0, 0];
  places[to] = [side.mm, 0, 0];
}

function crossed(
  k: number,
  places: readonly (Vec | undefined)[],
  tapes: readonly Tape[],
  plane: BestPlane,
): Vec | undefined {
  const arms = tapes
    .filter(({ a, b }) => a === k || b === k)
    .map(({ a, b, mm }) => ({ end: a === k ? b : a, mm }))
    .filter(({ end }) => places[end] !== undefined);
  let best: { at: Vec; miss: number } | undefined;
  for (let i = 0; i < arms.length; i++)
    for (let j = i + 1; j < arms.length; j++)
      for (const at of twoCircles(places[arms[i]!.end]!, arms[i]!.mm, places[arms[j]!.end]!, arms[j]!.mm, plane)) {
        // Further tapes tell the two crossings apart; else the order of the corners round the panel does.
        const others = arms.reduce((sum, { end, mm }) => sum + Math.abs(norm(sub(at, places[end]!)) - mm), 0);
        const miss = others + (keepsOrder(k, at, places, plane) ? 0 : 1e6);
        if (best === undefined || miss < best.miss) best = { at, miss };
      }
  return best?.at;
}

function twoCircles(p: Vec, r: number, q: Vec, s: number, { normal }: BestPlane): readonly Vec[] {
  const apart = sub(q, p);
  const d = norm(apart);
  if (d < 1e-6) return [];
  const along = scale(apart, 1 / d);
  const square = cross(normal, along);
  const x = (d * d + r * r - s * s) / (2 * d);
  // Tapes that fall short of each other by their own error still meet on the line.
  const y = Math.sqrt(Math.max(0, r * r - x * x));
  const foot = add(p, scale(along, x));
  return y === 0 ? [foot] : [add(foot, scale(square, y)), add(foot, scale(square, -y))];
}

/** Whether a corner put here turns the same way round the panel as the corners already told do. */
function keepsOrder(k: number, at: Vec, places: readonly (Vec | undefined)[], { normal }: BestPlane): boolean {
  const ring = places.map((place, i) => (i === k ? at : place)).filter((place): place is Vec => place !== undefined);
  const told = places.filter((place): place is Vec => place !== undefined);
  const turn = told.length >= 3 ? Math.sign(areaOver(told, normal)) : 1;
  const without = told.length >= 3 ? Math.abs(areaOver(told, normal)) : 0;
  // A corner inside the others takes area away: between two neighbours it belongs outside.
  return Math.sign(areaOver(ring, normal)) === turn && Math.abs(areaOver(ring, normal)) >= without;
}

function areaOver(points: readonly Vec[], normal: Vec): number {
  let twice = 0;
  for (let i = 0; i < points.length; i++) {
    const c = cross(points[i]!, points[(i + 1) % points.length]!);
    twice += c[0] * normal[0] + c[1] * normal[1] + c[2] * normal[2];
  }
  return twice / 2;
}
