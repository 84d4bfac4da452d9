/**
 * Something solid on a line: the union of discs of `radiusMm` square to `path` (flat ends; a sphere fills the mitre at a corner).
 * `path` holds x,y,z triples [mm], points at most 3 mm apart on bends.
 */
export interface Body {
  readonly part: string;
  readonly path: Float64Array;
  readonly radiusMm: number;
}
