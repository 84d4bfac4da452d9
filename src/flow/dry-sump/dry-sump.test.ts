import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Car, type Case, readCar } from '#car';
import { linesWorld, standingWay } from '#lines';
import { drawnCircuit } from '../circuit/drawn-circuit.ts';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { readyCircuit, type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { drySumpLayout } from './dry-sump-layout.ts';
import { drySumpFindings } from './dry-sump-findings.ts';
import { allLines, type DrySumpState, drySumpState } from './dry-sump-state.ts';

const taken = fileURLToPath(new URL('../../../test/screen/fellside-taken.json.gz', import.meta.url));

function demo(change: (car: Car) => void = () => {}): {
  car: Car;
  ready: ReadyCircuit;
  world: ReturnType<typeof linesWorld>;
} {
  const reading = readCar(gunzipSync(readFileSync(taken)).toString());
  if (!reading.ok) throw new Error(reading.faults.map(({ place }) => place).join());
  const { car } = reading;
  change(car);
  const world = linesWorld(car, new Map());
  const oil = car.circuits!.find(({ id }) => id === 'oil')!;
  const ways = new Map(
    car.lines.flatMap((line) =>
      oil.lines.includes(line.id) && line.taken ? [[line.id, standingWay(world, line, line.taken)] as const] : [],
    ),
  );
  return { car, world, ready: readyCircuit(car, drawnCircuit(car, world.shelf, oil, ways), new Map()) };
}

const { car, ready, world } = demo();
const caseNamed = (id: string): Case => car.cases!.find((row) => row.id === id)!;
const settled = (at: Case, of: ReadyCircuit = ready): DrySumpState => {
  const state = drySumpState(of, at);
  if ('why' in state) throw new Error(state.why);
  return state;
};
const flowIn = (state: DrySumpState, line: string): number =>
  allLines(state).find((row) => row.line === line)!.flowM3S * 60_000;

describe('the dry sump of the demo', () => {
  const full = settled(caseNamed('full-load'));

  it('keeps its oil: what leaves the tank comes back to it, less what the relief valve sends round', () => {
    const back = [...full.scavenge.oilInto.values()].reduce((sum, q) => sum + q, 0) * 60_000;
    expect(back).toBeCloseTo(flowIn(full, 'O1'), 9);
  });

  it('keeps its gas: blow-by and what the pot gives leave by the breather, to a part in a thousand', () => {
    // The pot has no vent: what its stage takes out of it is not made up, so it counts as coming in.
    const pot = -full.gas.shut.reduce((sum, { inflowM3S }) => sum + inflowM3S, 0) * 60_000;
    expect(Math.abs(full.gas.outM3S * 60_000 - (60 + pot))).toBeLessThan(1e-3 * (60 + pot));
  });

  it('has stages that sweep V n: 18 cc x 0.55 x 8000 rpm, by hand 79.2 L/min, 9 cc 39.6', () => {
    expect(full.scavenge.stages.map(({ sweptM3S }) => Number((sweptM3S * 60_000).toFixed(2)))).toEqual([
      79.2, 79.2, 39.6,
    ]);
  });

  it('sweeps (18 + 18 + 9)/13.5 = 3.33 times its pressure stage', () => {
    const ratio = drySumpLayout(ready).find(({ code }) => code === 'scavenge-ratio');
    expect(ratio?.value).toBeCloseTo(45 / 13.5, 12);
    expect(ratio?.level).toBe('note');
  });

  it('pulls at its scavenge inlets what builders read there, 0 to 0.7 bar below the air (common practice, no source)', () => {
    for (const { inletPa } of full.scavenge.stages) {
      expect(inletPa).toBeLessThan(0);
      expect(inletPa).toBeGreaterThan(-0.7e5);
    }
  });

  it('loses in its cold feed what Hagen and Poiseuille say of its hose, within its bends', () => {
    const cold = settled(caseNamed('cold-start'));
    const feed = cold.liquid.lines.find(({ line }) => line === 'O1')!;
    const hose = feed.pieces.find(({ what }) => what === 'hose')!;
    const run = ready.drawn.runs.find(({ line }) => line === 'O1')!;
    const length =
      run.stretches.filter(({ what }) => what === 'hose').reduce((sum, row) => sum + row.lengthMm, 0) / 1000;
    const straight = (128 * cold.asked.fluid.viscosityPaS * length * feed.flowM3S) / (Math.PI * 0.0222 ** 4);
    expect(hose.dropPa).toBeGreaterThan(straight * 0.999);
    expect(hose.dropPa).toBeLessThan(straight * 1.05);
  });

  it('says that the feed cannot live with a cold start as drawn, and says nothing of it hot', () => {
    const of = (id: string) =>
      drySumpFindings(ready, settled(caseNamed(id)), [], world.shelf).filter(({ code }) =>
        /^feed-draws-air|^vacuum/.test(code),
      );
    expect(of('cold-start').map(({ level, line }) => [level, line])).toContainEqual(['stop', 'O1']);
    expect(of('idle-hot')).toEqual([]);
  });
});

describe('a part that the builder measured', () => {
  it('takes the place of what is reckoned: its own curve to the last kilopascal, however many pieces it is drawn in', () => {
    const id = 'end-reusable-rubber-braid-16-150';
    const { ready: own } = demo((changed) => {
      changed.catalogue = {
        ...changed.catalogue,
        hoseEnds: [
          {
            id,
            curveLMinKpa: [
              [20, 1.5],
              [60, 11],
            ],
            curveAtC: 105,
          },
        ],
      };
    });
    const fluid = settled(caseNamed('full-load')).asked.fluid;
    const pieces = own.elements
      .find((row) => row.id === 'O1')!
      .pieces!.filter(({ loss }) => loss.under(fluid)(1e-3).dropPa > 10_999);
    const measured = pieces.find(({ loss }) => Math.abs(loss.under(fluid)(1e-3).dropPa - 11_000) < 1);
    expect(measured?.what).toBe('hose-end');
    expect(measured?.loss.under(fluid)(20 / 60_000).dropPa).toBeCloseTo(1500, 3);
    expect(measured?.loss.known).not.toBe('practice');
  });
});

describe('as physics has it', () => {
  const rpms = [1000, 3000, 5000, 8000];

  it('a narrower or longer feed never flows more, at any speed, cold or hot', () => {
    const run = ready.drawn.runs.find(({ line }) => line === 'O1')!;
    const worse = [
      {
        ...run,
        boreMm: run.boreMm * 0.8,
        stretches: run.stretches.map((row) => ({ ...row, boreMm: row.boreMm * 0.8 })),
      },
      {
        ...run,
        stretches: run.stretches.map((row) => (row.what === 'hose' ? { ...row, lengthMm: row.lengthMm * 2 } : row)),
      },
    ].map((row) => readyCircuit(car, withRun(ready.drawn, row), new Map()));
    for (const engineRpm of rpms)
      for (const oilC of [0, 105]) {
        const at: Case = { id: 'x', engineRpm, oilC };
        const now = settled(at);
        for (const changed of worse) {
          const then = settled(at, changed);
          expect(flowIn(then, 'O1')).toBeLessThanOrEqual(flowIn(now, 'O1') * (1 + 1e-9));
          expect(then.liquid.pumps[0]!.fromPa).toBeLessThan(now.liquid.pumps[0]!.fromPa);
        }
      }
  });

  it('colder oil never loses less in a line that runs laminar at the same flow', () => {
    const element = ready.elements.find(({ id }) => id === 'O2')!;
    let last = 0;
    for (const oilC of [100, 80, 60, 40, 20, 0]) {
      const state = settled({ id: 'x', engineRpm: 1000, oilC });
      const { dropPa } = element.law(state.asked.fluid, state.asked.at, oilC)(5e-5);
      expect(dropPa).toBeGreaterThan(last);
      last = dropPa;
    }
  });

  it('tilts the surface: a feed that faces forward has less over it in either corner, the same in both', () => {
    const head = (rightG: number) =>
      settled({ id: 'x', engineRpm: 3000, oilC: 100, g: { rightG } }).asked.vessels.get('tank')!.mouths.get('tank.out')!
        .headMm;
    // The outlet faces forward on the axis of the tank: left and right are the same, and it stays covered at 1.5 g.
    expect(head(1)).toBeCloseTo(head(-1), 0);
    expect(head(1)).toBeLessThan(head(0));
  });

  it('a gauge at the pump at rest reads the column over it: rho g h by hand, level and in a corner', () => {
    const inlet = car.parts.find(({ id }) => id === 'pump')!.ports.find(({ id }) => id === 'feed')!.atMm;
    // 8.0 of 12.2 L in an upright tank 480 mm high from z = 90: the surface stands at 404.7 mm.
    const surface = 90 + (480 * 8) / 12.2;
    for (const [rightG, over] of [
      [0, surface - inlet[2]],
      // Turning left at 0.3 g the surface tilts about the tank's axis (y = -600): the pump, 328 mm further right, has 0.3 x 328 more.
      [-0.3, surface - inlet[2] + 0.3 * (inlet[1] + 600)],
    ] as const) {
      const state = settled({ id: 'x', engineRpm: 0, oilC: 100, g: { rightG } });
      const { toPa } = state.liquid.lines.find(({ line }) => line === 'O1')!;
      const column = (state.asked.fluid.densityKgM3 * 9.80665 * over) / 1000;
      expect(Math.abs(toPa - column)).toBeLessThan(0.03 * column);
    }
  });

  it('an end that is straight loses less than one that turns 150 degrees, fast and slow', () => {
    const run = ready.drawn.runs.find(({ line }) => line === 'O1')!;
    const line = ready.drawn.lines.get('O1')!;
    const straight = easierRuns(run, world.shelf, line.pieces[0]?.hose, line.dash).find(({ words }) =>
      /a straight end instead of 1[45]\d degrees/.test(words),
    );
    expect(straight).toBeDefined();
    const changed = redrawn(ready, withRun(ready.drawn, straight!.run));
    const loss = (of: ReadyCircuit, flow: number) =>
      of.elements
        .find(({ id }) => id === 'O1')!
        .law(
          settled(caseNamed('full-load')).asked.fluid,
          caseNamed('full-load'),
          105,
        )(flow).dropPa;
    for (const flow of [1e-5, 9e-4]) expect(loss(changed, flow)).toBeLessThan(loss(ready, flow) * 0.99);
  });

  it('stands still with the engine: nothing flows but what seeps', () => {
    const off = settled(caseNamed('switched-off'));
    for (const { flowM3S } of allLines(off)) expect(Math.abs(flowM3S * 60_000)).toBeLessThan(0.1);
  });
});
