import {
  add,
  addScaled,
  cross,
  distance,
  dot,
  meshSolid,
  norm,
  scale,
  type Solid,
  sub,
  triangleMesh,
  unit,
  type Vec,
} from '#geometry';
import { type PanelLayout, panelSolid, type SolidPiece } from '#panels';
import { type Patch, patchOf, type Piece, trianglePiece } from './patch.ts';

/** One face of one cell of a panel. Cells come in pairs: the outside face, then its back. */
export interface PanelPatch extends Patch {
  readonly side: 'outside' | 'inside';
  /** Index of the other face of the same cell among the panel's patches. */
  readonly otherSide: number;
  /** Facet of the panel, and the cell's place on it. */
  readonly facet: number;
  readonly column: number;
  readonly row: number;
  readonly middleMm: Vec;
  readonly faces: Vec;
}

export interface PanelPatches {
  /** What rays meet of the panel, its openings open: for its `HeatSurface`. */
  readonly solids: readonly Solid[];
  readonly patches: readonly PanelPatch[];
}

type Corners = readonly [Vec, Vec, Vec];

interface Cell {
  readonly facet: number;
  readonly column: number;
  readonly row: number;
  readonly normal: Vec;
  readonly triangles: Corners[];
}

/** Cells smaller than this share of a whole one join a neighbour. */
const SLIVER = 0.15;

/**
 * A panel in cells of about one size, each with its two faces. Bends and flanges go with the nearest cell.
 *
 * @param surface - index of the panel among the surfaces
 * @param emissivity - of the outside face and of the inside one
 */
export function panelPatches(
  surface: number,
  emissivity: { readonly outside: number; readonly inside: number },
  layout: PanelLayout,
  sizeMm: number,
): PanelPatches {
  const pieces = panelSolid(layout);
  const facets = layout.facets.length;
  const cells = withoutSlivers(
    pieces.slice(0, facets).flatMap((piece, facet) => cellsOf(piece, facet, sizeMm)),
    sizeMm,
  );
  for (const piece of pieces.slice(facets)) {
    for (const triangle of outsideOf(piece)) nearestCell(cells, middleOf(triangle))?.triangles.push(triangle);
  }
  const thick = layout.sheet.thicknessMm;
  const patches = cells.flatMap((cell, i) =>
    facesOf(cell, thick).map(({ pieces: face, ...place }, k): PanelPatch => {
      const side = k === 0 ? 'outside' : 'inside';
      return { ...patchOf(surface, emissivity[side], face), ...place, side, otherSide: 2 * i + 1 - k };
    }),
  );
  return { solids: pieces.map(({ positions, indices }) => meshSolid(triangleMesh(positions, indices))), patches };
}

/** The outside face of a slab: its points come first, so that a face is told by its corners' numbers. */
function outsideOf({ positions, indices }: SolidPiece): Corners[] {
  const half = positions.length / 6;
  const at = (k: number): Vec => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  const found: Corners[] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [indices[i]!, indices[i + 1]!, indices[i + 2]!];
    if (a < half && b < half && c < half) found.push([at(a), at(b), at(c)]);
  }
  return found;
}

const middleOf = ([a, b, c]: Corners): Vec => scale(add(add(a, b), c), 1 / 3);
const areaOf = ([a, b, c]: Corners): number => norm(cross(sub(b, a), sub(c, a))) / 2;

function cellsOf(piece: SolidPiece, facet: number, sizeMm: number): Cell[] {
  const triangles = outsideOf(piece).filter((triangle) => areaOf(triangle) > 1e-6);
  if (triangles.length === 0) return [];
  const [a, b, c] = triangles[0]!;
  const normal = unit(cross(sub(b, a), sub(c, a)));
  const { positions: p } = piece;
  const along = unit(sub([p[3]!, p[4]!, p[5]!], [p[0]!, p[1]!, p[2]!]));
  const x = unit(addScaled(along, normal, -dot(along, normal)));
  const y = cross(normal, x);
  const [u, v] = [x, y].map((axis) =>
    steps(
      triangles.flat().map((q) => dot(q, axis)),
      sizeMm,
    ),
  ) as [Steps, Steps];
  const cells = new Map<number, Cell>();
  for (const triangle of triangles) {
    const rows = cutAcross(triangle, y, v);
    rows.forEach((polygon, row) =>
      cutAcross(polygon, x, u).forEach((part, column) => {
        const key = row * u.count + column;
        const cell = cells.get(key) ?? { facet, column, row, normal, triangles: [] };
        cells.set(key, cell);
        for (let k = 2; k < part.length; k++) cell.triangles.push([part[0]!, part[k - 1]!, part[k]!]);
      }),
    );
  }
  return [...cells.keys()].sort((i, j) => i - j).map((key) => cells.get(key)!);
}

