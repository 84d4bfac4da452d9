// Closest triangle of a mesh, four boxes and four triangles at a time. Compiled by scripts/build-wasm.mjs into
// src/geometry/closest-module.ts; the layout of nodes is told in src/geometry/turned-boxes.kernel.ts, of blocks in bvh-layout.ts, and
// src/geometry/mesh-closest.kernel.ts is the same search in plain TypeScript, with the same answers to the last bit.

const NODE_HALF: usize = 24;
const NODE_LINKS: usize = 48;
const NODE_PLACE: usize = 64;
const NO_CHILD: i32 = -2147483648;
const BLOCK_BYTES: usize = 160;
const BLOCK_SLOTS: usize = 144;
const SLIVER: f64 = 1e-14;
/** Room for the rounding of float32 in a distance, over the lengths it comes from: fifty units in the last place. */
const ROOM: f64 = 6e-6;
/** Below this sin(angle)^2 the float32 normal is too rough: such triangles are always measured in float64. */
const THIN: f32 = 0.01;
/** Room for the rounding of float32 in the sign of a barycentric coordinate: sixteen units in the last place. */
const INSIDE_ROOM: f32 = 1.9073486e-6;

let nodesAt: usize = 0;
let blocksAt: usize = 0;
let cornersAt: usize = 0;
let lowAt: usize = 0;
let orderAt: usize = 0;
let originX: f64 = 0;
let originY: f64 = 0;
let originZ: f64 = 0;
let halfSize: f64 = 0;
let roundingMm: f64 = 0;

let px: f64 = 0;
let py: f64 = 0;
let pz: f64 = 0;
let lx: f64 = 0;
let ly: f64 = 0;
let lz: f64 = 0;
/** The point as float32, and what that left. */
let hx: f32 = 0;
let hy: f32 = 0;
let hz: f32 = 0;
let restX: f32 = 0;
let restY: f32 = 0;
let restZ: f32 = 0;
let room: f64 = 0;
/** Nothing further than this, squared, can be the closest; wide enough for the rounding of float32. */
let far: f32 = 0;
let best: f64 = 0;
let bestSlot: i32 = -1;

export function lay(nodes: usize, blocks: usize, corners: usize, low: usize, order: usize): void {
  nodesAt = nodes;
  blocksAt = blocks;
  cornersAt = corners;
  lowAt = low;
  orderAt = order;
}

export function frame(x: f64, y: f64, z: f64, half: f64, rounding: f64): void {
  roundingMm = rounding;
  originX = x;
  originY = y;
  originZ = z;
  halfSize = half;
}

/** Squared distance found by the last search. */
export function squared(): f64 {
  return best;
}

export function closest(x: f64, y: f64, z: f64, limitSquared: f64, hint: i32): i32 {
  px = x;
  py = y;
  pz = z;
  hx = <f32>x;
  hy = <f32>y;
  hz = <f32>z;
  restX = <f32>(x - <f64>hx);
  restY = <f32>(y - <f64>hy);
  restZ = <f32>(z - <f64>hz);
  lx = x - originX;
  ly = y - originY;
  lz = z - originZ;
  room = ROOM * (max(abs(lx), max(abs(ly), abs(lz))) + halfSize) + roundingMm;
  best = limitSquared;
  bestSlot = -1;
  if (hint >= 0) {
    const d = squaredTo(cornersAt + <usize>hint * 36, 0, hint);
    if (d < best) {
      best = d;
      bestSlot = hint;
    }
  }
  setFar();
  visit(nodesAt);
  return bestSlot;
}

function setFar(): void {
  const d = sqrt(best) + room;
  const square = d * d * 1.000001;
  far = min<f32>(<f32>square, 3.4e38);
}

