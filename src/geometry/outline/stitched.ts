import { type Outline, outlineArea, type Point2 } from './outline.ts';
import { outlineOfSides, type Side, sideBetween, sideCrossings, sideLength } from './side.ts';

/** Pieces shorter than this are rounding [mm]. */
const NO_LENGTH = 1e-8;
/** Ends this near to one another are one point [mm]. */
const ONE_POINT = 1e-5;
/** A loop that holds less than this is two sides lying on one another [mm2]. */
const NO_AREA = 1e-6;

/** Sides cut wherever they meet one of `knives`. */
export function cutAt(sides: readonly Side[], knives: readonly Side[]): Side[] {
  return sides.flatMap((side) => {
    const cuts = [0, 1];
    for (const knife of knives) if (knife !== side) for (const { one } of sideCrossings(side, knife)) cuts.push(one);
    cuts.sort((a, b) => a - b);
    const pieces: Side[] = [];
    let from = 0;
    const long = sideLength(side);
    for (const cut of cuts.slice(1)) {
      if ((cut - from) * long < NO_LENGTH && cut < 1) continue;
      if ((cut - from) * long >= NO_LENGTH) pieces.push(sideBetween(side, from, cut));
      from = cut;
    }
    return pieces;
  });
}

/** Outlines made of pieces that follow one another end to end; loops that hold nothing are left out. */
export function stitched(pieces: readonly Side[]): Outline[] {
  const whole = withoutStubs(pieces);
  const left = new Set(whole);
  const outlines: Outline[] = [];
  for (const first of whole) {
    if (!left.delete(first)) continue;
    const chain = [first];
    const begins = first.a;
    for (;;) {
      const end = chain.at(-1)!.b;
      if (chain.length > 1 && Math.hypot(end[0] - begins[0], end[1] - begins[1]) < ONE_POINT) break;
      const next = nearest(left, end);
      if (next === undefined) break;
      left.delete(next);
      chain.push(next);
    }
    const end = chain.at(-1)!.b;
    const isClosed = Math.hypot(end[0] - begins[0], end[1] - begins[1]) < ONE_POINT;
    if (!isClosed || chain.length < 2) continue;
    const outline = outlineOfSides(chain);
    if (Math.abs(outlineArea(outline)) > NO_AREA) outlines.push(outline);
  }
  return outlines;
}

/** Pieces that lead on at both ends: what is left over beyond a very flat corner does not. */
function withoutStubs(pieces: readonly Side[]): readonly Side[] {
  const isNear = (p: Point2, q: Point2): boolean => Math.hypot(p[0] - q[0], p[1] - q[1]) < ONE_POINT;
  for (let now = pieces; ; ) {
    const kept = now.filter(
      (side) => now.some((other) => isNear(other.a, side.b)) && now.some((other) => isNear(other.b, side.a)),
    );
    if (kept.length === now.length) return kept;
    now = kept;
  }
}

function nearest(left: ReadonlySet<Side>, end: Point2): Side | undefined {
  let best: Side | undefined;
  let least = ONE_POINT;
  for (const side of left) {
    const far = Math.hypot(side.a[0] - end[0], side.a[1] - end[1]);
    if (far < least) [best, least] = [side, far];
  }
  return best;
}
