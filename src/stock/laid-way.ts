import { type Bay, bridgedBodies, gapFaults, gapsToParts, movedBodies } from '#bay';
import type { Line, TakenWay } from '#car';
import {
  type Body,
  type RigidMotion,
  type Vec,
  cross,
  distance,
  dot,
  endToEndDeg,
  lerp,
  norm,
  polylineLength,
  sub,
  unit,
} from '#geometry';
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
  const i = bodies.findIndex(isFlexible);
  if (i < 0 || bodies.slice(i + 1).some(isFlexible)) return null;
  const first = bendSide(bodies.slice(0, i).reverse(), bodies[i]!, true);
  const second = bendSide(bodies.slice(i + 1), bodies[i]!, false);
  return first === null || second === null ? null : endToEndDeg(bodies[i]!.path, first, second);
}

/** A bend of less is none: the least that hose ends are made with is 30 degrees. */
const LEAST_BEND = Math.sin(Math.PI / 18);

/**
 * From the hose towards the nut, back along the axis that it screws onto; beside the hose for a return bend. A hose end may be drawn as
 * several bodies: its nut is the farthest from the hose. Null where the end is straight, or the hose sits on a spigot.
 *
 * @param away - bodies from the hose outwards
 */
function bendSide(away: readonly Body[], hose: Body, atStart: boolean): Vec | null {
  const other = away.findIndex((body) => body.part !== 'hose-end');
  const nut = (other < 0 ? away : away.slice(0, other)).at(-1);
  if (nut === undefined) return null;
  const [face, behind] = endOf(nut, atStart);
  const [root, along] = endOf(hose, atStart);
  const [towardsNut, out] = [unit(sub(face, behind)), unit(sub(root, along))];
  if (norm(cross(towardsNut, out)) > LEAST_BEND) return towardsNut;
  const beside = sub(face, root);
  return dot(towardsNut, out) < 0 && norm(cross(beside, out)) > 0 ? beside : null;
}

/** The end point of a body and the one next to it. */
function endOf({ path }: Body, atStart: boolean): [Vec, Vec] {
  const point = (n: number): Vec => [path[3 * n]!, path[3 * n + 1]!, path[3 * n + 2]!];
  const last = path.length / 3 - 1;
  return atStart ? [point(0), point(1)] : [point(last), point(last - 1)];
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
