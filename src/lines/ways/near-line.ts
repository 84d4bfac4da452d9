import type { TakenWay } from '#car';
import { type Vec, addScaled, distance, sub, unit } from '#geometry';
import type { Way } from '../way.ts';
import { bodiesOfWay } from './taken-in-bay.ts';

/** How a hose lay before something near it was moved: where to look for it first. */
export interface NearHose {
  /** From tail to tail, x,y,z [mm]. */
  readonly path: Float64Array;
  /** Catalogue ids of what it was made up of at either end, from the port to the hose; null where the hose goes on. */
  readonly makeUps: readonly [readonly string[] | null, readonly string[] | null];
}

/** A place where the line went through something, and the direction of travel there. */
export interface NearPlace {
  readonly at: Vec;
  readonly direction: Vec;
}

/** A line as it lay, piece by piece. */
export interface NearLine {
  readonly hoses: readonly NearHose[];
  /** Fittings between the pieces, in order. */
  readonly fittings: readonly NearPlace[];
}

/** A way read as hoses and fittings; null where it is not of hoses alone or was not written by the planner. */
export function nearLine(way: Way | TakenWay): NearLine | null {
  const bodies = bodiesOfWay(way);
  const hoses = bodies.filter((body) => body.part === 'hose');
  const joints: readonly unknown[] = Array.isArray(way['joints']) ? way['joints'] : [];
  const ends = [way.ends[0], ...joints, way.ends[1]].map(makeUpOf);
  if (hoses.length === 0 || ends.length !== 2 * hoses.length) return null;
  if (ends.some((ids) => ids === null)) return null;
  return {
    hoses: hoses.map(({ path }, n) => ({ path, makeUps: [ends[2 * n]!, ends[2 * n + 1]!] })),
    fittings: bodies
      .filter((body) => body.part === 'bulkhead-fitting')
      .map(({ path }): NearPlace => {
        const [from, to] = [placeOn(path, 0), placeOn(path, path.length / 3 - 1)];
        return { at: addScaled(from, sub(to, from), 0.5), direction: unit(sub(to, from)) };
      }),
  };
}

function makeUpOf(end: unknown): readonly string[] | null {
  const ids = (end as { readonly makeUp?: unknown } | null | undefined)?.makeUp;
  return Array.isArray(ids) && ids.every((id) => typeof id === 'string') ? ids : null;
}

const placeOn = (path: Float64Array, i: number): Vec => [path[3 * i]!, path[3 * i + 1]!, path[3 * i + 2]!];

/** The hose divided where it comes nearest to places that it is led through. */
export function dividedAt({ path, makeUps }: NearHose, places: readonly Vec[]): NearHose[] {
  const parts: NearHose[] = [];
  let from = 0;
  for (const at of places) {
    let near = from + 1;
    for (let i = from + 1; i < path.length / 3 - 1; i++)
      if (distance(placeOn(path, i), at) < distance(placeOn(path, near), at)) near = i;
    parts.push({ path: path.slice(3 * from, 3 * near + 3), makeUps: [from === 0 ? makeUps[0] : null, null] });
    from = near;
  }
  return [...parts, { path: path.slice(3 * from), makeUps: [parts.length === 0 ? makeUps[0] : null, makeUps[1]] }];
}

/** Where the hose came nearest to a solid, and the way it went there. */
export function nearestTo({ path }: NearHose, distanceAt: (x: number, y: number, z: number) => number): NearPlace {
  let best = 1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < path.length / 3 - 1; i++) {
    const off = distanceAt(...placeOn(path, i));
    if (off >= least) continue;
    least = off;
    best = i;
  }
  return { at: placeOn(path, best), direction: unit(sub(placeOn(path, best + 1), placeOn(path, best - 1))) };
}
