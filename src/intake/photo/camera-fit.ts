import {
  CAMERA_TERM,
  CAMERA_TERMS,
  firstCamera,
  type Fit,
  leastSquares,
  onPlane,
  type PlaneCamera,
  planeCamera,
  type Point2,
  seenAt,
} from '#geometry';
import { edgePlace, MOST_MISFIT, USUAL_SIDE_SHARE } from './edge-place.kernel.ts';
import type { PhotoImage } from './light.kernel.ts';
import { outerCorners, type PhotoReference, referenceEdges, referenceSizes } from './reference.ts';

/** A place on an edge of the reference, as seen. */
export interface SeenEdge {
  readonly edge: number;
  readonly at: Point2;
  /** Photo pixels to a millimetre across the edge. */
  readonly pxPerMm: number;
  /** How wide the side below it is seen [px], and how bright as a share of the face. */
  readonly sidePx: number;
  readonly sideShare: number;
}

/** The camera as it fits the reference, with all that was fitted beside it and how well that is known. */
export interface CameraFit {
  readonly camera: PlaneCamera;
  readonly reference: PhotoReference;
  readonly fit: Fit;
  /** A camera for other terms of the same fit. */
  readonly cameraOf: (terms: ArrayLike<number>) => PlaneCamera;
  readonly sizes: Float64Array;
  readonly seenCount: number;
  /** Squares of what the terms stand off what was known of them. */
  readonly priorCost: number;
  /** Scatter of the edge places about the fitted edges [px]. */
  readonly scatterPx: number;
  /** How bright the reference's sides are, as a share of its face. */
  readonly sideShare: number;
  /** Share of the reference's length on which its edge was found, by edge. */
  readonly foundShare: readonly number[];
}

/*
 * What is known before a picture is looked at (one standard deviation). Focal length: 28 mm on a full frame, within a
 * third, where the file does not say it; 3 % where it does (lenses breathe). Middle of the lens: 1 % of the half diagonal.
 * Lens: a corner moves by 8 %, second term 1.5 %. From memory: usual telephone cameras.
 */
const HALF_FRAME_MM = Math.hypot(36, 24) / 2;
const USUAL_FOCAL_MM = 28;
const LOG_FOCAL_SPREAD = 0.33;
const LOG_FOCAL_SPREAD_KNOWN = 0.03;
const MIDDLE_SPREAD = 0.01;
const K1_SPREAD = 0.08;
const K2_SPREAD = 0.015;
/** How far a square's corner may be off a right angle [rad]: 0.3 mm on 600. */
const SKEW_SPREAD = 0.0005;
/** What all places of one edge may be off together (rounded rims, light creeping round) [px]. */
const EDGE_OFF_PX = 0.08;
/** And more by this share of a side seen below the edge, up to where the two are told apart [px]. */
const SIDE_OFF = 0.15;
const MOST_SIDE_PX = 2;
const FIRST_SCATTER_PX = 0.5;
const LEAST_SCATTER_PX = 0.06;
/** Neighbouring places of an edge are off together: strokes, grain, a shadow's rim. They count as half their number. */
const NOT_ALONE = 1.5;
/** Beyond this many standard deviations a place on an edge counts for nothing. */
export const OUTLIER_AT = 6;

export interface FitAsk {
  readonly photo: PhotoImage;
  readonly reference: PhotoReference;
  /** Terms to begin with and the rotation they belong to. */
  readonly start: { readonly terms: Float64Array; readonly base: Float64Array };
  readonly seen: readonly SeenEdge[];
  readonly scatterPx: number;
  /** Beyond this many scatters a place counts for nothing; 6 if not said. */
  readonly outlierAt?: number;
}

const focalOf = (photo: PhotoImage): { f: number; isKnown: boolean } => ({
  f: (photo.focal35Mm ?? USUAL_FOCAL_MM) / HALF_FRAME_MM,
  isKnown: photo.focal35Mm !== undefined,
});

