import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { Triangle, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { nearestDistances } from './nearest-distances.kernel.ts';
import { pipeMesh } from './test-shapes.ts';

describe('nearestDistances', () => {
  it.each([0.01, 3, 1000])(
    'agrees with brute force over all triangles, by another library, whatever the reach: %f mm',
    (reach) => {
      const mesh = pipeMesh(20, 14, 60, 24, 5);
      // a triangle without area among them
      const indices = Uint32Array.from([...mesh.indices, 0, 0, 1]);
      const random = xoroshiro128plus(20);
      const points = Float64Array.from({ length: 3 * 300 }, () => (uniformFloat64(random) - 0.3) * 120);
      const found = nearestDistances({ positions: mesh.positions, indices }, points, reach);
      const corner = (i: number): Vector3 => new Vector3().fromArray(mesh.positions, 3 * (mesh.indices[i] ?? 0));
      const triangles = Array.from(
        { length: mesh.indices.length / 3 },
        (_, t) => new Triangle(corner(3 * t), corner(3 * t + 1), corner(3 * t + 2)),
      );
      const at = new Vector3();
      for (let i = 0; i < 300; i++) {
        const point = new Vector3().fromArray(points, 3 * i);
        // second: three's closestPointToPoint
        const least = Math.min(
          ...triangles.map((triangle) => triangle.closestPointToPoint(point, at).distanceTo(point)),
        );
        expect(found[i]).toBeCloseTo(least, 9);
      }
    },
  );
});
