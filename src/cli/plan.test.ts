import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Car, readCar } from '#car';
import { loadCarMeshes, stlBinary } from '#intake';
import { lineCautions } from '#snags';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lengthsIn } from '#units';
import { runMain } from './run-main.fixture.ts';
import { outFile } from './out-file.ts';
import { planText } from './plan.ts';
import type { PlanLook } from './plan-rows.ts';
import { type PlannedCar, planExit } from './planned-car.ts';

/** A command that goes on by itself, such as a server, ends as soon as it has begun. */
const run = (words: readonly string[], env: Readonly<Record<string, string>> = {}) =>
  runMain(words, { env, ends: Promise.resolve() });

/** A cube of 40 mm far from the line, so that the car has a mesh. */
function cube() {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) => [i & 1 ? 40 : 0, i & 2 ? 40 : 0, i & 4 ? 40 : 0]);
  const faces = [
    0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5,
  ];
  return { positions: Float64Array.from(corners), indices: Uint32Array.from(faces) };
}

const port = (atMm: number[], faces: number[]) => ({ id: 'p', atMm, faces, end: { type: 'flare37-male', dash: 8 } });
/** Beside the first port, on the same face of its box. */
const moved = (atMm: number[]): number[] => [atMm[0]!, atMm[1]! - 30, atMm[2]! + 35];

/** Two tanks and a straight hose between them. */
const car = {
  fairlead: 1,
  name: 'Bench rig (invented)',
  'x-kept': { note: 'as it is' },
  parts: [
    {
      id: 'a',
      name: 'A',
      class: 'fixed',
      knownToMm: 1,
      shapes: [{ box: { minMm: [0, 0, 0], maxMm: [100, 100, 100] } }],
      ports: [port([100, 50, 50], [1, 0, 0])],
    },
    {
      id: 'b',
      name: 'B',
      class: 'fixed',
      knownToMm: 1,
      shapes: [{ box: { minMm: [700, 60, 0], maxMm: [800, 160, 100] } }],
      ports: [port([700, 110, 50], [-1, 0, 0])],
    },
    {
      id: 'lump',
      name: 'Lump',
      class: 'fixed',
      shapes: [{ mesh: { file: 'scans/lump.stl', unit: 'mm', atMm: [300, 600, 0] } }],
    },
  ],
  lines: [{ id: 'W1', from: 'a.p', to: 'b.p', duty: 'water', dash: 8, state: 'planned' }],
};

describe('a plan cut off by its time', () => {
  it('hand: names the lines that were not worked out, and does not end as if all were well', () => {
    const reading = readCar(JSON.stringify(car));
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    const answer = {
      car: reading.car,
      planned: { lines: [], lineGaps: [], takenUp: 0, stopped: true },
      snags: [],
    } as unknown as PlannedCar;
    const plain = (text: string): string => text;
    const look = { style: { stop: plain, soft: plain, fix: plain }, lengths: lengthsIn(false) } as unknown as PlanLook;
    const rows = planText(answer, look).join('\n');
    for (const { id } of reading.car.lines) expect(rows).toMatch(new RegExp(`not worked out .*\\b${id}\\b`, 'u'));
    expect(planExit(answer)).toBe(1);
  });

  it('hand: a time that is none is a fault in one line', async () => {
    const { code, err } = await run(['plan', 'car.json', '--seconds', '2 min']);
    expect(code).toBe(2);
    expect(err).toBe('--seconds: stands "2 min"; allowed: a whole number from 1 to 86400\n');
  });
});