/** A camera to begin with, from the reference's outer corners in order and where they are seen. */
export function cameraFromCorners(
  photo: PhotoImage,
  reference: PhotoReference,
  corners: readonly Point2[],
  seen: readonly Point2[],
): { terms: Float64Array; base: Float64Array } | undefined {
  const first = firstCamera(corners, seen, photo, focalOf(photo));
  // seen from below: the corners run the other way round
  if (first === undefined || first.base[8]! >= 0) return undefined;
  const sizes = referenceSizes(reference).mm;
  const edges = referenceEdges(reference.kind, sizes, 0).length;
  const terms = new Float64Array(CAMERA_TERMS + sizes.length + 1 + edges);
  terms.set(first.terms);
  terms.set(sizes, CAMERA_TERMS);
  return { terms, base: first.base };
}

/**
 * The camera, the lens, the reference's true sizes and what each of its edges is off, all at once: the least sum of squares
 * of what the seen places stand off the edges, each over its scatter, and of what each term stands off what was known of it.
 * Straight edges that must be straight undo the lens (devernay-faugeras-2001), known lengths and right angles the slant. Undefined where too few places count.
 */
export function cameraFit(ask: FitAsk): CameraFit | undefined {
  const { photo, reference, start, seen, outlierAt = OUTLIER_AT } = ask;
  const known = referenceSizes(reference);
  const sizeAt = CAMERA_TERMS;
  const skewAt = sizeAt + known.mm.length;
  const edgeAt = skewAt + 1;
  const edgeCount = start.terms.length - edgeAt;
  const height = reference.thicknessMm ?? 0;
  const priors = priorsOf(photo, known.mm, known.spreadMm, edgeSpreads(seen, edgeCount));
  const cameraOf = (terms: ArrayLike<number>): PlaneCamera => planeCamera(terms, start.base, photo);
  const nudges = Float64Array.from(start.terms, (_, i) => (i < 3 ? 1e-5 : i < 6 ? 0.01 : i < sizeAt ? 1e-5 : 1e-3));
  nudges[skewAt] = 1e-6;
  const fit = leastSquares({
    start: start.terms,
    nudges,
    count: seen.length + priors.length,
    outliers: { at: outlierAt, count: seen.length },
    residuals: (terms, out) => {
      const camera = cameraOf(terms);
      const edges = referenceEdges(reference.kind, terms.subarray(sizeAt, skewAt), terms[skewAt]!);
      seen.forEach((one, i) => {
        const [[px, py], [qx, qy]] = edges[one.edge]!;
        const [x, y] = onPlane(camera, one.at[0], one.at[1], height);
        // outwards of an edge is to its right
        const off = ((x - px) * (qy - py) - (y - py) * (qx - px)) / Math.hypot(qx - px, qy - py);
        out[i] = (off * one.pxPerMm - terms[edgeAt + one.edge]!) / ask.scatterPx;
      });
      priors.forEach(({ term, mean, spread }, i) => {
        out[seen.length + i] = (terms[term]! - mean) / spread;
      });
    },
  });
  if (fit === undefined) return undefined;
  return {
    camera: cameraOf(fit.terms),
    reference,
    fit,
    cameraOf,
    sizes: fit.terms.slice(sizeAt, skewAt),
    seenCount: seen.length,
    priorCost: priors.reduce((sum, { term, mean, spread }) => sum + ((fit.terms[term]! - mean) / spread) ** 2, 0),
    scatterPx: scatterOf(fit, seen.length, outlierAt) * ask.scatterPx,
    sideShare: sideShareOf(seen),
    foundShare: [],
  };
}

/** A side wider than this says how bright it is [px]. */
const TELLING_SIDE_PX = 1;

function sideShareOf(seen: readonly SeenEdge[]): number {
  const telling = seen.filter(({ sidePx }) => sidePx > TELLING_SIDE_PX).map((one) => one.sideShare);
  return telling.length > 20 ? telling.sort((p, q) => p - q)[telling.length >> 1]! : USUAL_SIDE_SHARE;
}