interface Steps {
  readonly from: number;
  readonly step: number;
  readonly count: number;
}

function steps(values: readonly number[], sizeMm: number): Steps {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const count = Math.max(1, Math.round((high - low) / sizeMm));
  return { from: low, step: (high - low) / count, count };
}

/** A convex polygon cut into the strips that it lies in, by number of strip. */
function cutAcross(polygon: readonly Vec[], axis: Vec, { from, step, count }: Steps): Map<number, readonly Vec[]> {
  const strips = new Map<number, readonly Vec[]>();
  let rest: readonly Vec[] = polygon;
  const low = Math.min(...polygon.map((p) => dot(p, axis)));
  for (let k = Math.max(0, Math.floor((low - from) / step - 1e-9)); k < count && rest.length > 2; k++) {
    const limit = k === count - 1 ? Infinity : from + (k + 1) * step;
    const below = clipped(rest, axis, limit, 1);
    if (below.length > 2) strips.set(k, below);
    rest = limit === Infinity ? [] : clipped(rest, axis, limit, -1);
  }
  return strips;
}

/** What of a convex polygon lies at or under the limit along the axis (way 1), or above it (way -1). */
function clipped(polygon: readonly Vec[], axis: Vec, limit: number, way: 1 | -1): readonly Vec[] {
  const over = polygon.map((p) => way * (dot(p, axis) - limit));
  return polygon.flatMap((p, i) => {
    const j = (i + 1) % polygon.length;
    const kept = over[i]! <= 0 ? [p] : [];
    if (over[i]! <= 0 === over[j]! <= 0 || over[i] === 0) return kept;
    return [...kept, addScaled(p, sub(polygon[j]!, p), over[i]! / (over[i]! - over[j]!))];
  });
}

const cellArea = ({ triangles }: Cell): number => triangles.reduce((sum, triangle) => sum + areaOf(triangle), 0);

function cellMiddle({ triangles }: Cell): Vec {
  const area = triangles.reduce((sum, triangle) => sum + areaOf(triangle), 0);
  return triangles.reduce<Vec>((m, triangle) => addScaled(m, middleOf(triangle), areaOf(triangle) / area), [0, 0, 0]);
}

function withoutSlivers(cells: readonly Cell[], sizeMm: number): Cell[] {
  const least = SLIVER * sizeMm ** 2;
  const whole = cells.filter((cell) => cellArea(cell) >= least);
  if (whole.length === 0) return [...cells];
  for (const cell of cells) {
    if (whole.includes(cell)) continue;
    for (const triangle of cell.triangles) nearestCell(whole, middleOf(triangle))!.triangles.push(triangle);
  }
  return whole;
}

function nearestCell(cells: readonly Cell[], at: Vec): Cell | undefined {
  let best: Cell | undefined;
  let least = Infinity;
  for (const cell of cells) {
    const away = distance(middleOf(cell.triangles[0]!), at);
    if (away < least) [least, best] = [away, cell];
  }
  return best;
}

/** The cell's outside face, and the same `thick` under it, turned over. */
function facesOf(
  cell: Cell,
  thick: number,
): { pieces: readonly Piece[]; middleMm: Vec; faces: Vec; facet: number; column: number; row: number }[] {
  const { facet, column, row, normal } = cell;
  const kept = cell.triangles.filter((triangle) => areaOf(triangle) > 1e-6);
  const middle = cellMiddle(cell);
  const under = (p: Vec, out: Vec): Vec => addScaled(p, out, -thick);
  const back = kept.map(([a, b, c]) => {
    const out = unit(cross(sub(b, a), sub(c, a)));
    return trianglePiece(under(a, out), under(c, out), under(b, out));
  });
  return [
    { pieces: kept.map((t) => trianglePiece(...t)), middleMm: middle, faces: normal, facet, column, row },
    { pieces: back, middleMm: under(middle, normal), faces: scale(normal, -1), facet, column, row },
  ];
}
