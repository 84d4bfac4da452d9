import { compiledRays } from './ray-compiled.ts';
import { BOX_WORDS, RAY_LINKS_AT, type RayScene, ROUND_LEAF, ROUND_WORDS, TRIANGLE_LEAF } from './ray-scene-layout.ts';

/** Where a hit is put: how far along [mm], unit normal x y z (of a solid: outwards; of a sheet: towards the ray), which side is met. */
export const RAY_HIT_WORDS = 5;
/** The sides that out[4] tells apart: a solid's or a sheet's front, a solid from within it, a sheet's back. */
export const FROM_OUTSIDE = 0;
export const FROM_INSIDE = 1;
export const SHEET_BACK = 2;

/** Deeper than any tree: splits go by halves past 40 levels, in the top and in a mesh. */
const STACK = 512;
const stackLinks = new Int32Array(STACK);
const stackEnters = new Float64Array(STACK);

/** Keeps a direction along an axis from dividing 0 by 0: no scene is so large that this is felt. */
const STEEPEST = 1e30;
/** Lets a ray that runs along a shared edge hit one of the two triangles rather than slip between. */
const EDGE = 1e-12;
/** Sums of squares below this of a unit vector's are rounding: the ray runs along the axis. */
const ALONG_AXIS = 1e-14;
/** Room for rounding in a box test. */
const HAIR = 1 + 1e-9;

/** Where the last round was entered and left; a module's own memory instead of an object a ray. */
const span = new Float64Array(2);

/**
 * The first surface that a ray meets beyond its origin, from either side.
 *
 * @param dx - direction, of length 1
 * @param mostMm - hits further off do not count [mm]
 * @param out - RAY_HIT_WORDS numbers, written where something is met
 * @returns the item that is met, or -1. Of two met at one distance the earlier in the list.
 */
export function firstRayHit(
  scene: RayScene,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  mostMm: number,
  out: Float64Array,
): number {
  const compiled = compiledRays(scene);
  if (compiled !== null) {
    const met = compiled.first(ox, oy, oz, dx, dy, dz, mostMm);
    if (met < 0) return -1;
    const t = compiled.distance[0]!;
    out[0] = t;
    const { what } = compiled;
    putNormal(scene, what[0]!, what[1]!, ox + t * dx, oy + t * dy, oz + t * dz, dx, dy, dz, out);
    return met;
  }
  return plainRayHit(scene, ox, oy, oz, dx, dy, dz, mostMm, out);
}

/** The same in plain TypeScript, with the same answers to the last bit. */
export function plainRayHit(
  scene: RayScene,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  mostMm: number,
  out: Float64Array,
): number {
  const { nodes, links } = scene;
  const ix = dx === 0 ? STEEPEST : 1 / dx;
  const iy = dy === 0 ? STEEPEST : 1 / dy;
  const iz = dz === 0 ? STEEPEST : 1 / dz;
  const nearX = ix < 0 ? 4 : 0;
  const nearY = iy < 0 ? 12 : 8;
  const nearZ = iz < 0 ? 20 : 16;
  const farX = 4 - nearX;
  const farY = 20 - nearY;
  const farZ = 36 - nearZ;
  let best = mostMm;
  let item = -1;
  let kind = 0;
  let place = -1;
  let depth = 0;
  let link = 0;
  for (;;) {
    if (link >= 0) {
      const low = depth;
      for (let k = link; k < link + 4; k++) {
        const x0 = (nodes[k + nearX]! - ox) * ix;
        const y0 = (nodes[k + nearY]! - oy) * iy;
        const z0 = (nodes[k + nearZ]! - oz) * iz;
        const x1 = (nodes[k + farX]! - ox) * ix;
        const y1 = (nodes[k + farY]! - oy) * iy;
        const z1 = (nodes[k + farZ]! - oz) * iz;
        let enters = x0 > y0 ? x0 : y0;
        if (z0 > enters) enters = z0;
        if (!(enters > 0)) enters = 0;
        let leaves = x1 < y1 ? x1 : y1;
        if (z1 < leaves) leaves = z1;
        if (best < leaves) leaves = best;
        if (!(enters <= leaves * HAIR)) continue;
        // Kept with the furthest lowest, each put in its place among those of this node.
        let at = depth++;
        while (at > low && stackEnters[at - 1]! < enters) {
          stackEnters[at] = stackEnters[at - 1]!;
          stackLinks[at] = stackLinks[at - 1]!;
          at--;
        }
        stackEnters[at] = enters;
        stackLinks[at] = links[k + RAY_LINKS_AT]!;
      }
    } else {
      const code = ~link;
      const first = code >>> 4;
      const last = first + ((code >>> 2) & 3);
      const leaf = code & 3;
      for (let i = first; i <= last; i++) {
        let t: number;
        if (leaf === TRIANGLE_LEAF) t = triangleHit(scene.triangles, i * 9, ox, oy, oz, dx, dy, dz);
        else if (leaf === ROUND_LEAF) t = roundHit(scene.rounds, i * ROUND_WORDS, ox, oy, oz, dx, dy, dz);
        else t = boxHit(scene.boxes, i * BOX_WORDS, ox, oy, oz, dx, dy, dz);
        if (t > best || t === Infinity) continue;
        const of =
          leaf === TRIANGLE_LEAF
            ? scene.triangleItems[i]! >> 1
            : leaf === ROUND_LEAF
              ? scene.roundItems[i]!
              : scene.boxItems[i]!;
        if (t === best && item >= 0 && !comesBefore(of, leaf, i, item, kind, place)) continue;
        best = t;
        item = of;
        kind = leaf;
        place = i;
      }
    }
    while (depth > 0 && stackEnters[depth - 1]! > best * HAIR) depth--;
    if (depth === 0) break;
    link = stackLinks[--depth]!;
  }
  if (item >= 0) {
    out[0] = best;
    putNormal(scene, kind, place, ox + best * dx, oy + best * dy, oz + best * dz, dx, dy, dz, out);
  }
  return item;
}

