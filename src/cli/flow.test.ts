import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runMain } from './run-main.fixture.ts';

const taken = fileURLToPath(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));

const run = (words: readonly string[], env: Record<string, string> = {}) => runMain(words, { columns: 110, env });

describe('flow', () => {
  let folder = '';
  let car = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-flow-'));
    car = join(folder, 'car.json');
    const demo = JSON.parse(gunzipSync(readFileSync(taken)).toString()) as {
      lines: { id: string; taken?: unknown }[];
      parts: { shapes: { mesh?: unknown }[] }[];
      circuits: { id: string; kind: string; lines: string[] }[];
    };
    // What has no way is left out of the circuits, so that nothing has to be planned here; so is the scanned part.
    const open = new Set(demo.lines.filter((line) => (line.taken ?? null) === null).map(({ id }) => id));
    for (const circuit of demo.circuits) circuit.lines = circuit.lines.filter((id) => !open.has(id));
    for (const part of demo.parts) part.shapes = part.shapes.filter((shape) => shape.mesh === undefined);
    writeFileSync(car, JSON.stringify(demo));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('--as-is answers for lines without a way, plans nothing and says how they were counted', async () => {
    const bare = JSON.parse(readFileSync(car, 'utf8')) as { lines: { id: string; taken?: unknown }[] };
    for (const line of bare.lines) if (line.id === 'O1') delete line.taken;
    const file = join(folder, 'bare.json');
    writeFileSync(file, JSON.stringify(bare));
    const { out, err, code } = await run(['flow', file, '--as-is', '--case', 'cold-start', '--json']);
    expect([code, err]).toEqual([
      1,
      expect.stringMatching(/^O1: no way taken, counted as 1\.3 times straight across/u),
    ]);
    const answer = JSON.parse(out) as { circuits: { states: { lines: { line: string; assumed: string[] }[] }[] }[] };
    const feed = answer.circuits[0]!.states[0]!.lines.find(({ line }) => line === 'O1')!;
    expect(feed.assumed.join()).toContain('O1 has no way yet');
  });

  it('finds that the feed of the demo cannot live with a cold start as drawn, and what would', async () => {
    const { code, out } = await run(['flow', car, '--case', 'cold-start']);
    expect(code).toBe(1);
    expect(out).toMatch(/Stop {2}O1: Cold start: the pump's inlet stands at -0\.\d\d bar/);
    expect(out.replaceAll(/\s+/g, ' ')).toMatch(
      /cure: O1 in -2[04], not -16: \+\d+\.\d kPa, -0\.\d\d bar, which is enough/,
    );
    expect(out).toMatch(/the oil at \d+ °C or warmer/);
    // What each line carries, in columns.
    expect(out).toMatch(/line +L\/min +m\/s +bar in +out +lost +carries/);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('tells the whole car as one JSON document', async () => {
    const { out, err } = await run(['flow', car, '--json']);
    const answer = JSON.parse(out) as {
      circuits: { circuit: string; states: { case: { id: string }; lines: { line: string; flowM3S: number }[] }[] }[];
    };
    expect(err).toBe('');
    expect(answer.circuits.map(({ circuit }) => circuit)).toEqual(['oil', 'water', 'fuel']);
    const full = answer.circuits[0]!.states.find(({ case: at }) => at.id === 'full-load')!;
    // By hand: 13.5 cc x 0.55 x 8000 rpm = 59.4 L/min swept; slip and relief take a tenth.
    const feed = full.lines.find(({ line }) => line === 'O1')!.flowM3S * 60_000;
    expect(feed).toBeGreaterThan(48);
    expect(feed).toBeLessThan(59.4);
    expect(out).not.toMatch(/NaN/);
  });

  it('speaks in psi, gallons and inches where the builder does', async () => {
    const { out } = await run(['flow', car, '--case', 'full-load', '--inches']);
    expect(out).toMatch(/line +gal\/min +ft\/s +psi in/);
    expect(out).toMatch(/105 °C \(221 °F\)/);
    expect(out).toMatch(/tank: 8\.5 qt \(8\.0 L\) of/);
    // Sentences too: nothing is left in bar, kPa, L/min or m/s; heads stand in both mm and inches.
    expect(out).toMatch(/Stop +O1: Full load: the pump's inlet stands at -\d\.\d psi/);
    // A name that the builder gave stays as it is.
    const said = out.replaceAll(/1\.3 bar\s+cap/gu, '');
    expect(said).not.toBe(out);
    expect(said.match(/\d (bar|kPa|mbar|L\/min|m\/s)\b/g) ?? []).toEqual([]);
  });

  it.each([
    [
      ['--case', 'cold-strat'],
      /--case: "cold-strat" is not a case of .*; allowed: cold-start, .* \(nearest: cold-start\)/,
    ],
    [['--cas', 'cold-start'], /--cas/],
  ])('%j is told in one line', async (words, says) => {
    const { code, out, err } = await run(['flow', car, ...words]);
    expect([code, out]).toEqual([2, '']);
    expect(err.trim()).toMatch(says);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('runs a driven log through the dry sump, in time', async () => {
    const log = fileURLToPath(new URL('../../demo/logs/fellside-lap.csv', import.meta.url));
    const { code, out } = await run(['flow', car, '--log', log]);
    expect(code).toBe(1);
    expect(out).toMatch(/oil: 120 s driven, 12001 samples/);
    expect(out).toMatch(/oil in tank {2}[▁-█]{60} {2}least \d\.\d L at \d+\.\d s/);
    expect(out).toMatch(/What this does not know:/);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it.each([
    ['time,rpm\n0,1000\n', /log\.csv: /],
    ['', /log\.csv: /],
  ])('a log of %j is told in one line', async (text, says) => {
    const log = join(folder, 'log.csv');
    writeFileSync(log, text);
    const { code, out, err } = await run(['flow', car, '--log', log]);
    expect([code, out]).toEqual([2, '']);
    expect(err.trim()).toMatch(says);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('says what to do with a car that has no circuits', async () => {
    const bare = join(folder, 'bare.json');
    writeFileSync(bare, JSON.stringify({ fairlead: 1, parts: [], lines: [] }));
    const { code, out } = await run(['flow', bare]);
    expect(code).toBe(0);
    expect(out).toMatch(/no circuit that flows/);
  });

  it('plans first only where a line of what is asked for has no way, and says so before it does', async () => {
    const shed = join(folder, 'shed.json');
    const port = (id: string, atMm: readonly number[], faces: readonly number[]) => ({
      id,
      atMm,
      faces,
      end: { type: 'orb', dash: 12 },
    });
    const body = (x: number) => [{ box: { minMm: [x, -100, 100], maxMm: [x + 100, 100, 400] } }];
    writeFileSync(
      shed,
      JSON.stringify({
        fairlead: 1,
        fluids: [{ id: 'mix', glycol: { massPercent: 40 } }],
        parts: [
          { id: 'tank', class: 'fixed', shapes: body(1000), ports: [port('out', [1000, 0, 150], [-1, 0, 0])] },
          { id: 'pump', class: 'fixed', shapes: body(400), ports: [port('in', [500, 0, 150], [1, 0, 0])] },
        ],
        lines: [{ id: 'W', from: 'tank.out', to: 'pump.in', duty: 'water', dash: 12 }],
        circuits: [
          {
            id: 'w',
            kind: 'coolant',
            fluid: 'mix',
            lines: ['W'],
            vessels: [{ part: 'tank', kind: 'header', fillL: 1 }],
          },
        ],
      }),
    );
    const kept = { FAIRLEAD_CACHE: join(folder, 'kept') };
    const { err } = await run(['flow', shed], kept);
    expect(err).toMatch(/^W has no way taken: planning 1 line first, .*`fairlead plan .*shed\.json --out FILE`/);
    // A plan that is kept is taken without a word of planning; a driven log asks for no line of the water.
    const again = await run(['flow', shed], kept);
    expect(again.err).not.toMatch(/planning/);
    const log = fileURLToPath(new URL('../../demo/logs/fellside-lap.csv', import.meta.url));
    expect((await run(['flow', shed, '--log', log], kept)).err).toBe('');
  });
});
