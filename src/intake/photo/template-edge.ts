import { onPlane, type PlaneCamera, type Point2, seenAt } from '#geometry';
import { edgePlace, MOST_MISFIT, USUAL_SIDE_SHARE } from './edge-place.kernel.ts';
import type { PhotoImage } from './light.kernel.ts';
import { evenSteps, smoothed } from './pieces.kernel.ts';

/** One rim of the template: its upper edge where it is seen. */
export interface TemplateRim {
  /** Places of the upper edge [px], in the order of the rim as it was walked. */
  readonly seen: readonly Point2[];
  /** The same on the plane of the template's upper face [mm]. */
  readonly mm: readonly Point2[];
  /** Scatter of the places across the rim [mm]. */
  readonly scatterMm: number;
  /** Share of the rim on which no edge was found, and the longest stretch of it [mm]. */
  readonly lostShare: number;
  readonly longestGapMm: number;
  /** How bright the card's cut side is, as a share of its face. */
  readonly sideShare: number;
}

const STEP_PX = 3;
const LINES = 3;
const LEAST_PLACES = 60;
const MOST_PLACES = 2200;
/** Contrast below which an edge is not believed. */
const LEAST_CONTRAST = 2.5;
const SMOOTH_FIRST = 3;
const SMOOTH_AFTER = 2;
/** How far the fine edge may lie off the coarse one: two and a half coarse pixels. */
const COARSE_REACH = 2.5;
const FINE_REACH_PX = 4;

/** Follows a coarse rim to the fine edge, twice; `rim` runs with the template on its right hand as seen. */
export function templateRim(
  photo: PhotoImage,
  camera: PlaneCamera,
  rim: readonly Point2[],
  shrink: number,
  thicknessMm: number,
  sideShare = USUAL_SIDE_SHARE,
): TemplateRim {
  let points = evenSteps(smoothed(rim, SMOOTH_FIRST), STEP_PX, LEAST_PLACES, MOST_PLACES);
  const ask = { photo, camera, thicknessMm, reach: COARSE_REACH * shrink + 3, mayLieOnFoot: true };
  const first = followed(ask, points, sideShare);
  points = evenSteps(smoothed(filled(points, first.found), SMOOTH_AFTER), STEP_PX, LEAST_PLACES, MOST_PLACES);
  const second = followed({ ...ask, reach: FINE_REACH_PX, mayLieOnFoot: false }, points, first.sideShare);
  const kept = withoutStrays(points, second.found);
  const seen = kept.flatMap((p) => (p === undefined ? [] : [p]));
  const mm = seen.map(([x, y]) => onPlane(camera, x, y, thicknessMm));
  const gaps = gapsOf(kept, camera, thicknessMm);
  return {
    seen,
    mm,
    scatterMm: scatterOf(mm),
    lostShare: kept.filter((p) => p === undefined).length / kept.length,
    longestGapMm: gaps,
    sideShare: second.sideShare,
  };
}

interface FollowAsk {
  readonly photo: PhotoImage;
  readonly camera: PlaneCamera;
  readonly thicknessMm: number;
  readonly reach: number;
  /** The coarse rim may lie on the foot of a side: the upper edge is then further in. */
  readonly mayLieOnFoot: boolean;
}

/** A side seen narrower than this says little about how bright it is [px]. */
const TELLING_SIDE_PX = 1.5;

