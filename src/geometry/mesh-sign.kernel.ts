import { cornerOf, type Feature, ON_FACE } from './mesh-closest.kernel.ts';
import { BLOCK_SLOTS_AT, BLOCK_WORDS, HALVES_AT, LINKS_AT, type MeshBvh, NO_CHILD, NODE_WORDS } from './bvh-layout.ts';
import { sharedBytes } from './mesh-bvh.kernel.ts';
import type { MeshTopology } from './mesh-topology.kernel.ts';

/**
 * How inside is told from outside.
 * `normals`: closed bodies apart from one another: by the angle-weighted normal of the closest face, edge or corner.
 * `winding`: scans with small holes, bodies that run into one another: by the generalised winding number > 1/2.
 * `none`: open sheets: nothing is inside.
 */
export type MeshSign =
  | {
      readonly by: 'normals';
      /** -1 for a mesh that is inside out. */
      readonly way: 1 | -1;
      /** Slot across each edge, three a slot. */
      readonly across: Int32Array;
      /** Number of the corner normal, three a slot. */
      readonly corner: Uint32Array;
      readonly cornerNormals: Float32Array;
    }
  | {
      readonly by: 'winding';
      readonly way: 1 | -1;
      /** Eight floats a child, node after node: vector area x y z, middle x y z, radius squared, 0. */
      readonly moments: Float32Array;
    }
  | { readonly by: 'none' };

/** Holes above this share of the surface make it an open sheet: a lid left off, a one-sided scan. A choice of ours. */
export const LARGEST_HOLE_SHARE = 0.05;

export type InsideRule = 'auto' | 'winding' | 'never';

export function meshSign(bvh: MeshBvh, topology: MeshTopology, rule: InsideRule): MeshSign {
  const way = topology.closed && topology.volumeMm3 < 0 ? -1 : 1;
  if (rule === 'never') return { by: 'none' };
  if (rule === 'auto' && topology.closed && !topology.bodiesOverlap) {
    return { by: 'normals', way, ...featureNormals(bvh, topology) };
  }
  if (rule === 'auto' && topology.holeShare > LARGEST_HOLE_SHARE) return { by: 'none' };
  return { by: 'winding', way, moments: windingMoments(bvh) };
}

function featureNormals(bvh: MeshBvh, topology: MeshTopology) {
  const n = bvh.order.length;
  const slotOf = new Uint32Array(n);
  for (let slot = 0; slot < n; slot++) slotOf[bvh.order[slot]!] = slot;
  const across = new Int32Array(sharedBytes(n * 12));
  const corner = new Uint32Array(sharedBytes(n * 12));
  const sums = new Float64Array(topology.corners * 3);
  for (let slot = 0; slot < n; slot++) {
    const t = bvh.order[slot]! * 3;
    const normal = unitNormal(bvh, slot);
    for (let k = 0; k < 3; k++) {
      across[slot * 3 + k] = slotOf[topology.across[t + k]!]!;
      const id = topology.corner[t + k]!;
      corner[slot * 3 + k] = id;
      const angle = angleAt(bvh, slot, k);
      for (let axis = 0; axis < 3; axis++) sums[id * 3 + axis]! += angle * normal[axis]!;
    }
  }
  const cornerNormals = new Float32Array(sharedBytes(sums.length * 4));
  cornerNormals.set(sums);
  return { across, corner, cornerNormals };
}

type Triple = [number, number, number];

function edges(bvh: MeshBvh, slot: number, k: number): [Triple, Triple] {
  const at = cornerOf(bvh, slot, k);
  const next = cornerOf(bvh, slot, (k + 1) % 3);
  const last = cornerOf(bvh, slot, (k + 2) % 3);
  return [
    [next[0] - at[0], next[1] - at[1], next[2] - at[2]],
    [last[0] - at[0], last[1] - at[1], last[2] - at[2]],
  ];
}

function areaVector(bvh: MeshBvh, slot: number): Triple {
  const [u, v] = edges(bvh, slot, 0);
  return [(u[1] * v[2] - u[2] * v[1]) / 2, (u[2] * v[0] - u[0] * v[2]) / 2, (u[0] * v[1] - u[1] * v[0]) / 2];
}

