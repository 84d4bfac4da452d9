import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import dxfParser, { type IDxf } from 'dxf-parser';
import { encode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { benchPhoto } from './bench-scene.ts';

const Parser = dxfParser as unknown as new () => { parseSync: (text: string) => IDxf | null };

const folder = mkdtempSync(join(tmpdir(), 'fairlead-template-'));

async function ran(...words: string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const code = await main(['template', ...words], {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  return { code, out, err };
}

describe('fairlead template', () => {
  it('writes the outline as JSON, SVG and DXF and says how well it is known', async () => {
    const photo = benchPhoto({ seed: 1, longPx: 1000, exif: false, reference: 'frame', tiltDeg: 18, bend: 0.02 });
    const file = join(folder, 'photo.png');
    writeFileSync(file, encode({ ...photo.image, channels: 4, depth: 8 }));
    const asked = [file, '--reference', photo.reference, '--thickness', '4 mm'];
    const json = await ran(...asked, '--out', join(folder, 'a.json'), '--json');
    expect(json.err).toBe('');
    expect(json.code).toBe(0);
    const told = JSON.parse(json.out) as {
      template: { outlineMm: number[][]; holesMm: number[][][] };
      errorMm: number;
    };
    expect(JSON.parse(readFileSync(join(folder, 'a.json'), 'utf8'))).toEqual(told);
    expect(told.errorMm).toBeLessThanOrEqual(2);
    expect(told.template.outlineMm.length).toBe(photo.outline.length);
    const words = await ran(...asked, '--out', join(folder, 'a.svg'));
    expect(words.out).toMatch(/Known to \+-[\d.]+ mm.*\n.*\nCheck before cutting/);
    expect(readFileSync(join(folder, 'a.svg'), 'utf8')).toContain('mm" viewBox');
    await ran(...asked, '--out', join(folder, 'a.dxf'));
    // second: dxf-parser reads what was written
    const kinds = new Parser().parseSync(readFileSync(join(folder, 'a.dxf'), 'utf8'))!.entities.map((e) => e.type);
    expect(kinds).toContain('LWPOLYLINE');
    expect(kinds).toContain('CIRCLE');
  });

  it.each([
    [['none.jpg'], /--reference is missing/],
    [['none.jpg', '--reference', 'ruler:3'], /--reference: "ruler:3"; allowed: square:600x400/],
    [['none.jpg', '--reference', 'square:600x400'], /"none.jpg": file: not there/],
    [['none.jpg', '--reference', 'square:600x400', '--corners', '1,2 3,4'], /--corners.*4 places/],
    [['none.jpg', '--reference', 'square:600x400', '--thickness', 'fat'], /--thickness: "fat"; allowed: a length/],
    [['none.jpg', '--reference', 'square:600x400', '--out', 'a.stl'], /ends in .svg, .dxf or .json/],
  ])('one line for %j', async (words, line) => {
    const { code, err } = await ran(...words);
    expect(code).toBe(2);
    expect(err).toMatch(line);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