function followed(
  { photo, camera, thicknessMm, reach, mayLieOnFoot }: FollowAsk,
  points: readonly Point2[],
  sideShare: number,
): { found: (Point2 | undefined)[]; sideShare: number } {
  const n = points.length;
  const shares: number[] = [];
  const found = points.map((p, i): Point2 | undefined => {
    const [a, b] = [points[(i + n - 2) % n]!, points[(i + 2) % n]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (!(length > 0)) return undefined;
    // the template to the right hand, so outwards to the left
    const [nx, ny] = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
    const [x, y] = onPlane(camera, p[0], p[1], thicknessMm);
    const foot = seenAt(camera, x, y, 0);
    const side = Math.max(0, (foot[0] - p[0]) * nx + (foot[1] - p[1]) * ny);
    const far = mayLieOnFoot ? reach + side : reach;
    const place = edgePlace(photo, { x: p[0], y: p[1], nx, ny, reach: far, side, sideShare, lines: LINES });
    if (place === undefined || place.misfit > MOST_MISFIT || place.contrast < LEAST_CONTRAST) return undefined;
    if (side > TELLING_SIDE_PX) shares.push(place.sideShare);
    return [p[0] + place.offset * nx, p[1] + place.offset * ny];
  });
  return { found, sideShare: shares.length > TELLING ? median(shares) : sideShare };
}

/** So many places with a telling side say how bright it is. */
const TELLING = 12;

const filled = (points: readonly Point2[], found: readonly (Point2 | undefined)[]): Point2[] => {
  const kept = found.flatMap((p) => (p === undefined ? [] : [p]));
  return kept.length < points.length / 2 ? [...points] : kept;
};

/** Neighbours on either side that a place is held against, and how many times the usual it may stand off them. */
const NEIGHBOURS = 4;
const STRAY = 5;
const LEAST_STRAY_PX = 0.6;

/** Places that stand off the line through their neighbours much more than those do are left out. */
function withoutStrays(points: readonly Point2[], found: readonly (Point2 | undefined)[]): (Point2 | undefined)[] {
  const n = points.length;
  const off = found.map((p, i) => {
    if (p === undefined) return Number.NaN;
    const near = Array.from({ length: 2 * NEIGHBOURS + 1 }, (_, k) => k - NEIGHBOURS)
      .filter((k) => k !== 0)
      .flatMap((k) => {
        const q = found[(i + k + n) % n];
        return q === undefined ? [] : [q];
      });
    if (near.length < NEIGHBOURS) return Number.NaN;
    return acrossNeighbours(p, near);
  });
  // on a curve all neighbours stand off alike: what counts is standing off more than they do
  const more = off.map((d, i) => {
    const near = Array.from({ length: 2 * NEIGHBOURS + 1 }, (_, k) => off[(i + k - NEIGHBOURS + n) % n]!);
    return Math.abs(d - median(near.filter(Number.isFinite)));
  });
  const usual = median(more.filter(Number.isFinite)) * 1.48;
  const most = Math.max(LEAST_STRAY_PX, STRAY * usual);
  return found.map((p, i) => (more[i]! <= most ? p : undefined));
}

function acrossNeighbours(p: Point2, near: readonly Point2[]): number {
  let [x, y] = [0, 0];
  for (const q of near) [x, y] = [x + q[0] / near.length, y + q[1] / near.length];
  let [xx, xy, yy] = [0, 0, 0];
  for (const q of near) {
    xx += (q[0] - x) ** 2;
    xy += (q[0] - x) * (q[1] - y);
    yy += (q[1] - y) ** 2;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  return (p[1] - y) * Math.cos(angle) - (p[0] - x) * Math.sin(angle);
}

/** Scatter across the chain: what each place stands off the middle of its two neighbours, which scatter too. */
function scatterOf(mm: readonly Point2[]): number {
  const n = mm.length;
  if (n < 3) return 0;
  const off = mm.map((p, i) => {
    const [a, b] = [mm[(i + n - 1) % n]!, mm[(i + 1) % n]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return Math.abs(((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / length);
  });
  return (1.48 * median(off)) / Math.sqrt(1.5);
}

function gapsOf(kept: readonly (Point2 | undefined)[], camera: PlaneCamera, z: number): number {
  const n = kept.length;
  const first = kept.findIndex((p) => p !== undefined);
  if (first < 0) return Number.POSITIVE_INFINITY;
  let longest = 0;
  let last = kept[first]!;
  let between = 0;
  for (let k = 1; k <= n; k++) {
    const p = kept[(first + k) % n];
    if (p === undefined) {
      between++;
      continue;
    }
    if (between > 0) {
      const [a, b] = [onPlane(camera, last[0], last[1], z), onPlane(camera, p[0], p[1], z)];
      longest = Math.max(longest, Math.hypot(b[0] - a[0], b[1] - a[1]));
    }
    [last, between] = [p, 0];
  }
  return longest;
}

export function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((p, q) => p - q);
  return sorted[sorted.length >> 1]!;
}
