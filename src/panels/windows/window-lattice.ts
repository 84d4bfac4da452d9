import {
  movedOutline,
  type Outline,
  outlineArea,
  outlineGap,
  outlinePoints,
  type Point2,
  readyOutline,
  roundOutline,
  roundedPolygon,
  scaledOutline,
} from '#geometry';
import { type FieldQuad, heightAt, quadCorners, quadMiddle, type Slanted } from './field-quad.ts';
import type { Cell, Division } from './window-cells.ts';

/** One opening of a lattice of equals about its own middle, and how the lattice steps [mm]. */
export interface Stamp {
  readonly outline: Outline;
  readonly corners: readonly Point2[];
  /** Points that, when inside, keep all of it inside; and by how much it reaches beyond them. */
  readonly reach: readonly Point2[];
  readonly reachMm: number;
  /** From one to the next in a row; from row to row; rows in between set off by half. */
  readonly stepMm: number;
  readonly rowMm: number;
  readonly isSetOff: boolean;
}

const SIN60 = Math.sqrt(3) / 2;
/** Inside corners of a hexagon's flats to its points. */
const SIXTHS = [1, 3, 5, 7, 9, 11];

/** Round openings in rows set off by half: every neighbour is one web away. */
export function roundStamp(diameterMm: number, webMm: number): Stamp {
  const step = diameterMm + webMm;
  return {
    outline: roundOutline([0, 0], diameterMm / 2),
    corners: [],
    reach: [[0, 0]],
    reachMm: diameterMm / 2,
    stepMm: step,
    rowMm: step * SIN60,
    isSetOff: true,
  };
}

/** Hexagons flat to flat in rows set off by half: all three ways of webs are as wide. */
export function hexagonStamp(acrossFlatsMm: number, webMm: number, drillMm: number): Stamp | undefined {
  const out = acrossFlatsMm / 2 / Math.cos(Math.PI / 6);
  const points = SIXTHS.map((k): Point2 => [out * Math.cos((k * Math.PI) / 6), out * Math.sin((k * Math.PI) / 6)]);
  const rounded = roundedPolygon(points, drillMm / 2);
  if (rounded === undefined) return undefined;
  const step = acrossFlatsMm + webMm;
  const corners = rounded.corners.map(({ centre }) => centre);
  return {
    outline: rounded.outline,
    corners,
    reach: corners,
    reachMm: drillMm / 2,
    stepMm: step,
    rowMm: step * SIN60,
    isSetOff: true,
  };
}

/** Openings of an outline of one's own, side by side at the least step that leaves the web. */
export function ownStamp(outline: Outline, times: number, webMm: number): Stamp {
  const sized = scaledOutline(outline, times);
  const { box } = readyOutline(sized);
  return {
    outline: sized,
    corners: [],
    reach: outlinePoints(sized, 0.01),
    reachMm: 0.01,
    stepMm: leastStep(sized, [1, 0], box[2] - box[0], webMm),
    rowMm: leastStep(sized, [0, 1], box[3] - box[1], webMm),
    isSetOff: false,
  };
}

/** The least step at which an outline is a web away from its copy: no more than its own length that way and the web. */
function leastStep(outline: Outline, way: Point2, long: number, webMm: number): number {
  const from = readyOutline(outline);
  let [low, high] = [0, long + webMm];
  for (let k = 0; k < 40; k++) {
    const mid = (low + high) / 2;
    const gap = outlineGap(from, movedOutline(outline, [way[0] * mid, way[1] * mid]));
    // One that lies within the other is not apart either: it must have passed the box's half.
    if (gap >= webMm && mid >= long / 2) high = mid;
    else low = mid;
  }
  return high;
}

/** Whether a stamp at a place lies in a field, by the points of its reach. */
function isInQuad({ left, right, low, high }: FieldQuad, stamp: Stamp, [x, y]: Point2): boolean {
  const off = ({ slope }: Slanted): number => stamp.reachMm * Math.hypot(1, slope);
  return stamp.reach.every(([dx, dy]) => {
    const [u, v] = [x + dx, y + dy];
    return (
      u - off(left) >= heightAt(left, v) - 1e-9 &&
      u + off(right) <= heightAt(right, v) + 1e-9 &&
      v - off(low) >= heightAt(low, u) - 1e-9 &&
      v + off(high) <= heightAt(high, u) + 1e-9
    );
  });
}

/**
 * Middles of a lattice about the middle of a field, rows level with its edge. Set-off rows hold one less, so that the field is
 * its own mirror.
 */
export function latticeMiddles(
  quad: FieldQuad,
  { stepMm, rowMm, isSetOff }: Stamp,
  count: number,
  rows: number,
): Point2[] {
  const [u0, v0] = quadMiddle(quad);
  const middles: Point2[] = [];
  for (let r = 0; r < rows; r++) {
    const inRow = isSetOff && r % 2 === 1 ? count - 1 : count;
    for (let c = 0; c < inRow; c++)
      middles.push([u0 + (c - (inRow - 1) / 2) * stepMm, v0 + (r - (rows - 1) / 2) * rowMm]);
  }
  return middles;
}

/** A lattice of so many; undefined where it reaches out of the field. */
export function latticeCells(
  quad: FieldQuad,
  stamp: Stamp,
  { count, rows }: Pick<Division, 'count' | 'rows'>,
): Cell[] | undefined {
  const middles = latticeMiddles(quad, stamp, count, rows);
  if (!middles.every((middle) => isInQuad(quad, stamp, middle))) return undefined;
  const areaMm2 = outlineArea(stamp.outline);
  return middles.map((middle) => ({
    outline: movedOutline(stamp.outline, middle),
    corners: stamp.corners.map(([x, y]): Point2 => [x + middle[0], y + middle[1]]),
    areaMm2,
  }));
}

/** Whether so many of this stamp fit, without making them. */
export const latticeFits = (quad: FieldQuad, stamp: Stamp, count: number, rows: number): boolean =>
  latticeMiddles(quad, stamp, count, rows).every((middle) => isInQuad(quad, stamp, middle));

/** The count and rows of a stamp of fixed size that hold the most openings in a field. */
export function mostOfStamp(
  quad: FieldQuad,
  stamp: Stamp,
  count?: number,
  rows?: number,
): Pick<Division, 'count' | 'rows'> | undefined {
  const corners = quadCorners(quad);
  const [us, vs] = [corners.map(([u]) => u), corners.map(([, v]) => v)];
  const [wide, tall] = [Math.max(...us) - Math.min(...us), Math.max(...vs) - Math.min(...vs)];
  const mostRows = rows ?? Math.max(1, Math.floor(tall / stamp.rowMm) + 1);
  const mostCount = count ?? Math.max(1, Math.floor(wide / stamp.stepMm) + 1);
  let best: Pick<Division, 'count' | 'rows'> | undefined;
  let most = 0;
  for (let r = rows ?? 1; r <= mostRows; r++)
    for (let c = mostCount; c >= (count ?? 1); c--) {
      const now = latticeMiddles(quad, stamp, c, r).length;
      if (now <= most) break;
      if (!latticeFits(quad, stamp, c, r)) continue;
      [best, most] = [{ count: c, rows: r }, now];
      break;
    }
  return best;
}
