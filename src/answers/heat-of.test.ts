import { laidWay, linesWorld, type Way } from '#lines';
import type { Car } from '#car';
import { curesOfLine, heatOfCar, newHeatMemory } from '#heat';
import { describe, expect, it } from 'vitest';
import { takenDemo } from '../../test/heat/demo-bay.ts';
import { curesOf, heatOf } from './heat-of.ts';
import { rulesWithHeat } from './rules-of.ts';

const LINES = new Set(['C7', 'O8', 'B1']);

const PARTS = new Set(['header', 'head', 'turbo', 'turbo-pot', 'block', 'handbrake', 'rear-master', 'brake-tee']);

/** Three lines of the demo at full load, the header tank so much higher. */
function hotSide(upMm: number) {
  const car = takenDemo();
  return linesWorld(
    {
      ...car,
      circuits: [],
      panels: car.panels!.filter(({ id }) => id === 'PN5'),
      lines: car.lines.filter(({ id }) => LINES.has(id)),
      cases: car.cases!.filter(({ id }) => id === 'full-load'),
      parts: car.parts
        .filter(({ id, class: kind }) => kind === 'hot' || PARTS.has(id))
        .map((part) => ({
          ...part,
          shapes: part.shapes
            .filter(({ mesh }) => mesh === undefined)
            .map((shape) =>
              part.id === 'header' ? { ...shape, atMm: [0, 0, upMm] as [number, number, number] } : shape,
            ),
        })),
    },
    new Map(),
  );
}

describe('the heat of a car of which one part has moved', () => {
  it('is that of working it out anew: the same rays to the last bit, the same temperatures to within the balance', () => {
    const memory = newHeatMemory();
    heatOf(hotSide(0), [], { memory });
    const again = heatOf(hotSide(40), [], { memory });
    const shares = ({ traced }: typeof memory) => [...traced.values()].map(({ model }) => model.rows);
    const fresh = newHeatMemory();
    const anew = heatOf(hotSide(40), [], { memory: fresh });
    expect(shares(memory)).toEqual(shares(fresh));
    const traces = [...memory.traced.values()][0]!.model.traces!;
    expect(traces.first.raysTraced).toBeGreaterThan(0);
    expect(traces.first.raysTraced).toBeLessThan(0.5 * traces.first.exchange.raysShot);
    const [{ lines, bays }] = [again.cases[0]!];
    for (const line of anew.cases[0]!.lines) {
      const same = lines.find((row) => row.line === line.line)!;
      expect(Math.abs(same.worst.surfaceC - line.worst.surfaceC), line.line).toBeLessThan(0.05);
    }
    expect(Math.abs(bays[0]!.airC - anew.cases[0]!.bays[0]!.airC)).toBeLessThan(0.05);
  });
});

describe('a probe in the air of a bay that the builder agrees to', () => {
  it('brings the air to what was read; lines and what helps them follow (property: hotter air, hotter lines)', () => {
    const world = hotSide(0);
    // One line, made: nothing but the probe is looked at.
    const lines = world.car.lines.flatMap((line) => (line.id === 'O8' ? [{ ...line, state: 'made' as const }] : []));
    const read = (...heatReadings: NonNullable<Car['heatReadings']>) => ({
      ...world,
      car: { ...world.car, lines, heatReadings },
    });
    const before = heatOf(read(), []).cases[0]!;
    const [bay] = before.bays;
    const readC = bay!.outsideC + 2 * (bay!.airC - bay!.outsideC);
    const probe = { id: 'p', case: 'full-load', bay: bay!.bay, readC, means: 'probe' } as const;
    expect(heatOf(read(probe), []).cases[0]!.bays[0]!.airC).toBe(bay!.airC);
    const { cases, readings } = heatOf(read({ ...probe, corrects: true }), []);
    const after = cases[0]!;
    expect(Math.abs(after.bays[0]!.airC - readC) / (readC - bay!.outsideC)).toBeLessThan(0.02);
    expect(readings[0]).toMatchObject({
      workedC: bay!.airC,
      corrected: expect.stringMatching(/carrying off 0\.\d\d of/u),
    });
    const told = after.lines[0]!;
    expect(told.worst.surfaceC).toBeGreaterThan(before.lines[0]!.worst.surfaceC);
    // O8's least limit is its sleeve: it is told by its outside.
    expect(told.limits[0]!.what).toBe('sleeve');
    expect(curesOf(read({ ...probe, corrects: true }), [], 'O8').cures[0]!.beforeC).toBeCloseTo(told.worst.surfaceC, 6);
  });
});

describe('a strip on a line that the builder agrees to', () => {
  it('corrects how hot its wall gets, not the oil that comes in as the case says', () => {
    const world = hotSide(0);
    const lines = world.car.lines.flatMap((line) => (line.id === 'O8' ? [{ ...line, flowLMin: 2 }] : []));
    const read = (...heatReadings: NonNullable<Car['heatReadings']>) =>
      heatOf({ ...world, car: { ...world.car, lines, heatReadings } }, []).cases[0]!.lines[0]!;
    const before = read();
    const readC = before.worst.surfaceC + 40;
    const after = read({ id: 's', case: 'full-load', line: 'O8', readC, means: 'strip', corrects: true });
    expect(after.worst.surfaceC).toBeCloseTo(readC, 1);
    const taken = (row: typeof before): number => row.fluidOutC - row.fluidInC;
    expect(after.fluidInC).toBe(before.fluidInC);
    expect(taken(before)).toBeGreaterThan(0.2);
    // hand: what it takes up goes with the same factor, f = (read - air)/(worked - air).
    const { airC } = before.points[0]!;
    expect(taken(after) / taken(before)).toBeCloseTo((readC - airC) / (before.worst.surfaceC - airC), 2);
  });
});

