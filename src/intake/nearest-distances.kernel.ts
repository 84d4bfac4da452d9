import type { TriangleMesh } from '#geometry';

/** Cells of the grid along its longest side: twenty thousand points on a surface come to a few in each cell they are in. */
const CELLS = 64;
/** How much farther each pass looks for the points that the pass before found no triangle near. */
const FARTHER = 3;

interface Grid {
  readonly min: readonly [number, number, number];
  readonly cell: number;
  readonly size: readonly [number, number, number];
  /** Where each cell's points begin in `order`; one more at the end. */
  readonly starts: Uint32Array;
  readonly order: Uint32Array;
}

/**
 * The distance from each point to the nearest triangle [mm].
 *
 * The other way round from a search tree: the few points lie in a grid, and each of the many triangles looks up the
 * points near it, once. Over a mesh that is asked only once this is many times quicker than building a tree for it.
 *
 * @param points - x, y, z triples [mm]
 * @param reachMm - how far most of the points will be found [mm]; any value > 0 gives the same answer
 */
export function nearestDistances(mesh: TriangleMesh, points: Float64Array, reachMm: number): Float64Array {
  const n = points.length / 3;
  const best = new Float64Array(n).fill(Infinity);
  let pending = Uint32Array.from({ length: n }, (_, i) => i);
  for (let reach = reachMm; pending.length > 0; reach *= FARTHER) {
    onePass(mesh, points, gridOf(points, pending), reach, best);
    pending = pending.filter((i) => !(best[i]! <= reach * reach) && Number.isFinite(reach));
  }
  return best.map(Math.sqrt);
}

function gridOf(points: Float64Array, pending: Uint32Array): Grid {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const i of pending) {
    for (const axis of [0, 1, 2] as const) {
      const v = points[3 * i + axis]!;
      if (v < min[axis]) min[axis] = v;
      if (v > max[axis]) max[axis] = v;
    }
  }
  const cell = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2], 1e-9) / CELLS;
  const along = (axis: 0 | 1 | 2): number => Math.floor((max[axis] - min[axis]) / cell) + 1;
  const size = [along(0), along(1), along(2)] as const;
  const cellOf = (i: number): number => {
    const [x, y, z] = [0, 1, 2].map((axis) => Math.floor((points[3 * i + axis]! - min[axis]!) / cell)) as [
      number,
      number,
      number,
    ];
    return (z * size[1] + y) * size[0] + x;
  };
  const starts = new Uint32Array(size[0] * size[1] * size[2] + 1);
  for (const i of pending) starts[cellOf(i) + 1]!++;
  for (let c = 1; c < starts.length; c++) starts[c]! += starts[c - 1]!;
  const next = starts.slice();
  const order = new Uint32Array(pending.length);
  for (const i of pending) order[next[cellOf(i)]!++] = i;
  return { min, cell, size, starts, order };
}

function onePass(mesh: TriangleMesh, points: Float64Array, grid: Grid, reach: number, best: Float64Array): void {
  const { positions: p, indices } = mesh;
  const { min, cell, size, starts, order } = grid;
  const low = [0, 0, 0];
  const high = [0, 0, 0];
  for (let t = 0; t < indices.length; t += 3) {
    const a = indices[t]! * 3;
    const b = indices[t + 1]! * 3;
    const c = indices[t + 2]! * 3;
    let empty = false;
    for (let axis = 0; axis < 3; axis++) {
      const [u, v, w] = [p[a + axis]!, p[b + axis]!, p[c + axis]!];
      low[axis] = Math.max(0, Math.floor((Math.min(u, v, w) - reach - min[axis]!) / cell));
      high[axis] = Math.min(size[axis]! - 1, Math.floor((Math.max(u, v, w) + reach - min[axis]!) / cell));
      if (low[axis]! > high[axis]!) empty = true;
    }
    if (empty) continue;
    for (let z = low[2]!; z <= high[2]!; z++) {
      for (let y = low[1]!; y <= high[1]!; y++) {
        const row = (z * size[1] + y) * size[0];
        // cells along X lie one after another, so a row of them is one run of points
        const end = starts[row + high[0]! + 1]!;
        for (let k = starts[row + low[0]!]!; k < end; k++) {
          const i = order[k]!;
          const d = squaredToTriangle(p, a, b, c, points[3 * i]!, points[3 * i + 1]!, points[3 * i + 2]!);
          if (d < best[i]!) best[i] = d;
        }
      }
    }
  }
}

/**
 * Squared distance from a point to a triangle: to its plane where the point lies over it, else to the nearest edge.
 * A triangle without area has only edges, so that no division by nothing can come about.
 */
function squaredToTriangle(
  p: TriangleMesh['positions'],
  a: number,
  b: number,
  c: number,
  x: number,
  y: number,
  z: number,
): number {
  const ax = p[a]! - x;
  const ay = p[a + 1]! - y;
  const az = p[a + 2]! - z;
  const bx = p[b]! - x;
  const by = p[b + 1]! - y;
  const bz = p[b + 2]! - z;
  const cx = p[c]! - x;
  const cy = p[c + 1]! - y;
  const cz = p[c + 2]! - z;
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = cx - ax;
  const vy = cy - ay;
  const vz = cz - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  if (nn > 0) {
    // over the triangle when the point is on the inner side of all three planes through an edge and the normal
    const ab = nx * (ay * bz - az * by) + ny * (az * bx - ax * bz) + nz * (ax * by - ay * bx);
    const bc = nx * (by * cz - bz * cy) + ny * (bz * cx - bx * cz) + nz * (bx * cy - by * cx);
    const ca = nx * (cy * az - cz * ay) + ny * (cz * ax - cx * az) + nz * (cx * ay - cy * ax);
    if (ab >= 0 && bc >= 0 && ca >= 0) {
      const height = nx * ax + ny * ay + nz * az;
      return (height * height) / nn;
    }
  }
  return Math.min(
    squaredToEdge(ax, ay, az, bx, by, bz),
    squaredToEdge(bx, by, bz, cx, cy, cz),
    squaredToEdge(cx, cy, cz, ax, ay, az),
  );
}

/** Squared distance from the origin to the edge between two points. */
function squaredToEdge(ax: number, ay: number, az: number, bx: number, by: number, bz: number): number {
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const uu = ux * ux + uy * uy + uz * uz;
  const along = uu > 0 ? Math.min(1, Math.max(0, -(ax * ux + ay * uy + az * uz) / uu)) : 0;
  const dx = ax + ux * along;
  const dy = ay + uy * along;
  const dz = az + uz * along;
  return dx * dx + dy * dy + dz * dz;
}
