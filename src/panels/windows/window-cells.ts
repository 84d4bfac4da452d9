import { cornerReach, type Outline, outlineArea, type Point2, roundedPolygon } from '#geometry';
import {
  between,
  distanceToStretch,
  type FieldQuad,
  heightAt,
  isRealQuad,
  meet,
  quadCorners,
  quadHeight,
  quadLength,
  raised,
  type Slanted,
} from './field-quad.ts';

/** An opening before it has a name: what is cut, and the centres of its corner holes. */
export interface Cell {
  readonly outline: Outline;
  readonly corners: readonly Point2[];
  readonly areaMm2: number;
}

/** How a field is divided [mm]. */
export interface Division {
  readonly count: number;
  readonly rows: number;
  readonly webMm: number;
  readonly drillMm: number;
}

const cell = (outline: Outline, corners: readonly Point2[]): Cell => ({
  outline,
  corners,
  areaMm2: outlineArea(outline),
});

/** Two lines and what stands between them, in so many equal shares with a web between each and the next, square to its own sides. */
function shares(from: Slanted, to: Slanted, count: number, webMm: number): [Slanted, Slanted][] {
  const [a, b] = [raised(from, -webMm / 2), raised(to, webMm / 2)];
  return Array.from({ length: count }, (_, k): [Slanted, Slanted] => [
    raised(between(a, b, k / count), webMm / 2),
    raised(between(a, b, (k + 1) / count), -webMm / 2),
  ]);
}

/** The quads that a field's rows and columns leave between webs: every web has two parallel sides, so it is as wide all along. */
function dividedQuads(quad: FieldQuad, { count, rows, webMm }: Division): FieldQuad[] {
  const columns = shares(quad.left, quad.right, count, webMm);
  return shares(quad.low, quad.high, rows, webMm).flatMap(([low, high]) =>
    columns.map(([left, right]) => ({ left, right, low, high })),
  );
}

/** Trapezoids with drilled corners; undefined where one is too small for its corner holes. */
export function trapezoidCells(quad: FieldQuad, division: Division): Cell[] | undefined {
  const cells: Cell[] = [];
  for (const part of dividedQuads(quad, division)) {
    const corners = quadCorners(part);
    if (!isRealQuad(part)) return undefined;
    const rounded = roundedPolygon(corners, division.drillMm / 2);
    if (rounded === undefined) return undefined;
    cells.push(
      cell(
        rounded.outline,
        rounded.corners.map(({ centre }) => centre),
      ),
    );
  }
  return cells;
}

/**
 * Area of those trapezoids together without laying them: each corner that turns through t takes r^2 (tan(t/2) - t/2) off its quad.
 * 0 where one is too small for its corner holes.
 */
export function trapezoidArea(quad: FieldQuad, division: Division): number {
  const r = division.drillMm / 2;
  const columns = shares(quad.left, quad.right, division.count, division.webMm);
  const rows = shares(quad.low, quad.high, division.rows, division.webMm);
  let area = 0;
  for (const [low, high] of rows)
    for (const [left, right] of columns) {
      const one = roundedArea(left, right, low, high, r);
      if (one === undefined) return 0;
      area += one;
    }
  return area;
}

/** Where a side and an end meet, along the field [mm]. */
const meetU = (end: Slanted, side: Slanted): number => (end.at0 + end.slope * side.at0) / (1 - end.slope * side.slope);