function unitNormal(bvh: MeshBvh, slot: number): Triple {
  const n = areaVector(bvh, slot);
  const length = Math.hypot(...n);
  return length > 0 ? [n[0] / length, n[1] / length, n[2] / length] : [0, 0, 0];
}

function angleAt(bvh: MeshBvh, slot: number, k: number): number {
  const [u, v] = edges(bvh, slot, k);
  const area = areaVector(bvh, slot);
  return Math.atan2(2 * Math.hypot(...area), u[0] * v[0] + u[1] * v[1] + u[2] * v[2]);
}

/**
 * -1 inside, 1 outside: which side of the surface p is of its closest point q.
 *
 * @param slot - slot of the triangle closest to p
 * @param feature - the feature of it that q lies on
 */
export function signByNormal(
  bvh: MeshBvh,
  sign: MeshSign & { by: 'normals' },
  slot: number,
  feature: Feature,
  q: Float64Array,
  px: number,
  py: number,
  pz: number,
): 1 | -1 {
  const n = featureNormal(bvh, sign, slot, feature);
  const out = (px - q[0]!) * n[0] + (py - q[1]!) * n[1] + (pz - q[2]!) * n[2];
  return out * sign.way < 0 ? -1 : 1;
}

function featureNormal(bvh: MeshBvh, sign: MeshSign & { by: 'normals' }, slot: number, feature: Feature): Triple {
  if (feature >= 1 && feature <= 3) {
    const o = sign.corner[slot * 3 + feature - 1]! * 3;
    return [sign.cornerNormals[o]!, sign.cornerNormals[o + 1]!, sign.cornerNormals[o + 2]!];
  }
  const n = unitNormal(bvh, slot);
  if (feature === ON_FACE) return n;
  const m = unitNormal(bvh, sign.across[slot * 3 + feature - 4]!);
  return [n[0] + m[0], n[1] + m[1], n[2] + m[2]];
}

const MOMENT_WORDS = 8;
const MOMENTS_PER_WORD = (4 * MOMENT_WORDS) / NODE_WORDS;

/** Vector area, middle and reach of what lies under each child of each node. */
function windingMoments(bvh: MeshBvh): Float32Array {
  const { links, middles, halves, unitMm } = bvh;
  const moments = new Float32Array(sharedBytes(links.length * MOMENTS_PER_WORD * 4));
  // Children have higher offsets than their node, so backwards every child is done before its node.
  for (let at = links.length - NODE_WORDS; at >= 0; at -= NODE_WORDS) {
    for (let k = 0; k < 4; k++) {
      if (links[at + LINKS_AT + k] === NO_CHILD) continue;
      const sum = [0, 0, 0, 0, 0, 0, 0];
      gather(bvh, moments, links[at + LINKS_AT + k]!, sum);
      const o = at * MOMENTS_PER_WORD + k * MOMENT_WORDS;
      const weight = sum[6]! > 0 ? 1 / sum[6]! : 0;
      for (let axis = 0; axis < 3; axis++) {
        moments[o + axis] = sum[axis]!;
        moments[o + 3 + axis] = sum[3 + axis]! * weight;
      }
      let reach = 0;
      for (let axis = 0; axis < 3; axis++) {
        const middle = middles[at * 2 + axis * 4 + k]! * unitMm;
        const off = Math.abs(moments[o + 3 + axis]! - middle) + halves[at * 2 + HALVES_AT + axis * 4 + k]! * unitMm;
        reach += off * off;
      }
      moments[o + 6] = reach;
      moments[o + 7] = sum[6]!;
    }
  }
  return moments;
}

