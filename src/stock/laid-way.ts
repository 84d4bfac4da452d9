import { type Bay, type LineInBay, bridgedBodies, distanceToPart, gapFaults, gapsToParts, movedBodies } from '#bay';
import type { Line, TakenWay } from '#car';
import { type Body, type RigidMotion, type Vec, distance, endToEndDeg, lerp, polylineLength, sub } from '#geometry';
import type { Way } from '#lines';
import { straightBehindFitting } from '#standards';

/** The bodies of a way as solids. */
export const bodiesOf = (way: Way | TakenWay): Body[] =>
  way.bodies.map(({ part, pathMm, odMm }) => ({ part, path: Float64Array.from(pathMm.flat()), radiusMm: odMm / 2 }));

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

/** Adapter and hose end at either end of the line [mm]. */
export function endLengths(bodies: readonly Body[]): [number, number] {
  const until = (list: readonly Body[]): number => {
    const first = list.findIndex(isFlexible);
    return list.slice(0, Math.max(0, first)).reduce((sum, body) => sum + polylineLength(body.path), 0);
  };
  return [until(bodies), until([...bodies].reverse())];
}

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
  const ends = endLengths(bodies);
  const hoseOdMm = way.pieces.find((piece) => piece.hose !== undefined)?.odMm ?? 0;
  const straightMm = hoseOdMm === 0 ? 0 : straightBehindFitting(hoseOdMm);
  const inBay: LineInBay = {
    line,
    bodies,
    from: line.from,
    to: line.to,
    nearMm: [ends[0] + straightMm, ends[1] + straightMm],
    crossings: crossingsOf(bay, line, bodies),
  };
  return gapFaults(gapsToParts(inBay, bay))
    .filter((fault) => fault.when !== 'worst')
    .map(({ row, region, when }) => ({
      part: row.part,
      gapMm: when === 'touched' ? region.worstMm : region.gapMm,
      keepOffMm: when === 'touched' ? 0 : region.keepOffMm,
      atMm: region.atMm,
    }));
}

/** What is screwed on a fitting, and a grommet's lip, may stand this close to the panel beside it [mm]. */
const BESIDE_FITTING_MM = 60;
const BESIDE_GROMMET_MM = 16;

/** Where along the line it passes what it passes. */
function crossingsOf(bay: Bay, line: Line, bodies: readonly Body[]): NonNullable<LineInBay['crossings']> {
  const used = new Set<number>();
  return line.through.flatMap(({ part, kind }) => {
    const n = bodies.findIndex((body, i) => body.part === kind && !used.has(i));
    if (n >= 0) {
      used.add(n);
      const start = bodies.slice(0, n).reduce((sum, body) => sum + polylineLength(body.path), 0);
      return [
        {
          part,
          alongMm: [start - BESIDE_FITTING_MM, start + polylineLength(bodies[n]!.path) + BESIDE_FITTING_MM] as const,
        },
      ];
    }
    const panel = bay.partById.get(part);
    if (panel === undefined || panel.solids.length === 0) return [];
    const { alongMm, radiusMm } = nearestTo((x, y, z) => Math.abs(distanceToPart(panel, x, y, z)), bodies);
    return [
      { part, alongMm: [alongMm - radiusMm - BESIDE_GROMMET_MM, alongMm + radiusMm + BESIDE_GROMMET_MM] as const },
    ];
  });
}

function nearestTo(
  distanceAt: (x: number, y: number, z: number) => number,
  bodies: readonly Body[],
): { alongMm: number; radiusMm: number } {
  let along = 0;
  let best = Number.POSITIVE_INFINITY;
  let found = { alongMm: 0, radiusMm: 0 };
  for (const { path, radiusMm } of bodies) {
    for (let i = 0; i + 2 < path.length; i += 3) {
      if (i > 0) along += Math.hypot(path[i]! - path[i - 3]!, path[i + 1]! - path[i - 2]!, path[i + 2]! - path[i - 1]!);
      const d = distanceAt(path[i]!, path[i + 1]!, path[i + 2]!);
      if (d < best) [best, found] = [d, { alongMm: along, radiusMm }];
    }
  }
  return found;
}
