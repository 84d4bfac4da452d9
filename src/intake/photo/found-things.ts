import type { Point2 } from '#geometry';
import { begunCamera, type CameraFit, cameraFromCorners, refinedCamera, writtenCorners } from './camera-fit.ts';
import { misfitOf, type PieceRim, referenceOnRim } from './find-reference.ts';
import type { PhotoImage, SmallImage } from './light.kernel.ts';
import { PhotoFault } from './photo-fault.ts';
import { type Piece, type Rim, rims, smoothed } from './pieces.kernel.ts';
import { type PhotoReference, referenceWords } from './reference.ts';

/** What the builder may point at, in pixels of the photo the right way up, from its top left corner. */
export interface PhotoHints {
  /** Corners of the reference: a rectangle's four; a square's outer corner, the tip of its first arm (outer edge), its inner corner, the tip of its other arm (outer edge). In order round it. */
  readonly referencePx?: readonly Point2[];
  /** A place on the template. */
  readonly templatePx?: Point2;
}

export interface OutlineWish {
  readonly reference: PhotoReference;
  /** Thickness of the template [mm]. */
  readonly thicknessMm: number;
  readonly hints?: PhotoHints;
}

/** A photo, made small, with the things on its bench told apart. */
export interface Scene {
  readonly photo: PhotoImage;
  readonly small: SmallImage;
  readonly labels: Int32Array;
  readonly things: readonly Piece[];
}

/** A second thing as large as this share of the first is another candidate. */
const SECOND = 0.3;
const MOST_TILT_DEG = 55;
/** Share of burnt pixels on template and rim from which edges cannot be trusted. */
const MOST_BURNT = 0.2;

/** A rim in photo pixels. */
export const inPhoto = (rim: Rim, shrink: number): Point2[] => rim.points.map(([x, y]) => [x * shrink, y * shrink]);

/** The camera as it fits the reference, and the label of the piece that the reference is (0 where it was only picked). */
export function referenceIn(scene: Scene, wish: OutlineWish): { fit: CameraFit; label: number } {
  const { photo, small } = scene;
  const picked = wish.hints?.referencePx;
  const found =
    picked === undefined ? findReference(scene, wish.reference) : pickedReference(scene, wish.reference, picked);
  const coarse = Math.max(3, 1.5 * small.shrink);
  const reaches = picked === undefined ? [coarse + 3, coarse, 4] : [Math.max(14, 3 * small.shrink), coarse + 3, 4];
  const fit = refinedCamera(photo, found.fit, reaches);
  checkTilt(tiltTo(fit, middleOf(writtenCorners(fit.reference))));
  const lost = fit.foundShare.filter((share) => share < 0.5).length;
  const isWeak = fit.foundShare.length === 0 || lost > fit.foundShare.length / 4;
  if (isWeak || !(fit.scatterPx < 2.5))
    throw new PhotoFault(
      `the ${referenceWords(wish.reference)} was not found with sharp straight edges (${lost} of ${fit.foundShare.length} edges lost)`,
      'a reference that stands out from the bench all round, its size as written, or its corners picked by hand',
    );
  return { fit, label: found.label };
}

/** The pieces whose rim the reference fits; only one may. */
function findReference(scene: Scene, reference: PhotoReference): { fit: CameraFit; label: number } {
  const { photo, small } = scene;
  const fits = scene.things
    .filter(({ touchesRim }) => !touchesRim)
    .flatMap((piece) => {
      const all = rims(scene.labels, piece.label, small.width, small.height);
      const outer = all[0]!;
      const hasHole = (all[1]?.area ?? 0) < -0.35 * outer.area;
      if ((reference.kind === 'frame') !== hasHole) return [];
      const rim: PieceRim = {
        points: smoothed(inPhoto(outer, small.shrink), 3),
        areaPx2: outer.area * small.shrink * small.shrink,
      };
      return referenceOnRim(photo, reference, rim, small.shrink).map((fit) => ({ fit, label: piece.label }));
    })
    .map((one) => ({ ...one, misfit: misfitOf(one.fit) }))
    .filter(({ fit, misfit }) => misfit < 3 && fit.scatterPx < 2 * small.shrink + 1)
    .sort((p, q) => p.misfit - q.misfit);
  const [first, second] = fits;
  if (first === undefined)
    throw new PhotoFault(
      `no ${referenceWords(reference)} stands out from the bench`,
      'a reference of another colour than the bench, wholly in the picture with bench all round it, or its corners picked by hand',
    );
  const other = fits.find(({ label }) => label !== first.label);
  if (other !== undefined && other.misfit < 1.5 * first.misfit + 0.3)
    throw new PhotoFault(
      'two things could be the reference',
      'its corners picked by hand, or the other thing taken away',
    );
  const turned = second !== undefined && second.label === first.label ? second : undefined;
  if (turned !== undefined && reference.kind !== 'square' && turned.misfit < 1.05 * first.misfit)
    throw new PhotoFault('which side of the reference is the long one cannot be told', 'its corners picked by hand');
  return first;
}

