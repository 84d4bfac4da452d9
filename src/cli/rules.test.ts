import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { main } from './main.ts';

const demo = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));
const bare = fileURLToPath(new URL('../../demo/three-ports.json', import.meta.url));

async function run(...words: readonly string[]) {
  const said = { out: '', err: '' };
  const code = await main(['rules', ...words], {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  return { code, ...said };
}

describe('fairlead rules', () => {
  it('holds the demo against its invented packs, and says what is to be looked at', async () => {
    const { code, out } = await run(demo);
    expect(code).toBe(0);
    expect(out).toContain('catch-tank: meets the entered rule: 3.00 L (at least 2 L)');
    expect(out).toContain('not measured: look: it has no way yet');
    expect(out).toContain('club 4.2 asks at most 600 mm, series 12 at most 500 mm');
    expect(out).toContain('scrutineer decide');
  });

  it('is one document with --json, and says how to begin where no rule is entered', async () => {
    const { out } = await run(demo, '--json');
    expect((JSON.parse(out) as { packs: { id: string }[] }).packs.map(({ id }) => id)).toEqual(['club', 'series']);
    expect((await run(bare)).out).toContain('No rules are entered');
  });
});
