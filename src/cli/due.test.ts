import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { main } from './main.ts';

const taken = new URL('../../test/screen/fellside-taken.json.gz', import.meta.url);
const demo = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));

async function run(...words: readonly string[]) {
  const said = { out: '', err: '' };
  const code = await main(['due', ...words], {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  return { code, ...said };
}

describe('fairlead due', () => {
  it('says as of a day what is due (hand: a cell of March 2022 stands 60 months)', async () => {
    expect((await run(demo, '--day', '2027-03-01')).out).toMatch(/◆ due +100 % +fuel-cell/);
    expect((await run(demo, '--day', '2026-03-01')).out).toMatch(/ 80 % +fuel-cell/);
  });

  it('tells hose to carry by the metre, by the foot with --inches (hand: 0.3048 m a foot)', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'fairlead-due-'));
    const car = join(folder, 'car.json');
    writeFileSync(car, gunzipSync(readFileSync(taken)));
    cpSync(fileURLToPath(new URL('../../demo/scans', import.meta.url)), join(folder, 'scans'), { recursive: true });
    try {
      const [metres, feet] = await Promise.all([run(car), run(car, '--inches')]);
      const told = (text: string, unit: string): number[] =>
        [...text.matchAll(new RegExp(`^ *([\\d.]+) ${unit} `, 'gmu'))].map(([, figure]) => Number(figure));
      const m = told(metres.out, 'm');
      expect(m.length).toBeGreaterThan(3);
      expect(told(feet.out, 'ft').map((ft, i) => Math.abs(ft - m[i]! / 0.3048) <= 0.22)).toEqual(m.map(() => true));
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('is one document with --json, and takes no word for a day', async () => {
    const { out } = await run(demo, '--day', '2026-11-26', '--json');
    const { day, due } = JSON.parse(out) as { day: string; due: { id: string; runs: number }[] };
    expect([day, due.find(({ id }) => id === 'pump')!.runs]).toEqual(['2026-11-26', 13]);
    const wrong = await run(demo, '--day', 'monday');
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('"monday" is no day')]);
  });
});
