// First surface that a ray meets, four boxes at a time. Compiled by scripts/build-wasm.mjs into src/geometry/ray-module.ts; the layout
// is told in src/geometry/ray-scene-layout.ts, and src/geometry/ray-hit.kernel.ts is the same search in plain TypeScript: boxes only
// leave things out that cannot be met, and the sums by which surfaces are met are the same, so that the answers are to the last bit.

const LINKS: usize = 96;
const TRIANGLE_LEAF: i32 = 0;
const ROUND_LEAF: i32 = 1;
const TRIANGLE_BYTES: usize = 36;
const ROUND_BYTES: usize = 64;
const BOX_BYTES: usize = 120;
/** Keeps a direction along an axis from dividing 0 by 0. */
const STEEPEST: f64 = 1e30;
const EDGE: f64 = 1e-12;
const ALONG_AXIS: f64 = 1e-14;
/** Room for the rounding of float32 in a distance to a box: sixteen units in the last place. Boxes have room for the rest. */
const HAIR: f32 = 1.000002;

let nodesAt: usize = 0;
let trianglesAt: usize = 0;
let triangleItemsAt: usize = 0;
let roundsAt: usize = 0;
let roundItemsAt: usize = 0;
let boxesAt: usize = 0;
let boxItemsAt: usize = 0;
let stackAt: usize = 0;
let outAt: usize = 0;

let ox: f64 = 0;
let oy: f64 = 0;
let oz: f64 = 0;
let dx: f64 = 0;
let dy: f64 = 0;
let dz: f64 = 0;
let best: f64 = 0;
let item: i32 = -1;
let kind: i32 = 0;
let place: i32 = -1;
let spanIn: f64 = 0;
let spanOut: f64 = 0;

export function lay(
  nodes: usize,
  triangles: usize,
  triangleItems: usize,
  rounds: usize,
  roundItems: usize,
  boxes: usize,
  boxItems: usize,
  stack: usize,
  out: usize,
): void {
  nodesAt = nodes;
  trianglesAt = triangles;
  triangleItemsAt = triangleItems;
  roundsAt = rounds;
  roundItemsAt = roundItems;
  boxesAt = boxes;
  boxItemsAt = boxItems;
  stackAt = stack;
  outAt = out;
}

