import { fittedOutline, onPlane, type Outline, type PlaneCamera, type Point2, seenAt } from '#geometry';
import type { CameraFit } from './camera-fit.ts';
import {
  checkBurnt,
  checkTilt,
  inPhoto,
  middleOf,
  type OutlineWish,
  referenceIn,
  type Scene,
  templateIn,
  tiltTo,
} from './found-things.ts';
import { type PhotoImage, smallImage } from './light.kernel.ts';
import { OFF_BENCH, offBench } from './off-bench.kernel.ts';
import { PhotoFault } from './photo-fault.ts';
import { pieces, type Rim, rims } from './pieces.kernel.ts';
import { outerCorners } from './reference.ts';
import { type StatedError, statedError } from './stated-error.ts';
import { type TemplateRim, templateRim } from './template-edge.ts';

/** What was found on the way, for the builder to judge. */
export interface PhotoReport {
  readonly error: StatedError;
  /** Root mean square and worst of what the seen edge stands off the lines and arcs [mm]. */
  readonly fitRmsMm: number;
  readonly fitWorstMm: number;
  /** How far the camera leans from looking straight down on the template [deg]. */
  readonly tiltDeg: number;
  /** How far the lens moves a corner of the picture outwards [%]. */
  readonly lensPercent: number;
  /** Photo pixels to a millimetre at the template. */
  readonly scalePxPerMm: number;
  /** Reference over template, along the reference's two ways. */
  readonly spanShare: readonly [number, number];
  /** Scatter of the places on the reference's edges [px]. */
  readonly scatterPx: number;
  /** What to look at, in words. */
  readonly check: readonly string[];
}

/** The outline of a template, or the one line that says why there is none. */
export type PhotoOutline =
  | {
      readonly ok: true;
      /** Counter-clockwise, seen from above [mm]; along the reference, from its corner. */
      readonly outline: Outline;
      readonly openings: readonly Outline[];
      /** 95 % bound on how far the worst place of it is off [mm]. */
      readonly errorMm: number;
      readonly report: PhotoReport;
      /** For drawing over the photo: the template's rims and the reference's corners [px], and the camera that sees the outline's millimetres there. */
      readonly pictures: {
        readonly rims: readonly (readonly Point2[])[];
        readonly reference: readonly Point2[];
        readonly camera: PlaneCamera;
      };
    }
  | { readonly ok: false; readonly refusal: string };

/** Longest side of the small picture in which things are told from bench. */
const SMALL = 900;
/** Least share of the picture that the template or the reference takes. */
const LEAST_AREA = 0.002;
const MOST_ERROR_MM = 2;
const LEAST_SPAN = 0.6;
/** Below so many photo pixels to a millimetre the joints of short sides are off by more than is stated. */
const LEAST_SCALE = 0.8;
const LEAST_OPENING_MM = 5;
/** Share of a rim without a clear edge; corners are always lost, and an opening is mostly corners. */
const MOST_LOST = 0.15;
const MOST_LOST_OPENING = 0.4;
const MOST_GAP_MM = 50;

/** Works out the outline of a cardboard template from a photo of it beside a reference on a flat bench. */
export function outlineFromImage(photo: PhotoImage, wish: OutlineWish): PhotoOutline {
  try {
    return found(photo, wish);
  } catch (fault) {
    if (fault instanceof PhotoFault) return { ok: false, refusal: fault.message };
    throw fault;
  }
}

function found(photo: PhotoImage, wish: OutlineWish): PhotoOutline {
  const small = smallImage(photo, SMALL);
  const { labels, found: all } = pieces(offBench(small), OFF_BENCH, small.width, small.height);
  const least = LEAST_AREA * small.width * small.height;
  const scene: Scene = { photo, small, labels, things: all.filter(({ area }) => area >= least) };
  const { fit, label } = referenceIn(scene, wish);
  const piece = templateIn(scene, wish, label);
  checkBurnt(scene, piece);
  const outside = rims(labels, piece.label, small.width, small.height);
  const traced: TemplateRim[] = [];
  for (const [i, rim] of outside.entries()) {
    if (i > 0 && !isOpening(rim, scene, fit, wish.thicknessMm)) continue;
    // the long rim says how bright the card's side is, the short ones go by that
    const points = inPhoto(rim, small.shrink);
    traced.push(templateRim(photo, fit.camera, points, small.shrink, wish.thicknessMm, traced[0]?.sideShare));
  }
  checkTraced(traced);
  return answer(fit, traced, wish);
}

function isOpening(rim: Rim, { small }: Scene, fit: CameraFit, z: number): boolean {
  if (rim.area >= 0) return false;
  const points = inPhoto(rim, small.shrink).map(([x, y]) => onPlane(fit.camera, x, y, z));
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const least = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  return least >= LEAST_OPENING_MM && rim.points.length >= 16;
}

function checkTraced(traced: readonly TemplateRim[]): void {
  for (const [k, { lostShare, longestGapMm }] of traced.entries())
    if (lostShare > (k === 0 ? MOST_LOST : MOST_LOST_OPENING) || longestGapMm > MOST_GAP_MM)
      throw new PhotoFault(
        `no clear edge on ${Math.round(100 * lostShare)} % of the template's rim, ${Math.round(longestGapMm)} mm at a stretch`,
        'even light without glare, a plain bench of another colour, the camera held still',
      );
}

