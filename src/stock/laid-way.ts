import { type Bay, bridgedBodies, gapFaults, gapsToParts, movedBodies } from '#bay';
import type { Line, TakenWay } from '#car';
import { type Body, type RigidMotion, type Vec, distance, endToEndDeg, lerp, polylineLength, sub } from '#geometry';
import { endLengths, takenInBay, type Way } from '#lines';

/** A way's bodies written back as they now lie, everything else as it was. */
export function wayWithBodies(way: Way | TakenWay, bodies: readonly Body[]): Way | TakenWay {
  const round = (v: number): number => Number(v.toFixed(3));
  const written = way.bodies.map((body, i) => {
    const path = bodies[i]!.path;
    return {
      ...body,
      pathMm: Array.from({ length: path.length / 3 }, (_, n): [number, number, number] => [
        round(path[3 * n]!),
        round(path[3 * n + 1]!),
        round(path[3 * n + 2]!),
      ]),
    };
  });
  const clamps = (way.clamps ?? []).map((clamp) =>
    clamp.alongMm === undefined ? clamp : { ...clamp, atMm: pointAlong(bodies, clamp.alongMm).map(round) },
  );
  return { ...way, bodies: written, clamps } as Way | TakenWay;
}

/** The point of the centreline at a length along it; its end beyond. */
function pointAlong(bodies: readonly Body[], alongMm: number): Vec {
  let left = alongMm;
  let last: Vec = [0, 0, 0];
  for (const { path } of bodies) {
    for (let i = 0; i + 2 < path.length; i += 3) {
      const at: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
      const step = i === 0 ? 0 : distance(last, at);
      if (step >= left && step > 0) return lerp(last, at, left / step);
      left -= step;
      last = at;
    }
  }
  return last;
}

const isFlexible = (body: { readonly part: string }): boolean => body.part === 'hose';

/** The line with its ends carried off: as one thing where both go alike, else the hose between passes over from one to the other. */
export function laidAnew(bodies: readonly Body[], from: RigidMotion, to: RigidMotion, alike: boolean): readonly Body[] {
  return alike ? movedBodies(bodies, from) : bridgedBodies(bodies, from, to, endLengths(bodies));
}

/** Length of the hose that shows [mm]. */
export const hoseLength = (bodies: readonly Body[]): number =>
  bodies.filter(isFlexible).reduce((sum, body) => sum + polylineLength(body.path), 0);

/** Angle between the two elbows of a hose as it lies; null where an end is straight or the line is not one hose. */
export function turnBetweenEnds(bodies: readonly Body[]): number | null {
  const hoses = bodies.map((body, i) => ({ body, i })).filter(({ body }) => isFlexible(body));
  if (hoses.length !== 1) return null;
  const { body, i } = hoses[0]!;
  const first = bodies[i - 1];
  const second = bodies[i + 1];
  if (first === undefined || second === undefined) return null;
  return endToEndDeg(body.path, inwards(first.path, true), inwards(second.path, false));
}

/** From the elbow's nut towards its port: against the way the fitting leaves the port. */
function inwards(path: Float64Array, atStart: boolean): Vec {
  const point = (n: number): Vec => [path[3 * n]!, path[3 * n + 1]!, path[3 * n + 2]!];
  const last = path.length / 3 - 1;
  return atStart ? sub(point(0), point(1)) : sub(point(last), point(last - 1));
}

/** One gap that does not hold. */
export interface BrokenGap {
  /** Part id, or "line O4". */
  readonly part: string;
  readonly gapMm: number;
  readonly keepOffMm: number;
  readonly atMm: Vec;
}

/** Every part that a line laid like this comes too near to: nominally, or hot and moving ones that it touches at worst. */
export function gapsBroken(bay: Bay, line: Line, way: Way | TakenWay, bodies: readonly Body[]): BrokenGap[] {
  return gapFaults(gapsToParts(takenInBay(bay, line, way, bodies), bay))
    .filter((fault) => fault.when !== 'worst')
    .map(({ row, region, when }) => ({
      part: row.part,
      gapMm: when === 'touched' ? region.worstMm : region.gapMm,
      keepOffMm: when === 'touched' ? 0 : region.keepOffMm,
      atMm: region.atMm,
    }));
}
