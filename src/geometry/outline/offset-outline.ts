import { distanceToOutline, readyOutline } from './near-outline.ts';
import { type Outline, outlineArea, type Point2, reversedOutline } from './outline.ts';
import { outlineSides, type Side, sideHeading, sidePoint } from './side.ts';
import { cutAt, stitched } from './stitched.ts';

/**
 * Outlines at one distance from an outline, arcs as arcs: outward for `byMm` > 0, with round corners where it turns outward;
 * inward for less than 0, in as many pieces as it falls into, none where nothing is left. Counter-clockwise whichever way the
 * outline is gone round; a hole that closes in on itself outward comes clockwise.
 *
 * Every point of the answer lies on a side moved square to itself or on an arc about a corner, and is no nearer to the outline
 * than asked: so those are cut where they meet, and the pieces that are too near fall away.
 */
export function offsetOutline(outline: Outline, byMm: number): Outline[] {
  const round = outlineArea(outline) < 0 ? reversedOutline(outline) : outline;
  if (byMm === 0) return [round];
  const sides = outlineSides(round);
  const raw = rawOffset(sides, byMm);
  const from = readyOutline(round);
  const far = Math.abs(byMm);
  const slack = 1e-6 * Math.max(1, far);
  const kept = cutAt(raw, raw).filter((piece) => distanceToOutline(from, sidePoint(piece, 0.5)) >= far - slack);
  return stitched(kept);
}

/** Each side moved square to itself, and an arc about each corner where that opens a gap. */
function rawOffset(sides: readonly Side[], by: number): Side[] {
  const raw: Side[] = [];
  for (const [i, side] of sides.entries()) {
    const before = sides[(i + sides.length - 1) % sides.length]!;
    const [h, g] = [sideHeading(before, 1), sideHeading(side, 0)];
    const turns = h[0] * g[1] - h[1] * g[0];
    const onward = h[0] * g[0] + h[1] * g[1];
    // A corner that turns away from the side it is moved to; one that turns right back counts as such.
    const opens = by > 0 ? turns > 1e-9 : turns < -1e-9;
    if (opens || (onward < 0 && Math.abs(turns) <= 1e-9)) {
      const angle = Math.abs(Math.atan2(turns, onward)) * Math.sign(by);
      const from = Math.atan2(-h[0] * by, h[1] * by);
      const arc = { centre: side.a, radius: Math.abs(by), from, through: angle };
      raw.push({ a: moved(side.a, h, by), b: moved(side.a, g, by), arc });
    }
    const across = movedSide(side, by);
    if (across !== undefined) raw.push(across);
  }
  return raw;
}

const moved = (p: Point2, heading: Point2, by: number): Point2 => [p[0] + heading[1] * by, p[1] - heading[0] * by];

function movedSide(side: Side, by: number): Side | undefined {
  const a = moved(side.a, sideHeading(side, 0), by);
  const b = moved(side.b, sideHeading(side, 1), by);
  if (side.arc === undefined) return { a, b };
  const radius = side.arc.radius + by * Math.sign(side.arc.through);
  return radius <= 1e-9 ? undefined : { a, b, arc: { ...side.arc, radius } };
}
