import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Car, carFrom } from '#car';
import { loadCarMeshes } from './load-car-meshes.ts';
import { objText, stlOf, TETRA } from './test-files.ts';

let top = '';
let folder = '';

beforeAll(() => {
  top = mkdtempSync(path.join(tmpdir(), 'fairlead-intake-'));
  folder = path.join(top, 'car');
  mkdirSync(path.join(folder, 'scans'), { recursive: true });
  writeFileSync(path.join(folder, 'scans/engine.stl'), stlOf(TETRA));
  writeFileSync(path.join(folder, 'pump.OBJ'), objText(TETRA));
  writeFileSync(path.join(folder, 'cut.stl'), stlOf(TETRA).subarray(0, 200));
  writeFileSync(path.join(top, 'secret.stl'), stlOf(TETRA));
  symlinkSync(path.join(top, 'secret.stl'), path.join(folder, 'inside.stl'));
  symlinkSync('scans/engine.stl', path.join(folder, 'linked.stl'));
  symlinkSync('loop.stl', path.join(folder, 'loop.stl'));
});
afterAll(() => rmSync(top, { recursive: true }));

/** A checked car whose mesh files are then named as given, for the loader must not lean on what the schema lets through. */
function carWith(...meshes: { file: string; unit?: string }[]): Car {
  const shape = { mesh: { file: 'any.stl', unit: 'mm' } };
  const reading = carFrom({
    fairlead: 1,
    name: 'Test',
    parts: meshes.map((_, i) => ({ id: `p${i}`, name: `Part ${i}`, class: 'fixed', shapes: [shape] })),
  });
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  const parts = reading.car.parts.map((part, i) => ({
    ...part,
    shapes: [{ ...part.shapes?.[0], mesh: { unit: 'mm', ...meshes[i] } }],
  }));
  return { ...reading.car, parts } as Car;
}

describe('loadCarMeshes', () => {
  it('reads every mesh the car names, each in its own unit, links within the folder too', async () => {
    const { meshes, notes, faults } = await loadCarMeshes(
      carWith(
        { file: 'scans/engine.stl' },
        { file: 'pump.OBJ', unit: 'in' },
        { file: './linked.stl' },
        { file: 'scans/engine.stl' },
      ),
      folder,
    );
    expect(faults).toEqual([]);
    expect([...meshes.keys()]).toEqual(['scans/engine.stl', 'pump.OBJ', './linked.stl']);
    expect(meshes.get('scans/engine.stl')?.indices).toHaveLength(12);
    expect(notes.get('pump.OBJ')?.sizeMm).toEqual([25.4, 25.4, 25.4]);
  });

  it.each([
    ['../secret.stl', '"../secret.stl" is outside; allowed: a path from the car file, in or under its folder'],
    [
      'scans/../../secret.stl',
      '"scans/../../secret.stl" is outside; allowed: a path from the car file, in or under its folder',
    ],
    ['/etc/hostname.stl', '"/etc/hostname.stl"; allowed: a path from the car file, in or under its folder'],
    ['C:\\scans\\engine.stl', '"C:\\scans\\engine.stl"; allowed: a path from the car file, in or under its folder'],
    ['inside.stl', '"inside.stl" leads outside by a link; allowed: a path from the car file, in or under its folder'],
    ['loop.stl', '"loop.stl" can\'t be read (ELOOP); allowed: a path from the car file, in or under its folder'],
    ['nowhere.stl', '"nowhere.stl" is not there; allowed: a path from the car file, in or under its folder'],
    ['scans', '"scans"; allowed: a name that ends in .stl, .ply, .obj, .glb, .step or .stp'],
    [
      'cut.stl',
      '"cut.stl": STL bytes 80-83: 4 triangles declared, which takes 284 bytes; the file has 200; allowed: a count that fits the file (is it cut short?)',
    ],
  ])('%s', async (file, words) => {
    const { meshes, faults } = await loadCarMeshes(carWith({ file: 'scans/engine.stl' }, { file }), folder);
    expect(faults).toEqual([`parts[1].shapes[0].mesh.file: ${words}`]);
    expect(meshes.size).toBe(1);
  });

  it('refuses one file in two units', async () => {
    const { faults } = await loadCarMeshes(
      carWith({ file: 'scans/engine.stl' }, { file: 'scans/engine.stl', unit: 'm' }),
      folder,
    );
    expect(faults).toEqual([
      'parts[1].shapes[0].mesh.unit: "m" for a file that parts[0].shapes[0].mesh reads in "mm"; allowed: one unit a file',
    ]);
  });
});
