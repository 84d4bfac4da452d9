import type { OutlineCorner, Point2 } from '#geometry';
import { cross2, dot2, minus } from './lines.ts';

/** Points taken along an edge, as arcs. */
export interface FittedArcs {
  /** Each arc's beginning and bulge; the last one ends at the last point. */
  readonly arcs: readonly OutlineCorner[];
  /** Furthest that a point lies from its arc [mm]. */
  readonly worstMm: number;
}

const HALVINGS = 60;
/** Fitted over this range of bulges: up to three quarters of a circle. */
const MOST_BULGE = 2.4;

/** As few arcs through the points as keep each within `withinMm`, greedily from the first; every arc begins and ends on a point. */
export function fittedArcs(points: readonly Point2[], withinMm: number): FittedArcs {
  const arcs: OutlineCorner[] = [];
  let worstMm = 0;
  let from = 0;
  while (from < points.length - 1) {
    let to = from + 1;
    let best = { bulge: 0, missMm: 0 };
    for (let tryTo = from + 2; tryTo < points.length; tryTo++) {
      const fit = arcThrough(points.slice(from, tryTo + 1));
      if (fit.missMm > withinMm) break;
      [to, best] = [tryTo, fit];
    }
    arcs.push(best.bulge === 0 ? { at: points[from]! } : { at: points[from]!, bulge: best.bulge });
    worstMm = Math.max(worstMm, best.missMm);
    from = to;
  }
  return { arcs, worstMm };
}

/** The bulge of the arc from the first point to the last that the ones between lie nearest to, by its worst miss. */
function arcThrough(points: readonly Point2[]): { bulge: number; missMm: number } {
  const missOf = (bulge: number) =>
    Math.max(...points.slice(1, -1).map((p) => arcMiss(points[0]!, points.at(-1)!, bulge, p)));
  const golden = (Math.sqrt(5) - 1) / 2;
  // A coarse look first: the miss has one valley near the right bulge, but slopes away unevenly far from it.
  const coarse = Array.from({ length: 97 }, (_, i) => -MOST_BULGE + (2 * MOST_BULGE * i) / 96);
  const near = coarse.reduce((a, b) => (missOf(b) < missOf(a) ? b : a));
  let [low, high] = [near - MOST_BULGE / 48, near + MOST_BULGE / 48];
  for (let i = 0; i < HALVINGS; i++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (missOf(a) < missOf(b)) high = b;
    else low = a;
  }
  const bulge = (low + high) / 2;
  return missOf(0) <= missOf(bulge) + 1e-6 ? { bulge: 0, missMm: missOf(0) } : { bulge, missMm: missOf(bulge) };
}

/** How far a point lies from the arc that leaves `a` with this bulge to `b` [mm]. */
export function arcMiss(a: Point2, b: Point2, bulge: number, p: Point2): number {
  const chord = minus(b, a);
  const long = Math.hypot(chord[0], chord[1]);
  const [u, v] = [dot2(minus(p, a), chord) / long, cross2(chord, minus(p, a)) / long];
  if (Math.abs(bulge) < 1e-9) return Math.abs(v);
  const off = (long * (1 - bulge * bulge)) / (4 * bulge);
  const radius = (long * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  const toCircle = Math.abs(Math.hypot(u - long / 2, v - off) - radius);
  // An arc keeps to one side of its chord, + to its right; what lies on the other is on the rest of the circle.
  return v * bulge > 0 ? Math.max(toCircle, Math.abs(v)) : toCircle;
}
