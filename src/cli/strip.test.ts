import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BreakJobs, StripOf } from '#answers';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runMain } from './run-main.fixture.ts';

const run = (words: readonly string[]) => runMain(words, { columns: 110 });

const box = (min: number[], max: number[]) => [{ box: { minMm: min, maxMm: max } }];
/** A tank under a lid, on a floor; invented. */
const car = {
  fairlead: 1,
  parts: [
    { id: 'floor', class: 'fixed', staysOn: true, shapes: box([0, 0, 0], [1000, 1000, 2]), ports: [] },
    {
      id: 'tank',
      class: 'fixed',
      sitsOn: ['floor'],
      shapes: box([400, 400, 20], [600, 600, 200]),
      ports: [],
      fasteners: [{ id: 'strap', atMm: [500, 500, 210], faces: [0, 0, 1], head: 'nut', acrossFlatsMm: 13 }],
    },
    { id: 'lid', class: 'fixed', sitsOn: ['floor'], shapes: box([300, 300, 260], [700, 700, 262]), ports: [] },
    // Walls round the tank leave it no way but up.
    ...[
      ['left', [300, 300, 2], [302, 700, 250]],
      ['right', [698, 300, 2], [700, 700, 250]],
      ['front', [300, 300, 2], [700, 302, 250]],
      ['rear', [300, 698, 2], [700, 700, 250]],
    ].map(([id, min, max]) => ({
      id,
      class: 'fixed',
      staysOn: true,
      shapes: box(min as number[], max as number[]),
      ports: [],
    })),
  ],
  movers: [],
  lines: [],
  workshop: { crew: 2, breaks: [{ name: 'Between runs', minutes: 5, jobs: ['lid', 'tank'] }] },
};

describe('fairlead strip', () => {
  let folder = '';
  let file = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-strip-'));
    file = join(folder, 'car.json');
    writeFileSync(file, JSON.stringify(car));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('hand: the lid comes off before the tank goes up, and on again after it', async () => {
    const { code, out } = await run(['strip', file, 'tank', '--json']);
    const answer = JSON.parse(out) as StripOf;
    expect(code).toBe(0);
    expect(answer.steps.map(({ what }) => what)).toEqual(['lid', 'tank']);
    expect(answer.fittingOrder).toEqual(['tank', 'lid']);
    expect(answer.isProved).toBe(true);
    const up = answer.steps[1]!.coming;
    expect(up.how === 'straight' && up.direction[2] > 0.7).toBe(true);
  });

  it('says what stays on, and a wrong name or aim in one line with exit 2', async () => {
    const stays = await run(['strip', file, 'floor']);
    expect([stays.code, stays.out]).toEqual([1, expect.stringContaining('it stays on the car')]);
    const name = await run(['strip', file, 'tnak']);
    expect([name.code, name.err.trim().split('\n').length]).toEqual([2, 1]);
    expect(name.err).toMatch(/no part, panel or line "tnak"; nearest: tank/u);
    const aim = await run(['strip', file, 'tank', '--to', 'move']);
    expect([aim.code, aim.err]).toEqual([2, expect.stringMatching(/"move"; allowed: reach, remove, replace/u)]);
  });

  it('says the jobs of each break, the longest first, where no part is named', async () => {
    const { code, out } = await run(['strip', file]);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^Between runs: 5 min, 2 at it\n {2}tank +7 min +longer than it.*\n {2}lid +2.5 min +within it/u,
    );
    const { breaks } = JSON.parse((await run(['strip', file, '--json', '--crew', '1'])).out) as { breaks: BreakJobs[] };
    const alone = JSON.parse((await run(['strip', file, 'tank', '--json', '--crew', '1'])).out) as StripOf;
    expect(breaks[0]!.crew).toBe(1);
    expect(breaks[0]!.jobs[0]).toMatchObject({ target: 'tank', crewMinutes: alone.crewMinutes, fits: false });
    const wins = await run(['strip', file, '--wins']);
    expect([wins.code, wins.err]).toEqual([2, expect.stringContaining('--wins is for one PART')]);
    const none = join(folder, 'none.json');
    writeFileSync(none, JSON.stringify({ ...car, workshop: { crew: 2 } }));
    expect((await run(['strip', none])).err).toContain('"workshop.breaks" names no job');
  });
});