/** A camera not fitted yet, to look from. */
export function begunCamera(
  photo: PhotoImage,
  reference: PhotoReference,
  start: { readonly terms: Float64Array; readonly base: Float64Array },
): CameraFit {
  const { terms, base } = start;
  const cameraOf = (some: ArrayLike<number>): PlaneCamera => planeCamera(some, base, photo);
  const count = referenceSizes(reference).mm.length;
  return {
    camera: cameraOf(terms),
    reference,
    fit: { terms, covariance: new Float64Array(terms.length ** 2), cost: 0, weights: new Float64Array(0) },
    cameraOf,
    sizes: terms.slice(CAMERA_TERMS, CAMERA_TERMS + count),
    seenCount: 0,
    priorCost: 0,
    scatterPx: FIRST_SCATTER_PX,
    sideShare: USUAL_SIDE_SHARE,
    foundShare: [],
  };
}

interface Prior {
  readonly term: number;
  readonly mean: number;
  readonly spread: number;
}

/** What each edge may be off as a whole: more where a side is seen below it. */
function edgeSpreads(seen: readonly SeenEdge[], edgeCount: number): number[] {
  return Array.from({ length: edgeCount }, (_, edge) => {
    const sides = seen.filter((one) => one.edge === edge).map((one) => one.sidePx);
    const side = sides.reduce((sum, px) => sum + px, 0) / Math.max(1, sides.length);
    return Math.hypot(EDGE_OFF_PX, SIDE_OFF * Math.min(side, MOST_SIDE_PX));
  });
}

function priorsOf(
  photo: PhotoImage,
  mm: readonly number[],
  spreadMm: readonly number[],
  edgePx: readonly number[],
): Prior[] {
  const focal = focalOf(photo);
  const skewAt = CAMERA_TERMS + mm.length;
  return [
    {
      term: CAMERA_TERM.logF,
      mean: Math.log(focal.f),
      spread: focal.isKnown ? LOG_FOCAL_SPREAD_KNOWN : LOG_FOCAL_SPREAD,
    },
    { term: CAMERA_TERM.cx, mean: 0, spread: MIDDLE_SPREAD },
    { term: CAMERA_TERM.cy, mean: 0, spread: MIDDLE_SPREAD },
    { term: CAMERA_TERM.k1, mean: 0, spread: K1_SPREAD },
    { term: CAMERA_TERM.k2, mean: 0, spread: K2_SPREAD },
    ...mm.map((mean, i) => ({ term: CAMERA_TERMS + i, mean, spread: spreadMm[i]! })),
    { term: skewAt, mean: 0, spread: SKEW_SPREAD },
    ...edgePx.map((spread, i) => ({ term: skewAt + 1 + i, mean: 0, spread })),
  ];
}

/** The scatter of the places that count, robustly: 1.48 times the median of what they stand off. */
function scatterOf(fit: Fit, count: number, outlierAt: number): number {
  if (count === 0) return 1;
  // a Tukey weight says how far off its residual was
  const off = Array.from(fit.weights.subarray(0, count), (w) => outlierAt * Math.sqrt(1 - Math.sqrt(w))).sort(
    (p, q) => p - q,
  );
  return 1.48 * off[Math.floor(count / 2)]!;
}

/** Least and most places looked at on one edge, and how far from its ends [px]. */
const LEAST_PLACES = 8;
const MOST_PLACES = 90;
const PLACE_STEP_PX = 4;
const END_PX = 7;
/** Averaged along an edge, 11 pixels in all: strokes and grain even out. */
const LINES = 9;

