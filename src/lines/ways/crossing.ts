import {
  type CellGrid,
  type Vec,
  addScaled,
  cellOf,
  corridorCosts,
  distance,
  dot,
  isReached,
  scale,
  sub,
} from '#geometry';
import type { Clearance } from './clearance.ts';
import { corridorGrid } from './clearance.ts';
import type { PanelFace, PanelPlace } from './panel-face.ts';
import type { Span } from './span.ts';

/** A place to cross a panel, and the direction of travel from A to B there. */
export interface Crossing {
  readonly at: Vec;
  readonly direction: Vec;
  /** What the best corridor through it comes to [mm]; only its order counts. */
  readonly hope: number;
}

/** Places tried on the panel [mm apart]. */
const PITCH_MM = 20;

/** A hole in a panel. */
export interface Hole {
  readonly at: Vec;
  readonly holeRadiusMm: number;
}

export interface CrossingWish {
  readonly face: PanelFace;
  /** Radius of the hole, or of the fitting's flange [mm]. */
  readonly holeRadiusMm: number;
  /** Crossings that stand already. */
  readonly taken: readonly Hole[];
  readonly count: number;
}

/** Panel left between two holes, and between a hole and the edge [mm]: common practice, no source. */
export const WEB_MM = 12;

/** A hole here leaves panel all round, and between itself and others. */
export const isHoleFree = ({ face, holeRadiusMm, taken }: CrossingWish, place: PanelPlace): boolean =>
  taken.every((t) => distance(t.at, place.at) >= t.holeRadiusMm + holeRadiusMm + WEB_MM) &&
  face.goesOn(place, holeRadiusMm + WEB_MM);

/** The best places to cross a panel on the way from A to B: cheapest corridor first, apart from each other. */
export function crossings(span: Span, clear: Clearance, wish: CrossingWish): Crossing[] {
  const { flat } = wish.face;
  const over = sub(span.b.at, span.a.at);
  const grid = corridorGrid(span, clear, ROUND_MM);
  const { cellMm } = grid;
  const off = wish.face.halfThicknessMm + span.odMm / 2 + cellMm * 1.5;
  const fromA = costsFrom(grid, span.a.at, span.a.faces, span);
  const fromB = costsFrom(grid, span.b.at, span.b.faces, span);
  const places: Crossing[] = [];
  const edge = wish.holeRadiusMm + WEB_MM;
  for (let i = -Math.floor((flat.halfU - edge) / PITCH_MM); i * PITCH_MM <= flat.halfU - edge; i++)
    for (let j = -Math.floor((flat.halfV - edge) / PITCH_MM); j * PITCH_MM <= flat.halfV - edge; j++) {
      const place = wish.face.placeAt(i * PITCH_MM, j * PITCH_MM);
      if (place === null || !isHoleFree(wish, place)) continue;
      const direction = scale(place.normal, dot(over, place.normal) >= 0 ? 1 : -1);
      const before = costAt(grid, fromA, addScaled(place.at, direction, -off));
      const after = costAt(grid, fromB, addScaled(place.at, direction, off));
      if (before === null || after === null) continue;
      places.push({ at: place.at, direction, hope: ((before + after) * cellMm) / 10 });
    }
  places.sort((p, q) => p.hope - q.hope);
  const kept: Crossing[] = [];
  for (const place of places) {
    if (kept.length >= wish.count) break;
    if (kept.every((k) => distance(k.at, place.at) > APART_MM)) kept.push(place);
  }
  return kept;
}

const ROUND_MM = 350;
const APART_MM = 90;

function costsFrom(grid: CellGrid, at: Vec, faces: Vec, span: Span): Int32Array {
  const out = addScaled(at, faces, span.odMm + 40);
  return corridorCosts(grid, [{ cell: cellOf(grid, ...out), cost: 0 }]);
}

function costAt(grid: CellGrid, cost: Int32Array, at: Vec): number | null {
  const cell = cellOf(grid, ...at);
  return cell >= 0 && isReached(cost, cell) ? cost[cell]! : null;
}
