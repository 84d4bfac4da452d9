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

/** A place that is open in what stands in the way: its signed distance, never too great [mm]. */
export type Opening = Pick<Solid, 'distance'>;

/** A piece with openings cut into it: distances are never too great. */
export const pieceLess = (piece: Piece, openings: readonly Opening[]): Piece =>
  openings.length === 0
    ? piece
    : {
        bounds: piece.bounds,
        isConvex: false,
        distanceWithin: (x, y, z, limitMm) => {
          let d = piece.distanceWithin(x, y, z, limitMm);
          for (const opening of openings) d = Math.max(d, -opening.distance(x, y, z));
          return d;
        },
      };
