import { cornerReach, type Outline, outlineArea, type Point2, roundedPolygon } from '#geometry';
import { between, type FieldQuad, heightAt, quadCorners, raised } from './field-quad.ts';

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

/** The quads that a field's rows and columns leave between webs: every web has two parallel sides, so it is as wide all along. */
function dividedQuads(quad: FieldQuad, { count, rows, webMm }: Division): FieldQuad[] {
  const wide = (quad.right - quad.left - (count - 1) * webMm) / count;
  const quads: FieldQuad[] = [];
  for (let r = 0; r < rows; r++) {
    const low = raised(between(quad.low, quad.high, r / rows), r === 0 ? 0 : webMm / 2);
    const high = raised(between(quad.low, quad.high, (r + 1) / rows), r === rows - 1 ? 0 : -webMm / 2);
    for (let c = 0; c < count; c++) {
      const left = quad.left + c * (wide + webMm);
      quads.push({ left, right: left + wide, low, high });
    }
  }
  return quads;
}

/** Trapezoids with drilled corners; undefined where one is too small for its corner holes. */
export function trapezoidCells(quad: FieldQuad, division: Division): Cell[] | undefined {
  const cells: Cell[] = [];
  for (const part of dividedQuads(quad, division)) {
    const corners = quadCorners(part);
    if (part.right <= part.left || corners[3]![1] <= corners[0]![1] || corners[2]![1] <= corners[1]![1])
      return undefined;
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
  let area = 0;
  for (const { left, right, low, high } of dividedQuads(quad, division)) {
    const wide = right - left;
    const [a, b] = [heightAt(high, left) - heightAt(low, left), heightAt(high, right) - heightAt(low, right)];
    if (wide <= 0 || a <= 0 || b <= 0) return 0;
    const [below, above] = [Math.atan(low.slope), Math.atan(high.slope)];
    // Round the quad, from its lower left corner: what each corner turns through.
    const turns = [Math.PI / 2 + below, Math.PI / 2 - below, Math.PI / 2 + above, Math.PI / 2 - above];
    const reach = turns.map((turn) => cornerReach(turn, r));
    const sides = [wide / Math.cos(below), b, wide / Math.cos(above), a];
    if (sides.some((side, i) => reach[i]! + reach[(i + 1) % 4]! > side + 1e-9)) return 0;
    area += (wide * (a + b)) / 2 - turns.reduce((sum, turn, i) => sum + r * (reach[i]! - (r * turn) / 2), 0);
  }
  return area;
}

/** Slots across the field, as wide as their drill, with half round ends; what the field is wider than they need goes into the webs. */
export function slotCells(quad: FieldQuad, division: Division): Cell[] | undefined {
  const { count, rows, webMm, drillMm } = division;
  const room = quad.right - quad.left - count * drillMm;
  if (room < (count - 1) * webMm - 1e-9) return undefined;
  const wider = count === 1 ? webMm : room / (count - 1);
  const inset = count === 1 ? room / 2 : 0;
  const inside = { ...quad, left: quad.left + inset, right: quad.right - inset };
  const r = drillMm / 2;
  const cells: Cell[] = [];
  for (let k = 0; k < rows; k++) {
    const low = raised(between(quad.low, quad.high, k / rows), r + (k === 0 ? 0 : webMm / 2));
    const high = raised(between(quad.low, quad.high, (k + 1) / rows), -r - (k === rows - 1 ? 0 : webMm / 2));
    for (let c = 0; c < count; c++) {
      const u = inside.left + r + c * (drillMm + wider);
      const [v0, v1] = [heightAt(low, u), heightAt(high, u)];
      if (v1 < v0 + 1e-6) return undefined;
      const outline: Outline = [
        { at: [u + r, v0] },
        { at: [u + r, v1], bulge: 1 },
        { at: [u - r, v1] },
        { at: [u - r, v0], bulge: 1 },
      ];
      cells.push(
        cell(outline, [
          [u, v0],
          [u, v1],
        ]),
      );
    }
  }
  return cells;
}

/** Openings of usual proportions: how many go side by side where no number is asked for. Source: common-practice. */
export function usualCount(
  shape: 'trapezoid' | 'slot',
  quad: FieldQuad,
  rows: number,
  webMm: number,
  drillMm: number,
): number {
  const wide = quad.right - quad.left;
  const corners = quadCorners(quad);
  const high = (corners[3]![1] - corners[0]![1] + corners[2]![1] - corners[1]![1]) / 2 / rows;
  const one = shape === 'slot' ? drillMm : Math.max(high, 2 * cornerReach(Math.PI / 2, drillMm / 2) + 1);
  const fits = (wide + webMm) / (one + webMm);
  return Math.max(1, shape === 'slot' ? Math.floor(fits + 1e-9) : Math.round(fits));
}
