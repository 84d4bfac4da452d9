import { type ClosestSearch, compiledSearch } from './closest-compiled.ts';
import { BLOCK_SLOTS_AT, BLOCK_WORDS, HALVES_AT, LINKS_AT, type MeshBvh, NO_CHILD } from './bvh-layout.ts';
import type { Vec } from './vec.ts';

/** Where on a triangle its closest point lies. */
export const ON_FACE = 0;
/** 1, 2, 3: corner a, b, c. 4, 5, 6: edge ab, bc, ca. */
export type Feature = 0 | 1 | 2 | 3 | 4 | 5 | 6;

/** Triangles thinner than sin(angle)^2 = 1e-14 at a corner count as their edges alone: their normal is rounding noise. */
const SLIVER = 1e-14;

/** The search over a tree: compiled where the tree lies in compiled memory, else the plain one. Both give the same to the last bit. */
export function closestSearch(bvh: MeshBvh): ClosestSearch {
  return (
    compiledSearch(bvh) ?? ((x, y, z, limitSquared, hint, out) => closestSlot(bvh, x, y, z, limitSquared, hint, out))
  );
}

const stackNode = new Int32Array(256);
const stackFar = new Float64Array(256);

/**
 * The slot of the triangle closest to p, and the squared distance to it in `out[0]` [mm^2]; -1 where none is nearer than `limitSquared`.
 * Equal distances go to the lower triangle index, whatever the tree or the hint.
 *
 * @param hint - a slot to start the search from, or -1; any slot gives the same answer, a near one gives it sooner
 */
export function closestSlot(
  bvh: MeshBvh,
  px: number,
  py: number,
  pz: number,
  limitSquared: number,
  hint: number,
  out: Float64Array,
): number {
  const { middles, halves, links, order, blockSlots, origin } = bvh;
  const perUnit = 1 / bvh.unitMm;
  const lx = (px - origin[0]) * perUnit;
  const ly = (py - origin[1]) * perUnit;
  const lz = (pz - origin[2]) * perUnit;
  // Box distances below are of twice the length in units, hence the 4; the last digits keep boxes that tie within rounding.
  const farPer = 4.00000000000004 * perUnit * perUnit;
  let best = limitSquared;
  let bestSlot = -1;
  if (hint >= 0) {
    const d = squaredToTriangle(bvh, hint, px, py, pz);
    if (d < best) {
      best = d;
      bestSlot = hint;
    }
  }
  let far = best * farPer;
  let top = 0;
  let node = 0;
  for (;;) {
    const base = top;
    for (let k = node * 2; k < node * 2 + 4; k++) {
      const tx = Math.abs(lx - middles[k]!) - halves[k + HALVES_AT]!;
      const ty = Math.abs(ly - middles[k + 4]!) - halves[k + HALVES_AT + 4]!;
      const tz = Math.abs(lz - middles[k + 8]!) - halves[k + HALVES_AT + 8]!;
      const sx = tx + Math.abs(tx);
      const sy = ty + Math.abs(ty);
      const sz = tz + Math.abs(tz);
      const s = sx * sx + sy * sy + sz * sz;
      const link = links[k - node + LINKS_AT]!;
      if (s <= far && link !== NO_CHILD) {
        let j = top++;
        while (j > base && stackFar[j - 1]! < s) {
          stackFar[j] = stackFar[j - 1]!;
          stackNode[j] = stackNode[j - 1]!;
          j--;
        }
        stackFar[j] = s;
        stackNode[j] = link;
      }
    }
    node = -1;
    while (top > 0) {
      top--;
      if (stackFar[top]! > far) continue;
      const link = stackNode[top]!;
      if (link >= 0) {
        node = link;
        break;
      }
      const packed = blockSlots[~link * BLOCK_WORDS + BLOCK_SLOTS_AT]!;
      const first = packed >>> 2;
      const end = first + (packed & 3) + 1;
      for (let slot = first; slot < end; slot++) {
        const d = squaredToTriangle(bvh, slot, px, py, pz);
        if (d < best || (d === best && bestSlot >= 0 && order[slot]! < order[bestSlot]!)) {
          best = d;
          bestSlot = slot;
          far = best * farPer;
        }
      }
    }
    if (node < 0) break;
  }
  out[0] = best;
  return bestSlot;
}

