import { readdirSync, readFileSync } from 'node:fs';
import { Box3, BufferGeometry, Float32BufferAttribute, Vector3 } from 'three';
import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { meshSolid, triangleMesh } from '#geometry';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { decimated } from './decimated.ts';
import { readMesh } from './read-mesh.ts';

const FOLDER = '/usr/share/opencascade/data';
const isThere = systemNeed('occt-misc').isMet;
const stlFiles = isThere ? readdirSync(`${FOLDER}/stl`).filter((name) => name.endsWith('.stl')) : ['(none)'];

/** Volume by the divergence theorem, by three's vectors [mm^3]. */
function volumeByThree(positions: ArrayLike<number>, indices: Uint32Array): number {
  let sum = 0;
  const corner = (i: number): Vector3 => new Vector3().fromArray(positions as number[], 3 * (indices[i] ?? 0));
  for (let i = 0; i < indices.length; i += 3) sum += corner(i).dot(corner(i + 1).cross(corner(i + 2))) / 6;
  return sum;
}

describe.skipIf(!isThere)(`real parts${isThere ? '' : ' (not run: needs the Debian package occt-misc)'}`, () => {
  it.each(stlFiles)('%s: as many triangles, and as large, as another loader finds (second)', async (name) => {
    const bytes = readFileSync(`${FOLDER}/stl/${name}`);
    const reading = await readMesh(bytes, 'stl', { unit: 'mm' });
    if (!reading.ok) throw new Error(reading.fault);
    const positions = new STLLoader().parse(bytes.slice().buffer as ArrayBuffer).getAttribute('position');
    expect(reading.notes.triangles + reading.notes.droppedDegenerate).toBe(positions.count / 3);
    const box = new Box3().setFromBufferAttribute(
      new BufferGeometry()
        .setAttribute('position', new Float32BufferAttribute(positions.array, 3))
        .getAttribute('position') as Float32BufferAttribute,
    );
    reading.notes.minMm.forEach((value, axis) => expect(value).toBeCloseTo(box.min.getComponent(axis), 4));
    reading.notes.maxMm.forEach((value, axis) => expect(value).toBeCloseTo(box.max.getComponent(axis), 4));
  });

  it.each(['screw.step', 'linkrods.step'])(
    '%s comes out closed, the right way round, with its own drawn corners on it',
    async (name) => {
      const bytes = readFileSync(`${FOLDER}/step/${name}`);
      const reading = await readMesh(bytes, 'step', { unit: 'mm' });
      if (!reading.ok) throw new Error(reading.fault);
      expect(reading.notes).toMatchObject({ closed: true, openEdges: 0 });
      const volume = volumeByThree(reading.mesh.positions, reading.mesh.indices);
      expect(volume).toBeGreaterThan(0);
      expect(volume).toBeLessThan(reading.notes.sizeMm.reduce((product, size) => product * size, 1));
      // hand: every vertex drawn in the file is a corner of the solid, so it lies on the mesh
      const solid = meshSolid(triangleMesh(reading.mesh.positions, reading.mesh.indices));
      const drawn = drawnVertices(bytes.toString('latin1'));
      expect(drawn.length).toBeGreaterThan(10);
      for (const [x, y, z] of drawn) expect(Math.abs(solid.distance(x, y, z))).toBeLessThan(1e-5);
    },
  );

  it('a real casting gets lighter within the error asked for', async () => {
    const reading = await readMesh(`${FOLDER}/stl/TR12J_OCC.stl`, 'stl', { unit: 'mm' });
    if (!reading.ok) throw new Error(reading.fault);
    const light = await decimated(reading.mesh, { errorMm: 0.5 });
    expect(light.triangles).toBeLessThan(light.trianglesBefore * 0.8);
    expect(light.error.worstMm).toBeLessThanOrEqual(0.5);
    const [before, after] = [reading.mesh, light.mesh].map((mesh) => volumeByThree(mesh.positions, mesh.indices));
    expect(Math.abs((after ?? 0) / (before ?? 1) - 1)).toBeLessThan(0.01);
  });
});

/** The points of a STEP file's own vertices: VERTEX_POINT entities looked up by number. */
function drawnVertices(text: string): [number, number, number][] {
  const points = new Map(
    [...text.matchAll(/#(\d+)\s*=\s*CARTESIAN_POINT\s*\(\s*'[^']*'\s*,\s*\(([^)]*)\)/g)].map((m) => [
      m[1],
      (m[2] ?? '').split(',').map(Number),
    ]),
  );
  return [...text.matchAll(/VERTEX_POINT\s*\(\s*'[^']*'\s*,\s*#(\d+)/g)].map(
    (m) => (points.get(m[1] ?? '') ?? []) as [number, number, number],
  );
}
