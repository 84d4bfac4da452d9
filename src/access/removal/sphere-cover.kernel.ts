import type { Bounds, Solid } from '#geometry';

/** Numbers a ball takes in a cover: x, y, z, and the radius within which it covers the solid [mm]. */
export const BALL = 4;
/** Divisions of the cell about a whole solid: beyond them a cell is smaller than any cover asked for. */
const MOST_DEPTH = 12;
/** Steps inwards in which a ball looks for a deeper middle. */
const INWARDS = 6;

/**
 * Balls that together hold the whole solid and stand out of it by at most `overMm`: what is nearer to a ball than its radius is
 * nearer to the solid than `overMm`. Found by halving cells until one ball near each holds it.
 *
 * @param solid - with an inside [mm]
 * @param overMm - how far a ball may stand out [mm]
 * @returns x, y, z, radius of each ball [mm]
 */
export function sphereCover(solid: Pick<Solid, 'bounds' | 'distance' | 'closest'>, overMm: number): Float64Array {
  const found: number[] = [];
  const half = Math.max(...[0, 1, 2].map((i) => solid.bounds.max[i]! - solid.bounds.min[i]!)) / 2 + 1e-9;
  const middle = [0, 1, 2].map((i) => (solid.bounds.max[i]! + solid.bounds.min[i]!) / 2);
  halve(solid, overMm, middle[0]!, middle[1]!, middle[2]!, half, 0, found);
  return Float64Array.from(found);
}

function halve(
  solid: Pick<Solid, 'bounds' | 'distance' | 'closest'>,
  overMm: number,
  x: number,
  y: number,
  z: number,
  half: number,
  depth: number,
  found: number[],
): void {
  if (isApart(solid.bounds, x, y, z, half)) return;
  const reach = half * Math.sqrt(3);
  const d = solid.distance(x, y, z);
  if (d > reach) return;
  for (let i = 0; i < found.length; i += BALL) {
    const off = Math.hypot(found[i]! - x, found[i + 1]! - y, found[i + 2]! - z);
    if (off + reach <= found[i + 3]!) return;
  }
  if (tryBall(solid, overMm, x, y, z, d, reach, found)) return;
  if (reach <= overMm || depth >= MOST_DEPTH) {
    found.push(x, y, z, reach);
    return;
  }
  const q = half / 2;
  for (let k = 0; k < 8; k++)
    halve(solid, overMm, x + (k & 1 ? q : -q), y + (k & 2 ? q : -q), z + (k & 4 ? q : -q), q, depth + 1, found);
}

/** A ball about a place at or under this one, as deep as it goes, that holds the whole cell. */
function tryBall(
  solid: Pick<Solid, 'bounds' | 'distance' | 'closest'>,
  overMm: number,
  x: number,
  y: number,
  z: number,
  d: number,
  reach: number,
  found: number[],
): boolean {
  if (-d + overMm >= reach) {
    found.push(x, y, z, -d + overMm);
    return true;
  }
  const { point } = solid.closest(x, y, z);
  const away = d < 0 ? 1 : -1;
  let [ux, uy, uz] = [x - point[0], y - point[1], z - point[2]];
  const length = Math.hypot(ux, uy, uz);
  if (length < 1e-6) return false;
  [ux, uy, uz] = [(away * ux) / length, (away * uy) / length, (away * uz) / length];
  let step = reach;
  for (let k = 0; k < INWARDS; k++, step *= 1.6) {
    const [px, py, pz] = [x + ux * step, y + uy * step, z + uz * step];
    const deep = -solid.distance(px, py, pz);
    if (deep < 0) return false;
    if (deep + overMm >= step + reach) {
      found.push(px, py, pz, deep + overMm);
      return true;
    }
  }
  return false;
}

function isApart(bounds: Bounds, x: number, y: number, z: number, half: number): boolean {
  return (
    x - half > bounds.max[0] ||
    x + half < bounds.min[0] ||
    y - half > bounds.max[1] ||
    y + half < bounds.min[1] ||
    z - half > bounds.max[2] ||
    z + half < bounds.min[2]
  );
}
