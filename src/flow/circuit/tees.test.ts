import { unsettledTees } from './unsettled-tees.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCar } from '#car';
import { catalogue } from '#standards';
import { expectedOf, published } from '../../../test/published/published.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import { dividingTee, joiningTee } from '../losses/tee.ts';
import { caseOf, liquidFlow, readyCircuit } from './circuit-state.ts';
import { drawnCircuit } from './drawn-circuit.ts';
import { type Tee, teeLosses } from './tees.ts';

/** So thin that only the published part, of high Reynolds numbers, is left. */
const fluid = { densityKgM3: 1000, viscosityPaS: 1e-12 } as FluidState;
const GPM = 3.785411784e-3 / 60;

/** A tee of equal bores whose first leg of the run carries both flows, away from the joint where they join. */
const equal = (boreM: number, angleDeg: number): Tee => {
  const leg = (element: string, end: 'from' | 'to') => ({ element, end, boreM, isPump: false });
  return {
    joint: 'tee',
    words: 'tee.side',
    run: [leg('both', 'from'), leg('run', 'to')],
    branch: leg('branch', 'to'),
    angleDeg: [180 - angleDeg, angleDeg],
  };
};

const dropsAt = (tee: Tee, flows: Record<string, number>): Record<string, number> =>
  Object.fromEntries(
    teeLosses(tee, (id) => flows[id]).map(({ element, loss }) => [element, loss.under(fluid)(flows[element]!).dropPa]),
  );

describe('a tee in a circuit', () => {
  // published: the handbook's worked example and its rule, rows tee-* of test/published/values.json.
  it.each(
    published('flow.minor')
      .filter(({ id }) => id.startsWith('tee-'))
      .map((row) => [row.id, row] as const),
  )('takes what %s says, and gives no gain', (id, row) => {
    const g = row.inputs as Record<string, number>;
    const isDividing = id.startsWith('tee-div');
    const boreM = (g['D_in'] ?? 1) * 0.0254;
    const unit = g['Q_run_gpm'] === undefined ? 1e-3 : GPM;
    const [run, branch] = [(g['Q_run_gpm'] ?? g['Q_run'])! * unit, (g['Q_branch_gpm'] ?? g['Q_branch'])! * unit];
    const sign = isDividing ? -1 : 1;
    const drops = dropsAt(equal(boreM, g['angle']!), {
      both: sign * (run + branch),
      run: sign * run,
      branch: sign * branch,
    });
    const speed = (run + branch) / ((Math.PI / 4) * boreM ** 2);
    for (const leg of ['run', 'branch'] as const) {
      const wanted = Math.max(0, expectedOf(row, `K_${leg}`)) * 500 * speed ** 2;
      expect(sign * drops[leg]!).toBeCloseTo(wanted, -Math.log10(2e-3 * wanted + 2e-3));
    }
    expect(drops['both']).toBeUndefined();
  });

  it('counts as a turn where both flows go through its branch', () => {
    const flow = 1e-3;
    const drops = dropsAt(equal(0.0254, 90), { both: flow, run: -flow, branch: 2 * flow });
    // hand: Darby's tee, run to branch: K = 0.14 (1 + 4/1^0.3) = 0.70 at an inch and high Reynolds numbers, on 1.973 m/s.
    expect(drops['both']).toBeCloseTo(0.7 * 500 * 1.97353 ** 2, 0);
    expect(drops['run']).toBeCloseTo(-0.7 * 500 * 1.97353 ** 2, 0);
  });
});

type Row = Record<string, unknown>;
interface Wish {
  /** Way that the side port of the tee faces. */
  readonly side?: readonly number[];
  readonly sideBoreMm?: number;
  readonly runBoreMm?: number;
  /** The pressure at the end of the side line [bar]; the feed has 1, the run's end nothing. */
  readonly sideBar?: number;
  readonly from?: 'run' | 'branch';
  readonly ends?: number;
}

