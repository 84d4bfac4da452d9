import { cholesky, onPlane, type Point2 } from '#geometry';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { CameraFit } from './camera-fit.ts';

/** What the error is made of, each as a 95 % bound on the worst place of the outline [mm]. */
export interface StatedError {
  readonly errorMm: number;
  /** Slant, lens, scale and the reference's own sizes, as the fit knows them. */
  readonly cameraMm: number;
  /** The template's thickness, and how flat it lies. */
  readonly heightMm: number;
  /** The edge itself: light, blur, scatter, and what lines and arcs leave out. */
  readonly edgeMm: number;
}

export interface ErrorAsk {
  readonly fit: CameraFit;
  /** Places round all rims [px], and outwards of each on the plane. */
  readonly seen: readonly Point2[];
  readonly thicknessMm: number;
  /** One standard deviation of the height of the template's upper face [mm]. */
  readonly heightSpreadMm: number;
  /** 95 % bound on a fitted side, from the scatter and the fit [mm]. */
  readonly edgeMm: number;
}

/** Places of the outline that the bound is worked out at. */
const PLACES = 72;
/** Draws from what the fit leaves open; the 95th of a hundred is the bound. */
const DRAWS = 400;
const SHARE = 0.95;
const SEED = 4711;

/**
 * How far the worst place of the outline may be off, in 95 of 100 pictures like this one. Terms are drawn from the fit's
 * covariance by its Cholesky root, the outline is worked out anew with each draw and laid over the first as well as turning
 * and shifting allow (where it lies on the bench is no error), and the worst place is looked at. The draws are the same
 * each time.
 */
export function statedError(ask: ErrorAsk): StatedError {
  const { fit } = ask;
  const skip = Math.max(1, Math.floor(ask.seen.length / PLACES));
  const seen = ask.seen.filter((_, i) => i % skip === 0);
  const outline = (terms: ArrayLike<number>, z: number): Point2[] => {
    const camera = fit.cameraOf(terms);
    return seen.map(([x, y]) => onPlane(camera, x, y, z));
  };
  const base = outline(fit.fit.terms, ask.thicknessMm);
  const slopes = cameraSlopes(fit, base, outline, ask.thicknessMm);
  const n = fit.fit.terms.length;
  const root = choleskyOf(fit.fit.covariance, n);
  const generator = xoroshiro128plus(SEED);
  const next = (): number => uniformFloat64(generator);
  const worst: number[] = [];
  for (let draw = 0; draw < DRAWS; draw++) {
    const normal = bellDraw(next, n);
    const move = Float64Array.from({ length: n }, (_, i) => {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += root[i * n + k]! * normal[k]!;
      return sum;
    });
    const moved = base.map(([x, y], p): Point2 => {
      let [dx, dy] = [0, 0];
      for (let i = 0; i < n; i++) {
        dx += slopes[i]![p]![0] * move[i]!;
        dy += slopes[i]![p]![1] * move[i]!;
      }
      return [x + dx, y + dy];
    });
    worst.push(worstOff(base, moved));
  }
  worst.sort((p, q) => p - q);
  const cameraMm = worst[Math.floor(SHARE * DRAWS)]!;
  const heightMm = worstOff(base, outline(fit.fit.terms, ask.thicknessMm + 2 * ask.heightSpreadMm));
  return { errorMm: Math.hypot(cameraMm, heightMm) + ask.edgeMm, cameraMm, heightMm, edgeMm: ask.edgeMm };
}

type Slopes = readonly (readonly Point2[])[];

/** How each place moves for each term, over that term's own spread. */
function cameraSlopes(
  fit: CameraFit,
  base: readonly Point2[],
  outline: (terms: ArrayLike<number>, z: number) => Point2[],
  z: number,
): Slopes {
  const n = fit.fit.terms.length;
  return Array.from({ length: n }, (_, i) => {
    const nudge = 0.2 * Math.sqrt(fit.fit.covariance[i * n + i]!);
    const terms = Float64Array.from(fit.fit.terms);
    terms[i]! += nudge;
    return outline(terms, z).map(([x, y], p): Point2 => [(x - base[p]![0]) / nudge, (y - base[p]![1]) / nudge]);
  });
}

function choleskyOf(covariance: Float64Array, n: number): Float64Array {
  const spread = Float64Array.from({ length: n }, (_, i) => Math.sqrt(covariance[i * n + i]!));
  const even = covariance.map((value, at) => value / (spread[Math.floor(at / n)]! * spread[at % n]!));
  for (let i = 0; i < n; i++) even[i * n + i]! += 1e-9;
  const root = cholesky(even, n) ?? new Float64Array(n * n).map((_, at) => (at % (n + 1) === 0 ? 1 : 0));
  return root.map((value, at) => value * spread[Math.floor(at / n)]!);
}

/** The worst place after the second outline is laid over the first by the least squares of all places. */
export function worstOff(first: readonly Point2[], second: readonly Point2[]): number {
  const n = first.length;
  let [ax, ay, bx, by] = [0, 0, 0, 0];
  first.forEach((p, i) => {
    const q = second[i]!;
    [ax, ay, bx, by] = [ax + p[0] / n, ay + p[1] / n, bx + q[0] / n, by + q[1] / n];
  });
  let [along, across] = [0, 0];
  first.forEach((p, i) => {
    const q = second[i]!;
    along += (q[0] - bx) * (p[0] - ax) + (q[1] - by) * (p[1] - ay);
    across += (q[0] - bx) * (p[1] - ay) - (q[1] - by) * (p[0] - ax);
  });
  const turn = Math.atan2(across, along);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  let most = 0;
  first.forEach((p, i) => {
    const q = second[i]!;
    const [x, y] = [q[0] - bx, q[1] - by];
    most = Math.max(most, Math.hypot(c * x - s * y - p[0] + ax, s * x + c * y - p[1] + ay));
  });
  return most;
}

/** As many numbers of the bell curve as asked for. */
function bellDraw(next: () => number, n: number): Float64Array {
  return Float64Array.from({ length: n }, () => bellPlace(next()));
}

/** The place on the bell curve with a share of it below; a rational fit good to 0.0005 (abramowitz-stegun-1964, 26.2.23). */
function bellPlace(share: number): number {
  const tail = Math.min(share, 1 - share);
  const t = Math.sqrt(-2 * Math.log(tail));
  const x = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  return share < 0.5 ? -x : x;
}
