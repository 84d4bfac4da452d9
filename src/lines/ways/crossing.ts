import {
  type CellGrid,
  type Solid,
  type Vec,
  add,
  addScaled,
  cellOf,
  corridorCosts,
  cross,
  dot,
  isReached,
  perpendicular,
  scale,
  sub,
  unit,
} from '#geometry';
import type { Clearance } from './clearance.ts';
import { corridorGrid } from './clearance.ts';
import type { Span } from './span.ts';

/** The flat of a panel: a place on its mid-plane, its normal, its two directions and half sizes. */
export interface PanelFlat {
  readonly centre: Vec;
  readonly normal: Vec;
  readonly u: Vec;
  readonly v: Vec;
  readonly halfU: number;
  readonly halfV: number;
  readonly halfThickness: number;
}

/** A place to cross a panel, and the direction of travel from A to B there. */
export interface Crossing {
  readonly at: Vec;
  readonly direction: Vec;
  /** What the best corridor through it comes to [mm]; only its order counts. */
  readonly hope: number;
}

/** The flat of a thin solid: its thinnest direction by its surface, found from its bounds (boxes along the axes) or by feel. */
export function panelFlat(solid: Solid): PanelFlat {
  const { min, max } = solid.bounds;
  const centre = scale(add(min, max), 0.5);
  const half = scale(sub(max, min), 0.5);
  const axes: Vec[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const order = [0, 1, 2].sort((p, q) => half[p]! - half[q]!);
  const [thin, middle, long] = order as [number, number, number];
  if (half[thin]! < THIN_SHARE * half[middle]!)
    return {
      centre,
      normal: axes[thin]!,
      u: axes[middle]!,
      v: axes[long]!,
      halfU: half[middle]!,
      halfV: half[long]!,
      halfThickness: half[thin]!,
    };
  // A turned panel: the way off its surface at the centre is its normal.
  const { point } = solid.closest(centre[0] + FEEL_MM * 0.31, centre[1] + FEEL_MM * 0.57, centre[2] + FEEL_MM * 0.76);
  const off = sub([centre[0] + FEEL_MM * 0.31, centre[1] + FEEL_MM * 0.57, centre[2] + FEEL_MM * 0.76], point);
  const normal = unit(off);
  const u = perpendicular(normal);
  const v = cross(normal, u);
  const reach = (d: Vec) => Math.abs(d[0]) * half[0] + Math.abs(d[1]) * half[1] + Math.abs(d[2]) * half[2];
  const thickness = Math.max(0, -2 * solid.distance(...centre));
  return { centre, normal, u, v, halfU: reach(u), halfV: reach(v), halfThickness: thickness / 2 };
}

const THIN_SHARE = 0.2;
const FEEL_MM = 40;
/** Places tried on the panel [mm apart]. */
const PITCH_MM = 20;

export interface CrossingWish {
  readonly solid: Solid;
  /** Radius of the hole, or of the fitting's flange [mm]. */
  readonly holeRadiusMm: number;
  /** Crossings that stand already: place and hole radius. */
  readonly taken: readonly { readonly at: Vec; readonly holeRadiusMm: number }[];
  readonly count: number;
}

/** Panel left between two holes, and between a hole and the edge [mm]: common practice, no source. */
const WEB_MM = 12;

/** The best places to cross a panel on the way from A to B: cheapest corridor first, apart from each other. */
export function crossings(span: Span, clear: Clearance, wish: CrossingWish): Crossing[] {
  const flat = panelFlat(wish.solid);
  const side = dot(sub(span.b.at, flat.centre), flat.normal) >= dot(sub(span.a.at, flat.centre), flat.normal) ? 1 : -1;
  const direction = scale(flat.normal, side);
  const grid = corridorGrid(span, clear, ROUND_MM);
  const { cellMm } = grid;
  const off = flat.halfThickness + span.odMm / 2 + cellMm * 1.5;
  const fromA = costsFrom(grid, span.a.at, span.a.faces, span);
  const fromB = costsFrom(grid, span.b.at, span.b.faces, span);
  const places: Crossing[] = [];
  const edge = wish.holeRadiusMm + WEB_MM;
  for (let i = -Math.floor((flat.halfU - edge) / PITCH_MM); i * PITCH_MM <= flat.halfU - edge; i++)
    for (let j = -Math.floor((flat.halfV - edge) / PITCH_MM); j * PITCH_MM <= flat.halfV - edge; j++) {
      const at = addScaled(addScaled(flat.centre, flat.u, i * PITCH_MM), flat.v, j * PITCH_MM);
      if (wish.taken.some((t) => apart(t.at, at) < t.holeRadiusMm + wish.holeRadiusMm + WEB_MM)) continue;
      const before = costAt(grid, fromA, addScaled(at, direction, -off));
      const after = costAt(grid, fromB, addScaled(at, direction, off));
      if (before === null || after === null) continue;
      places.push({ at, direction, hope: ((before + after) * cellMm) / 10 });
    }
  places.sort((p, q) => p.hope - q.hope);
  const kept: Crossing[] = [];
  for (const place of places) {
    if (kept.length >= wish.count) break;
    if (kept.every((k) => apart(k.at, place.at) > APART_MM)) kept.push(place);
  }
  return kept;
}

const ROUND_MM = 350;
const APART_MM = 90;

const apart = (p: Vec, q: Vec): number => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);

function costsFrom(grid: CellGrid, at: Vec, faces: Vec, span: Span): Int32Array {
  const out = addScaled(at, faces, span.odMm + 40);
  return corridorCosts(grid, [{ cell: cellOf(grid, ...out), cost: 0 }]);
}

function costAt(grid: CellGrid, cost: Int32Array, at: Vec): number | null {
  const cell = cellOf(grid, ...at);
  return cell >= 0 && isReached(cost, cell) ? cost[cell]! : null;
}
