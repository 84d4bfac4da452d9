import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { describe, expect, it } from 'vitest';
import {
  ballMesh,
  bayParts,
  boxMesh,
  chance,
  joinedMeshes,
  sheetMesh,
  shiftedMesh,
  sliverMesh,
  soupDistance,
  type SoupMesh,
} from '../../test/geometry/seeded-meshes.ts';
import { buildBvh } from './mesh-bvh.kernel.ts';
import { closestOnTriangle, closestSearch, closestSlot, squaredToTriangle } from './mesh-closest.kernel.ts';
import type { Vec } from './vec.ts';

/** All large enough for the compiled search, so that both searches run on the same tree. */
const meshes: [string, SoupMesh, number][] = [
  ['ball', ballMesh(4, 100), 300],
  ['noisy scan, hung far from the origin', shiftedMesh(ballMesh(5, 100, 0.3, 3), [4000, -9000, 2500]), 300],
  ['thin sheet', sheetMesh(40, 300, 0.05, 4), 300],
  ['slivers', sliverMesh(2500, 100, 6), 300],
  ['bay', joinedMeshes(...bayParts(20_000, 2).map((p) => p.mesh)), 1000],
  [
    'two small balls 20 m apart, as float32',
    rounded(joinedMeshes(ballMesh(4, 1), shiftedMesh(ballMesh(4, 2, 0.01, 5), [20_000, 0, 100]))),
    300,
  ],
  ['grid that ties everywhere', gridOfBoxes(), 60],
];

/** Boxes on whole numbers: every point of the half grid is as far from many triangles. */
function gridOfBoxes(): SoupMesh {
  const boxes: SoupMesh[] = [];
  for (let x = 0; x < 6; x++)
    for (let y = 0; y < 6; y++)
      for (let z = 0; z < 6; z++) boxes.push(boxMesh([x * 8, y * 8, z * 8], [x * 8 + 4, y * 8 + 4, z * 8 + 4]));
  return joinedMeshes(...boxes);
}

function rounded(mesh: SoupMesh): SoupMesh {
  return { positions: mesh.positions.map(Math.fround), indices: mesh.indices };
}

function pointsFor(mesh: SoupMesh, reachMm: number, n: number, seed: number): Vec[] {
  const draw = chance(seed);
  const middle = [0, 1, 2].map((axis) => mesh.positions[axis]!);
  return Array.from({ length: n }, (_, i): Vec => {
    if (mesh.positions[0] === 0 && i % 2 === 0)
      return [Math.floor(draw(-4, 52)), Math.floor(draw(-4, 52)), Math.floor(draw(-4, 52))];
    const corner = Math.floor(draw(0, mesh.positions.length / 3)) * 3;
    const reach = [0.01, 1, 30, reachMm][i % 4]!;
    const from = i % 8 === 7 ? middle : [0, 1, 2].map((axis) => mesh.positions[corner + axis]!);
    return [from[0]! + draw(-reach, reach), from[1]! + draw(-reach, reach), from[2]! + draw(-reach, reach)];
  });
}

describe.each(meshes)('%s, seed 21', (name, mesh, reachMm) => {
  const bvh = buildBvh(mesh);
  const compiled = closestSearch(bvh);
  const out = new Float64Array(1);
  const points = pointsFor(mesh, reachMm, 400, 21);
  const count = mesh.indices.length / 3;
  // The least triangle index at the least distance, over all triangles, with the kernel's own measure.
  const scan = (p: Vec): { squared: number; triangle: number } => {
    let [squared, triangle] = [Infinity, -1];
    for (let slot = 0; slot < count; slot++) {
      const d = squaredToTriangle(bvh, slot, ...p);
      const t = bvh.order[slot]!;
      if (d < squared || (d === squared && t < triangle)) [squared, triangle] = [d, t];
    }
    return { squared, triangle };
  };

  it('runs compiled', () => {
    expect(bvh.wasmMemory).not.toBeNull();
  });

  it('finds the very triangle that a look at all of them finds, compiled and plain, from any hint', () => {
    const draw = chance(5);
    for (const p of points.slice(0, 120)) {
      const { squared, triangle } = scan(p);
      for (const hint of [-1, Math.floor(draw(0, count)), 0]) {
        expect(bvh.order[compiled(...p, Infinity, hint, out)]).toBe(triangle);
        expect(out[0]).toBe(squared);
        expect(bvh.order[closestSlot(bvh, ...p, Infinity, hint, out)]).toBe(triangle);
        expect(out[0]).toBe(squared);
      }
    }
  });

  it('measures what an independent look at all triangles measures', () => {
    const size = Math.max(...mesh.positions.map(Math.abs));
    for (const p of points.slice(0, 60)) {
      compiled(...p, Infinity, -1, out);
      // A sliver's height, 1e-9 of its length, may be lost in its normal.
      expect(Math.abs(Math.sqrt(out[0]!) - soupDistance(mesh, p))).toBeLessThan(
        1e-12 * size + (name === 'slivers' ? 1e-6 : 0),
      );
    }
  });

  it('agrees with three-mesh-bvh 0.9.17', () => {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(mesh.positions.slice(), 3));
    geometry.setIndex(new BufferAttribute(mesh.indices.slice(), 1));
    const other = new MeshBVH(geometry);
    for (const p of points) {
      compiled(...p, Infinity, -1, out);
      const theirs = other.closestPointToPoint(new Vector3(...p))!.distance;
      // Its triangles without a usable normal are measured loosely.
      expect(Math.abs(Math.sqrt(out[0]!) - theirs)).toBeLessThan(name === 'slivers' ? 1e-3 : 1e-9 * (1 + theirs));
    }
  });

  it('finds nothing past a limit, and the same within it', () => {
    for (const p of points) {
      const slot = compiled(...p, Infinity, -1, out);
      const squared = out[0]!;
      if (squared === 0) continue;
      expect(compiled(...p, squared * 0.999, -1, out)).toBe(-1);
      expect(compiled(...p, squared * 1.001, -1, out)).toBe(slot);
      expect(closestSlot(bvh, ...p, squared * 0.999, -1, out)).toBe(-1);
      expect(closestSlot(bvh, ...p, squared * 1.001, -1, out)).toBe(slot);
    }
  });

  it('puts the closest point on the triangle at that distance', () => {
    const q = new Float64Array(3);
    for (const p of points) {
      const slot = compiled(...p, Infinity, -1, out);
      closestOnTriangle(bvh, slot, ...p, q);
      const apart = Math.hypot(p[0] - q[0]!, p[1] - q[1]!, p[2] - q[2]!);
      expect(Math.abs(apart - Math.sqrt(out[0]!))).toBeLessThan(1e-7);
    }
  });
});
