import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runMain as run } from './run-main.fixture.ts';

const demo = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));
const bare = fileURLToPath(new URL('../../demo/three-ports.json', import.meta.url));

describe('panel', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-panel-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('lists every panel with its size, mass and snags', async () => {
    const { code, out } = await run(['panel', demo]);
    // PN2R and PN2L are twisted by more than the limit.
    expect(code).toBe(1);
    // hand: 1280 x 390 x 1.2 mm of 2.68 g/cm3 is 1.61 kg (holes take some 3 g).
    expect(out).toMatch(/^PN1 {3}\s*1280 x 390 mm {2}5052-H32 1\.2 mm {2}1\.6\d kg/m);
    expect(out.match(/^PN\w+ /gm)).toHaveLength(6);
    // hand: its opening has 755 cm2, of which mesh that is 60 % open leaves 453: one number a panel, and again by window.
    expect(out).toMatch(/^PN2R .* kg {2}453 cm2 /m);
    expect(out).toMatch(
      /^ {2}PN2R V1: 1 opening; 453 cm2 free, mesh counted; [\d.]+ mm to what is nearest; drill 24\.0 mm$/m,
    );
    expect((await run(['panel', demo, 'PN1', '--inches'])).out).toMatch(/50\.4 x 15\.4 in/);
    expect(await run(['panel', bare])).toMatchObject({ code: 0, out: expect.stringMatching(/^The car has no panels/) });
  });

  it.each([
    ['dxf', /SECTION\n2\nHEADER/],
    ['svg', /^<\?xml [^]*data-layer="cut"/],
    ['pdf', /^%PDF-1\.7/],
  ] as const)('writes a panel as .%s by the name of the file', async (ending, begins) => {
    const out = join(folder, `panel.${ending}`);
    const { code } = await run(['panel', demo, 'PN1', '--out', out, '--paper', 'A3']);
    expect(code).toBe(0);
    expect(readFileSync(out, 'latin1')).toMatch(begins);
    const one = readFileSync(out);
    await run([
      'panel',
      demo,
      ending === 'svg' ? 'pn1' : 'main bulkhead closing panel, upper',
      '--out',
      out,
      '--paper',
      'a3',
    ]);
    expect(Buffer.compare(one, readFileSync(out))).toBe(0);
  });

  it('prints the flat as one document, every number with its unit', async () => {
    const { out } = await run(['panel', demo, 'PN1', '--json']);
    const panel = JSON.parse(out) as { flatsMm: { outline: { at: number[] }[] }[]; sizeMm: number[] };
    expect(panel.sizeMm.map(Math.round)).toEqual([1280, 390]);
    expect(panel.flatsMm[0]!.outline.length).toBeGreaterThanOrEqual(4);
  });

  it('writes all pieces of a split panel, named apart', async () => {
    const places = { A: [0, 0, 500], B: [600, 0, 500], C: [600, 400, 540], D: [0, 400, 500] };
    const corners = Object.entries(places).map(([id, atMm]) => ({ id, atMm }));
    const creases = [{ from: 'A', to: 'C', kind: 'split', overlapMm: 20 }];
    const panel = { id: 'S', thicknessMm: 1.2, outside: [0, 0, 1], corners, creases };
    const [file, out] = [join(folder, 'split.json'), join(folder, 'split.svg')];
    writeFileSync(file, JSON.stringify({ fairlead: 1, parts: [], panels: [panel] }));
    const said = await run(['panel', file, 'S', '--out', out]);
    expect(said.out).toMatch(/^S .*S, piece 1 of 2\nS .*S, piece 2 of 2\n/m);
    expect(readFileSync(out, 'utf8')).toMatch(/>S 1<[^]*>S 2</u);
    const json = JSON.parse((await run(['panel', file, 'S', '--json'])).out) as { pieces: { flatsMm: unknown[] }[] };
    expect(json.pieces.map(({ flatsMm }) => flatsMm.length)).toEqual([1, 1]);
    expect((await run(['panel', file, '--nest'])).out).toMatch(/^ {2}S 1.*, S 2/m);
  });

  it('works one panel out under its load, in the units asked for; the table of all leaves that out', async () => {
    const { panels } = JSON.parse(readFileSync(demo, 'utf8')) as { panels: { id: string }[] };
    const lid = { ...panels.find(({ id }) => id === 'PN4'), load: { pressureKpa: 0.1, shakeHz: 200, held: 'simply' } };
    const file = join(folder, 'loaded.json');
    writeFileSync(file, JSON.stringify({ fairlead: 1, parts: [], panels: [lid] }));
    const { code, out } = await run(['panel', file, 'PN4']);
    expect(code).toBe(1);
    const [, hz] = /own frequency ([\d.]+) Hz \(±[\d.]+ by the mesh\)/.exec(out)!;
    expect(out).toMatch(/its own frequency is \d+ Hz, it is shaken at 200 Hz/);
    expect(out).toMatch(/deflection [\d.]+ mm/);
    expect((await run(['panel', file, 'PN4', '--inches'])).out).toMatch(
      /deflection 0\.\d+ in .*\n {2}bending stress \d+ psi/,
    );
    const answer = JSON.parse((await run(['panel', file, 'PN4', '--json'])).out) as {
      strength: { frequencyHz: { value: number } };
    };
    expect(answer.strength.frequencyHz.value).toBeCloseTo(Number(hz), 1);
    expect((await run(['panel', file])).out).not.toContain('frequency');
  });

  it('lays all of them on sheets, each once', async () => {
    const out = join(folder, 'sheets.dxf');
    const { code, out: said } = await run(['panel', demo, '--nest', '--out', out, '--json']);
    expect(code).toBe(0);
    const nest = JSON.parse(said) as { sheets: { parts: { panel: string }[] }[]; left: string[] };
    expect(nest.left).toEqual([]);
    const ids = nest.sheets.flatMap((sheet) => sheet.parts.map((part) => part.panel));
    expect(ids.sort()).toEqual(['PN1', 'PN2L', 'PN2R', 'PN3', 'PN4', 'PN5']);
    expect(readFileSync(out, 'utf8')).toContain('SHEET');
  });

  it.each([
    [['PN2'], /no panel "PN2"; nearest: PN1; allowed: PN1, /],
    [
      ['PN1', '--out', 'x.png'],
      /--out: "x.png" does not say what to write; allowed: a name ending in \.dxf, \.svg, \.pdf/,
    ],
    [['--out', 'x.dxf'], /--out wants a PANEL, or --nest/],
    [['PN1', '--nest'], /--nest takes all panels, but "PN1" stands there/],
    [['PN1', '--paper', 'A9'], /--paper: "A9"; allowed: A4, A3, Letter/],
    [['--spacing', '5'], /--spacing stands without --nest/],
    [['--nest', '--spacing', '300 mm'], /--spacing: "300 mm"; allowed: 0 to 200 mm/],
    [['PN1', '--out', 'no/such/x.dxf'], /lies in a folder that is not there/],
  ])('%j is told in one line', async (words, says) => {
    const { code, err } = await run(['panel', demo, ...words]);
    expect(code).toBe(2);
    expect(err.trim()).toMatch(says);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