function pickedReference(
  scene: Scene,
  reference: PhotoReference,
  picked: readonly Point2[],
): { fit: CameraFit; label: number } {
  const { photo, small } = scene;
  const corners = writtenCorners(reference);
  const named = reference.kind === 'square' ? [corners[0]!, corners[1]!, corners[3]!, corners[5]!] : corners;
  if (picked.length !== 4)
    throw new PhotoFault(`${picked.length} corners of the reference picked`, 'four, in order round it');
  // either way round: seen from above, only one of them gives a camera above the bench
  const start =
    cameraFromCorners(photo, reference, named, picked) ??
    cameraFromCorners(photo, reference, named, [picked[0]!, picked[3]!, picked[2]!, picked[1]!]);
  if (start === undefined)
    throw new PhotoFault(
      'the picked corners do not look like the reference from above',
      'four corners, in order round it',
    );
  const fit = begunCamera(photo, reference, start);
  const middle = picked.reduce<Point2>((m, p) => [m[0] + p[0] / 4, m[1] + p[1] / 4], [0, 0]);
  // the piece that lies under most of a little way in from each pick
  const under = picked.map(([x, y]) =>
    labelAt(scene, [x + 0.02 * (middle[0] - x), y + 0.02 * (middle[1] - y)], small.shrink),
  );
  const label = under.find((one, i) => one !== 0 && under.indexOf(one) !== i) ?? 0;
  return { fit, label };
}

function labelAt({ labels, small }: Scene, [x, y]: Point2, shrink: number): number {
  const [i, j] = [Math.floor(x / shrink), Math.floor(y / shrink)];
  return i >= 0 && j >= 0 && i < small.width && j < small.height ? labels[j * small.width + i]! : 0;
}

/** The piece that is the template. */
export function templateIn(scene: Scene, wish: OutlineWish, referenceLabel: number): Piece {
  const seed = wish.hints?.templatePx;
  const rest = scene.things.filter(({ label }) => label !== referenceLabel).sort((p, q) => q.area - p.area);
  let piece = rest[0];
  if (seed !== undefined) {
    const label = labelAt(scene, seed, scene.small.shrink);
    piece = rest.find((one) => one.label === label);
    if (piece === undefined)
      throw new PhotoFault(
        'the place picked on the template is bench or reference, by its colour',
        'a place on the card, or a bench of another colour',
      );
  }
  if (piece === undefined)
    throw new PhotoFault(
      'no template stands out from the bench',
      'a bench of another colour than the card, or a sheet of plain coloured paper under it',
    );
  const second = rest.find((one) => one !== piece);
  if (seed === undefined && second !== undefined && second.area > SECOND * piece.area)
    throw new PhotoFault(
      `two things could be the template, the smaller ${Math.round((100 * second.area) / piece.area)} % as large`,
      'a pick on the template, or the other thing taken away',
    );
  if (piece.touchesRim)
    throw new PhotoFault(
      'the template runs out of the picture, its edge is not closed',
      'a picture with bench all round the template',
    );
  return piece;
}

/** Throws where the template is burnt out. */
export function checkBurnt({ photo, labels, small }: Scene, piece: Piece): void {
  let [burnt, count] = [0, 0];
  const half = small.shrink >> 1;
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] !== piece.label) continue;
    const x = (i % small.width) * small.shrink + half;
    const y = Math.floor(i / small.width) * small.shrink + half;
    const at = 4 * (y * photo.widthPx + x);
    count++;
    if (photo.rgba[at]! >= 254 && photo.rgba[at + 1]! >= 254) burnt++;
  }
  if (burnt > MOST_BURNT * count)
    throw new PhotoFault(
      `${Math.round((100 * burnt) / count)} % of the template is burnt out to white`,
      'less exposure: burnt light creeps over the edge',
    );
}

/** Throws where the camera leans too far. */
export function checkTilt(tiltDeg: number): void {
  if (tiltDeg > MOST_TILT_DEG)
    throw new PhotoFault(
      `the camera leans ${Math.round(tiltDeg)} degrees, at most ${MOST_TILT_DEG} are trusted`,
      'a picture taken from more nearly above',
    );
}

/** Mean of places. */
export function middleOf(points: readonly Point2[]): Point2 {
  return points.reduce<Point2>((m, p) => [m[0] + p[0] / points.length, m[1] + p[1] / points.length], [0, 0]);
}

/** Between the ray to a place on the bench and the plumb [deg]. */
export function tiltTo({ camera }: CameraFit, [x, y]: Point2): number {
  const [cx, cy, cz] = camera.centre;
  return (Math.atan2(Math.hypot(x - cx, y - cy), cz) * 180) / Math.PI;
}