/** Where the reference's edges are seen, looked for within `reach` [px] of where the camera so far says. */
export function seenEdges(photo: PhotoImage, so: CameraFit, reach: number): { seen: SeenEdge[]; share: number[] } {
  const { camera, reference } = so;
  const height = reference.thicknessMm ?? 0;
  const seen: SeenEdge[] = [];
  const skew = so.fit.terms[CAMERA_TERMS + so.sizes.length]!;
  const share = referenceEdges(reference.kind, so.sizes, skew).map(([p, q], edge) => {
    const [a, b] = [seenAt(camera, p[0], p[1], height), seenAt(camera, q[0], q[1], height)];
    const px = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const mm = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const end = Math.max(0.04, (END_PX + reach / 2) / px);
    if (!(end < 0.4)) return 0;
    const count = Math.max(LEAST_PLACES, Math.min(MOST_PLACES, Math.round(px / PLACE_STEP_PX)));
    const out = [(q[1] - p[1]) / mm, -(q[0] - p[0]) / mm];
    let found = 0;
    for (let i = 0; i < count; i++) {
      const along = end + ((1 - 2 * end) * (i + 0.5)) / count;
      const [x, y] = [p[0] + along * (q[0] - p[0]), p[1] + along * (q[1] - p[1])];
      const one = seenPlace(photo, so, [x, y], [out[0]!, out[1]!], reach);
      if (one === undefined) continue;
      found++;
      seen.push({ edge, ...one });
    }
    return found / count;
  });
  return { seen, share };
}

function seenPlace(
  photo: PhotoImage,
  { camera, reference, sideShare }: CameraFit,
  [x, y]: Point2,
  out: Point2,
  reach: number,
): Omit<SeenEdge, 'edge'> | undefined {
  const height = reference.thicknessMm ?? 0;
  const at = seenAt(camera, x, y, height);
  const ahead = seenAt(camera, x - out[1], y + out[0], height);
  const beyond = seenAt(camera, x + out[0], y + out[1], height);
  const foot = seenAt(camera, x, y, 0);
  const length = Math.hypot(ahead[0] - at[0], ahead[1] - at[1]);
  let [nx, ny] = [-(ahead[1] - at[1]) / length, (ahead[0] - at[0]) / length];
  let pxPerMm = (beyond[0] - at[0]) * nx + (beyond[1] - at[1]) * ny;
  if (pxPerMm < 0) [nx, ny, pxPerMm] = [-nx, -ny, -pxPerMm];
  const side = Math.max(0, (foot[0] - at[0]) * nx + (foot[1] - at[1]) * ny);
  const place = edgePlace(photo, { x: at[0], y: at[1], nx, ny, reach, side, sideShare, lines: LINES });
  if (place === undefined || place.misfit > MOST_MISFIT) return undefined;
  return {
    at: [at[0] + place.offset * nx, at[1] + place.offset * ny],
    pxPerMm,
    sidePx: side,
    sideShare: place.sideShare,
  };
}

/** Looks and fits in turn, each time nearer; the last round with the scatter that was found. Undefined where an edge is lost. */
export function refinedCamera(photo: PhotoImage, begun: CameraFit, reaches: readonly number[]): CameraFit {
  let so = begun;
  let scatterPx = FIRST_SCATTER_PX;
  for (const reach of [...reaches, reaches.at(-1)!]) {
    const { seen, share } = seenEdges(photo, so, reach);
    if (seen.length < 3 * CAMERA_TERMS) return { ...so, foundShare: share };
    const start = { terms: so.fit.terms, base: baseOf(so) };
    const fitted = cameraFit({ photo, reference: so.reference, start, seen, scatterPx });
    if (fitted === undefined) return { ...so, foundShare: [] };
    so = { ...fitted, foundShare: share };
    scatterPx = NOT_ALONE * Math.max(LEAST_SCATTER_PX, so.scatterPx);
  }
  return so;
}

/** The rotation that a fit's turn is applied to: that of its camera with the turn at nought. */
export function baseOf(so: CameraFit): Float64Array {
  const still = Float64Array.from(so.fit.terms);
  still.fill(0, CAMERA_TERM.turn, CAMERA_TERM.turn + 3);
  return so.cameraOf(still).rotation;
}

/** The outer corners of the reference as its sizes are written. */
export const writtenCorners = (reference: PhotoReference): Point2[] =>
  outerCorners(reference.kind, referenceSizes(reference).mm);
