import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runMain as run } from './run-main.fixture.ts';

const demo = fileURLToPath(new URL('../../demo/three-ports.json', import.meta.url));

describe('cards', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-cards-'));
    writeFileSync(join(folder, 'file'), '');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('writes a card a line and the wall map', async () => {
    const out = join(folder, 'new');
    const { code, out: said } = await run(['cards', demo, '--out', out, '--paper', 'A3']);
    expect(code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['card-O1.svg', 'wall-map.svg']);
    expect(said).toBe(`${join(out, 'card-O1.svg')}\n${join(out, 'wall-map.svg')}\n`);
    expect(readFileSync(join(out, 'card-O1.svg'), 'utf8')).toMatch(/<svg .* width="297mm" height="210mm"/);
    expect(readFileSync(join(out, 'wall-map.svg'), 'utf8')).toMatch(/width="420mm" height="297mm"/);
  });

  it.each([
    [[], /--out is missing; allowed: --out FOLDER/],
    [['--out', 'FILE'], /is a file; allowed: a folder/],
    [['--out', 'no/such/place'], /lies in a folder that is not there/],
    [['--out', '.', '--paper', 'A9'], /--paper: "A9"; allowed: A2, A3/],
  ])('%j is told in one line', async (words, says) => {
    const { code, err } = await run([
      'cards',
      demo,
      ...words.map((word) => (word === 'FILE' ? join(folder, 'file') : word)),
    ]);
    expect(code).toBe(2);
    expect(err.trim()).toMatch(says);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
