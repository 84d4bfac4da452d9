import { add, cross, distance, dot, norm, scale, sub, unit, type Vec } from '#geometry';
import { FlowError, needPositive } from '../flow-error.ts';

/** A bend that the fluid takes. */
export interface Bend {
  readonly angleRad: number;
  /** Centreline radius that loses as much as the real curve [m]. */
  readonly radiusM: number;
}

/** A stretch of one curvature, for who knows the curve already; a straight has an infinite radius. */
export interface CurvatureSample {
  readonly lengthM: number;
  readonly radiusM: number;
}

/** A curve wider than this many bores to its centreline counts as straight: its bend loses less than a twentieth more. */
const straightFromBores = 100;
/** Chords are this many bores long: shorter wiggles do not turn the flow, and rounding of the points does not count as bends. */
const chordBores = 0.5;
/** Points of a way are written no finer than this: a bore of next to nothing is not followed in shorter chords [mm]. */
const leastChordMm = 0.05;
/** A tighter kink than half a bore cannot be: the inside wall would have no length. */
const tightestBores = 0.5;
/** Power of the radius in the loss of a smooth bend, by which unequal curvature is averaged (Ito 1960). */
const radiusPower = 0.84;
/** Where the plane of bending turns by more than 60 degrees, a new bend begins. */
const samePlaneCos = 0.5;

/** Length of a way and its bends. */
export interface WayOfFlow {
  readonly lengthM: number;
  readonly bends: readonly Bend[];
}

/**
 * The bends of a taken way: turning is measured between chords of half a bore, runs of one plane are one bend, and the
 * radius is averaged over the turning so that the run loses what its pieces do.
 *
 * @param pointsMm - points on the centreline, in order [mm]
 */
export function bendsOfWay(where: string, pointsMm: readonly Vec[], boreM: number): WayOfFlow {
  needPositive(`${where}, bore`, boreM, 'm');
  if (pointsMm.length < 2) throw new FlowError(`${where}, points of the way`, pointsMm.length, '2 points or more');
  pointsMm.forEach((p, i) => {
    if (!p.every(Number.isFinite))
      throw new FlowError(`${where}, point ${i} of the way`, p.join(' '), 'finite numbers mm');
  });
  const stations = evenStations(pointsMm, Math.max(leastChordMm, chordBores * boreM * 1000));
  const step = stations.stepMm / 1000;
  const turns: Turn[] = [];
  for (let i = 1; i + 1 < stations.points.length; i++) {
    const a = sub(stations.points[i]!, stations.points[i - 1]!);
    const b = sub(stations.points[i + 1]!, stations.points[i]!);
    const axis = cross(a, b);
    turns.push({ angleRad: Math.atan2(norm(axis), dot(a, b)), axis, lengthM: step });
  }
  return { lengthM: stations.lengthMm / 1000, bends: gathered(turns, boreM) };
}

/** The bends of a way given as stretches of one curvature each, all in one plane turning one way. */
export function bendsOfSamples(where: string, samples: readonly CurvatureSample[], boreM: number): WayOfFlow {
  needPositive(`${where}, bore`, boreM, 'm');
  if (samples.length === 0) throw new FlowError(`${where}, stretches of the way`, 0, '1 stretch or more');
  const turns = samples.map((s, i): Turn => {
    needPositive(`${where}, length of stretch ${i}`, s.lengthM, 'm');
    if (!(s.radiusM > 0))
      throw new FlowError(`${where}, radius of stretch ${i}`, s.radiusM, 'a number above 0 m, or Infinity');
    return { angleRad: s.lengthM / s.radiusM, axis: [0, 0, 1], lengthM: s.lengthM };
  });
  return { lengthM: samples.reduce((sum, s) => sum + s.lengthM, 0), bends: gathered(turns, boreM) };
}

interface Turn {
  readonly angleRad: number;
  readonly axis: Vec;
  readonly lengthM: number;
}

function gathered(turns: readonly Turn[], boreM: number): Bend[] {
  const bends: Bend[] = [];
  let run: Turn[] = [];
  let axis: Vec = [0, 0, 0];
  const close = () => {
    if (run.length > 0) bends.push(bendOf(run, boreM));
    run = [];
  };
  for (const turn of turns) {
    if (radiusOf(turn) > straightFromBores * boreM) {
      close();
      continue;
    }
    const way = unit(turn.axis);
    if (run.length > 0 && dot(way, axis) < samePlaneCos) close();
    axis = run.length > 0 ? unit(add(axis, way)) : way;
    run.push(turn);
  }
  close();
  return bends;
}

const radiusOf = (turn: Turn): number => (turn.angleRad > 0 ? turn.lengthM / turn.angleRad : Infinity);

/** The first and last turn of a run lie partly on the straight: they count at the radius of their neighbour. */
function bendOf(run: readonly Turn[], boreM: number): Bend {
  const radii = run.map(radiusOf);
  const last = radii.length - 1;
  if (last >= 2) {
    radii[0] = Math.min(radii[0]!, radii[1]!);
    radii[last] = Math.min(radii[last]!, radii[last - 1]!);
  }
  const angleRad = run.reduce((sum, turn) => sum + turn.angleRad, 0);
  const weighted = run.reduce(
    (sum, turn, i) => sum + turn.angleRad * Math.max(radii[i]!, tightestBores * boreM) ** radiusPower,
    0,
  );
  return { angleRad, radiusM: (weighted / angleRad) ** (1 / radiusPower) };
}

/** Points at even distances along a polyline, nearest to the wanted one. */
function evenStations(points: readonly Vec[], wantedMm: number): { points: Vec[]; stepMm: number; lengthMm: number } {
  const lengths = points.slice(1).map((p, i) => distance(p, points[i]!));
  const lengthMm = lengths.reduce((sum, l) => sum + l, 0);
  const count = Math.max(1, Math.round(lengthMm / wantedMm));
  const stepMm = lengthMm / count;
  const stations: Vec[] = [];
  let piece = 0;
  let before = 0;
  for (let i = 0; i <= count; i++) {
    const at = i * stepMm;
    while (piece < lengths.length - 1 && before + lengths[piece]! < at) before += lengths[piece++]!;
    const share = lengths[piece]! > 0 ? Math.min(1, (at - before) / lengths[piece]!) : 0;
    const from = points[piece]!;
    stations.push(add(from, scale(sub(points[piece + 1]!, from), share)));
  }
  return { points: stations, stepMm, lengthMm };
}
