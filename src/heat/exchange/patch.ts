import { perpendicular, type Solid, type SolidForm, type Vec, add, cross, norm, scale, sub } from '#geometry';
import { BALL_PIECE, DISC_PIECE, FLAT_PIECE, PIECE_WORDS, ROUND_PIECE, TRIANGLE_PIECE } from './patch-point.kernel.ts';

/** Something that takes up and gives off heat by radiation, told apart from the others. */
export interface HeatSurface {
  readonly id: string;
  readonly kind: 'part' | 'panel' | 'line';
  readonly solids: readonly Solid[];
  /** Total emissivity of its outside, 0.01 to 1. */
  readonly emissivity: number;
  /** Of the back of an open sheet, where it differs. */
  readonly backEmissivity?: number;
}

/** A piece of a surface that rays start from. */
export interface Patch {
  /** Index of the surface it belongs to. */
  readonly surface: number;
  /** Of all its pieces, covered ones too [m2]. */
  readonly areaM2: number;
  readonly emissivity: number;
  /** See `patch-point.kernel.ts`. */
  readonly pieces: Float64Array;
}

/** One simple piece of a patch: its numbers and its area [mm2]. */
export interface Piece {
  readonly areaMm2: number;
  readonly words: readonly number[];
}

/** A parallelogram on two sides; `normal` is its outside. */
export const flatPiece = (corner: Vec, a: Vec, b: Vec): Piece => flat(FLAT_PIECE, corner, a, b, 1);

/** A triangle, anticlockwise seen from outside. */
export const trianglePiece = (a: Vec, b: Vec, c: Vec): Piece => flat(TRIANGLE_PIECE, a, sub(b, a), sub(c, a), 0.5);

function flat(kind: number, corner: Vec, a: Vec, b: Vec, part: number): Piece {
  const square = cross(a, b);
  const area = norm(square);
  return { areaMm2: area * part, words: [kind, 0, ...corner, ...a, ...b, ...scale(square, 1 / area)] };
}

/**
 * A sector of the side of a round bar.
 *
 * @param from - foot of its axis
 * @param axis - unit vector
 * @param start - unit vector square to the axis where the sector begins; it runs on right-handed about the axis
 */
export function roundPiece(
  from: Vec,
  axis: Vec,
  start: Vec,
  radiusMm: number,
  lengthMm: number,
  sectorRad: number,
): Piece {
  const words = [ROUND_PIECE, 0, ...from, ...axis, ...start, radiusMm, lengthMm, sectorRad];
  return { areaMm2: radiusMm * sectorRad * lengthMm, words };
}

export const discPiece = (middle: Vec, normal: Vec, radiusMm: number): Piece => ({
  areaMm2: Math.PI * radiusMm ** 2,
  words: [DISC_PIECE, 0, ...middle, ...normal, ...perpendicular(normal), radiusMm],
});

/** A slice of a ball between two heights along an axis, over the radius: -1 to 1 is all of it. */
export const ballPiece = (middle: Vec, axis: Vec, radiusMm: number, low = -1, high = 1): Piece => ({
  areaMm2: 2 * Math.PI * radiusMm ** 2 * (high - low),
  words: [BALL_PIECE, 0, ...middle, ...axis, ...perpendicular(axis), radiusMm, low, high],
});

/** The pieces laid out for sampling. */
export function patchOf(surface: number, emissivity: number, pieces: readonly Piece[]): Patch {
  const kept = pieces.filter(({ areaMm2 }) => areaMm2 > 0);
  const whole = kept.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
  const laid = new Float64Array(kept.length * PIECE_WORDS);
  let sum = 0;
  kept.forEach(({ areaMm2, words }, i) => {
    laid.set(words, i * PIECE_WORDS);
    sum += areaMm2;
    laid[i * PIECE_WORDS + 1] = i === kept.length - 1 ? 1 : sum / whole;
  });
  return { surface, areaM2: whole / 1e6, emissivity, pieces: laid };
}

/** All of a solid's surface in pieces. Of a mesh the triangles; an open sheet's front alone. */
export function solidPieces(solid: Solid): readonly Piece[] {
  const { form } = solid;
  if (form.kind === 'mesh') return meshPieces(form);
  if (form.kind === 'box') return boxPieces(form);
  const { a, b, radiusMm } = form;
  const run = sub(b, a);
  const length = norm(run);
  if (length === 0) return [ballPiece(a, [0, 0, 1], radiusMm)];
  const axis = scale(run, 1 / length);
  const back = scale(axis, -1);
  const side = roundPiece(a, axis, perpendicular(axis), radiusMm, length, 2 * Math.PI);
  return form.kind === 'cylinder'
    ? [side, discPiece(a, back, radiusMm), discPiece(b, axis, radiusMm)]
    : [side, ballPiece(a, back, radiusMm, 0, 1), ballPiece(b, axis, radiusMm, 0, 1)];
}

function boxPieces({ centre, axes, half }: Extract<SolidForm, { kind: 'box' }>): readonly Piece[] {
  return ([0, 1, 2] as const).flatMap((i) => {
    const [j, k] = [(i + 1) % 3, (i + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
    return [1, -1].map((way) => {
      const a = scale(axes[j], 2 * half[j] * way);
      const b = scale(axes[k], 2 * half[k]);
      const middle = add(centre, scale(axes[i], half[i] * way));
      return flatPiece(sub(middle, scale(add(a, b), 0.5)), a, b);
    });
  });
}

function meshPieces({ prepared, motion }: Extract<SolidForm, { kind: 'mesh' }>): readonly Piece[] {
  const { corners, cornersLow } = prepared.bvh;
  const { rows, shift } = motion;
  const corner = (at: number): Vec => {
    const p = [0, 1, 2].map((i) => corners[at + i]! + (cornersLow[at + i] ?? 0)) as unknown as Vec;
    return rows.map((row, i) => row[0] * p[0] + row[1] * p[1] + row[2] * p[2] + shift[i]!) as unknown as Vec;
  };
  const turn = prepared.sign.by !== 'none' && prepared.sign.way < 0;
  return Array.from({ length: corners.length / 9 }, (_, t) => {
    const [a, b, c] = [corner(t * 9), corner(t * 9 + 3), corner(t * 9 + 6)];
    return turn ? trianglePiece(a, c, b) : trianglePiece(a, b, c);
  });
}
