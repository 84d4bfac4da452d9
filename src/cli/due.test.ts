import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { main } from './main.ts';

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

  it('takes --inches like every command that tells a length', async () => {
    expect(await run(demo, '--day', '2026-03-01', '--inches')).toMatchObject({ code: 0, err: '' });
  });

  it('is one document with --json, and takes no word for a day', async () => {
    const { out } = await run(demo, '--day', '2026-11-26', '--json');
    const { day, due } = JSON.parse(out) as { day: string; due: { id: string; runs: number }[] };
    expect([day, due.find(({ id }) => id === 'pump')!.runs]).toEqual(['2026-11-26', 13]);
    const wrong = await run(demo, '--day', 'monday');
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('"monday" is no day')]);
  });
});
