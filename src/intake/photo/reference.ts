import type { Point2 } from '#geometry';

/**
 * The thing of known size beside the template. `frame`: an open rectangle, by its outer edges, `barMm` wide (absent: only
 * the outer edges are used). `sheet`, `rule`: a filled rectangle. `square`: a carpenter's square, by the outer edges of its
 * two arms and, where known, how wide they are.
 */
export type PhotoReference = {
  /** How far its face lies above the bench [mm]; absent: 0. */
  readonly thicknessMm?: number;
  /** How well its sizes are known [+-mm, 95 %]; absent: 0.5. */
  readonly knownToMm?: number;
} & (
  | { readonly kind: 'frame'; readonly widthMm: number; readonly heightMm: number; readonly barMm?: number }
  | { readonly kind: 'sheet' | 'rule'; readonly widthMm: number; readonly heightMm: number }
  | {
      readonly kind: 'square';
      readonly armMm: number;
      readonly otherArmMm: number;
      readonly armWideMm?: number;
      readonly otherArmWideMm?: number;
    }
);

/** Its sizes as a list to be fitted, with how well each is known (one standard deviation) [mm]. */
export interface ReferenceSizes {
  readonly mm: readonly number[];
  readonly spreadMm: readonly number[];
}

/** One straight edge of the reference, its material to the left as it goes. */
export type ReferenceEdge = readonly [from: Point2, to: Point2];

const KNOWN_TO_MM = 0.5;
/** A square's arms where nobody says how wide they are, and how far off that may be [mm]. */
const USUAL_ARM_MM = 45;
const ARM_SPREAD_MM = 12;

export function referenceSizes(reference: PhotoReference): ReferenceSizes {
  const spread = (reference.knownToMm ?? KNOWN_TO_MM) / 2;
  if (reference.kind !== 'square') {
    const bar = reference.kind === 'frame' ? reference.barMm : undefined;
    return {
      mm: [reference.widthMm, reference.heightMm, ...(bar === undefined ? [] : [bar])],
      spreadMm: [spread, spread, ...(bar === undefined ? [] : [spread])],
    };
  }
  const { armMm, otherArmMm, armWideMm, otherArmWideMm } = reference;
  const wide = (mm: number | undefined): number => (mm === undefined ? ARM_SPREAD_MM : spread);
  return {
    mm: [armMm, otherArmMm, armWideMm ?? USUAL_ARM_MM, otherArmWideMm ?? USUAL_ARM_MM],
    spreadMm: [spread, spread, wide(armWideMm), wide(otherArmWideMm)],
  };
}

/** The same reference with its two ways exchanged: how it lies in the picture is not known beforehand. */
export function exchanged(reference: PhotoReference): PhotoReference {
  if (reference.kind !== 'square') return { ...reference, widthMm: reference.heightMm, heightMm: reference.widthMm };
  const { armMm, otherArmMm, armWideMm, otherArmWideMm, ...rest } = reference;
  return {
    ...rest,
    armMm: otherArmMm,
    otherArmMm: armMm,
    ...(otherArmWideMm === undefined ? {} : { armWideMm: otherArmWideMm }),
    ...(armWideMm === undefined ? {} : { otherArmWideMm: armWideMm }),
  };
}

/** Corners of its outside, counter-clockwise seen from above; a square's from its outer corner, the inner one fourth. */
export function outerCorners(kind: PhotoReference['kind'], sizes: ArrayLike<number>): Point2[] {
  const [a, b] = [sizes[0]!, sizes[1]!];
  if (kind !== 'square')
    return [
      [0, 0],
      [a, 0],
      [a, b],
      [0, b],
    ];
  const [wideA, wideB] = [sizes[2]!, sizes[3]!];
  return [
    [0, 0],
    [a, 0],
    [a, wideA],
    [wideB, wideA],
    [wideB, b],
    [0, b],
  ];
}

/** Every edge it is seen by; `skew` [rad] is how far its corner is off a right angle. */
export function referenceEdges(kind: PhotoReference['kind'], sizes: ArrayLike<number>, skew: number): ReferenceEdge[] {
  const ring = outerCorners(kind, sizes);
  const edges = ring.map((p, i): ReferenceEdge => [p, ring[(i + 1) % ring.length]!]);
  if (kind === 'frame' && sizes.length > 2) {
    const [w, h, bar] = [sizes[0]!, sizes[1]!, sizes[2]!];
    const inner: Point2[] = [
      [bar, bar],
      [bar, h - bar],
      [w - bar, h - bar],
      [w - bar, bar],
    ];
    edges.push(...inner.map((p, i): ReferenceEdge => [p, inner[(i + 1) % 4]!]));
  }
  const skewed = ([x, y]: Point2): Point2 => [x + skew * y, y];
  return edges.map(([p, q]) => [skewed(p), skewed(q)]);
}

/** In words, as in "square 620 x 420 mm". */
export function referenceWords(reference: PhotoReference): string {
  return reference.kind === 'square'
    ? `square ${reference.armMm} x ${reference.otherArmMm} mm`
    : `${reference.kind} ${reference.widthMm} x ${reference.heightMm} mm`;
}
