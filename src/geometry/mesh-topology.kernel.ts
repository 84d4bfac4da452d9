import type { TriangleMesh } from './triangle-mesh.ts';

/** How the triangles of a mesh hang together, corners at the very same place being one. */
export interface MeshTopology {
  /** The welded corner of each index. */
  readonly corner: Uint32Array;
  readonly corners: number;
  /** For edge k of triangle t (corner k to the next) at 3 t + k: the triangle across, or -1 where there is none or more than one. */
  readonly across: Int32Array;
  /** Every edge has exactly one triangle on either side, and both run round alike. */
  readonly closed: boolean;
  /** The area of the holes over the area of the surface [-]; 0 when closed. */
  readonly holeShare: number;
  /** [mm^3]; below 0 where a closed mesh is inside out. */
  readonly volumeMm3: number;
  /** Bodies whose bounding boxes overlap: their surfaces may run inside one another. */
  readonly bodiesOverlap: boolean;
}

export function meshTopology(mesh: TriangleMesh): MeshTopology {
  const { corner, corners } = welded(mesh);
  const { across, open, uneven } = acrossEdges(corner);
  const place = cornerPlaces(mesh, corner, corners);
  const { area, volume } = areaAndVolume(mesh);
  return {
    corner,
    corners,
    across,
    closed: open.length === 0 && !uneven,
    holeShare: area > 0 ? holeArea(open, corner, corners, place) / area : 1,
    volumeMm3: volume,
    bodiesOverlap: bodiesOverlap(mesh, corner, across),
  };
}

/** One number for all positions that are equal to the last bit. */
function welded(mesh: TriangleMesh): { corner: Uint32Array; corners: number } {
  const { positions: p, indices } = mesh;
  const n = p.length / 3;
  const mask = tableSize(n) - 1;
  const table = new Int32Array(mask + 1).fill(-1);
  const bits = new Float32Array(3);
  const words = new Int32Array(bits.buffer);
  const idOf = new Uint32Array(n);
  let corners = 0;
  for (let i = 0; i < n; i++) {
    // + 0 makes -0 and 0 the same place.
    for (let axis = 0; axis < 3; axis++) bits[axis] = p[i * 3 + axis]! + 0;
    let h = mixed(words[0]!, mixed(words[1]!, words[2]!)) & mask;
    for (;;) {
      const other = table[h]!;
      if (other < 0) {
        table[h] = i;
        idOf[i] = corners++;
        break;
      }
      if (p[other * 3] === p[i * 3] && p[other * 3 + 1] === p[i * 3 + 1] && p[other * 3 + 2] === p[i * 3 + 2]) {
        idOf[i] = idOf[other]!;
        break;
      }
      h = (h + 1) & mask;
    }
  }
  return { corner: indices.map((i) => idOf[i]!), corners };
}

function tableSize(entries: number): number {
  let size = 16;
  while (size < entries * 2) size *= 2;
  return size;
}

function mixed(a: number, b: number): number {
  let h = Math.imul(a ^ Math.imul(b, 0x9e3779b1), 0x85ebca6b);
  h ^= h >>> 13;
  return Math.imul(h, 0xc2b2ae35) ^ (h >>> 16);
}

/** Matches every edge with its opposite; `open` lists the half edges without one, `uneven` says some edge has more than two. */
function acrossEdges(corner: Uint32Array): { across: Int32Array; open: number[]; uneven: boolean } {
  const n = corner.length;
  const across = new Int32Array(n).fill(-1);
  const mask = tableSize(n) - 1;
  const table = new Int32Array(mask + 1).fill(-1);
  const end = (e: number): number => corner[e % 3 === 2 ? e - 2 : e + 1]!;
  // One table of directed edges: looked up the other way round.
  let uneven = false;
  for (let e = 0; e < n; e++) {
    const a = corner[e]!;
    const b = end(e);
    let h = mixed(a, b) & mask;
    for (; table[h]! >= 0; h = (h + 1) & mask) {
      const other = table[h]!;
      if (corner[other] === a && end(other) === b) uneven = true;
    }
    table[h] = e;
  }
  const open: number[] = [];
  for (let e = 0; e < n; e++) {
    const a = corner[e]!;
    const b = end(e);
    let found = -1;
    let many = false;
    for (let h = mixed(b, a) & mask; table[h]! >= 0; h = (h + 1) & mask) {
      const other = table[h]!;
      if (corner[other] !== b || end(other) !== a) continue;
      many = found >= 0;
      found = other;
    }
    if (found < 0) open.push(e);
    else if (!many) across[e] = (found / 3) | 0;
  }
  return { across, open, uneven };
}

