import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runMain } from './run-main.fixture.ts';

const block = {
  id: 'pump',
  name: 'Oil pump',
  class: 'fixed',
  shapes: [{ box: { minMm: [0, 0, 0], maxMm: [200, 100, 100] } }],
  ports: [],
  fasteners: [
    { id: 'open', atMm: [150, 50, 106], faces: [0, 0, 1], head: 'hexagon', size: 'M8' },
    { id: 'under', atMm: [20, 50, 106], faces: [0, 0, 1], head: 'hexagon', size: 'M8' },
  ],
};
const tray = {
  id: 'tray',
  class: 'fixed',
  shapes: [{ box: { minMm: [-100, -200, 105], maxMm: [60, 300, 140] } }],
  ports: [],
};

let folder = '';
let file = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fairlead-reach-'));
  file = join(folder, 'car.json');
  writeFileSync(file, JSON.stringify({ fairlead: 1, name: 'Reach', parts: [block, tray], movers: [], lines: [] }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: string[]) => runMain(args);

describe('fairlead reach', () => {
  it('tells every fastener, its tool and what is in the way', async () => {
    const { code, out } = await run('reach', file);
    expect(code).toBe(0);
    expect(out).toMatch(/pump\.open +13 mm +yes +248\/12° +ratchet 13 mm/);
    expect(out).toMatch(/pump\.under +13 mm +no/);
    expect(out).toContain('take tray off first');
  });

  it('says which tools and whether the hand were measured, and takes the sizes entered', async () => {
    expect((await run('reach', file)).out).toContain('Tools and hand are usual sizes, recalled');
    const own = join(folder, 'own.json');
    const carOf = (workshop: object) =>
      JSON.stringify({ fairlead: 1, name: 'Reach', parts: [block, tray], movers: [], lines: [], workshop });
    const hand = { acrossMm: 90, thickMm: 50, measured: true };
    const ratchet = { kind: 'ratchet', acrossFlatsMm: 13, lengthMm: 60, measured: true };
    const measuredOf = async () => {
      const { nuts } = JSON.parse((await run('reach', own, '--json')).out) as {
        nuts: { tool: string; isMeasured: boolean; freeDeg: number }[];
      };
      return nuts.map(({ tool, isMeasured }) => [tool, isMeasured]);
    };
    writeFileSync(own, carOf({ hand }));
    expect((await run('reach', own)).out).toContain('The hand was measured; tools are of usual sizes, recalled');
    expect(await measuredOf()).toEqual([
      ['ratchet', false],
      ['ratchet', false],
    ]);
    // Sizes that nobody measured stay unverified, hand or no hand.
    writeFileSync(own, carOf({ hand, tools: [{ ...ratchet, measured: false }] }));
    expect((await measuredOf())[0]).toEqual(['ratchet', false]);
    writeFileSync(own, carOf({ hand, tools: [ratchet] }));
    expect(await measuredOf()).toEqual([
      ['ratchet', true],
      ['ratchet', true],
    ]);
    const { out } = await run('reach', own);
    expect(out).toContain('Tools and hand as they were measured.');
    expect(out).toContain("limit from: The builder's own figure");
    // A handle of 60 mm in the place of the usual one swings farther before the tray.
    const freeOf = (text: string) => Number(/pump\.open .* (\d+)\/12°/.exec(text)![1]);
    expect(freeOf(out)).toBeGreaterThan(freeOf((await run('reach', file)).out));
  });

  it('gives the same as one document', async () => {
    const { out } = await run('reach', file, 'pump', '--json');
    const { nuts } = JSON.parse(out) as { nuts: { id: string; verdict: string; acrossFlatsMm: number }[] };
    expect(nuts.map(({ id, verdict, acrossFlatsMm }) => [id, verdict, acrossFlatsMm])).toEqual([
      ['pump.open', 'yes', 13],
      ['pump.under', 'no', 13],
    ]);
  });

  it('names the nearest where a word is none of the car', async () => {
    const { code, err } = await run('reach', file, 'pomp');
    expect(code).toBe(2);
    expect(err).toContain('nearest: pump');
  });
});