function beside(node: usize, at: v128, offset: usize): v128 {
  const middle = f32x4.convert_i32x4_s(v128.load16x4_s(node + offset));
  const half = f32x4.convert_i32x4_s(v128.load16x4_u(node + offset, NODE_HALF));
  return f32x4.max(f32x4.sub(f32x4.abs(f32x4.sub(at, middle)), half), f32x4.splat(0));
}

function visit(node: usize): void {
  // The point along the node's own axes in its own units, and its unit squared in the last place.
  const at = f32x4.add(
    f32x4.add(
      f32x4.mul(v128.load(node, NODE_PLACE), f32x4.splat(<f32>lx)),
      f32x4.mul(v128.load(node, NODE_PLACE + 16), f32x4.splat(<f32>ly)),
    ),
    f32x4.add(f32x4.mul(v128.load(node, NODE_PLACE + 32), f32x4.splat(<f32>lz)), v128.load(node, NODE_PLACE + 48)),
  );
  const tx = beside(node, v128.shuffle<f32>(at, at, 0, 0, 0, 0), 0);
  const ty = beside(node, v128.shuffle<f32>(at, at, 1, 1, 1, 1), 8);
  const tz = beside(node, v128.shuffle<f32>(at, at, 2, 2, 2, 2), 16);
  const s = f32x4.mul(
    f32x4.add(f32x4.add(f32x4.mul(tx, tx), f32x4.mul(ty, ty)), f32x4.mul(tz, tz)),
    v128.shuffle<f32>(at, at, 3, 3, 3, 3),
  );
  if (!v128.any_true(f32x4.le(s, f32x4.splat(far)))) return;
  // The two last bits of each distance give way to the child's number, so that one sort orders both.
  const keys = v128.or(v128.andnot(s, i32x4.splat(3)), i32x4(0, 1, 2, 3));
  const a = i32x4.extract_lane(keys, 0);
  const b = i32x4.extract_lane(keys, 1);
  const c = i32x4.extract_lane(keys, 2);
  const d = i32x4.extract_lane(keys, 3);
  const ab0 = min(a, b);
  const ab1 = max(a, b);
  const cd0 = min(c, d);
  const cd1 = max(c, d);
  const first = min(ab0, cd0);
  const m0 = max(ab0, cd0);
  const m1 = min(ab1, cd1);
  const last = max(ab1, cd1);
  const second = min(m0, m1);
  // Begin to fetch the next children while the first is visited: a query waits for memory more than for sums.
  const third = max(m0, m1);
  if (reinterpret<f32>(second & ~3) <= far) {
    touch(node, second);
    if (reinterpret<f32>(third & ~3) <= far) touch(node, third);
  }
  enter(node, first);
  if (reinterpret<f32>(second & ~3) > far) return;
  enter(node, second);
  if (reinterpret<f32>(third & ~3) > far) return;
  enter(node, third);
  if (reinterpret<f32>(last & ~3) > far) return;
  enter(node, last);
}

let touched: i32 = 0;

function placeOf(link: i32): usize {
  return link >= 0
    ? nodesAt + ((<usize>link) << 2)
    : link === NO_CHILD
      ? nodesAt
      : blocksAt + <usize>~link * BLOCK_BYTES;
}

function touch(node: usize, key: i32): void {
  const place = placeOf(load<i32>(node + ((key & 3) << 2), NODE_LINKS));
  touched |= load<i32>(place) | load<i32>(place, 64);
}

function enter(node: usize, key: i32): void {
  const link = load<i32>(node + ((key & 3) << 2), NODE_LINKS);
  if (link >= 0) visit(nodesAt + ((<usize>link) << 2));
  else if (link !== NO_CHILD) testBlock(blocksAt + <usize>~link * BLOCK_BYTES);
}

function dot3(ax: v128, ay: v128, az: v128, bx: v128, by: v128, bz: v128): v128 {
  return f32x4.add(f32x4.add(f32x4.mul(ax, bx), f32x4.mul(ay, by)), f32x4.mul(az, bz));
}

