import { addScaled, distance, dot, lerp, sub, unit, type Vec } from '#geometry';
import { type EdgeOnCar, type ProfilePiece, profileAt } from './edge-profile.ts';

/** Two edges at one place along both. */
export interface JointStation {
  readonly at: Vec;
  /** From the first edge to the second, out of the first's sheet: + they stand apart, - they overlap [mm]. */
  readonly apartMm: number;
  /** How far the second stands out over the first: + outwards [mm]. */
  readonly stepMm: number;
  /** Where a piece of the one lies along a piece of the other, the best of them; absent: none does. */
  readonly lap?: JointLap;
}

export interface JointLap {
  readonly mm: number;
  /** Air between the two sheets there; negative: they are to take the same space [mm]. */
  readonly openMm: number;
  readonly pieces: readonly [ProfilePiece['name'], ProfilePiece['name']];
  /** Ends of what lies on each other, from the free end of the first's piece and of the second's [mm]. */
  readonly fromFreeMm: readonly [number, number];
  /** Both pieces run the same way, as two flanges do that are folded together. */
  readonly sameWay: boolean;
}

/** Two edges of two panels measured against each other along what they share. */
export interface MeasuredJoint {
  readonly first: EdgeOnCar;
  readonly second: EdgeOnCar;
  readonly lengthMm: number;
  /** From one end of what they share to the other, in the order of the first edge. */
  readonly stations: readonly JointStation[];
}

/** Edges that lean more than this from each other are no joint [cosine of 20 deg]. */
const ALONG = Math.cos((20 * Math.PI) / 180);
/** Pieces that lean more than this from each other do not lie on each other [cosine of 10 deg]. */
const FLAT_ON = Math.cos((10 * Math.PI) / 180);
/** Two edges share at least this [mm], and this much of the shorter one. */
const SHARED_MM = 30;
const SHARED_SHARE = 0.25;
const STATIONS = 9;

/** The two edges against each other; undefined where they do not run along each other. */
export function measuredJoint(first: EdgeOnCar, second: EdgeOnCar): MeasuredJoint | undefined {
  const along = unit(sub(first.to, first.from));
  const other = unit(sub(second.to, second.from));
  if (Math.abs(dot(along, other)) < ALONG) return undefined;
  const alongOf = (at: Vec): number => dot(sub(at, first.from), along);
  const [a, b] = [alongOf(second.from), alongOf(second.to)];
  const long = first.edge.lengthMm;
  const [start, end] = [Math.max(0, Math.min(a, b)), Math.min(long, Math.max(a, b))];
  if (end - start < Math.max(SHARED_MM, SHARED_SHARE * Math.min(long, second.edge.lengthMm))) return undefined;
  const way = meetingWay(first, second, along);
  const stations = Array.from({ length: STATIONS }, (_, i): JointStation => {
    const s = start + ((end - start) * i) / (STATIONS - 1);
    const at = addScaled(first.from, along, s);
    const there = lerp(second.from, second.to, (s - a) / (b - a));
    const lap = bestLap(first, second, at, there, along);
    const apart = sub(there, at);
    return {
      at,
      apartMm: dot(apart, way.across),
      stepMm: dot(apart, way.out),
      ...(lap === undefined ? {} : { lap }),
    };
  });
  return { first, second, lengthMm: end - start, stations };
}

/** Panels that lean less than this from each other are one surface with a joint in it [cosine of 60 deg]. */
const ONE_SURFACE = Math.cos((60 * Math.PI) / 180);

/** Across from the first to the second and out of both, square to the first edge: by the one with a flange, else half way between them, and round a corner by the first. */
function meetingWay(first: EdgeOnCar, second: EdgeOnCar, along: Vec): { readonly across: Vec; readonly out: Vec } {
  const square = (across: Vec, out: Vec) => {
    const flat = (way: Vec): Vec => unit(addScaled(way, along, -dot(way, along)));
    return { across: flat(across), out: flat(out) };
  };
  const isOne = dot(first.out, second.out) > ONE_SURFACE && dot(first.across, second.across) < -ONE_SURFACE;
  if (!isOne || first.edge.strip !== undefined) return square(first.across, first.out);
  if (second.edge.strip !== undefined) return square(sub([0, 0, 0], second.across), second.out);
  return square(sub(first.across, second.across), addScaled(first.out, second.out, 1));
}

function bestLap(first: EdgeOnCar, second: EdgeOnCar, at: Vec, there: Vec, along: Vec): JointLap | undefined {
  const laps = profileAt(first, at).flatMap((a) =>
    profileAt(second, there).flatMap((b): JointLap[] => {
      if (Math.abs(dot(a.out, b.out)) < FLAT_ON) return [];
      const way = unit(sub(a.to, a.from));
      const [from, to] = [dot(sub(b.from, a.from), way), dot(sub(b.to, a.from), way)];
      const long = distance(a.from, a.to);
      const [start, end] = [Math.max(0, Math.min(from, to)), Math.min(long, Math.max(from, to))];
      if (end - start < 0.05) return [];
      const middle = (start + end) / 2;
      const share = (middle - from) / (to - from);
      const onA = addScaled(lerp(a.from, a.to, middle / long), a.out, -first.sheet.thicknessMm / 2);
      const onB = addScaled(lerp(b.from, b.to, share), b.out, -second.sheet.thicknessMm / 2);
      const off = addScaled(sub(onB, onA), along, -dot(sub(onB, onA), along));
      const thick = (first.sheet.thicknessMm + second.sheet.thicknessMm) / 2;
      const openMm = Math.abs(dot(off, a.out)) - thick;
      const onSecond = from < to ? to - end : start - to;
      return [
        { mm: end - start, openMm, pieces: [a.name, b.name], fromFreeMm: [long - end, onSecond], sameWay: from < to },
      ];
    }),
  );
  return laps.toSorted((a, b) => Math.abs(a.openMm) - Math.abs(b.openMm))[0];
}