/** Of two surfaces at one distance the earlier item's, then by kind and place: never by the shape of the tree. */
function comesBefore(i: number, k: number, p: number, item: number, kind: number, place: number): boolean {
  if (i !== item) return i < item;
  return k !== kind ? k < kind : p < place;
}

function triangleHit(
  c: Float32Array,
  at: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const ax = c[at]!;
  const ay = c[at + 1]!;
  const az = c[at + 2]!;
  const ux = c[at + 3]! - ax;
  const uy = c[at + 4]! - ay;
  const uz = c[at + 5]! - az;
  const vx = c[at + 6]! - ax;
  const vy = c[at + 7]! - ay;
  const vz = c[at + 8]! - az;
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

/** Ball, capsule or flat cylinder. */
function roundHit(
  c: Float64Array,
  at: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const px = ox - c[at]!;
  const py = oy - c[at + 1]!;
  const pz = oz - c[at + 2]!;
  const ax = c[at + 3]!;
  const ay = c[at + 4]!;
  const az = c[at + 5]!;
  const length = c[at + 6]!;
  const r = Math.abs(c[at + 7]!);
  const isFlat = c[at + 7]! < 0;
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
  let enters = -Infinity;
  let leaves = Infinity;
  if (a > ALONG_AXIS) {
    const disc = b * b - a * k;
    if (disc < 0) return Infinity;
    const q = b > 0 ? -b - Math.sqrt(disc) : -b + Math.sqrt(disc);
    const r1 = q / a;
    const r2 = q === 0 ? r1 : k / q;
    enters = r1 < r2 ? r1 : r2;
    leaves = r1 < r2 ? r2 : r1;
  } else if (k > 0) return Infinity;
  if (isFlat) {
    if (da !== 0) {
      const s1 = -pa / da;
      const s2 = (length - pa) / da;
      const low = s1 < s2 ? s1 : s2;
      const high = s1 < s2 ? s2 : s1;
      if (low > enters) enters = low;
      if (high < leaves) leaves = high;
    } else if (pa < 0 || pa > length) return Infinity;
  } else {
    const zIn = enters === -Infinity ? (da > 0 ? -Infinity : Infinity) : pa + enters * da;
    const zOut = leaves === Infinity ? (da > 0 ? Infinity : -Infinity) : pa + leaves * da;
    if (zIn < 0) {
      if (!ballSpan(px, py, pz, dx, dy, dz, r)) return Infinity;
      enters = span[0]!;
    } else if (zIn > length) {
      if (!ballSpan(px - length * ax, py - length * ay, pz - length * az, dx, dy, dz, r)) return Infinity;
      enters = span[0]!;
    }
    if (zOut < 0) {
      if (!ballSpan(px, py, pz, dx, dy, dz, r)) return Infinity;
      leaves = span[1]!;
    } else if (zOut > length) {
      if (!ballSpan(px - length * ax, py - length * ay, pz - length * az, dx, dy, dz, r)) return Infinity;
      leaves = span[1]!;
    }
  }
  if (!(enters <= leaves)) return Infinity;
  return enters >= 0 ? enters : leaves >= 0 ? leaves : Infinity;
}

/** Where a ball about the origin is entered and left, into `span`. */
function ballSpan(px: number, py: number, pz: number, dx: number, dy: number, dz: number, r: number): boolean {
  const b = px * dx + py * dy + pz * dz;
  // The point of the ray nearest to the middle: its square is better known than b b - c.
  const mx = px - b * dx;
  const my = py - b * dy;
  const mz = pz - b * dz;
  const disc = r * r - (mx * mx + my * my + mz * mz);
  if (disc < 0) return false;
  const root = Math.sqrt(disc);
  span[0] = -b - root;
  span[1] = -b + root;
  return true;
}

function boxHit(
  c: Float64Array,
  at: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const px = ox - c[at]!;
  const py = oy - c[at + 1]!;
  const pz = oz - c[at + 2]!;
  let enters = -Infinity;
  let leaves = Infinity;
  for (let axis = 0; axis < 3; axis++) {
    const k = at + 3 + axis * 3;
    const p = px * c[k]! + py * c[k + 1]! + pz * c[k + 2]!;
    const d = dx * c[k]! + dy * c[k + 1]! + dz * c[k + 2]!;
    const half = c[at + 12 + axis]!;
    if (d === 0) {
      if (p > half || p < -half) return Infinity;
      continue;
    }
    const inverse = 1 / d;
    const middle = -p * inverse;
    const by = Math.abs(half * inverse);
    if (middle - by > enters) enters = middle - by;
    if (middle + by < leaves) leaves = middle + by;
  }
  if (!(enters <= leaves)) return Infinity;
  return enters >= 0 ? enters : leaves >= 0 ? leaves : Infinity;
}

/** The outward normal at the hit; an open sheet's looks at whoever comes. */
function putNormal(
  scene: RayScene,
  kind: number,
  place: number,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
): void {
  let nx: number;
  let ny: number;
  let nz: number;
  let isSheet = false;
  if (kind === TRIANGLE_LEAF) {
    const c = scene.triangles;
    const at = place * 9;
    const ux = c[at + 3]! - c[at]!;
    const uy = c[at + 4]! - c[at + 1]!;
    const uz = c[at + 5]! - c[at + 2]!;
    const vx = c[at + 6]! - c[at]!;
    const vy = c[at + 7]! - c[at + 1]!;
    const vz = c[at + 8]! - c[at + 2]!;
    nx = uy * vz - uz * vy;
    ny = uz * vx - ux * vz;
    nz = ux * vy - uy * vx;
    isSheet = (scene.triangleItems[place]! & 1) === 1;
  } else if (kind === ROUND_LEAF) {
    const c = scene.rounds;
    const at = place * ROUND_WORDS;
    const [ax, ay, az] = [c[at + 3]!, c[at + 4]!, c[at + 5]!];
    const length = c[at + 6]!;
    const px = x - c[at]!;
    const py = y - c[at + 1]!;
    const pz = z - c[at + 2]!;
    const along = px * ax + py * ay + pz * az;
    const foot = along < 0 ? 0 : along > length ? length : along;
    nx = px - foot * ax;
    ny = py - foot * ay;
    nz = pz - foot * az;
    if (c[at + 7]! < 0) {
      const beside = Math.abs(c[at + 7]!) - Math.hypot(px - along * ax, py - along * ay, pz - along * az);
      const within = Math.min(along, length - along);
      if (within < beside) {
        const way = along < length - along ? -1 : 1;
        nx = way * ax;
        ny = way * ay;
        nz = way * az;
      }
    }
  } else {
    const c = scene.boxes;
    const at = place * BOX_WORDS;
    let shallowest = Infinity;
    nx = ny = nz = 0;
    for (let axis = 0; axis < 3; axis++) {
      const k = at + 3 + axis * 3;
      const p = (x - c[at]!) * c[k]! + (y - c[at + 1]!) * c[k + 1]! + (z - c[at + 2]!) * c[k + 2]!;
      const room = c[at + 12 + axis]! - Math.abs(p);
      if (room < shallowest) {
        shallowest = room;
        // A side without thickness has no side of its own: its normal looks at whoever comes.
        const d = dx * c[k]! + dy * c[k + 1]! + dz * c[k + 2]!;
        const way = c[at + 12 + axis]! > 0 ? (p < 0 ? -1 : 1) : d > 0 ? -1 : 1;
        nx = way * c[k]!;
        ny = way * c[k + 1]!;
        nz = way * c[k + 2]!;
      }
    }
  }
  const along = nx * dx + ny * dy + nz * dz;
  const turn = (isSheet && along > 0 ? -1 : 1) / Math.sqrt(nx * nx + ny * ny + nz * nz);
  out[1] = nx * turn;
  out[2] = ny * turn;
  out[3] = nz * turn;
  out[4] = along > 0 ? (isSheet ? SHEET_BACK : FROM_INSIDE) : FROM_OUTSIDE;
}