function gather(bvh: MeshBvh, moments: Float32Array, link: number, sum: number[]): void {
  const add = (area: ArrayLike<number>, o: number, middle: ArrayLike<number>, m: number, weight: number): void => {
    for (let axis = 0; axis < 3; axis++) {
      sum[axis]! += area[o + axis]!;
      sum[3 + axis]! += middle[m + axis]! * weight;
    }
    sum[6]! += weight;
  };
  if (link >= 0) {
    for (let k = 0; k < 4; k++) {
      const o = link * MOMENTS_PER_WORD + k * MOMENT_WORDS;
      if (bvh.links[link + LINKS_AT + k] !== NO_CHILD) add(moments, o, moments, o + 3, moments[o + 7]!);
    }
    return;
  }
  const packed = bvh.blockSlots[~link * BLOCK_WORDS + BLOCK_SLOTS_AT]!;
  const first = packed >>> 2;
  for (let slot = first; slot <= first + (packed & 3); slot++) {
    const area = areaVector(bvh, slot);
    const [a, b, c] = [cornerOf(bvh, slot, 0), cornerOf(bvh, slot, 1), cornerOf(bvh, slot, 2)];
    const middle = bvh.origin.map((o, axis) => (a[axis]! + b[axis]! + c[axis]!) / 3 - o);
    add(area, 0, middle, 0, Math.hypot(...area));
  }
}

/** A cluster seen from further than this many of its reaches counts as one dipole; the winding number is then right to about 0.02. */
const DIPOLE_FROM = 2;
const windingStack = new Int32Array(256);

/** How often the surface goes round p: 1 inside, 0 outside a closed mesh; in between near a hole [-]. */
export function windingNumber(bvh: MeshBvh, moments: Float32Array, px: number, py: number, pz: number): number {
  const { links, origin } = bvh;
  const lx = px - origin[0];
  const ly = py - origin[1];
  const lz = pz - origin[2];
  let top = 1;
  windingStack[0] = 0;
  let sum = 0;
  while (top > 0) {
    const at = windingStack[--top]!;
    for (let k = 0; k < 4; k++) {
      if (links[at + LINKS_AT + k] === NO_CHILD) continue;
      const o = at * MOMENTS_PER_WORD + k * MOMENT_WORDS;
      const dx = moments[o + 3]! - lx;
      const dy = moments[o + 4]! - ly;
      const dz = moments[o + 5]! - lz;
      const d2 = dx * dx + dy * dy + dz * dz;
      if (d2 > DIPOLE_FROM * DIPOLE_FROM * moments[o + 6]!) {
        sum += (moments[o]! * dx + moments[o + 1]! * dy + moments[o + 2]! * dz) / (d2 * Math.sqrt(d2));
        continue;
      }
      const link = links[at + LINKS_AT + k]!;
      if (link >= 0) {
        windingStack[top++] = link;
        continue;
      }
      const packed = bvh.blockSlots[~link * BLOCK_WORDS + BLOCK_SLOTS_AT]!;
      const first = packed >>> 2;
      for (let slot = first; slot <= first + (packed & 3); slot++) sum += solidAngle(bvh, slot, px, py, pz);
    }
  }
  return sum / (4 * Math.PI);
}

/**
 * The solid angle a triangle fills, seen from p; positive from behind [sr].
 *
 *     tan(w/2) = a.(b x c) / (|a||b||c| + (a.b)|c| + (b.c)|a| + (c.a)|b|)
 */
function solidAngle(bvh: MeshBvh, slot: number, px: number, py: number, pz: number): number {
  const t = bvh.corners;
  const o = slot * 9;
  const ax = t[o]! - px;
  const ay = t[o + 1]! - py;
  const az = t[o + 2]! - pz;
  const bx = t[o + 3]! - px;
  const by = t[o + 4]! - py;
  const bz = t[o + 5]! - pz;
  const cx = t[o + 6]! - px;
  const cy = t[o + 7]! - py;
  const cz = t[o + 8]! - pz;
  const a = Math.sqrt(ax * ax + ay * ay + az * az);
  const b = Math.sqrt(bx * bx + by * by + bz * bz);
  const c = Math.sqrt(cx * cx + cy * cy + cz * cz);
  const det = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  const ab = ax * bx + ay * by + az * bz;
  const bc = bx * cx + by * cy + bz * cz;
  const ca = cx * ax + cy * ay + cz * az;
  return 2 * Math.atan2(det, a * b * c + ab * c + bc * a + ca * b);
}