function clamped(v: v128): v128 {
  return f32x4.min(f32x4.max(v, f32x4.splat(0)), f32x4.splat(1));
}

function fromCorner(a: v128, high: f32, rest: f32): v128 {
  return f32x4.add(f32x4.sub(f32x4.splat(high), a), f32x4.splat(rest));
}

/** Four triangles in float32, a little too near rather than too far; those that may win are measured again in float64. */
function testBlock(block: usize): void {
  const ax = v128.load(block);
  const ay = v128.load(block, 16);
  const az = v128.load(block, 32);
  const wx = fromCorner(ax, hx, restX);
  const wy = fromCorner(ay, hy, restY);
  const wz = fromCorner(az, hz, restZ);
  const ux = f32x4.sub(v128.load(block, 48), ax);
  const uy = f32x4.sub(v128.load(block, 64), ay);
  const uz = f32x4.sub(v128.load(block, 80), az);
  const vx = f32x4.sub(v128.load(block, 96), ax);
  const vy = f32x4.sub(v128.load(block, 112), ay);
  const vz = f32x4.sub(v128.load(block, 128), az);
  const d1 = dot3(ux, uy, uz, wx, wy, wz);
  const d2 = dot3(vx, vy, vz, wx, wy, wz);
  const uu = dot3(ux, uy, uz, ux, uy, uz);
  const uv = dot3(ux, uy, uz, vx, vy, vz);
  const vv = dot3(vx, vy, vz, vx, vy, vz);
  const ww = dot3(wx, wy, wz, wx, wy, wz);
  const nx = f32x4.sub(f32x4.mul(uy, vz), f32x4.mul(uz, vy));
  const ny = f32x4.sub(f32x4.mul(uz, vx), f32x4.mul(ux, vz));
  const nz = f32x4.sub(f32x4.mul(ux, vy), f32x4.mul(uy, vx));
  const nn = dot3(nx, ny, nz, nx, ny, nz);
  const away = dot3(nx, ny, nz, wx, wy, wz);
  const plane = f32x4.div(f32x4.mul(away, away), nn);
  // Over the face where both coordinates and their rest are not below 0.
  const s = f32x4.sub(f32x4.mul(vv, d1), f32x4.mul(uv, d2));
  const t = f32x4.sub(f32x4.mul(uu, d2), f32x4.mul(uv, d1));
  const rest = f32x4.sub(nn, f32x4.add(s, t));
  const sides = f32x4.add(uu, vv);
  const below = f32x4.mul(f32x4.mul(sides, f32x4.add(sides, ww)), f32x4.splat(-INSIDE_ROOM));
  const over = f32x4.ge(f32x4.min(f32x4.min(s, t), rest), below);
  // The three edges.
  const i = clamped(f32x4.div(d1, uu));
  const ix = f32x4.sub(wx, f32x4.mul(i, ux));
  const iy = f32x4.sub(wy, f32x4.mul(i, uy));
  const iz = f32x4.sub(wz, f32x4.mul(i, uz));
  const j = clamped(f32x4.div(d2, vv));
  const jx = f32x4.sub(wx, f32x4.mul(j, vx));
  const jy = f32x4.sub(wy, f32x4.mul(j, vy));
  const jz = f32x4.sub(wz, f32x4.mul(j, vz));
  const ex = f32x4.sub(vx, ux);
  const ey = f32x4.sub(vy, uy);
  const ez = f32x4.sub(vz, uz);
  const fx = f32x4.sub(wx, ux);
  const fy = f32x4.sub(wy, uy);
  const fz = f32x4.sub(wz, uz);
  const k = clamped(f32x4.div(dot3(ex, ey, ez, fx, fy, fz), dot3(ex, ey, ez, ex, ey, ez)));
  const kx = f32x4.sub(fx, f32x4.mul(k, ex));
  const ky = f32x4.sub(fy, f32x4.mul(k, ey));
  const kz = f32x4.sub(fz, f32x4.mul(k, ez));
  const edges = f32x4.min(
    f32x4.min(dot3(ix, iy, iz, ix, iy, iz), dot3(jx, jy, jz, jx, jy, jz)),
    dot3(kx, ky, kz, kx, ky, kz),
  );
  const limit = f32x4.splat(far);
  // "Not above" rather than "at or below": where a sliver gives no number, it is measured.
  const thick = f32x4.gt(nn, f32x4.mul(f32x4.mul(uu, vv), f32x4.splat(THIN)));
  const apart = v128.and(v128.bitselect(f32x4.gt(plane, limit), f32x4.gt(edges, limit), over), thick);
  const packed = load<i32>(block, BLOCK_SLOTS);
  let may = ~i32x4.bitmask(apart) & ((1 << ((packed & 3) + 1)) - 1);
  const firstSlot = packed >>> 2;
  while (may !== 0) {
    const k = ctz(may);
    const slot = firstSlot + k;
    may &= may - 1;
    const d = squaredTo(block + ((<usize>k) << 2), 2, slot);
    if (d < best) {
      best = d;
      bestSlot = slot;
      setFar();
    } else if (d === best && bestSlot >= 0) {
      if (load<u32>(orderAt + ((<usize>slot) << 2)) < load<u32>(orderAt + ((<usize>bestSlot) << 2))) bestSlot = slot;
    }
  }
}

