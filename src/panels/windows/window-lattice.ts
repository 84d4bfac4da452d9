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
import { drilledOutline } from './own-outline.ts';
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

/** Openings of an outline of one's own, their corners drilled, side by side at the least step that leaves the web. */
export function ownStamp(outline: Outline, times: number, webMm: number, drillMm: number): Stamp {
  const { outline: sized, corners } = drilledOutline(scaledOutline(outline, times), drillMm / 2);
  const { box } = readyOutline(sized);
  return {
    outline: sized,
    corners,
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

/** How a lattice is laid out: most openings in a row, rows; and, where they are not the usual ones, the places of all of them. */
export interface LatticeFit extends Pick<Division, 'count' | 'rows'> {
  /** Of each opening, from the mean of the field's corners: half steps along, rows over. */
  readonly places?: readonly (readonly [halfSteps: number, rows: number])[];
}

/** Set-off rows hold one less, so that the field is its own mirror. */
function usualPlaces({ isSetOff }: Stamp, { count, rows }: LatticeFit): (readonly [number, number])[] {
  return Array.from({ length: rows }, (_, r) => {
    const inRow = isSetOff && r % 2 === 1 ? count - 1 : count;
    return Array.from({ length: inRow }, (__, c) => [2 * c - (inRow - 1), r - (rows - 1) / 2] as const);
  }).flat();
}

/** Middles of a lattice about the middle of a field, rows level with its edge. */
function latticeMiddles(quad: FieldQuad, stamp: Stamp, fit: LatticeFit): Point2[] {
  const [u0, v0] = fit.places === undefined ? quadMiddle(quad) : cornersMean(quad);
  return (fit.places ?? usualPlaces(stamp, fit)).map(([half, r]) => [
    u0 + (half * stamp.stepMm) / 2,
    v0 + r * stamp.rowMm,
  ]);
}

/** Within the field whatever its sides do: openings that shrink towards it stay inside. */
function cornersMean(quad: FieldQuad): Point2 {
  const corners = quadCorners(quad);
  const mean = (axis: 0 | 1): number => corners.reduce((sum, corner) => sum + corner[axis], 0) / corners.length;
  return [mean(0), mean(1)];
}

/** How many openings a lattice has. */
export const latticeNumber = (stamp: Stamp, fit: LatticeFit): number => (fit.places ?? usualPlaces(stamp, fit)).length;

/** A lattice of so many; undefined where it reaches out of the field. */
export function latticeCells(quad: FieldQuad, stamp: Stamp, fit: LatticeFit): Cell[] | undefined {
  const middles = latticeMiddles(quad, stamp, fit);
  if (!middles.every((middle) => isInQuad(quad, stamp, middle))) return undefined;
  const areaMm2 = outlineArea(stamp.outline);
  return middles.map((middle) => ({
    outline: movedOutline(stamp.outline, middle),
    corners: stamp.corners.map(([x, y]): Point2 => [x + middle[0], y + middle[1]]),
    areaMm2,
  }));
}

const isSkew = ({ left, right, low, high }: FieldQuad): boolean =>
  [left, right, low, high].some(({ slope }) => Math.abs(slope) > LEVEL);
/** Sides that rise less than this are level [-]. */
const LEVEL = 1e-9;

/**
 * The lattice of so many in a row and so many rows in a field; undefined where it does not fit. Between sides that lean each row holds
 * what it has room for, one at least, and no more than `count`, which the fullest has.
 */
export function latticeOf(
  quad: FieldQuad,
  stamp: Stamp,
  count: number | undefined,
  rows: number,
): LatticeFit | undefined {
  const filled = isSkew(quad) ? filledLattice(quad, stamp, count, rows) : undefined;
  return filled ?? usualLattice(quad, stamp, { count: count ?? 1, rows });
}

const usualLattice = (quad: FieldQuad, stamp: Stamp, fit: LatticeFit): LatticeFit | undefined =>
  latticeMiddles(quad, stamp, fit).every((middle) => isInQuad(quad, stamp, middle)) ? fit : undefined;

/** Rows filled from end to end, set off by half where the stamp is; of the two ways to begin the one that holds more. */
function filledLattice(quad: FieldQuad, stamp: Stamp, count: number | undefined, rows: number): LatticeFit | undefined {
  const [u0] = quadMiddle(quad);
  const [u1, v1] = cornersMean(quad);
  const vs = quadCorners(quad).map(([, v]) => v);
  const v0 = (Math.min(...vs) + Math.max(...vs)) / 2;
  const [half, off] = [stamp.stepMm / 2, (v0 - v1) / stamp.rowMm];
  let best: LatticeFit | undefined;
  for (const phase of [0, 1]) {
    const inRows = Array.from({ length: rows }, (_, r) => {
      const odd = (phase + (stamp.isSetOff ? r : 0)) % 2;
      return filledRow(quad, stamp, [u0, v0 + (r - (rows - 1) / 2) * stamp.rowMm], odd, count ?? Infinity);
    });
    const fullest = Math.max(...inRows.map((halves) => halves.length));
    if (inRows.some((halves) => halves.length === 0) || (count !== undefined && fullest < count)) continue;
    const places = inRows.flatMap((halves, r) =>
      halves.map((k) => [k + (u0 - u1) / half, r - (rows - 1) / 2 + off] as const),
    );
    if (best === undefined || places.length > best.places!.length) best = { count: fullest, rows, places };
  }
  return best;
}

/** Half steps along from the middle at which a row has openings: all that fit, or the `count` nearest to the middle between its ends. */
function filledRow(quad: FieldQuad, stamp: Stamp, [u0, v]: Point2, odd: number, count: number): readonly number[] {
  const [first, last] = [heightAt(quad.left, v), heightAt(quad.right, v)];
  const half = stamp.stepMm / 2;
  const halves: number[] = [];
  for (let k = 2 * Math.ceil(((first - u0) / half - odd) / 2) + odd; u0 + k * half <= last; k += 2)
    if (isInQuad(quad, stamp, [u0 + k * half, v])) halves.push(k);
  const middle = (first + last) / 2;
  while (halves.length > count) {
    const [low, high] = [middle - (u0 + halves[0]! * half), u0 + halves.at(-1)! * half - middle];
    // As far off on both sides: both go, so that a mirrored panel keeps the mirrored ones.
    if (low > high - 1e-6) halves.shift();
    if (high > low - 1e-6) halves.pop();
  }
  return halves;
}

/** The count and rows of a stamp of fixed size that hold the most openings in a field. */
export function mostOfStamp(quad: FieldQuad, stamp: Stamp, count?: number, rows?: number): LatticeFit | undefined {
  const corners = quadCorners(quad);
  const [us, vs] = [corners.map(([u]) => u), corners.map(([, v]) => v)];
  const [wide, tall] = [Math.max(...us) - Math.min(...us), Math.max(...vs) - Math.min(...vs)];
  const mostRows = rows ?? Math.max(1, Math.floor(tall / stamp.rowMm) + 1);
  const mostCount = count ?? Math.max(1, Math.floor(wide / stamp.stepMm) + 1);
  let best: LatticeFit | undefined;
  let most = 0;
  const offer = (fit: LatticeFit | undefined): boolean => {
    const now = fit === undefined ? 0 : latticeNumber(stamp, fit);
    if (now > most) [best, most] = [fit, now];
    return fit !== undefined;
  };
  for (let r = rows ?? 1; r <= mostRows; r++) {
    if (isSkew(quad)) offer(filledLattice(quad, stamp, count, r));
    for (let c = mostCount; c >= (count ?? 1) && c * r > most; c--)
      if (offer(usualLattice(quad, stamp, { count: c, rows: r }))) break;
  }
  return best;
}
