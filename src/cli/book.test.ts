import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { main } from './main.ts';

const kit = fileURLToPath(new URL('../../demo/three-ports.json', import.meta.url));

async function run(...words: readonly string[]) {
  const said = { out: '', err: '' };
  const code = await main(['book', kit, ...words], {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  return { code, ...said };
}

describe('book', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-book-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const made = (name: string, day = '2026-11-26') =>
    ['--as-it-stands', '--day', day, '--out', join(folder, name)] as const;

  it('writes the same bytes for the same car and day, others for another day', async () => {
    const { code, out, err } = await run(...made('a.pdf'));
    // No line of it has a way.
    expect({ code, out, err }).toMatchObject({ code: 1, out: `${join(folder, 'a.pdf')}\n` });
    expect(err).toMatch(/^\d+ sheets, \d+ pages\n$/u);
    await run(...made('b.pdf'));
    const [a, b] = ['a.pdf', 'b.pdf'].map((name) => readFileSync(join(folder, name)));
    expect(a!.subarray(0, 8).toString('latin1')).toBe('%PDF-1.7');
    expect(Buffer.compare(a!, b!)).toBe(0);
    await run(...made('c.pdf', '2026-11-27'));
    expect(Buffer.compare(a!, readFileSync(join(folder, 'c.pdf')))).not.toBe(0);
  });

  it.skipIf(!systemNeed('poppler-utils').isMet)('carries its letters with it', async () => {
    await run(...made('fonts.pdf'));
    const rows = execFileSync('pdffonts', [join(folder, 'fonts.pdf')], { encoding: 'utf8' })
      .split('\n')
      .slice(2);
    const fonts = rows.filter((row) => row.trim() !== '');
    expect(fonts.length).toBeGreaterThan(0);
    for (const row of fonts) expect(row).toMatch(/\byes yes yes\b/u);
  });

  it('writes each sheet as SVG and its lists as CSV into a folder', async () => {
    const { code } = await run(...made('sheets/'));
    expect(code).toBe(1);
    const names = readdirSync(join(folder, 'sheets'));
    expect(names).toEqual(expect.arrayContaining(['book.svg', 'map.svg', 'order.csv', 'open.csv', 'index.svg']));
    expect(readFileSync(join(folder, 'sheets', 'map.svg'), 'utf8')).toMatch(/^<\?xml /u);
    expect(readFileSync(join(folder, 'sheets', 'order.csv'), 'utf8')).toMatch(/^toBuy,unit,/u);
  });

  it('prints only what is asked for', async () => {
    const { err } = await run(...made('one.svg'), '--only', 'map');
    expect(err).toBe('1 sheet, 1 page\n');
    expect(readFileSync(join(folder, 'one.svg'), 'utf8')).not.toMatch(/page 1 of/u);
    // Against itself only the sheet that says so is new, and the contents that list it.
    const same = await run(...made('same.pdf'), '--only', 'changed', '--against', kit);
    expect(same.err).toMatch(/^2 sheets, /u);
    await run(...made('change.csv'), '--only', 'change', '--against', kit);
    expect(readFileSync(join(folder, 'change.csv'), 'utf8')).toMatch(/^line,verdict,/u);
  });

  it.each([
    [['--out', 'x.doc'], /^--out: "x.doc" ends in .doc; allowed: .pdf/u],
    [['--as-it-stands'], /^book: --out is missing/u],
    [['--out', 'x.pdf', '--paper', 'A5'], /^--paper: "A5"; allowed: A4, A3, Letter/u],
    [['--out', 'x.pdf', '--day', 'today'], /^--day: "today"; allowed: a day such as/u],
    [['--out', 'x.pdf', '--only', 'changed'], /^--only: changed stands without --against/u],
    [['--out', 'x.pdf', '--as-it-stands', '--only', 'ordr'], /nearest: order/u],
    [['--out', 'x.csv', '--as-it-stands'], /one .csv file holds one list/u],
  ])('refuses %j in one line', async (words, fault) => {
    const { code, err } = await run(...words);
    expect(code).toBe(2);
    expect(err).toMatch(fault);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