/** One of them; undefined where a corner hole does not fit. Round it from its lower left corner: a b c d. */
function roundedArea(left: Slanted, right: Slanted, low: Slanted, high: Slanted, r: number): number | undefined {
  const [ua, ub, uc, ud] = [meetU(left, low), meetU(right, low), meetU(right, high), meetU(left, high)];
  const [va, vb, vc, vd] = [heightAt(low, ua), heightAt(low, ub), heightAt(high, uc), heightAt(high, ud)];
  if (ub <= ua || uc <= ud || vd <= va || vc <= vb) return undefined;
  const [below, above] = [Math.atan(low.slope), Math.atan(high.slope)];
  const [before, after] = [Math.atan(left.slope), Math.atan(right.slope)];
  // What each corner turns through: an end that leans to the right has the lesser angle below it.
  const ta = Math.PI / 2 + below + before;
  const tb = Math.PI / 2 - below - after;
  const tc = Math.PI / 2 + above + after;
  const td = Math.PI / 2 - above - before;
  const [ra, rb, rc, rd] = [cornerReach(ta, r), cornerReach(tb, r), cornerReach(tc, r), cornerReach(td, r)];
  const fits =
    ra + rb <= Math.hypot(ub - ua, vb - va) + 1e-9 &&
    rb + rc <= Math.hypot(uc - ub, vc - vb) + 1e-9 &&
    rc + rd <= Math.hypot(ud - uc, vd - vc) + 1e-9 &&
    rd + ra <= Math.hypot(ua - ud, va - vd) + 1e-9;
  if (!fits) return undefined;
  const whole = ((uc - ua) * (vd - vb) - (ud - ub) * (vc - va)) / 2;
  return whole - r * (ra + rb + rc + rd - (r * (ta + tb + tc + td)) / 2);
}

/**
 * Slots across the field, as wide as their drill, with half round ends; they stand as its ends do, and what the field is wider than
 * they need goes into the webs. Undefined where two of them come nearer than a web.
 */
export function slotCells(quad: FieldQuad, division: Division): Cell[] | undefined {
  const { count, rows, webMm, drillMm } = division;
  const r = drillMm / 2;
  const [first, last] = [raised(quad.left, r), raised(quad.right, -r)];
  const axes = Array.from({ length: count }, (_, k) => between(first, last, count === 1 ? 1 / 2 : k / (count - 1)));
  const cells: Cell[] = [];
  for (const [low, high] of shares(quad.low, quad.high, rows, webMm)) {
    const [from, to] = [raised(low, r), raised(high, -r)];
    const ends = axes.map((axis) => [meet(axis, from), meet(axis, to)] as const);
    if (ends.some(([a, b]) => b[1] < a[1] + 1e-6)) return undefined;
    for (const [k, [a, b]] of ends.slice(1).entries())
      if (stretchesApart(ends[k]!, [a, b]) < drillMm + webMm - 1e-9) return undefined;
    if (meet(first, from)[0] > meet(last, from)[0] + 1e-9 || meet(first, to)[0] > meet(last, to)[0] + 1e-9)
      return undefined;
    for (const [a, b] of ends) cells.push(slotCell(a, b, r));
  }
  return cells;
}

function slotCell(a: Point2, b: Point2, r: number): Cell {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [x, y] = [((b[1] - a[1]) / long) * r, ((a[0] - b[0]) / long) * r];
  const outline: Outline = [
    { at: [a[0] + x, a[1] + y] },
    { at: [b[0] + x, b[1] + y], bulge: 1 },
    { at: [b[0] - x, b[1] - y] },
    { at: [a[0] - x, a[1] - y], bulge: 1 },
  ];
  return cell(outline, [a, b]);
}

type Stretch = readonly [Point2, Point2];

/** Least distance of two stretches that don't cross: from an end of one to the other. */
const stretchesApart = (p: Stretch, q: Stretch): number =>
  Math.min(...p.map((at) => distanceToStretch(at, q[0], q[1])), ...q.map((at) => distanceToStretch(at, p[0], p[1])));

/** Openings of usual proportions: how many go side by side where no number is asked for. Source: common-practice. */
export function usualCount(
  shape: 'trapezoid' | 'slot',
  quad: FieldQuad,
  rows: number,
  webMm: number,
  drillMm: number,
): number {
  const wide = quadLength(quad);
  const high = quadHeight(quad) / rows;
  const one = shape === 'slot' ? drillMm : Math.max(high, 2 * cornerReach(Math.PI / 2, drillMm / 2) + 1);
  const fits = (wide + webMm) / (one + webMm);
  return Math.max(1, shape === 'slot' ? Math.floor(fits + 1e-9) : Math.round(fits));
}
