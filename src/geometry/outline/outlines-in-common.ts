import { isInOutline, readyOutline } from './near-outline.ts';
import { type Outline, outlineArea, type Point2, reversedOutline } from './outline.ts';
import { outlineSides, type Side, sideHeading, sidePoint } from './side.ts';
import { cutAt, stitched } from './stitched.ts';

const leftward = (outline: Outline): Outline => (outlineArea(outline) < 0 ? reversedOutline(outline) : outline);

/** What two outlines have in common, as outlines; arcs stay arcs. None where they lie apart. */
export function commonOutlines(one: Outline, other: Outline): Outline[] {
  const [a, b] = [leftward(one), leftward(other)];
  const [sidesA, sidesB] = [outlineSides(a), outlineSides(b)];
  const [inA, inB] = [readyOutline(a), readyOutline(b)];
  // Where sides lie on one another and run the same way, the first outline's counts; the other way, neither.
  const ofA = cutAt(sidesA, sidesB).filter((side) => isInOutline(inB, besideMiddle(side, 1)));
  const ofB = cutAt(sidesB, sidesA).filter(
    (side) => isInOutline(inA, besideMiddle(side, 1)) && isInOutline(inA, besideMiddle(side, -1)),
  );
  return stitched([...ofA, ...ofB]);
}

/** A step to the side that tells in from out and is yet far above rounding [mm]. */
const BESIDE = 1e-6;

/** Just to the left (1) or right (-1) of a piece's middle. */
function besideMiddle(side: Side, way: 1 | -1): Point2 {
  const [p, h] = [sidePoint(side, 0.5), sideHeading(side, 0.5)];
  return [p[0] - way * BESIDE * h[1], p[1] + way * BESIDE * h[0]];
}