describe('a plan', () => {
  let folder = '';
  const at = (...names: string[]) => join(folder, ...names);
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-plan-'));
    mkdirSync(at('car', 'scans'), { recursive: true });
    mkdirSync(at('elsewhere'));
    writeFileSync(at('car', 'scans', 'lump.stl'), stlBinary(cube()));
    writeFileSync(at('car', 'car.json'), JSON.stringify(car));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const keeping = () => ({ FAIRLEAD_CACHE: at('cache') });

  const readBack = (...names: string[]): Car => {
    const reading = readCar(readFileSync(at(...names), 'utf8'));
    if (!reading.ok) throw new Error(`test: ${names.join('/')} does not read: ${JSON.stringify(reading.faults[0])}`);
    return reading.car;
  };

  it('is the same on any number of threads, in one JSON document', async () => {
    const two = {
      ...car,
      parts: car.parts.map((part) => ({
        ...part,
        ports:
          part.ports === undefined
            ? []
            : [...part.ports, { ...part.ports[0], id: 'q', atMm: moved(part.ports[0]!.atMm) }],
      })),
    };
    const lines = [...car.lines, { ...car.lines[0], id: 'W2', from: 'a.q', to: 'b.q' }];
    writeFileSync(at('car', 'two.json'), JSON.stringify({ ...two, lines }));
    const before = readFileSync(at('car', 'two.json'), 'utf8');
    const one = await run(['plan', at('car', 'two.json'), '--json', '--out', at('planned.json')], {
      FAIRLEAD_THREADS: '1',
    });
    const onTwo = await run(['plan', at('car', 'two.json'), '--json', '--out', at('elsewhere', 'new.json')], {
      FAIRLEAD_THREADS: '2',
    });
    expect([onTwo.code, onTwo.out]).toEqual([one.code, one.out]);
    const answer = JSON.parse(one.out) as {
      lines: readonly { line: string; taken: unknown; best: unknown }[];
      lineGaps: readonly unknown[];
    };
    expect(Object.keys(answer)).toEqual(['lines', 'lineGaps']);
    expect(answer.lines.map((row) => row.line)).toEqual(['W1', 'W2']);
    expect(one.code).toBe(answer.lines.some((row) => row.taken === null) ? 1 : 0);
    expect([one.err.trimEnd().split('\n').length, one.err.startsWith('wrote ')]).toEqual([1, true]);
    expect(onTwo.err).toMatch(/^copied beside .*new\.json: new-meshes\/lump-[0-9a-f]{10}\.stl\nwrote .*\n$/);
    expect(readFileSync(at('car', 'two.json'), 'utf8')).toBe(before);
    expect((await run(['plan', at('car', 'two.json')], { FAIRLEAD_THREADS: 'many' })).err).toMatch(
      /^FAIRLEAD_THREADS: stands "many"; allowed: a whole number/,
    );
  });

  it('written down keeps everything and reads again', () => {
    const planned = readBack('planned.json');
    expect(planned.lines[0]!.state).toBe('planned');
    expect(planned.lines[0]!.taken!.bodies.length).toBeGreaterThan(2);
    expect(planned.parts[2]!.shapes[0]!.mesh!.file).toBe('car/scans/lump.stl');
    expect((planned as unknown as Record<string, unknown>)['x-kept']).toEqual({ note: 'as it is' });
  });

  it('written where the meshes would lie outside has copies of them in its own folder', async () => {
    const elsewhere = readBack('elsewhere', 'new.json');
    const { file } = elsewhere.parts[2]!.shapes[0]!.mesh!;
    expect(readFileSync(at('elsewhere', file)).equals(readFileSync(at('car', 'scans', 'lump.stl')))).toBe(true);
    expect((await loadCarMeshes(elsewhere, at('elsewhere'))).faults).toEqual([]);
    expect(readdirSync(at('elsewhere')).sort()).toEqual(['new-meshes', 'new.json']);
  });

  it('may be written over its own car when that is asked for by name', async () => {
    cpSync(at('car'), at('own'), { recursive: true });
    await run(['plan', at('own', 'car.json'), '--out', at('own', 'car.json')]);
    const planned = readBack('own', 'car.json');
    expect(planned.parts[2]!.shapes[0]!.mesh!.file).toBe('scans/lump.stl');
    expect(planned.lines[0]!.taken!.pieces.length).toBe(1);
    expect(readdirSync(at('own')).sort()).toEqual(['car.json', 'scans', 'two.json']);
  });

  it('leaves what stood there, and no half file, where the last step fails', async () => {
    const out = await outFile(at('late.json'), at('car', 'car.json'));
    mkdirSync(at('late.json'));
    await expect(out.write('whole')).rejects.toThrow(/--out: ".*late\.json" cannot be written \(E\w+\)/);
    expect(readdirSync(folder).filter((name) => name.includes('late'))).toEqual(['late.json']);
    expect(readdirSync(at('late.json'))).toEqual([]);
  });

  it('is what the order is read off', async () => {
    const first = await run(['order', at('car', 'car.json'), '--json'], keeping());
    expect(first.err).toBe('');
    const order = JSON.parse(first.out) as {
      rows: readonly { id: string; qty: number; usedIn: readonly string[] }[];
      cuts: readonly { line: string; hose: string; lengthMm: number }[];
    };
    // hand: one hose, so one cut; the ports are 600 mm apart and 60 mm sideways, 603 mm, less what two ends take
    expect(order.cuts.map((cut) => cut.line)).toEqual(['W1']);
    expect(order.cuts[0]!.lengthMm).toBeGreaterThan(400);
    expect(order.rows.some((row) => row.usedIn.some((where) => where.startsWith('W1')))).toBe(true);
  });

  it('kept from one command to the next is the same to the last byte, and it is said whence it comes', async () => {
    const words = ['order', at('car', 'car.json'), '--json'];
    const fresh = await run([...words, '--fresh'], keeping());
    const again = await run(words, keeping());
    expect([fresh.err, again.out]).toEqual(['', fresh.out]);
    expect(again.err).toMatch(
      /^.*car\.json: the plan kept of \d{4}-\d\d-\d\d \d\d:\d\d is used, nothing it rests on has changed; --fresh plans anew\n$/,
    );
    expect((await run(['snags', at('car', 'car.json')], keeping())).err).toBe(again.err);
    // A scan that is another by one corner is another car.
    const other = cube();
    other.positions[0] = -1;
    writeFileSync(at('car', 'scans', 'lump.stl'), stlBinary(other));
    const after = await run(words, keeping());
    writeFileSync(at('car', 'scans', 'lump.stl'), stlBinary(cube()));
    expect(after.err).toBe('');
    expect((await run(words, keeping())).err).toBe(again.err);
  });

  it('is given where it cannot be kept, and that is said', async () => {
    const { code, err } = await run(['order', at('car', 'car.json')], { FAIRLEAD_CACHE: at('car', 'car.json') });
    expect([code, err]).toEqual([0, expect.stringMatching(/^.*car\.json: nothing can be kept there \(\w+\)\n$/)]);
  });

  it('compared with the same car keeps every line and buys nothing', async () => {
    const { code, out } = await run(['compare', at('planned.json'), at('planned.json'), '--json']);
    const answer = JSON.parse(out) as {
      lines: readonly { line: string; verdict: string }[];
      buy: readonly unknown[];
      surplus: readonly unknown[];
    };
    expect([code, answer.lines.map((row) => [row.line, row.verdict]), answer.buy, answer.surplus]).toEqual([
      0,
      [
        ['W1', 'keep'],
        ['W2', 'keep'],
      ],
      [],
      [],
    ]);
  });

  it('reads well: ends, cut, gaps, what comes next', async () => {
    const env = { FAIRLEAD_DATA: at('data'), FAIRLEAD_PORT: '0' };
    const start = await run(['start', at('car', 'car.json'), '--inches'], env);
    expect(start.out).toMatch(/W1 {3}a\.p → b\.p, water: taken\n.*cut \S+ \d+( \d+\/\d+)? in /);
    expect(start.out).toMatch(/1 of 1 lines taken, 0 refused\./);
    expect([start.code, start.err]).toEqual([0, expect.stringContaining('each line alone: 1 of 1 lines')]);
    expect(start.out).toMatch(/Bench rig[\s\S]*Order: \d+ rows? to buy[\s\S]*npx fairlead snags/);
    expect(start.out).toMatch(
      /The screen: http:\/\/127\.0\.0\.1:(\d+) [^\n]*\nThis car: {3}http:\/\/127\.0\.0\.1:\1\/#\/car\n/u,
    );
    const ways = (await run(['ways', at('car', 'car.json'), 'W1', '--count', '1'])).out;
    // The same cautions as on the printed card and the screen: one table has them.
    const plain = (words: string): string => words.replaceAll(/\s+/gu, ' ');
    const rig = readCar(readFileSync(at('car', 'car.json'), 'utf8'));
    const told = rig.ok ? lineCautions(rig.car, rig.car.lines[0]!, []) : [];
    expect(told.length).toBeGreaterThan(1);
    for (const caution of told) expect(plain(ways)).toContain(plain(caution));
    expect(ways).toMatch(/trial-fit\s+before\s+the\s+second\s+end\s+goes\s+on\s+for\s+good/);
    expect(ways).toMatch(/Clocks\s+are\s+seen\s+looking\s+into\s+the\s+port/);
    expect(ways).toMatch(/event's\s+rules,\s+local\s+codes/);
  });
});