/** Spread of the height of the card's upper face: its thickness, and that it does not lie quite flat [mm]. */
const HEIGHT_SPREAD_MM = 0.4;
/** An edge is not followed closer than this, however quiet the picture: cut card has a rough edge. */
const LEAST_SCATTER_MM = 0.12;
const LEAST_SCATTER_PX = 0.15;
/** Least 95 % bound on a fitted edge [px]: what light and lens leave on an edge however many places it has. */
const LEAST_EDGE_PX = 0.5;

function answer(fit: CameraFit, traced: readonly TemplateRim[], wish: OutlineWish): PhotoOutline {
  const outer = traced[0]!;
  const scale = scaleOf(fit, outer, wish.thicknessMm);
  const scatterMm = Math.max(LEAST_SCATTER_MM, LEAST_SCATTER_PX / scale, ...traced.map((rim) => rim.scatterMm));
  const error = statedError({
    fit,
    seen: traced.flatMap(({ seen }) => seen),
    thicknessMm: wish.thicknessMm,
    heightSpreadMm: HEIGHT_SPREAD_MM,
    edgeMm: 0,
  });
  const fitted = traced.map(({ mm }) =>
    fittedOutline([...mm].reverse(), { scatterMm, bowMm: Math.max(0.12, error.errorMm / 3), cornerMm: 2.2 / scale }),
  );
  const rms = Math.max(...fitted.map(({ rmsMm }) => rmsMm));
  const edgeMm = Math.max(LEAST_EDGE_PX / scale, 2 * rms);
  const stated: StatedError = { ...error, edgeMm, errorMm: error.errorMm + edgeMm };
  const span = spanOf(fit, outer);
  const tiltDeg = tiltTo(fit, middleOf(outer.mm));
  check(stated, span, tiltDeg, scale);
  const outlines = fitted.map(({ outline }) => outline);
  return {
    ok: true,
    outline: outlines[0]!,
    openings: outlines.slice(1),
    errorMm: stated.errorMm,
    report: {
      error: stated,
      fitRmsMm: rms,
      fitWorstMm: Math.max(...fitted.map(({ worstMm }) => worstMm)),
      tiltDeg,
      lensPercent: 100 * (fit.camera.k1 + fit.camera.k2),
      scalePxPerMm: scale,
      spanShare: span,
      scatterPx: fit.scatterPx,
      check: toCheck(span, traced.length - 1),
    },
    pictures: {
      camera: fit.camera,
      rims: traced.map(({ seen }) => seen),
      reference: outerCorners(fit.reference.kind, fit.sizes).map(([x, y]) =>
        seenAt(fit.camera, x, y, fit.reference.thicknessMm ?? 0),
      ),
    },
  };
}

function check(stated: StatedError, span: readonly [number, number], tiltDeg: number, scale: number): void {
  checkTilt(tiltDeg);
  if (stated.errorMm <= MOST_ERROR_MM && scale >= LEAST_SCALE) return;
  if (stated.errorMm <= MOST_ERROR_MM)
    throw new PhotoFault(
      `${scale.toFixed(2)} pixels to a mm at the template, at least ${LEAST_SCALE} are wanted`,
      'the template larger in the picture, or a camera of more pixels',
    );
  const short = Math.min(...span);
  const helps =
    short < LEAST_SPAN
      ? `a reference that spans at least 60 % of the template both ways; this one spans ${Math.round(100 * short)} %`
      : 'a picture from nearer and more nearly above, sharper, or with the focal length in the file';
  throw new PhotoFault(
    `the outline would be known to +-${stated.errorMm.toFixed(1)} mm, at most ${MOST_ERROR_MM} mm is given`,
    helps,
  );
}

function spanOf(fit: CameraFit, outer: TemplateRim): [number, number] {
  const [w, h] = [fit.sizes[0]!, fit.sizes[1]!];
  const xs = outer.mm.map((p) => p[0]);
  const ys = outer.mm.map((p) => p[1]);
  return [w / (Math.max(...xs) - Math.min(...xs)), h / (Math.max(...ys) - Math.min(...ys))];
}

function scaleOf(fit: CameraFit, outer: TemplateRim, z: number): number {
  const [px, py] = middleOf(outer.seen);
  const [a, b, c] = [
    onPlane(fit.camera, px, py, z),
    onPlane(fit.camera, px + 1, py, z),
    onPlane(fit.camera, px, py + 1, z),
  ];
  const area = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  return 1 / Math.sqrt(area);
}

function toCheck(span: readonly [number, number], openings: number): string[] {
  return [
    `${openings === 0 ? 'no opening was' : openings === 1 ? 'one opening was' : `${openings} openings were`} found: count them`,
    'tape the longest side and one diagonal of the template against the outline before cutting',
    'the card must lie flat: where it lifts off the bench its edge is read too far from the middle of the picture',
    ...(Math.min(...span) < LEAST_SPAN
      ? [
          `the reference spans ${Math.round(100 * Math.min(...span))} % of the template one way: what lies beyond it is less sure`,
        ]
      : []),
  ];
}