function cornerPlaces(mesh: TriangleMesh, corner: Uint32Array, corners: number): Float64Array {
  const place = new Float64Array(corners * 3);
  for (let i = 0; i < corner.length; i++) {
    for (let axis = 0; axis < 3; axis++) place[corner[i]! * 3 + axis] = mesh.positions[mesh.indices[i]! * 3 + axis]!;
  }
  return place;
}

function areaAndVolume(mesh: TriangleMesh): { area: number; volume: number } {
  const { positions: p, indices } = mesh;
  const o = indices[0]! * 3;
  let area = 0;
  let volume = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const a = indices[i]! * 3;
    const b = indices[i + 1]! * 3;
    const c = indices[i + 2]! * 3;
    const ux = p[b]! - p[a]!;
    const uy = p[b + 1]! - p[a + 1]!;
    const uz = p[b + 2]! - p[a + 2]!;
    const vx = p[c]! - p[a]!;
    const vy = p[c + 1]! - p[a + 1]!;
    const vz = p[c + 2]! - p[a + 2]!;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    area += Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
    volume += ((p[a]! - p[o]!) * nx + (p[a + 1]! - p[o + 1]!) * ny + (p[a + 2]! - p[o + 2]!) * nz) / 6;
  }
  return { area, volume };
}

/** The sum, over the rims of all holes, of the length of the rim's vector area: half the sum of p x q along it [mm^2]. */
function holeArea(open: number[], corner: Uint32Array, corners: number, place: Float64Array): number {
  if (open.length === 0) return 0;
  const rim = groups(corners);
  const end = (e: number): number => corner[e % 3 === 2 ? e - 2 : e + 1]!;
  for (const e of open) rim.join(corner[e]!, end(e));
  const sums = new Map<number, [number, number, number]>();
  for (const e of open) {
    const a = corner[e]! * 3;
    const b = end(e) * 3;
    const key = rim.of(corner[e]!);
    const o = key * 3;
    const sum = sums.get(key) ?? [0, 0, 0];
    const [ax, ay, az] = [0, 1, 2].map((i) => place[a + i]! - place[o + i]!) as [number, number, number];
    const [bx, by, bz] = [0, 1, 2].map((i) => place[b + i]! - place[o + i]!) as [number, number, number];
    sums.set(key, [sum[0] + ay * bz - az * by, sum[1] + az * bx - ax * bz, sum[2] + ax * by - ay * bx]);
  }
  let area = 0;
  for (const s of sums.values()) area += Math.hypot(...s) / 2;
  return area;
}

/** Union-find that halves its paths; the lowest number stands for the group. */
function groups(n: number) {
  const parent = new Int32Array(n);
  for (let i = 0; i < n; i++) parent[i] = i;
  const of = (start: number): number => {
    let i = start;
    while (parent[i] !== i) {
      parent[i] = parent[parent[i]!]!;
      i = parent[i]!;
    }
    return i;
  };
  const join = (a: number, b: number): void => {
    const x = of(a);
    const y = of(b);
    if (x < y) parent[y] = x;
    else parent[x] = y;
  };
  return { of, join };
}

/** More bodies than this are taken to overlap without looking. */
const MANY_BODIES = 200;

function bodiesOverlap(mesh: TriangleMesh, corner: Uint32Array, across: Int32Array): boolean {
  const n = corner.length / 3;
  const body = groups(n);
  for (let e = 0; e < across.length; e++) if (across[e]! >= 0) body.join((e / 3) | 0, across[e]!);
  const boxes = new Map<number, number[]>();
  for (let t = 0; t < n; t++) {
    const key = body.of(t);
    let b = boxes.get(key);
    if (b === undefined) {
      if (boxes.size >= MANY_BODIES) return true;
      b = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
      boxes.set(key, b);
    }
    for (let k = 0; k < 3; k++) {
      const at = mesh.indices[t * 3 + k]! * 3;
      for (let axis = 0; axis < 3; axis++) {
        const v = mesh.positions[at + axis]!;
        if (v < b[axis]!) b[axis] = v;
        if (v > b[axis + 3]!) b[axis + 3] = v;
      }
    }
  }
  const all = [...boxes.values()];
  return all.some((a, i) =>
    all.slice(i + 1).some((b) => [0, 1, 2].every((k) => a[k]! <= b[k + 3]! && b[k]! <= a[k + 3]!)),
  );
}
