import type { Distance, Point } from './solid-distance.ts';

/** A stretch of a line as it is written: discs square to its path. */
export interface WrittenBody {
  readonly part: string;
  readonly row?: string | undefined;
  readonly pathMm: readonly Point[];
  readonly odMm: number;
}

/** A disc of a body: centre, direction square to it, radius, and how far along the line it stands. */
export interface Disc {
  readonly at: Point;
  readonly along: Point;
  readonly radiusMm: number;
  readonly alongMm: number;
  /** A flat end of the body: its whole face counts, not only its rim. */
  readonly flat: boolean;
}

const STEP_MM = 0.75;
const RIM_POINTS = 72;
/** Rings of a flat end, as shares of its radius. */
const FACE_RINGS = [0, 0.2, 0.4, 0.6, 0.8] as const;

const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: Point, b: Point, t: number): Point => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
const norm = (a: Point): number => Math.hypot(a[0], a[1], a[2]);
const unit = (a: Point): Point => plus([0, 0, 0], a, 1 / norm(a));
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Discs of all bodies, close together; where a path turns, those between the two directions too: they are the mitre's ball. */
export function discsOf(bodies: readonly WrittenBody[]): Disc[] {
  const discs: Disc[] = [];
  let alongMm = 0;
  for (const { pathMm, odMm } of bodies) {
    const radiusMm = odMm / 2;
    const last = pathMm.length - 1;
    for (let i = 0; i < last; i++) {
      const step = sub(pathMm[i + 1]!, pathMm[i]!);
      const length = norm(step);
      if (length < 1e-9) continue;
      const along = unit(step);
      const parts = Math.max(1, Math.ceil(length / STEP_MM));
      for (let k = 0; k <= parts; k++) {
        const flat = (i === 0 && k === 0) || (i === last - 1 && k === parts);
        discs.push({
          at: plus(pathMm[i]!, step, k / parts),
          along,
          radiusMm,
          alongMm: alongMm + (length * k) / parts,
          flat,
        });
      }
      alongMm += length;
      if (i + 1 < last)
        for (const between of directionsBetween(along, sub(pathMm[i + 2]!, pathMm[i + 1]!)))
          discs.push({ at: pathMm[i + 1]!, along: between, radiusMm, alongMm, flat: false });
    }
  }
  return discs;
}

/** Discs of a mitre stand this close [rad]. */
const MITRE_STEP = 0.05;

/** Directions from one to the next: discs square to them fill the ball of a mitre. */
function directionsBetween(along: Point, step: Point): Point[] {
  const length = norm(step);
  if (length < 1e-9) return [];
  const next = plus([0, 0, 0], step, 1 / length);
  const axis = cross(along, next);
  const sine = norm(axis);
  if (sine < 1e-6) return [];
  const turn = Math.atan2(sine, along[0] * next[0] + along[1] * next[1] + along[2] * next[2]);
  const side = cross(plus([0, 0, 0], axis, 1 / sine), along);
  const parts = Math.ceil(turn / MITRE_STEP) + 1;
  return Array.from({ length: parts - 1 }, (_, k) => {
    const angle = (turn * (k + 1)) / parts;
    return plus(plus([0, 0, 0], along, Math.cos(angle)), side, Math.sin(angle));
  });
}

/** The least distance of the discs' skins to a solid, found by sampling; `beyondMm` where there is none nearer. */
export function sampledGap(discs: readonly Disc[], distance: Distance, beyondMm: number): { gapMm: number; at: Point } {
  const order = discs
    .map((disc) => ({ disc, bound: distance(disc.at) - disc.radiusMm }))
    .filter(({ bound }) => bound < beyondMm)
    .sort((p, q) => p.bound - q.bound);
  let gapMm = beyondMm;
  let at: Point = [0, 0, 0];
  for (const { disc, bound } of order) {
    if (bound >= gapMm) break;
    for (const point of skinOf(disc)) {
      const d = distance(point);
      if (d < gapMm) [gapMm, at] = [d, point];
    }
  }
  return { gapMm, at };
}

function skinOf({ at, along, radiusMm, flat }: Disc): Point[] {
  const side = unit(cross(along, Math.abs(along[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0]));
  const up = cross(along, side);
  return [...(flat ? FACE_RINGS : []), 1].flatMap((share) =>
    Array.from({ length: share === 0 ? 1 : RIM_POINTS }, (_, k) => {
      const angle = (2 * Math.PI * k) / RIM_POINTS;
      return plus(plus(at, side, share * radiusMm * Math.cos(angle)), up, share * radiusMm * Math.sin(angle));
    }),
  );
}