/** A tank under pressure, a tee, and lines on to open tanks, all at one height. */
function teed({ side = [0, 1, 0], sideBoreMm = 16, runBoreMm = 16, sideBar = 0, from = 'run', ends = 3 }: Wish = {}) {
  const port = (id: string, atMm: readonly number[], faces: readonly number[]) => ({
    id,
    atMm,
    faces,
    end: { type: 'orb', dash: 10 },
  });
  const tank = (id: string, x: number, y: number) => ({
    id,
    class: 'fixed',
    shapes: [{ box: { minMm: [x, y, 0], maxMm: [x + 200, y + 200, 200] } }],
    ports: [port('p', [x, y + 100, 20], [-1, 0, 0])],
  });
  const names = ['in', 'out', 'side', 'more'].slice(0, ends);
  const faces: Record<string, readonly number[]> = { in: [-1, 0, 0], out: [1, 0, 0], side, more: [0, 0, 1] };
  const line = (id: string, a: string, b: string, boreMm = 16): Row => ({
    id,
    from: a,
    to: b,
    duty: 'water',
    boreMm,
    dash: 10,
  });
  const order = from === 'run' ? ['in', 'out', 'side'] : ['side', 'in', 'out'];
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      fluids: [{ id: 'water', water: {} }],
      parts: [
        tank('feed', -1000, -100),
        tank('a', 1000, -100),
        tank('b', 0, 1000),
        tank('c', 0, -2000),
        {
          id: 'tee',
          class: 'fixed',
          shapes: [{ box: { minMm: [-10, -10, 10], maxMm: [10, 10, 30] } }],
          ports: names.map((id) => port(id, [0, 0, 20], faces[id]!)),
        },
      ],
      lines: [
        line('F', 'feed.p', `tee.${order[0]}`),
        line('A', `tee.${order[1]}`, 'a.p', runBoreMm),
        line('B', `tee.${order[2]}`, 'b.p', sideBoreMm),
        ...(ends > 3 ? [line('C', 'tee.more', 'c.p')] : []),
      ],
      circuits: [
        {
          id: 'w',
          kind: 'coolant',
          fluid: 'water',
          lines: ['F', 'A', 'B', ...(ends > 3 ? ['C'] : [])],
          passages: names.slice(1).map((id) => ({ from: `tee.${names[0]}`, to: `tee.${id}`, open: true })),
          vessels: [
            { part: 'feed', kind: 'tank', fillL: 7, pressureBar: 1 },
            { part: 'a', kind: 'tank', fillL: 7, pressureBar: 0 },
            { part: 'b', kind: 'tank', fillL: 7, pressureBar: sideBar },
            { part: 'c', kind: 'tank', fillL: 7, pressureBar: 0 },
          ],
        },
      ],
    }),
  );
  if (!('car' in reading) || reading.car === undefined) throw new Error(JSON.stringify(reading));
  const { car } = reading;
  const ready = readyCircuit(car, drawnCircuit(car, catalogue(), car.circuits![0]!, new Map()), new Map());
  const asked = caseOf(ready, { id: 'x', engineRpm: 0, coolantC: 80 });
  if (typeof asked === 'string') throw new Error(asked);
  const bars: Record<string, number> = { feed: 1, a: 0, b: sideBar, c: 0 };
  const flow = liquidFlow(ready, asked, (vessel) => bars[vessel]! * 1e5);
  if ('why' in flow) throw new Error(flow.why);
  const bare = (id: string): number => {
    const element = ready.sorted.liquid.find((row) => row.id === id)!;
    return element.law(asked.fluid, asked.at, 80)(flow.flowOf.get(id)!).dropPa;
  };
  return { ready, asked, flow, bare, q: (id: string) => flow.flowOf.get(id)! };
}

