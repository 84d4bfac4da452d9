import { type Body, bodyField, bodyShape, type Bounds, joined, type Solid } from '#geometry';

/** One piece of what stands in the way. */
export interface Piece {
  readonly bounds: Bounds;
  /** Its signed distance rises and falls once along any straight way. */
  readonly isConvex: boolean;
  /** Signed distance, or anything from `limitMm` on beyond it [mm]. */
  readonly distanceWithin: (x: number, y: number, z: number, limitMm: number) => number;
}

/** What stands in the way of something that comes out. */
export interface Obstacle {
  readonly id: string;
  readonly pieces: readonly Piece[];
  readonly bounds: Bounds;
}

export function obstacle(id: string, pieces: readonly Piece[]): Obstacle | undefined {
  if (pieces.length === 0) return undefined;
  return { id, pieces, bounds: pieces.map(({ bounds }) => bounds).reduce(joined) };
}

export const pieceOfSolid = (solid: Solid): Piece => ({
  bounds: solid.bounds,
  isConvex: solid.kind !== 'mesh',
  distanceWithin: (x, y, z, limitMm) => solid.distanceWithin(x, y, z, limitMm),
});

/** A stretch of a line; its flat ends as if they were round. */
export const pieceOfBody = (body: Body): Piece => {
  const field = bodyField(body);
  return {
    bounds: bodyShape(body).bounds,
    isConvex: false,
    distanceWithin: (x, y, z, limitMm) => field.roundDistanceWithin(x, y, z, limitMm),
  };
};

/** A place that is open in what stands in the way. */
export interface Opening {
  /** Signed distance to its edge as if it went on for ever to both sides; never too great [mm]. */
  readonly beside: (x: number, y: number, z: number) => number;
  /** How far a place lies from its plane, either side [mm]. */
  readonly offPlane: (x: number, y: number, z: number) => number;
  /** What stands further from its plane than this is not cut by it [mm]. */
  readonly deepMm: number;
}

/** A piece with openings cut into it: distances are never too great. */
export const pieceLess = (piece: Piece, openings: readonly Opening[]): Piece => {
  if (openings.length === 0) return piece;
  const cuts = openings.map((opening) => cutOf(piece.bounds, opening));
  return {
    bounds: piece.bounds,
    isConvex: false,
    distanceWithin: (x, y, z, limitMm) => {
      let d = piece.distanceWithin(x, y, z, limitMm);
      for (const cut of cuts) d = Math.max(d, -cut(x, y, z));
      return d;
    },
  };
};

/** Where nothing of a piece lies far from the plane, all of it within the edge is cut, and large balls pass too. */
function cutOf({ min, max }: Bounds, { beside, offPlane, deepMm }: Opening): Opening['beside'] {
  const corners = [min[0], max[0]].flatMap((x) =>
    [min[1], max[1]].flatMap((y) => [offPlane(x, y, min[2]), offPlane(x, y, max[2])]),
  );
  return Math.max(...corners) <= deepMm ? beside : (x, y, z) => Math.max(beside(x, y, z), offPlane(x, y, z) - deepMm);
}
