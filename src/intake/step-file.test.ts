import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { readMesh } from './read-mesh.ts';
import { STEP_LIMITS } from './step-file.ts';

/** Sample files that the STEP library's own package carries. */
const SAMPLES = path.join(
  path.dirname(createRequire(import.meta.url).resolve('occt-import-js/package.json')),
  'test/testfiles',
);
const sample = (name: string): Uint8Array => new Uint8Array(readFileSync(path.join(SAMPLES, name)));

describe('STEP', () => {
  it.each([
    // published: the folder holds one cube drawn in three units; the sizes are read off its coordinates below
    ['cube-units/cube-mm.step', 'mm'],
    ['cube-units/cube-m.step', 'm'],
    ['cube-units/cube-in.step', 'in'],
  ])('%s: the unit that stands in the file counts, closed', async (name, unit) => {
    const text = new TextDecoder('latin1').decode(sample(name));
    const numbers = [...text.matchAll(/CARTESIAN_POINT\('',\(([^)]*)\)\)/g)].flatMap((match) =>
      (match[1] ?? '').split(',').map(Number),
    );
    // hand: the largest number in the file's points, in the file's unit
    const sizeMm = Math.max(...numbers) * { mm: 1, m: 1000, in: 25.4 }[unit as 'mm' | 'm' | 'in'];
    const reading = await readMesh(sample(name), 'step', { unit: 'mm' });
    if (!reading.ok) throw new Error(reading.fault);
    expect(reading.notes).toMatchObject({ triangles: 12, vertices: 8, closed: true });
    for (const size of reading.notes.sizeMm) expect(size).toBeCloseTo(sizeMm, 5);
    expect(reading.notes.solids).toHaveLength(1);
  });

  it('names the solids of an assembly', async () => {
    const reading = await readMesh(sample('cax-if/as1_pe_203.stp'), 'step', { unit: 'in' });
    if (!reading.ok) throw new Error(reading.fault);
    expect(reading.notes.solids.length).toBeGreaterThan(10);
    expect(reading.notes.warnings).toContain('a STEP file states its own unit; "in" was not used');
  });

  it('stops at the memory limit', async () => {
    // hand: a bare Node process takes more than 20 MB
    const reading = await readMesh(sample('cax-if/as1-oc-214.stp'), 'step', {
      unit: 'mm',
      stepLimits: { ...STEP_LIMITS, memoryBytes: 20 * 2 ** 20 },
    });
    expect(reading).toEqual({
      ok: false,
      fault: 'STEP: reading it takes more than 20 MB; allowed: that much memory; hand in fewer solids, or an STL of it',
    });
  });

  it('stops at the time limit', async () => {
    const reading = await readMesh(sample('cax-if/as1-oc-214.stp'), 'step', {
      unit: 'mm',
      stepLimits: { ...STEP_LIMITS, seconds: 0.001 },
    });
    expect(reading).toEqual({
      ok: false,
      fault: 'STEP: reading it takes more than 0.001 s; allowed: that much time; hand in fewer solids, or an STL of it',
    });
  });

  it('a damaged file gives a mesh or one line, seed 1 to 6', async () => {
    const whole = new TextDecoder('latin1').decode(sample('cube-units/cube-mm.step')).split('\n');
    for (let seed = 1; seed <= 6; seed++) {
      const random = xoroshiro128plus(seed);
      const lines = [...whole];
      for (let k = 0; k < 3; k++) {
        const at = uniformInt(random, 1, lines.length - 4);
        const ways = [
          '',
          'nonsense',
          (lines[at] ?? '').replace(/\d+/, '99999'),
          (lines[at] ?? '').replace(/\.\d*/, '.E999'),
          lines[at + 1] ?? '',
        ];
        lines[at] = ways[uniformInt(random, 0, ways.length - 1)] ?? '';
      }
      const reading = await readMesh(new TextEncoder().encode(lines.join('\n')), 'step', { unit: 'mm' });
      if (reading.ok) expect(reading.mesh.positions.every(Number.isFinite)).toBe(true);
      else expect(reading.fault).toMatch(/^[^\n]{5,400}; allowed: [^\n]+$/);
    }
  });
});
