import type { Point2 } from '#geometry';
import {
  baseOf,
  cameraFit,
  type CameraFit,
  cameraFromCorners,
  OUTLIER_AT,
  type SeenEdge,
  writtenCorners,
} from './camera-fit.ts';
import type { PhotoImage } from './light.kernel.ts';
import { exchanged, type PhotoReference } from './reference.ts';

/** A rim of a piece as a curve in photo pixels, clockwise on the picture, with the area inside it [px2]. */
export interface PieceRim {
  readonly points: readonly Point2[];
  readonly areaPx2: number;
}

/** Most that the corners' polygon may differ in area from the piece: bent lenses bow its edges. */
const MOST_AREA_OFF = 0.1;

/**
 * As many corners as asked for, such that the polygon through them stays nearest the curve: the two places furthest apart
 * first, then each time the one furthest off; then each is moved along as long as that helps.
 */
export function cornersOf(points: readonly Point2[], count: number): number[] | undefined {
  const n = points.length;
  if (n < 4 * count) return undefined;
  const middle = points.reduce<Point2>((m, p) => [m[0] + p[0] / n, m[1] + p[1] / n], [0, 0]);
  const first = furthest(points, (p) => Math.hypot(p[0] - middle[0], p[1] - middle[1]));
  const second = furthest(points, (p) => Math.hypot(p[0] - points[first]![0], p[1] - points[first]![1]));
  let corners = [first, second].sort((p, q) => p - q);
  while (corners.length < count) {
    let [most, at] = [0, -1];
    corners.forEach((from, k) => {
      const found = furthestOff(points, from, corners[(k + 1) % corners.length]!);
      if (found.off > most) [most, at] = [found.off, found.at];
    });
    if (at < 0) return undefined;
    corners = [...corners, at].sort((p, q) => p - q);
  }
  return corners;
}

function furthest(points: readonly Point2[], far: (p: Point2) => number): number {
  let [most, at] = [-1, 0];
  points.forEach((p, i) => {
    if (far(p) > most) [most, at] = [far(p), i];
  });
  return at;
}

function furthestOff(points: readonly Point2[], from: number, to: number): { off: number; at: number } {
  const n = points.length;
  const [a, b] = [points[from]!, points[to]!];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  let [most, at] = [0, -1];
  for (let k = (from + 1) % n; k !== to; k = (k + 1) % n) {
    const p = points[k]!;
    const off = Math.abs((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / length;
    if (off > most) [most, at] = [off, k];
  }
  return { off: most, at };
}

const area = (ring: readonly Point2[]): number =>
  ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    return sum + (p[0] * q[1] - q[0] * p[1]) / 2;
  }, 0);

/** So many scatters off, a place still counts. */
const EVERY = 1000;

/** A reference as it may lie in the picture: the ways it can be turned onto the corners of a piece, each fitted to the piece's rim. */
export function referenceOnRim(
  photo: PhotoImage,
  reference: PhotoReference,
  rim: PieceRim,
  scatterPx: number,
): CameraFit[] {
  const count = reference.kind === 'square' ? 6 : 4;
  const found = cornersOf(rim.points, count);
  if (found === undefined) return [];
  const ring = found.map((i) => rim.points[i]!);
  if (Math.abs(area(ring) / rim.areaPx2 - 1) > MOST_AREA_OFF) return [];
  const turns = turnsOf(ring, reference);
  return turns.flatMap(({ corners, as }) => {
    const start = cameraFromCorners(
      photo,
      as,
      writtenCorners(as),
      corners.map((i) => ring[i]!),
    );
    if (start === undefined) return [];
    const places = corners.map((i) => found[i]!);
    const seen = rimPlaces(rim.points, places, start, photo);
    // first with every place, then without those that stand off
    const first = cameraFit({ photo, reference: as, start, seen, scatterPx, outlierAt: EVERY });
    if (first === undefined) return [];
    const again = { terms: first.fit.terms, base: baseOf(first) };
    return cameraFit({ photo, reference: as, start: again, seen, scatterPx }) ?? [];
  });
}

/** Which corner of the piece is which of the reference; counter-clockwise seen from above is backwards along the rim. */
function turnsOf(ring: readonly Point2[], reference: PhotoReference): { corners: number[]; as: PhotoReference }[] {
  const n = ring.length;
  const back = (from: number): number[] => Array.from({ length: n }, (_, k) => (((from - k) % n) + n) % n);
  if (n === 4) {
    const isEven = reference.kind !== 'square' && reference.widthMm === reference.heightMm;
    return (isEven ? [0] : [0, 1]).map((from) => ({ corners: back(from), as: reference }));
  }
  // the one corner that turns the other way is the inner one, the fourth of the square's
  const hollow = ring.flatMap((p, i) => {
    const [a, b] = [ring[(i + n - 1) % n]!, ring[(i + 1) % n]!];
    return (p[0] - a[0]) * (b[1] - p[1]) - (p[1] - a[1]) * (b[0] - p[0]) < 0 ? [i] : [];
  });
  if (hollow.length !== 1) return [];
  const corners = back(hollow[0]! + 3);
  return [reference, exchanged(reference)].map((as) => ({ corners, as }));
}

/** Ends of an edge that are left out: the corners of a coarse rim are round. */
const END_SHARE = 0.12;
const PLACES = 40;

/** Places of the coarse rim as places on the edges between its corners. */
function rimPlaces(
  points: readonly Point2[],
  corners: readonly number[],
  start: { readonly terms: Float64Array },
  photo: PhotoImage,
): SeenEdge[] {
  const n = points.length;
  // a rough scale is enough: it only weighs the places
  const pxPerMm = (Math.exp(start.terms[6]!) * Math.hypot(photo.widthPx, photo.heightPx)) / 2 / start.terms[5]!;
  return corners.flatMap((from, edge) => {
    const to = corners[(edge + 1) % corners.length]!;
    // backwards along the rim
    const steps = (((from - to) % n) + n) % n;
    const count = Math.min(PLACES, steps);
    return Array.from({ length: count }, (_, i): SeenEdge => {
      const along = END_SHARE + ((1 - 2 * END_SHARE) * (i + 0.5)) / count;
      const k = (((from - Math.round(along * steps)) % n) + n) % n;
      return { edge, at: points[k]!, pxPerMm, sidePx: 0, sideShare: 0 };
    });
  });
}

/** How badly a fit fits, what was known beforehand counted too: the mean square over the scatter, what counts for nothing in full. */
export const misfitOf = ({ fit, seenCount, priorCost }: CameraFit): number => {
  const off = fit.weights.subarray(0, seenCount).reduce((sum, w) => sum + OUTLIER_AT ** 2 * (1 - Math.sqrt(w)), 0);
  return (off + priorCost) / Math.max(1, seenCount);
};
