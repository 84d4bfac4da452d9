import { GeometryError } from '../geometry-error.ts';
import { type FittedArc, fittedArc, fittedLine, type FittedLine, meetings, offPiece, onPiece } from './fit-line-arc.ts';
import { chainPieces, type Piece } from './fit-pieces.kernel.ts';
import { type Outline, type OutlineCorner, type Point2, roundOutline } from './outline.ts';

/** Lines and arcs through a closed chain of places. */
export interface FittedOutline {
  readonly outline: Outline;
  /** What the places stand off it, corners left out [mm]: root mean square, and the worst. */
  readonly rmsMm: number;
  readonly worstMm: number;
}

export interface FitOutlineWish {
  /** Scatter of the places across the chain [mm]; bends smaller than it are not followed. */
  readonly scatterMm: number;
  /** A bow that a straight edge may show all the same [mm], one standard deviation. */
  readonly bowMm: number;
  /** Within this of a corner the chain is round though the thing is not [mm]. */
  readonly cornerMm: number;
}

/** Most places of the chain that cuts are looked for at; the lines and arcs are then fitted to all of them. */
const MOST_PLACES = 420;
const LEAST_STEPS = 4;

/**
 * A closed chain of places with scatter as an outline of straight sides and arcs: as few as the scatter allows, corners
 * sharpened to where the sides meet.
 */
export function fittedOutline(points: readonly Point2[], wish: FitOutlineWish): FittedOutline {
  if (points.length < 12) throw new GeometryError('an outline to fit', `${points.length} places`, '12 places or more');
  const circle = wholeCircle(points, wish);
  if (circle !== undefined) return circle;
  const skip = Math.max(1, Math.ceil(points.length / MOST_PLACES));
  const coarse = points.filter((_, i) => i % skip === 0);
  const stepMm = chainLength(points) / coarse.length;
  const pieceWish = {
    scatterMm: wish.scatterMm,
    bowMm: wish.bowMm,
    ends: Math.max(1, Math.round(wish.cornerMm / stepMm)),
    least: Math.max(LEAST_STEPS, Math.ceil((3 * wish.cornerMm) / stepMm)),
  };
  let start = sharpest(coarse, pieceWish.ends + 2);
  let cuts: Piece[] = [];
  // once from the sharpest corner, once from a cut that was found far from it
  for (let round = 0; round < 2; round++) {
    const chain = [...coarse.slice(start), ...coarse.slice(0, start + 1)];
    cuts = chainPieces(chain, pieceWish);
    if (round === 0) {
      const far = cuts.reduce((best, one) =>
        Math.abs(one.to - chain.length / 2) < Math.abs(best.to - chain.length / 2) ? one : best,
      );
      start = (start + far.to) % coarse.length;
    }
  }
  // a cut lies within a step or two of the true corner
  const near = 3 * wish.cornerMm + 10 * wish.scatterMm + 2.5 * stepMm;
  const search = 3 * skip;
  let trim = Math.round(pieceWish.ends * skip);
  let stretches = cuts.map((cut): Stretch => {
    const from = (start + cut.from) * skip;
    return fittedStretch(points, from, (start + cut.to) * skip, trim, cut.kind);
  });
  // a short side hangs on where it ends: cut again at the corners found, and leave out no more than is seen round
  trim = Math.ceil((wish.cornerMm * points.length) / chainLength(points)) + 1;
  for (let round = 0; round < ROUNDS; round++) {
    const cornerAt = cornersBetween(points, stretches, near).map((at, k) =>
      nearestPlace(points, at, stretches[k]!.from, search),
    );
    stretches = stretches.map(({ from, to, piece }, k): Stretch => {
      const next = cornerAt[(k + 1) % cornerAt.length]!;
      const end = k + 1 < cornerAt.length ? next : next + points.length;
      const [a, b] = [cornerAt[k]!, end];
      return b - a < 2 * trim + LEAST_USED
        ? fittedStretch(points, from, to, trim, piece.kind)
        : fittedStretch(points, a, b, trim, piece.kind);
    });
  }
  return joinedOutline(points, stretches, near);
}

const ROUNDS = 3;
const LEAST_USED = 5;

/** The number of the place nearest to a corner, within so many of a given one; numbers go on past the end of the chain. */
function nearestPlace(points: readonly Point2[], [x, y]: Point2, about: number, within: number): number {
  const n = points.length;
  let [least, at] = [Number.POSITIVE_INFINITY, about];
  for (let k = about - within; k <= about + within; k++) {
    const [px, py] = points[((k % n) + n) % n]!;
    const gap = Math.hypot(px - x, py - y);
    if (gap < least) [least, at] = [gap, k];
  }
  return at;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly used: readonly Point2[];
  readonly piece: FittedLine | FittedArc;
}

function fittedStretch(
  points: readonly Point2[],
  from: number,
  to: number,
  trim: number,
  kind: Piece['kind'],
): Stretch {
  const n = points.length;
  const ends = Math.min(trim, Math.floor((to - from - 3) / 2));
  const used = Array.from({ length: to - from + 1 - 2 * ends }, (_, k) => points[(((from + ends + k) % n) + n) % n]!);
  const arc = kind === 'arc' ? fittedArc(used) : undefined;
  return { from, to, used, piece: arc ?? fittedLine(used) };
}

/** A chain that stands off one circle by less than this share of how round corners are seen is that circle. */
const ROUND_SHARE = 0.2;

