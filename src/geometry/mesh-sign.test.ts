import { describe, expect, it } from 'vitest';
import {
  ballMesh,
  boxMesh,
  chance,
  holedMesh,
  joinedMeshes,
  sheetMesh,
  type SoupMesh,
} from '../../test/geometry/seeded-meshes.ts';
import { meshSolid } from './mesh-solid.ts';
import type { MeshOptions } from './prepared-mesh.ts';
import { meshTopology } from './mesh-topology.kernel.ts';
import { triangleMesh } from './triangle-mesh.ts';

const solidOf = (m: SoupMesh, options?: MeshOptions) => meshSolid(triangleMesh(m.positions, m.indices), options);
const insideOut = (m: SoupMesh): SoupMesh => ({
  positions: m.positions,
  indices: m.indices.map((_, i) => m.indices[i - (i % 3) + ((3 - (i % 3)) % 3)]!),
});
const unwelded = (m: SoupMesh): SoupMesh => ({
  positions: new Float64Array(Array.from(m.indices).flatMap((k) => [...m.positions.slice(k * 3, k * 3 + 3)])),
  indices: m.indices.map((_, i) => i),
});

const ball = ballMesh(4, 100, 0.2, 2);
const cube = boxMesh([-50, -50, -50], [50, 50, 50]);

describe('closed bodies', () => {
  it.each([
    ['as given', cube],
    ['inside out', insideOut(cube)],
    ['every corner of its own', unwelded(cube)],
  ])('cube %s: -r inside, +r outside, by normals', (_, mesh) => {
    const solid = solidOf(mesh);
    expect(solid.insideBy).toBe('normals');
    // hand: 50 mm half side.
    expect(solid.distance(0, 0, 0)).toBe(-50);
    expect(solid.distance(49, 3, -7)).toBe(-1);
    expect(solid.distance(80, 90, 50)).toBe(50);
    expect(solid.distance(51, 51, 51)).toBeCloseTo(Math.sqrt(3), 12);
  });

  it('knows the inside off sharp edges and corners, where one face alone would mislead', () => {
    const wedge: SoupMesh = {
      positions: new Float64Array([0, 0, 0, 100, 0, 0, 100, 3, 0, 50, 1, 60]),
      indices: new Uint32Array([0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3]),
    };
    const solid = solidOf(wedge);
    const draw = chance(4);
    for (let i = 0; i < 3000; i++) {
      const p = [draw(-20, 120), draw(-20, 20), draw(-20, 80)] as const;
      expect(solid.distance(...p) < 0).toBe(inTetrahedron(wedge, p));
    }
  });

  it('a hollow body is solid only in its wall', () => {
    const solid = solidOf(joinedMeshes(cube, insideOut(boxMesh([-40, -40, -40], [40, 40, 40]))));
    expect(solid.distance(0, 0, 0)).toBe(40);
    expect(solid.distance(45, 0, 0)).toBe(-5);
  });

  it('bodies that run into one another are solid throughout', () => {
    const solid = solidOf(joinedMeshes(cube, boxMesh([20, -20, -20], [120, 20, 20])));
    expect(solid.insideBy).toBe('winding');
    expect(solid.distance(30, 0, 0)).toBeLessThan(0);
    expect(solid.distance(45, 0, 0)).toBeLessThan(0);
    expect(solid.distance(100, 0, 0)).toBe(-20);
    expect(solid.distance(60, 30, 0)).toBe(10);
  });
});

describe('scans', () => {
  const draw = chance(6);
  // 40 small holes: 2 % of 2048 triangles.
  const gone = new Set(Array.from({ length: 40 }, () => Math.floor(draw(0, 2048))));
  const scan = holedMesh(ball, (t) => gone.has(t));

  it('with small holes are solid inside, by winding', () => {
    const solid = solidOf(scan);
    expect(meshTopology(triangleMesh(scan.positions, scan.indices)).closed).toBe(false);
    expect(solid.insideBy).toBe('winding');
    for (let i = 0; i < 2000; i++) {
      const p = [draw(-130, 130), draw(-130, 130), draw(-130, 130)] as const;
      const r = Math.hypot(...p);
      // Facets of 8 mm lie at most 0.6 mm, noise 0.2 mm, below 100 mm; 5 mm round the surface is left to the holes.
      if (r < 94) expect(solid.distance(...p)).toBeLessThan(0);
      if (r > 106) expect(solid.distance(...p)).toBeGreaterThan(0);
    }
  });

  it.each([
    ['a sheet', sheetMesh(30, 200, 0.1)],
    ['half a shell', holedMesh(ball, (t) => t % 2048 < 1024)],
    ['a box without its lid, seen from within', holedMesh(insideOut(cube), (t) => t >= 10)],
  ])('%s is never below 0', (_, mesh) => {
    const solid = solidOf(mesh);
    expect(solid.insideBy).toBe('none');
    for (let i = 0; i < 500; i++) {
      expect(solid.distance(draw(-120, 120), draw(-120, 120), draw(-120, 120))).toBeGreaterThanOrEqual(0);
    }
  });

  it('a closed mesh may be told to have no inside', () => {
    expect(solidOf(cube, { inside: 'never' }).distance(0, 0, 0)).toBe(50);
  });
});

/** hand: inside where p lies on the inner side of all four faces. */
function inTetrahedron({ positions, indices }: SoupMesh, p: readonly number[]): boolean {
  for (let t = 0; t < 12; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [
      ...positions.slice(indices[t + k]! * 3, indices[t + k]! * 3 + 3),
    ]) as number[][];
    const [u, v, w] = [b!, c!, p].map((q) => q.map((x, i) => x - a![i]!)) as number[][];
    const volume =
      u![0]! * (v![1]! * w![2]! - v![2]! * w![1]!) +
      u![1]! * (v![2]! * w![0]! - v![0]! * w![2]!) +
      u![2]! * (v![0]! * w![1]! - v![1]! * w![0]!);
    if (volume >= 0) return false;
  }
  return true;
}
