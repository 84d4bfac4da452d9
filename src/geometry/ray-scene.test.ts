import * as THREE from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { describe, expect, it } from 'vitest';
import { seededSolid } from '../../test/geometry/seeded-bodies.ts';
import { ballMesh, chance } from '../../test/geometry/seeded-meshes.ts';
import { box } from './box.ts';
import type { HittableSolid } from './hit.ts';
import { meshSolid } from './mesh-solid.ts';
import { FROM_INSIDE, FROM_OUTSIDE, firstRayHit, plainRayHit, RAY_HIT_WORDS, SHEET_BACK } from './ray-hit.kernel.ts';
import { rayScene } from './ray-scene.ts';
import { triangleMesh } from './triangle-mesh.ts';
import { addScaled, distance, type Vec } from './vec.ts';

const out = new Float64Array(RAY_HIT_WORDS);

function ray(draw: ReturnType<typeof chance>, spread: number): { from: Vec; way: Vec } {
  const z = draw(-1, 1);
  const turn = draw(0, 2 * Math.PI);
  const r = Math.sqrt(1 - z * z);
  return {
    from: [draw(-spread, spread), draw(-spread, spread), draw(-spread, spread)],
    way: [r * Math.cos(turn), r * Math.sin(turn), z],
  };
}

/** Bays of 1 to 60 solids of all kinds, apart and run into one another. */
const bays = Array.from({ length: 24 }, (_, seed) => {
  const draw = chance(9000 + seed);
  const count = 1 + Math.floor(draw(0, seed % 4 === 0 ? 4 : 60));
  const solids = Array.from({ length: count }, (_1, i) =>
    seededSolid(Math.floor(draw(0, 5)), draw, [draw(-400, 400), draw(-400, 400), draw(-400, 400 + i)]),
  ) as HittableSolid[];
  return { seed, draw, solids };
});

describe('the first surface a ray meets', () => {
  it.each(bays)('is what asking every solid on its own gives (seed $seed)', ({ draw, solids }) => {
    const scene = rayScene(solids.map((solid) => ({ solids: [solid] })));
    for (let n = 0; n < 400; n++) {
      const { from, way } = ray(draw, n % 3 === 0 ? 1500 : 450);
      const hits = solids.map((solid) => solid.firstHit(from, way, 3000)?.alongMm ?? Infinity);
      const nearest = Math.min(...hits);
      const item = firstRayHit(scene, ...from, ...way, 3000, out);
      expect(item < 0 ? Infinity : out[0]!).toBeCloseTo(nearest, 3);
      // The compiled search and the plain one, to the last bit.
      const answer = [item, ...out];
      expect([plainRayHit(scene, ...from, ...way, 3000, out), ...out]).toEqual(answer);
      if (item < 0) continue;
      expect(hits[item]!).toBeCloseTo(nearest, 3);
      // The normal: a step out of the surface is a step away from the solid.
      const at = addScaled(from, way, out[0]!);
      const off = 0.05;
      const normal: Vec = [out[1]!, out[2]!, out[3]!];
      expect(solids[item]!.distance(...addScaled(at, normal, off))).toBeGreaterThan(0.3 * off);
      expect(out[4]).toBe(
        solids[item]!.distance(...addScaled(from, way, out[0]! / 2)) > 0 ? FROM_OUTSIDE : FROM_INSIDE,
      );
    }
  });

  it('is what three-mesh-bvh finds on a noisy ball of 8192 triangles', () => {
    const mesh = ballMesh(5, 100, 4, 7);
    const scene = rayScene([{ solids: [meshSolid(triangleMesh(mesh.positions, mesh.indices))] }]);
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', new THREE.BufferAttribute(Float32Array.from(mesh.positions), 3));
    geometry.setIndex(new THREE.BufferAttribute(mesh.indices, 1));
    const rival = new MeshBVH(geometry);
    const draw = chance(11);
    let met = 0;
    for (let n = 0; n < 2000; n++) {
      const { from, way } = ray(draw, 160);
      const theirs = rival.raycastFirst(
        new THREE.Ray(new THREE.Vector3(...from), new THREE.Vector3(...way)),
        THREE.DoubleSide,
      );
      const item = firstRayHit(scene, ...from, ...way, Infinity, out);
      expect(item < 0 ? null : out[0]!.toFixed(2)).toBe(
        theirs === null || theirs === undefined ? null : theirs.distance.toFixed(2),
      );
      if (item >= 0) met++;
    }
    expect(met).toBeGreaterThan(400);
  });

  it('tells the two sides of an open sheet apart and turns its normal to the ray', () => {
    const sheet = triangleMesh(
      Float64Array.from([0, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0]),
      Uint32Array.from([0, 1, 2, 0, 2, 3]),
    );
    const scene = rayScene([{ solids: [meshSolid(sheet)] }]);
    expect(firstRayHit(scene, 30, 40, 50, 0, 0, -1, Infinity, out)).toBe(0);
    expect([...out]).toEqual([50, 0, 0, 1, FROM_OUTSIDE]);
    expect(firstRayHit(scene, 30, 40, -50, 0, 0, 1, Infinity, out)).toBe(0);
    expect([out[0], out[3], out[4]]).toEqual([50, -1, SHEET_BACK]);
    expect(firstRayHit(scene, 30, 40, 50, 0, 0, 1, Infinity, out)).toBe(-1);
  });

  it('is the earlier in the list where two are met at once, whatever else stands round', () => {
    const draw = chance(77);
    const same = [box([0, 0, 0], [50, 50, 50]), box([0, 0, 0], [50, 50, 50])];
    for (let n = 0; n < 20; n++) {
      const others = Array.from({ length: 9 }, () => seededSolid(Math.floor(draw(0, 5)), draw, [draw(300, 900), 0, 0]));
      const scene = rayScene([...others, ...same].map((solid) => ({ solids: [solid] })));
      expect(firstRayHit(scene, 20, 20, 500, 0, 0, -1, Infinity, out)).toBe(9);
      expect(out[0]).toBe(450);
    }
  });

  it('is nothing in an empty scene, and nothing past the limit', () => {
    expect(firstRayHit(rayScene([]), 0, 0, 0, 1, 0, 0, Infinity, out)).toBe(-1);
    const scene = rayScene([{ solids: [box([100, -10, -10], [120, 10, 10])] }]);
    expect(firstRayHit(scene, 0, 0, 0, 1, 0, 0, 99, out)).toBe(-1);
    expect(firstRayHit(scene, 0, 0, 0, 1, 0, 0, 101, out)).toBe(0);
    expect(distance([out[1]!, out[2]!, out[3]!], [-1, 0, 0])).toBe(0);
  });
});