/** The item met, or -1; at `out` the distance (f64), the kind of leaf and the place in its array (i32). */
export function first(x: f64, y: f64, z: f64, ux: f64, uy: f64, uz: f64, most: f64): i32 {
  ox = x;
  oy = y;
  oz = z;
  dx = ux;
  dy = uy;
  dz = uz;
  best = most;
  item = -1;
  kind = 0;
  place = -1;
  const ix = ux === 0 ? STEEPEST : max(-STEEPEST, min(STEEPEST, 1 / ux));
  const iy = uy === 0 ? STEEPEST : max(-STEEPEST, min(STEEPEST, 1 / uy));
  const iz = uz === 0 ? STEEPEST : max(-STEEPEST, min(STEEPEST, 1 / uz));
  const nearX: usize = ix < 0 ? 16 : 0;
  const nearY: usize = iy < 0 ? 48 : 32;
  const nearZ: usize = iz < 0 ? 80 : 64;
  const farX: usize = 16 - nearX;
  const farY: usize = 80 - nearY;
  const farZ: usize = 144 - nearZ;
  const x4 = f32x4.splat(<f32>x);
  const y4 = f32x4.splat(<f32>y);
  const z4 = f32x4.splat(<f32>z);
  const ix4 = f32x4.splat(<f32>ix);
  const iy4 = f32x4.splat(<f32>iy);
  const iz4 = f32x4.splat(<f32>iz);
  const zero = f32x4.splat(0);
  const hair = f32x4.splat(HAIR);
  const bottom = stackAt;
  let top = bottom;
  let farthest: f32 = <f32>best * HAIR;
  let link: i32 = 0;
  for (;;) {
    if (link >= 0) {
      const node = nodesAt + ((<usize>link) << 2);
      const tn = f32x4.pmax(
        f32x4.pmax(
          f32x4.mul(f32x4.sub(v128.load(node + nearX), x4), ix4),
          f32x4.mul(f32x4.sub(v128.load(node + nearY), y4), iy4),
        ),
        f32x4.pmax(f32x4.mul(f32x4.sub(v128.load(node + nearZ), z4), iz4), zero),
      );
      const tf = f32x4.pmin(
        f32x4.pmin(
          f32x4.mul(f32x4.sub(v128.load(node + farX), x4), ix4),
          f32x4.mul(f32x4.sub(v128.load(node + farY), y4), iy4),
        ),
        f32x4.pmin(f32x4.mul(f32x4.sub(v128.load(node + farZ), z4), iz4), f32x4.splat(farthest)),
      );
      let mask = i32x4.bitmask(f32x4.le(tn, f32x4.mul(tf, hair)));
      if (mask !== 0) {
        v128.store(outAt + 16, tn);
        // Kept with the furthest lowest, each put in its place among those of this node.
        const low = top;
        do {
          const k = (<usize>ctz(mask)) << 2;
          mask &= mask - 1;
          const t = load<f32>(outAt + k, 16);
          let at = top;
          while (at > low && load<f32>(at - 4) < t) {
            store<u64>(at, load<u64>(at - 8));
            at -= 8;
          }
          store<i32>(at, load<i32>(node + k, LINKS));
          store<f32>(at, t, 4);
          top += 8;
        } while (mask !== 0);
      }
    } else {
      const code = ~link;
      const from = code >>> 4;
      const last = from + ((code >>> 2) & 3);
      const leaf = code & 3;
      for (let i = from; i <= last; i++) {
        let t: f64;
        let met: i32;
        if (leaf === TRIANGLE_LEAF) {
          t = triangleHit(trianglesAt + <usize>i * TRIANGLE_BYTES);
          if (t > best || t === Infinity) continue;
          met = load<i32>(triangleItemsAt + ((<usize>i) << 2)) >> 1;
        } else if (leaf === ROUND_LEAF) {
          t = roundHit(roundsAt + <usize>i * ROUND_BYTES);
          if (t > best || t === Infinity) continue;
          met = load<i32>(roundItemsAt + ((<usize>i) << 2));
        } else {
          t = boxHit(boxesAt + <usize>i * BOX_BYTES);
          if (t > best || t === Infinity) continue;
          met = load<i32>(boxItemsAt + ((<usize>i) << 2));
        }
        if (t === best && item >= 0 && !comesBefore(met, leaf, i)) continue;
        best = t;
        item = met;
        kind = leaf;
        place = i;
      }
      farthest = <f32>best * HAIR;
    }
    while (top !== bottom && load<f32>(top - 4) > farthest) top -= 8;
    if (top === bottom) break;
    top -= 8;
    link = load<i32>(top);
  }
  store<f64>(outAt, best);
  store<i32>(outAt, kind, 8);
  store<i32>(outAt, place, 12);
  return item;
}

function comesBefore(i: i32, k: i32, p: i32): bool {
  if (i !== item) return i < item;
  return k !== kind ? k < kind : p < place;
}

function triangleHit(at: usize): f64 {
  const ax = <f64>load<f32>(at);
  const ay = <f64>load<f32>(at, 4);
  const az = <f64>load<f32>(at, 8);
  const ux = <f64>load<f32>(at, 12) - ax;
  const uy = <f64>load<f32>(at, 16) - ay;
  const uz = <f64>load<f32>(at, 20) - az;
  const vx = <f64>load<f32>(at, 24) - ax;
  const vy = <f64>load<f32>(at, 28) - ay;
  const vz = <f64>load<f32>(at, 32) - az;
  const hx = dy * vz - dz * vy;
  const hy = dz * vx - dx * vz;
  const hz = dx * vy - dy * vx;
  const det = ux * hx + uy * hy + uz * hz;
  if (det === 0) return Infinity;
  const inverse = 1 / det;
  const sx = ox - ax;
  const sy = oy - ay;
  const sz = oz - az;
  const fu = (sx * hx + sy * hy + sz * hz) * inverse;
  if (fu < -EDGE || fu > 1 + EDGE) return Infinity;
  const qx = sy * uz - sz * uy;
  const qy = sz * ux - sx * uz;
  const qz = sx * uy - sy * ux;
  const fv = (dx * qx + dy * qy + dz * qz) * inverse;
  if (fv < -EDGE || fu + fv > 1 + EDGE) return Infinity;
  const t = (vx * qx + vy * qy + vz * qz) * inverse;
  return t >= 0 ? t : Infinity;
}