/** Number i of nine: of the corners at `at`, `1 << spread` words apart, and what float32 left of it. */
function coordinate(at: usize, spread: usize, low: usize, i: usize): f64 {
  const high = <f64>load<f32>(at + ((i << 2) << spread));
  return low === 0 ? high : high + <f64>load<f32>(low + (i << 2));
}

function square(x: f64, y: f64, z: f64): f64 {
  return x * x + y * y + z * z;
}

/** Squared distance from p to the triangle in a slot: the same steps in the same order as in TypeScript. */
function squaredTo(at: usize, spread: usize, slot: i32): f64 {
  const low = lowAt === 0 ? 0 : lowAt + <usize>slot * 36;
  const ax = coordinate(at, spread, low, 0);
  const ay = coordinate(at, spread, low, 1);
  const az = coordinate(at, spread, low, 2);
  const bx = coordinate(at, spread, low, 3);
  const by = coordinate(at, spread, low, 4);
  const bz = coordinate(at, spread, low, 5);
  const cx = coordinate(at, spread, low, 6);
  const cy = coordinate(at, spread, low, 7);
  const cz = coordinate(at, spread, low, 8);
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
  if (d1 <= 0 && d2 <= 0) return square(qx, qy, qz);
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
  const thin = nn <= SLIVER * uu * vv;
  if (wc > 0 && wb > 0 && wa > 0 && !thin) {
    const away = qx * nx + qy * ny + qz * nz;
    return (away * away) / nn;
  }
  let least: f64 = Infinity;
  if (wc <= 0 || thin) {
    const s = d1 <= 0 ? 0 : d1 >= uu ? 1 : d1 / uu;
    least = square(qx - s * ux, qy - s * uy, qz - s * uz);
  }
  if (wb <= 0 || thin) {
    const s = d2 <= 0 ? 0 : d2 >= vv ? 1 : d2 / vv;
    const d = square(qx - s * vx, qy - s * vy, qz - s * vz);
    if (d < least) least = d;
  }
  if (wa <= 0 || thin) {
    const ex = cx - bx;
    const ey = cy - by;
    const ez = cz - bz;
    const ee = ex * ex + ey * ey + ez * ez;
    const e = d4 - d3;
    const s = e <= 0 ? 0 : e >= ee ? 1 : e / ee;
    const d = square(px - bx - s * ex, py - by - s * ey, pz - bz - s * ez);
    if (d < least) least = d;
  }
  return least;
}