/** Squared distance from p to the triangle in a slot [mm^2]. */
export function squaredToTriangle(bvh: MeshBvh, slot: number, px: number, py: number, pz: number): number {
  const t = bvh.corners;
  const o = slot * 9;
  let ax = t[o]!;
  let ay = t[o + 1]!;
  let az = t[o + 2]!;
  let bx = t[o + 3]!;
  let by = t[o + 4]!;
  let bz = t[o + 5]!;
  let cx = t[o + 6]!;
  let cy = t[o + 7]!;
  let cz = t[o + 8]!;
  const low = bvh.cornersLow;
  if (low.length > 0) {
    ax += low[o]!;
    ay += low[o + 1]!;
    az += low[o + 2]!;
    bx += low[o + 3]!;
    by += low[o + 4]!;
    bz += low[o + 5]!;
    cx += low[o + 6]!;
    cy += low[o + 7]!;
    cz += low[o + 8]!;
  }
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = cx - ax;
  const vy = cy - ay;
  const vz = cz - az;
  const qx = px - ax;
  const qy = py - ay;
  const qz = pz - az;
  const d1 = ux * qx + uy * qy + uz * qz;
  const d2 = vx * qx + vy * qy + vz * qz;
  if (d1 <= 0 && d2 <= 0) return qx * qx + qy * qy + qz * qz;
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const d3 = d1 - uu;
  const d4 = d2 - uv;
  if (d3 >= 0 && d4 <= d3) return square(px - bx, py - by, pz - bz);
  const vv = vx * vx + vy * vy + vz * vz;
  const d5 = d1 - uv;
  const d6 = d2 - vv;
  if (d6 >= 0 && d5 <= d6) return square(px - cx, py - cy, pz - cz);
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  const wc = d1 * d4 - d3 * d2;
  const wb = d5 * d2 - d1 * d6;
  const wa = d3 * d6 - d5 * d4;
  if (wc > 0 && wb > 0 && wa > 0 && nn > SLIVER * uu * vv) {
    const away = qx * nx + qy * ny + qz * nz;
    return (away * away) / nn;
  }
  let best = Infinity;
  if (wc <= 0 || nn <= SLIVER * uu * vv) {
    const s = d1 <= 0 ? 0 : d1 >= uu ? 1 : d1 / uu;
    best = square(qx - s * ux, qy - s * uy, qz - s * uz);
  }
  if (wb <= 0 || nn <= SLIVER * uu * vv) {
    const s = d2 <= 0 ? 0 : d2 >= vv ? 1 : d2 / vv;
    const d = square(qx - s * vx, qy - s * vy, qz - s * vz);
    if (d < best) best = d;
  }
  if (wa <= 0 || nn <= SLIVER * uu * vv) {
    const ex = cx - bx;
    const ey = cy - by;
    const ez = cz - bz;
    const ee = ex * ex + ey * ey + ez * ez;
    const e = d4 - d3;
    const s = e <= 0 ? 0 : e >= ee ? 1 : e / ee;
    const d = square(px - bx - s * ex, py - by - s * ey, pz - bz - s * ez);
    if (d < best) best = d;
  }
  return best;
}

function square(x: number, y: number, z: number): number {
  return x * x + y * y + z * z;
}

/**
 * Writes the point of the slot's triangle closest to p to out[0..2] and returns the feature it lies on; same rules as `squaredToTriangle`.
 */
export function closestOnTriangle(
  bvh: MeshBvh,
  slot: number,
  px: number,
  py: number,
  pz: number,
  out: Float64Array,
): Feature {
  const a = cornerOf(bvh, slot, 0);
  const b = cornerOf(bvh, slot, 1);
  const c = cornerOf(bvh, slot, 2);
  const ux = b[0] - a[0];
  const uy = b[1] - a[1];
  const uz = b[2] - a[2];
  const vx = c[0] - a[0];
  const vy = c[1] - a[1];
  const vz = c[2] - a[2];
  const qx = px - a[0];
  const qy = py - a[1];
  const qz = pz - a[2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const d1 = ux * qx + uy * qy + uz * qz;
  const d2 = vx * qx + vy * qy + vz * qz;
  const d3 = d1 - uu;
  const d4 = d2 - uv;
  const d5 = d1 - uv;
  const d6 = d2 - vv;
  if (d1 * d4 - d3 * d2 > 0 && d5 * d2 - d1 * d6 > 0 && d3 * d6 - d5 * d4 > 0 && nn > SLIVER * uu * vv) {
    const s = (qx * nx + qy * ny + qz * nz) / nn;
    out[0] = px - s * nx;
    out[1] = py - s * ny;
    out[2] = pz - s * nz;
    return ON_FACE;
  }
  let least = Infinity;
  let feature: Feature = 1;
  for (let k = 0; k < 3; k++) {
    const from = k === 0 ? a : k === 1 ? b : c;
    const to = k === 0 ? b : k === 1 ? c : a;
    const ex = to[0] - from[0];
    const ey = to[1] - from[1];
    const ez = to[2] - from[2];
    const s = ((px - from[0]) * ex + (py - from[1]) * ey + (pz - from[2]) * ez) / (ex * ex + ey * ey + ez * ez);
    const x = s > 0 ? (s < 1 ? from[0] + s * ex : to[0]) : from[0];
    const y = s > 0 ? (s < 1 ? from[1] + s * ey : to[1]) : from[1];
    const z = s > 0 ? (s < 1 ? from[2] + s * ez : to[2]) : from[2];
    const d = square(px - x, py - y, pz - z);
    if (d >= least) continue;
    least = d;
    feature = s > 0 ? (s < 1 ? BETWEEN[k]! : END[k]!) : START[k]!;
    out[0] = x;
    out[1] = y;
    out[2] = z;
  }
  return feature;
}

const START: readonly Feature[] = [1, 2, 3];
const END: readonly Feature[] = [2, 3, 1];
const BETWEEN: readonly Feature[] = [4, 5, 6];

/** Corner 0, 1 or 2 of the triangle in a slot. */
export function cornerOf(bvh: MeshBvh, slot: number, corner: number): Vec {
  const o = slot * 9 + corner * 3;
  const high = bvh.corners;
  const low = bvh.cornersLow;
  if (low.length === 0) return [high[o]!, high[o + 1]!, high[o + 2]!];
  return [high[o]! + low[o]!, high[o + 1]! + low[o + 1]!, high[o + 2]! + low[o + 2]!];
}
