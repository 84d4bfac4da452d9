import { describe, expect, it } from 'vitest';
import { decimated } from './decimated.ts';
import { meshEdges } from './mesh-edges.kernel.ts';
import { surfaceError } from './surface-error.ts';
import { PICTURE_TRIANGLES, pictureLevels } from './picture-levels.ts';
import { drilledPlate, pipeMesh } from './test-shapes.ts';
import type { TriangleMesh } from '#geometry';

const euler = (mesh: TriangleMesh): number => {
  const vertices = mesh.positions.length / 3;
  return vertices - meshEdges(mesh.indices, vertices).count + mesh.indices.length / 3;
};

const points = (mesh: TriangleMesh): number[][] =>
  Array.from({ length: mesh.positions.length / 3 }, (_, i) => [...mesh.positions.slice(3 * i, 3 * i + 3)]);

/** Signed volume by the divergence theorem [mm^3]. */
function volume(mesh: TriangleMesh): number {
  let sum = 0;
  const at = (i: number): number[] => [
    ...mesh.positions.slice(3 * (mesh.indices[i] ?? 0), 3 * (mesh.indices[i] ?? 0) + 3),
  ];
  for (let i = 0; i < mesh.indices.length; i += 3) {
    const [[ax = 0, ay = 0, az = 0], [bx = 0, by = 0, bz = 0], [cx = 0, cy = 0, cz = 0]] = [
      at(i),
      at(i + 1),
      at(i + 2),
    ] as [number[], number[], number[]];
    sum += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
  }
  return sum;
}

describe('surfaceError', () => {
  it('of two coaxial pipes is the difference of their radii (hand)', () => {
    const error = surfaceError(pipeMesh(20, 10, 100, 720, 1), pipeMesh(20.5, 10, 100, 720, 1), { samples: 4000 });
    // hand: 0.5 mm; flats of 720 to a turn lie 20 (1 - cos 0.25 deg) = 0.0002 mm inside the round
    expect(error.worstMm).toBeCloseTo(0.5, 3);
  });

  it('sees what only one of the two has', () => {
    // hand: the 10 mm by which one pipe is longer, met from one side only
    const [short, long] = [pipeMesh(20, 10, 100, 90, 20), pipeMesh(20, 10, 110, 90, 22)];
    expect(surfaceError(short, long, { samples: 4000 }).worstMm).toBeCloseTo(10, 6);
    expect(surfaceError(long, short, { samples: 4000 }).worstMm).toBeCloseTo(10, 6);
  });
});

describe('decimated', () => {
  it('leaves a tube open, with its bore and its outside', async () => {
    const tube = pipeMesh(12, 10, 200, 192, 60);
    expect(euler(tube)).toBe(0); // hand: a ring, 2 - 2 x 1
    const light = await decimated(tube, { errorMm: 0.1 });
    expect(light.triangles).toBeLessThan(light.trianglesBefore / 20);
    expect(light.error.worstMm).toBeGreaterThan(0);
    expect(light.error.worstMm).toBeLessThanOrEqual(0.1);
    expect(euler(light.mesh)).toBe(0);
    expect(meshEdges(light.mesh.indices, light.mesh.positions.length / 3)).toMatchObject({ open: 0, closed: true });
    // hand: pi (12^2 - 10^2) 200; each wall may be out by 0.1 mm
    const whole = Math.PI * (144 - 100) * 200;
    expect(Math.abs(volume(light.mesh) - whole)).toBeLessThan(2 * Math.PI * (12 + 10) * 200 * 0.1);
    for (const [x = 0, y = 0] of points(light.mesh))
      expect(Math.min(Math.abs(Math.hypot(x, y) - 12), Math.abs(Math.hypot(x, y) - 10))).toBeLessThan(1e-6);
  });

  it('leaves the drilled holes of a plate, small ones too', async () => {
    const plate = drilledPlate(4, 50, 3, 4);
    expect(euler(plate)).toBe(2 - 2 * 4); // hand: two less for each hole
    expect(volume(plate)).toBeCloseTo((50 * 50 - 32 * 9 * Math.sin((2 * Math.PI) / 64)) * 4 * 4, 2); // hand: squares less 64-sided holes
    const light = await decimated(plate, { errorMm: 0.05 });
    expect(light.triangles).toBeLessThan(light.trianglesBefore / 5);
    expect(euler(light.mesh)).toBe(2 - 2 * 4);
    for (let hole = 0; hole < 4; hole++) {
      const rim = points(light.mesh).filter(([x = 0, y = 0]) => Math.abs(Math.hypot(x - 50 * hole, y) - 3) < 1e-3);
      expect(rim.length).toBeGreaterThan(16);
    }
  });

  it('leaves the rims of an open sheet to the vertex', async () => {
    const sheet = drilledPlate(3, 40, 8, 0);
    const rim = (mesh: TriangleMesh): string[] =>
      points(mesh)
        .filter(([x = 0, y = 0]) => [0, 40, 80].some((middle) => Math.abs(Math.hypot(x - middle, y) - 8) < 1e-3))
        .map(String)
        .sort();
    const light = await decimated(sheet, { errorMm: 0.2 });
    expect(light.triangles).toBeLessThan(light.trianglesBefore / 3);
    expect(rim(sheet)).toHaveLength(3 * 64);
    expect(rim(light.mesh)).toEqual(rim(sheet));
  });

  it("stops at the number of triangles asked for, and holds the error where both can't be had", async () => {
    const tube = pipeMesh(12, 10, 200, 128, 20);
    const many = await decimated(tube, { errorMm: 0.5, triangles: 5000 });
    expect(many.triangles).toBeLessThanOrEqual(5000);
    expect(many.triangles).toBeGreaterThan(4500);
    const few = await decimated(tube, { errorMm: 0.02, triangles: 100 });
    expect(few.error.worstMm).toBeLessThanOrEqual(0.02);
    expect(few.triangles).toBeGreaterThan(100);
  });

  it('holds far from the origin', async () => {
    const tube = pipeMesh(12, 10, 200, 128, 40);
    const far = { positions: tube.positions.map((value) => value + 100_000), indices: tube.indices };
    const light = await decimated(far, { errorMm: 0.1 });
    expect(light.triangles).toBeLessThan(light.trianglesBefore / 5);
    expect(light.error.worstMm).toBeLessThanOrEqual(0.1);
  });
});

describe('pictureLevels', () => {
  it('gives fewer triangles the farther away, none farther off than it says; a light mesh is its own picture', async () => {
    const tube = pipeMesh(60, 50, 400, 192, 60);
    const levels = await pictureLevels(tube);
    const counts = levels.map(({ mesh }) => mesh.indices.length / 3);
    // The finest is the tube itself: it has fewer triangles than that level allows.
    expect(counts.at(-1)).toBe(tube.indices.length / 3);
    expect(levels.at(-1)!.errorMm).toBe(0);
    levels.slice(0, -1).forEach(({ mesh, errorMm }, i) => {
      expect(counts[i]).toBeLessThanOrEqual(PICTURE_TRIANGLES[i]!);
      expect(errorMm).toBeGreaterThan(0);
      expect(surfaceError(tube, mesh, { samples: 4000, seed: 9 }).worstMm).toBeLessThanOrEqual(errorMm + 1e-9);
    });
    const light = pipeMesh(12, 10, 100, 24, 4);
    expect((await pictureLevels(light)).map(({ mesh }) => mesh)).toEqual([light, light, light]);
  });
});