function roundHit(at: usize): f64 {
  const px = ox - load<f64>(at);
  const py = oy - load<f64>(at, 8);
  const pz = oz - load<f64>(at, 16);
  const ax = load<f64>(at, 24);
  const ay = load<f64>(at, 32);
  const az = load<f64>(at, 40);
  const length = load<f64>(at, 48);
  const given = load<f64>(at, 56);
  const r = abs(given);
  const pa = px * ax + py * ay + pz * az;
  const da = dx * ax + dy * ay + dz * az;
  const wx = px - pa * ax;
  const wy = py - pa * ay;
  const wz = pz - pa * az;
  const ex = dx - da * ax;
  const ey = dy - da * ay;
  const ez = dz - da * az;
  const a = ex * ex + ey * ey + ez * ez;
  const b = wx * ex + wy * ey + wz * ez;
  const k = wx * wx + wy * wy + wz * wz - r * r;
  let enters: f64 = -Infinity;
  let leaves: f64 = Infinity;
  if (a > ALONG_AXIS) {
    const disc = b * b - a * k;
    if (disc < 0) return Infinity;
    const q = b > 0 ? -b - sqrt(disc) : -b + sqrt(disc);
    const r1 = q / a;
    const r2 = q === 0 ? r1 : k / q;
    enters = r1 < r2 ? r1 : r2;
    leaves = r1 < r2 ? r2 : r1;
  } else if (k > 0) return Infinity;
  if (given < 0) {
    if (da !== 0) {
      const s1 = -pa / da;
      const s2 = (length - pa) / da;
      const low = s1 < s2 ? s1 : s2;
      const high = s1 < s2 ? s2 : s1;
      if (low > enters) enters = low;
      if (high < leaves) leaves = high;
    } else if (pa < 0 || pa > length) return Infinity;
  } else {
    const zIn: f64 = enters === -Infinity ? (da > 0 ? -Infinity : Infinity) : pa + enters * da;
    const zOut: f64 = leaves === Infinity ? (da > 0 ? Infinity : -Infinity) : pa + leaves * da;
    if (zIn < 0) {
      if (!ballSpan(px, py, pz, r)) return Infinity;
      enters = spanIn;
    } else if (zIn > length) {
      if (!ballSpan(px - length * ax, py - length * ay, pz - length * az, r)) return Infinity;
      enters = spanIn;
    }
    if (zOut < 0) {
      if (!ballSpan(px, py, pz, r)) return Infinity;
      leaves = spanOut;
    } else if (zOut > length) {
      if (!ballSpan(px - length * ax, py - length * ay, pz - length * az, r)) return Infinity;
      leaves = spanOut;
    }
  }
  if (!(enters <= leaves)) return Infinity;
  return enters >= 0 ? enters : leaves >= 0 ? leaves : Infinity;
}

function ballSpan(px: f64, py: f64, pz: f64, r: f64): bool {
  const b = px * dx + py * dy + pz * dz;
  const mx = px - b * dx;
  const my = py - b * dy;
  const mz = pz - b * dz;
  const disc = r * r - (mx * mx + my * my + mz * mz);
  if (disc < 0) return false;
  const root = sqrt(disc);
  spanIn = -b - root;
  spanOut = -b + root;
  return true;
}

function boxHit(at: usize): f64 {
  const px = ox - load<f64>(at);
  const py = oy - load<f64>(at, 8);
  const pz = oz - load<f64>(at, 16);
  let enters: f64 = -Infinity;
  let leaves: f64 = Infinity;
  for (let axis: usize = 0; axis < 3; axis++) {
    const k = at + 24 + axis * 24;
    const p = px * load<f64>(k) + py * load<f64>(k, 8) + pz * load<f64>(k, 16);
    const d = dx * load<f64>(k) + dy * load<f64>(k, 8) + dz * load<f64>(k, 16);
    const half = load<f64>(at + (axis << 3), 96);
    if (d === 0) {
      if (p > half || p < -half) return Infinity;
      continue;
    }
    const inverse = 1 / d;
    const middle = -p * inverse;
    const by = abs(half * inverse);
    if (middle - by > enters) enters = middle - by;
    if (middle + by < leaves) leaves = middle + by;
  }
  if (!(enters <= leaves)) return Infinity;
  return enters >= 0 ? enters : leaves >= 0 ? leaves : Infinity;
}