describe('a circuit with a tee', () => {
  it.each([
    ['square', { side: [0, 1, 0] }, 90],
    ['leaning along the run', { side: [1, 1, 0] }, 45],
    ['narrow, 60 degrees', { side: [0.5, Math.sqrt(0.75), 0], sideBoreMm: 8 }, 60],
  ] as const)('divides the flow as the rule has it, summed anew: %s', (_, wish, angleDeg) => {
    const { asked, flow, bare, q } = teed(wish);
    const boreM = 0.0144;
    const beta = ('sideBoreMm' in wish ? wish.sideBoreMm : 16) / 16;
    const share = q('B') / q('F');
    expect(q('F')).toBeCloseTo(q('A') + q('B'), 12);
    const k = dividingTee(share, beta, angleDeg);
    const head = (asked.fluid.densityKgM3 / 2) * (q('F') / ((Math.PI / 4) * boreM ** 2)) ** 2;
    const re = (id: string, bore: number): number =>
      (asked.fluid.densityKgM3 * (q(id) / ((Math.PI / 4) * bore))) / asked.fluid.viscosityPaS;
    const own = (id: string, bore: number): number =>
      (asked.fluid.densityKgM3 / 2) * (q(id) / ((Math.PI / 4) * bore ** 2)) ** 2;
    // second: the law of each line alone, and the rule's coefficients on the head of both flows; slow parts 200 and 800 over Re.
    const run = Math.max(0, k.run) * head + ((200 * beta ** 2) / re('A', boreM)) * own('A', boreM);
    const branch = k.branch * head + (800 / re('B', boreM * beta)) * own('B', boreM * beta);
    expect(bare('F') + bare('A') + run).toBeCloseTo(1e5, 0);
    expect(bare('F') + bare('B') + branch).toBeCloseTo(1e5, 0);
    expect(branch).toBeGreaterThan(0.4 * head);
    expect(flow.teesOffPa).toBeLessThan(0.1);
    const pieces = flow.lines.find(({ line }) => line === 'B')!.pieces;
    expect(pieces[0]).toMatchObject({ what: 'tee', times: [0.5, 2] });
    expect(pieces[0]!.dropPa).toBeCloseTo(branch, 0);
  });

  it('lets two flows join as the rule has it, summed anew', () => {
    const { asked, bare, q } = teed({ sideBar: 1 });
    // The side now feeds too: the run's other leg carries both.
    const share = -q('B') / q('A');
    const k = joiningTee(share, 1, 90);
    const boreM = 0.0144;
    const head = (asked.fluid.densityKgM3 / 2) * (q('A') / ((Math.PI / 4) * boreM ** 2)) ** 2;
    const slow = (id: string, times: number): number =>
      (times * asked.fluid.viscosityPaS * Math.abs(q(id))) / (2 * boreM * ((Math.PI / 4) * boreM ** 2));
    expect(k.branch).toBeGreaterThan(0);
    expect(bare('F') + bare('A') + k.run * head + slow('F', 200)).toBeCloseTo(1e5, 0);
    expect(-bare('B') + bare('A') + k.branch * head + slow('B', 800)).toBeCloseTo(1e5, 0);
  });

  it('takes the pair in line as the run whatever the bores, and none for a chamber', () => {
    const { ready } = teed({ runBoreMm: 8 });
    expect(ready.tees.tees.map(({ branch, run }) => [branch.element, run.map(({ element }) => element)])).toEqual([
      ['B', ['F', 'A']],
    ]);
    // Where none lie in line, the narrowest is the branch.
    const skew = teed({ side: [0, 1, 0], runBoreMm: 8, from: 'branch' });
    expect(skew.ready.tees.tees[0]!.branch.element).toBe('F');
    expect(teed({ from: 'branch' }).ready.tees.tees[0]!.branch.element).toBe('F');
    const four = teed({ ends: 4 });
    expect(four.ready.tees).toMatchObject({ tees: [], crowded: [{ ends: 4 }] });
    expect(four.ready.findings.map(({ text }) => text)).toEqual([
      '4 lines and ways meet at tee.in: what they lose there is not reckoned (of three it is)',
    ]);
  });

  it('takes the tapping of the demo for the turbo as a branch off the way to the gallery', () => {
    const reading = readCar(readFileSync('demo/fellside.json', 'utf8'));
    if (!reading.ok) throw new Error('the demo car cannot be read');
    const { car } = reading;
    const found = car.circuits!.flatMap((circuit) => {
      const drawn = drawnCircuit(car, catalogue(car.catalogue), circuit, new Map());
      return readyCircuit(car, drawn, new Map()).tees.tees;
    });
    expect(found.map(({ run, branch }) => [run.map(({ element }) => element).join(' to '), branch.element])).toEqual([
      ['O3 to gallery', 'O8'],
      ['C1 to engine', 'C4'],
      ['C1 to radiator', 'C5'],
      ['C2 to water-pump', 'C3'],
    ]);
  });
});

describe('tees whose split does not settle', () => {
  const ready = {
    drawn: { circuit: { id: 'w' } },
    tees: { tees: [{ words: 'block.bleed' }] },
  } as unknown as Parameters<typeof unsettledTees>[0];
  it('are told with how far off they are, and not where they have settled', () => {
    const at = { id: 'full', name: 'Full load', engineRpm: 8000 };
    expect(unsettledTees(ready, at, 0.1)).toEqual([]);
    expect(unsettledTees(ready, at, 450)[0]).toMatchObject({ code: 'tees-unsettled', level: 'note', value: 0.45 });
    const [grave] = unsettledTees(ready, at, 5200);
    expect(grave).toMatchObject({ level: 'fix', limit: 0.1, unit: 'kPa' });
    expect(grave!.text).toMatch(/^Full load: .*\(block\.bleed\) does not settle.* to 5\.2 kPa only$/u);
  });
});