function wholeCircle(points: readonly Point2[], wish: FitOutlineWish): FittedOutline | undefined {
  const third = Math.floor(points.length / 3);
  // from a third on, so that first, middle and last do not fall together
  const arc = fittedArc([...points.slice(third), ...points.slice(0, third)]);
  if (arc === undefined) return undefined;
  const off = points.map((p) => Math.abs(offPiece(arc, p)));
  if (rms(off) > Math.max(2 * wish.scatterMm, ROUND_SHARE * wish.cornerMm)) return undefined;
  const outline = roundOutline(arc.centre, arc.radius);
  const isLeft = signedArea(points) > 0;
  return {
    outline: isLeft ? outline : outline.map(({ at }) => ({ at, bulge: -1 })),
    rmsMm: rms(off),
    worstMm: Math.max(...off),
  };
}

function cornersBetween(points: readonly Point2[], stretches: readonly Stretch[], near: number): Point2[] {
  const n = points.length;
  return stretches.map((here, k) => {
    const before = stretches[(k + stretches.length - 1) % stretches.length]!;
    return cornerBetween(before.piece, here.piece, points[((here.from % n) + n) % n]!, near);
  });
}

function joinedOutline(points: readonly Point2[], stretches: readonly Stretch[], near: number): FittedOutline {
  const corners = cornersBetween(points, stretches, near);
  const outline = stretches.map(({ piece, used }, k): OutlineCorner => {
    const at = corners[k]!;
    if (piece.kind === 'line') return { at };
    return { at, bulge: bulgeOf(piece, used, at, corners[(k + 1) % corners.length]!) };
  });
  const off = stretches.flatMap(({ piece, used }) => used.map((p) => Math.abs(offPiece(piece, p))));
  return { outline, rmsMm: rms(off), worstMm: Math.max(...off) };
}

/** A circle this near to touching a line, as a share of its radius, is taken to touch it; and how far the touch may slide. */
const TANGENT = 0.012;
const TANGENT_SLIDE = 2;

function tangentPlace(p: FittedLine | FittedArc, q: FittedLine | FittedArc): Point2 | undefined {
  if (p.kind === q.kind) return undefined;
  const [line, arc] = p.kind === 'line' ? [p, q as FittedArc] : [q as FittedLine, p as FittedArc];
  const foot = onPiece(line, arc.centre);
  const away = Math.hypot(foot[0] - arc.centre[0], foot[1] - arc.centre[1]);
  return Math.abs(away - arc.radius) < TANGENT * arc.radius ? foot : undefined;
}

/** Where the sides meet, if that is near where the chain turns; else half way between what each side says. */
function cornerBetween(
  before: FittedLine | FittedArc,
  here: FittedLine | FittedArc,
  turn: Point2,
  near: number,
): Point2 {
  const smooth = tangentPlace(before, here);
  if (smooth !== undefined && Math.hypot(smooth[0] - turn[0], smooth[1] - turn[1]) < TANGENT_SLIDE * near)
    return smooth;
  const met = meetings(before, here)
    .map((at) => ({ at, gap: Math.hypot(at[0] - turn[0], at[1] - turn[1]) }))
    .sort((p, q) => p.gap - q.gap)[0];
  if (met !== undefined && met.gap <= near) return met.at;
  const [p, q] = [onPiece(before, turn), onPiece(here, turn)];
  return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
}

/** The bulge of an arc between two corners that passes where the fitted circle has its middle. */
function bulgeOf(arc: FittedArc, used: readonly Point2[], from: Point2, to: Point2): number {
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const middle = onPiece(arc, used[used.length >> 1]!);
  const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const [nx, ny] = [(to[1] - from[1]) / chord, -(to[0] - from[0]) / chord];
  // the circle's place straight across from the middle of the chord, on the side where the places are
  const side = Math.sign((middle[0] - mx) * nx + (middle[1] - my) * ny) || 1;
  const deep = (arc.centre[0] - mx) * nx + (arc.centre[1] - my) * ny;
  const aside = (arc.centre[0] - mx) * ny - (arc.centre[1] - my) * nx;
  const sag = deep + side * Math.sqrt(Math.max(0, arc.radius ** 2 - aside ** 2));
  return (2 * sag) / chord;
}

/** Where the chain turns most within `reach` places. */
function sharpest(points: readonly Point2[], reach: number): number {
  const n = points.length;
  let [most, at] = [-1, 0];
  points.forEach((p, i) => {
    const [a, b] = [points[(i + n - reach) % n]!, points[(i + reach) % n]!];
    const turn = Math.abs(
      Math.atan2(
        (p[0] - a[0]) * (b[1] - p[1]) - (p[1] - a[1]) * (b[0] - p[0]),
        (p[0] - a[0]) * (b[0] - p[0]) + (p[1] - a[1]) * (b[1] - p[1]),
      ),
    );
    if (turn > most) [most, at] = [turn, i];
  });
  return at;
}

const rms = (off: readonly number[]): number => Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length);

const signedArea = (points: readonly Point2[]): number =>
  points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length]!;
    return sum + (p[0] * q[1] - q[0] * p[1]) / 2;
  }, 0);

const chainLength = (points: readonly Point2[]): number =>
  points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length]!;
    return sum + Math.hypot(q[0] - p[0], q[1] - p[1]);
  }, 0);
