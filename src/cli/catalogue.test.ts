import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from './main.ts';

const bare = fileURLToPath(new URL('../../demo/three-ports.json', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'fairlead-list-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function run(list: string, ...words: readonly string[]) {
  const file = join(folder, 'list.csv');
  writeFileSync(file, list);
  const said = { out: '', err: '' };
  const code = await main(['catalogue', bare, file, ...words], {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  return { code, ...said };
}

const HEAD =
  'table,id,dash,boreMm,odMm,minBendRadiusMm,radiusMeasured,end,families,angleDeg,fixing,nutMm,socketMm,socketOdMm,neckOdMm,cutFactorMm,thread,partNumber,supplier,price';
const HOSE = 'hose,shed-10,-10,14.2,23,103,inside,,,,,,,,,,,SH-10,Shed & Sons,31.5';
const END =
  'hose-end,shed-end-10,10,13,,,,flare37-female -10,rubber-braid,0,reusable,28,22,27,20,30,7/8-14,SE-10,Shed & Sons,14';
const OWN = 'hose,my-hose-16,-16,22.2,30,140,centreline,,,,,,,,,,,MH-16,Shed & Sons,40';

describe('catalogue', () => {
  it("puts a builder's list into the car: the radius to the centreline, the hose's insert from its cut factor", async () => {
    const out = join(folder, 'with.json');
    const { code, out: text } = await run([HEAD, HOSE, END, OWN].join('\n'), '--out', out);
    expect(code).toBe(0);
    expect(text).toMatch(/^hose +shed-10 +new$/mu);
    expect(text).toMatch(/^hose +my-hose-16 +in place of the car's own row$/mu);
    const { hoses, hoseEnds } = JSON.parse(readFileSync(out, 'utf8')).catalogue;
    // hand: inside radius 103 + half of 23
    expect(hoses.find((row: { id: string }) => row.id === 'shed-10')).toMatchObject({
      minBendRadiusMm: 114.5,
      partNumber: 'SH-10',
      price: 31.5,
    });
    expect(hoses.filter((row: { id: string }) => row.id === 'my-hose-16')).toMatchObject([{ partNumber: 'MH-16' }]);
    expect(hoseEnds).toMatchObject([{ id: 'shed-end-10', cutFactorMm: 30, fixing: 'reusable' }]);
  });

  it('seals, clamps and grommets go in beside them', async () => {
    const out = join(folder, 'clips.json');
    const list = 'table,id,standOffMm,partNumber\nclamp,p-clip-20,14.5,PC-20\nseal,o-ring-910,,R-10\n';
    const { code, out: text } = await run(list, '--out', out);
    expect([code, text.match(/^(?:clamp|seal) .*/gmu)]).toEqual([
      0,
      ['seal   o-ring-910  in place of the standard part', 'clamp  p-clip-20   in place of the standard part'],
    ]);
    expect(JSON.parse(readFileSync(out, 'utf8')).catalogue.clamps).toEqual([
      { id: 'p-clip-20', partNumber: 'PC-20', standOffMm: 14.5 },
    ]);
  });

  it('a thread that is not that of the dash, an unknown column: one line each, exit 2, nothing written', async () => {
    const out = join(folder, 'none.json');
    // published: -10 flare is 7/8-14, 1 1/16-12 is the -12's (SAE J514)
    const wrong = await run([HEAD, END.replace('7/8-14', '1 1/16-12')].join('\n'), '--out', out);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toMatch(/list\.csv: line 2, thread: thread 1 1\/16-12 does not belong to -10 .*that of -12/u);
    expect(() => readFileSync(out)).toThrow(/ENOENT/u);
    const typo = await run([HEAD.replace('supplier', 'suplier'), HOSE].join('\n'));
    expect(typo).toMatchObject({ code: 2, out: '' });
    expect(typo.err).toMatch(/no column is named "suplier"; nearest: supplier/u);
  });

  it('a cut factor that puts the hose past its socket is refused', async () => {
    const { code, err } = await run([HEAD, END.replace(',30,', ',20,')].join('\n'));
    expect(code).toBe(2);
    // hand: 28 + 22 - 20 = 30 mm of hose in 22 mm of socket
    expect(err).toMatch(/cutFactorMm 20 puts the hose 30\.0 mm into a socket of 22 mm/u);
  });
});