describe('another way of a line, with another clock', () => {
  it('is worth what the car comes to with that way taken (second way: the whole car worked out with it)', () => {
    const world = hotSide(0);
    const lines = world.car.lines.filter(({ id }) => id === 'O8');
    const car = { ...world.car, lines };
    const way = laidWay(lines[0]!, lines[0]!.taken!) as unknown as Way;
    const up = (pathMm: Way['bodies'][number]['pathMm']) =>
      pathMm.map((p): readonly [number, number, number] => [p[0], p[1], p[2] + 60]);
    const other: Way = {
      ...way,
      rank: 2,
      feasible: true,
      ends: [{ ...way.ends[0], angleDeg: 45, clockDeg: 90 }, way.ends[1]],
      bodies: way.bodies.map((body) => ({ ...body, pathMm: up(body.pathMm) })),
    };
    const { bay, shelf, meshes } = world;
    const ask = { car, bay, shelf, meshes, flow: null, caseId: 'full-load' };
    const told = (ways: readonly Way[]) =>
      heatOfCar({ ...ask, ways: new Map(ways.map((row) => ['O8', row])) }).cases[0]!.lines[0]!;
    const cures = curesOfLine({ ...ask, ways: new Map([['O8', way]]) }, 'O8', {
      otherWays: [other, { ...other, feasible: false }],
    });
    const [cure, ...more] = cures.cures.filter(({ kind }) => kind === 'way');
    expect(more).toEqual([]);
    expect(cure!.words).toMatch(/^way 2: .*: 45° to three o'clock instead of /u);
    const [now, then] = [told([way]), told([other])];
    expect(cure!.beforeC).toBeCloseTo(now.worst.surfaceC, 6);
    expect(Math.abs(cure!.gainK)).toBeGreaterThan(10);
    expect(Math.abs(cure!.gainK - (now.worst.surfaceC - then.worst.surfaceC))).toBeLessThan(now.worst.errorK / 3);
  });
});

describe('a water line between heat that stays and its own small bore', () => {
  it('boils, holds, and is dry when what came in has boiled its litres away; then it goes on above its boiling point', () => {
    const world = hotSide(0);
    const [full] = world.car.cases!;
    const car = {
      ...world.car,
      lines: world.car.lines.filter(({ id }) => id === 'C7'),
      // Castings that do not cool.
      parts: world.car.parts.map((part) =>
        part.class === 'hot' || part.id === 'turbo' ? { ...part, massKg: 5000 } : part,
      ),
      cases: [full!, { id: 'off', engineRpm: 0, after: full!.id, soakMin: 90 }],
    };
    const at = heatOf(linesWorld(car, new Map()), []).cases[1]!;
    const [boils] = at.soak!.boils;
    // hand: the bore of a -6 PTFE hose of the demo, 8.7 mm, over its length, ends counted with the same bore.
    const along = at.lines[0]!.points;
    const lengthMm = along.at(-1)!.alongMm + along[0]!.alongMm;
    const holds = ((Math.PI / 4) * 8.7 ** 2 * lengthMm) / 1e6;
    expect(boils!.litres / holds).toBeGreaterThan(0.97);
    expect(boils!.litres / holds).toBeLessThan(1.06);
    expect(boils!.dryMin).toBeGreaterThan(boils!.fromMin + 1);
    const fluid = at.lines[0]!.limits.find(({ what }) => what === 'fluid')!;
    expect(fluid.valueC).toBeGreaterThan(boils!.atC + 30);
    expect(at.findings.find(({ code }) => code === 'heat-fluid')!.text).toMatch(/all it holds: dry from \d+ min on/u);
    expect(at.soak!.unbalanced).toBeLessThan(1e-6);
  });
});

describe('an entered rule about temperature', () => {
  it('is measured on the hottest place of a line that heat works out, the wall under a sleeve or the fluid', () => {
    const world = hotSide(0);
    const clause = { clause: 't1', text: 'hot lines', about: 'line', measure: 'temperature-c', most: 150 } as const;
    const pack = { id: 'ours', name: 'Ours', year: 2026, clauses: [clause] };
    const car = { ...world.car, rulePacks: [pack] };
    const [told] = rulesWithHeat({ ...world, car }, []).packs;
    const of = (line: string) => told!.clauses[0]!.evidence.find((row) => row.line === line)?.value;
    const { lines } = heatOf(world, []).cases[0]!;
    for (const { line, worst, points } of lines)
      expect(of(line), line).toBeCloseTo(Math.max(worst.underC, ...points.map(({ fluidC }) => fluidC)), 3);
  });
});
