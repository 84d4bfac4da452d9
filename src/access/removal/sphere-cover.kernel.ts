import type { Solid } from '#geometry';

/** Numbers a ball takes in a cover: x, y, z, and its radius [mm]. */
export const BALL = 4;
/** Cells in which the surface is looked for, as a share of what a ball may stand out. */
const CELL_SHARE = 0.26;
/** Halvings when the deepest ball that touches a place from within is looked for. */
const HALVINGS = 14;

type Covered = Pick<Solid, 'bounds' | 'distance' | 'closest'>;

/**
 * Balls that together hold the whole surface of a solid and stand out of it by at most `overMm`. Places of the surface are found in
 * small cells; each that is not yet held gets the largest ball that touches it from within.
 *
 * @param solid - what is covered [mm]
 * @param overMm - how far a ball may stand out [mm]
 * @returns x, y, z, radius of each ball [mm]
 */
export function sphereCover(solid: Covered, overMm: number): Float64Array {
  const half = (CELL_SHARE * overMm) / Math.sqrt(3);
  const places = surfacePlaces(solid, half);
  // Every place of the surface is this near to one of those found.
  const near = 2 * half * Math.sqrt(3);
  const spare = Math.max(0, overMm - near);
  const isHeld = new Uint8Array(places.length / 3);
  const balls: number[] = [];
  for (let i = 0; i < isHeld.length; i++) {
    if (isHeld[i] === 1) continue;
    const [x, y, z] = [places[3 * i]!, places[3 * i + 1]!, places[3 * i + 2]!];
    const ball = deepest(solid, x, y, z, spare);
    balls.push(ball[0], ball[1], ball[2], ball[3] + overMm);
    const holds = ball[3] + spare;
    for (let k = i; k < isHeld.length; k++) {
      const dx = places[3 * k]! - ball[0];
      const dy = places[3 * k + 1]! - ball[1];
      const dz = places[3 * k + 2]! - ball[2];
      if (dx * dx + dy * dy + dz * dz <= holds * holds) isHeld[k] = 1;
    }
    isHeld[i] = 1;
  }
  return Float64Array.from(balls);
}

/** Places of the surface, one for each small cell that it passes: cells are halved from one about the whole solid. */
function surfacePlaces(solid: Covered, half: number): Float64Array {
  const { min, max } = solid.bounds;
  const size = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]) / 2 + 1e-6;
  const levels = Math.max(0, Math.ceil(Math.log2(size / half)));
  const found: number[] = [];
  const halve = (x: number, y: number, z: number, at: number, level: number): void => {
    const reach = at * Math.sqrt(3);
    if (Math.abs(solid.distance(x, y, z)) > reach) return;
    if (level === 0) {
      const { point } = solid.closest(x, y, z);
      found.push(point[0], point[1], point[2]);
      return;
    }
    const q = at / 2;
    for (let k = 0; k < 8; k++) halve(x + (k & 1 ? q : -q), y + (k & 2 ? q : -q), z + (k & 4 ? q : -q), q, level - 1);
  };
  halve((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2, half * 2 ** levels, levels);
  return Float64Array.from(found);
}

/** The largest ball within the solid that reaches a place of its surface: centre and radius, the radius 0 on an edge. */
function deepest(solid: Covered, x: number, y: number, z: number, spare: number): [number, number, number, number] {
  const [ux, uy, uz] = inwards(solid, x, y, z);
  let [low, high] = [0, 0];
  // Doubled until the ball no longer reaches back to the place; what it may miss by is spare.
  for (let t = Math.max(1, spare / 2); t < 1e5; t *= 2) {
    if (-solid.distance(x + ux * t, y + uy * t, z + uz * t) < t - spare / 2) {
      high = t;
      break;
    }
    low = t;
  }
  for (let k = 0; k < HALVINGS && high - low > 0.1; k++) {
    const t = (low + high) / 2;
    if (-solid.distance(x + ux * t, y + uy * t, z + uz * t) < t - spare / 2) high = t;
    else low = t;
  }
  const [cx, cy, cz] = [x + ux * low, y + uy * low, z + uz * low];
  return [cx, cy, cz, Math.max(0, -solid.distance(cx, cy, cz))];
}

/** The way down into the solid from a place of its surface, from the slope of its distance. */
function inwards(solid: Covered, x: number, y: number, z: number): [number, number, number] {
  const h = 0.05;
  const gx = solid.distance(x + h, y, z) - solid.distance(x - h, y, z);
  const gy = solid.distance(x, y + h, z) - solid.distance(x, y - h, z);
  const gz = solid.distance(x, y, z + h) - solid.distance(x, y, z - h);
  const length = Math.hypot(gx, gy, gz);
  return length < 1e-9 ? [0, 0, -1] : [-gx / length, -gy / length, -gz / length];
}
