import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxCircuit } from '../dry-sump/box-car.fixture.ts';
import { ControlledSteps } from './controlled-step.kernel.ts';
import { shareCovered } from './cover-table.ts';
import type { DriveLog } from './drive-log.ts';
import type { LapAnswer } from './lap-answer.ts';
import { lapOf, type LapOptions } from './lap.ts';
import { lapModel } from './lap-model.ts';
import { PressureTable } from './pressure-table.ts';
import { drySumpState } from '../dry-sump/dry-sump-state.ts';

interface Row {
  readonly t: number;
  readonly rpm?: number;
  readonly along?: number;
  readonly aside?: number;
}

const logOf = (rows: readonly Row[]): DriveLog => ({
  timeS: Float64Array.from(rows, ({ t }) => t),
  rpm: Float64Array.from(rows, ({ rpm }) => rpm ?? 6000),
  longitudinalG: Float64Array.from(rows, ({ along }) => along ?? 0),
  lateralG: Float64Array.from(rows, ({ aside }) => aside ?? 0),
  verticalG: Float64Array.from(rows, () => 1),
  oilC: Float64Array.from(rows, () => 100),
  notes: [],
});

function lap(wish: Parameters<typeof boxCircuit>[0], rows: readonly Row[], options: LapOptions = {}): LapAnswer {
  const answer = lapOf(boxCircuit(wish), logOf(rows), { mostRows: 1e6, ...options });
  if ('why' in answer) throw new Error(answer.why);
  return answer;
}

const every = (seconds: number, hz: number, row: (t: number) => Omit<Row, 't'>): Row[] =>
  Array.from({ length: seconds * hz + 1 }, (_, i) => ({ t: i / hz, ...row(i / hz) }));

describe('a lap worked by hand', () => {
  it('empties a box tank in V/Q seconds where nothing comes back', () => {
    const ready = boxCircuit({ tankL: 4, scavengeCc: 0.001 });
    const state = drySumpState(ready, ready.car.cases![0]!);
    if ('why' in state) throw new Error(state.why);
    const flow = state.liquid.lines.find(({ line }) => line === 'F')!.flowM3S;
    const answer = lap(
      { tankL: 4, scavengeCc: 0.001 },
      every(12, 20, () => ({})),
    );
    const first = answer.worst.air[0]!.fromS;
    expect(flow).toBeGreaterThan(5e-4);
    expect(first).toBeGreaterThan(0.004 / flow - 0.1);
    expect(first).toBeLessThan(0.004 / flow + 0.1);
    // Before it the level falls along a straight line, and the pan has it.
    const half = answer.rows.find(({ timeS }) => timeS === 3)!;
    expect(half.tankM3).toBeCloseTo(0.004 - 3 * flow, 5);
    expect(half.tankM3 + half.vesselsM3[0]!).toBeCloseTo(0.0042, 8);
    // With the tank dry and the feed full of air the gallery has nothing.
    expect(answer.rows.at(-1)!.galleryPa).toBeLessThan(2e4);
    expect(answer.findings.map(({ code }) => code)).toContain('lap-air');
  });

  it('holds its level where the scavenge keeps up, and a pan that comes up to its pick-up', () => {
    const answer = lap(
      { tankL: 8, panL: 0 },
      every(20, 20, () => ({})),
    );
    expect(answer.worst.airS).toBe(0);
    expect(answer.rows.at(-1)!.tankM3).toBeGreaterThan(0.00795);
    expect(answer.rows.at(-1)!.galleryPa).toBeCloseTo(answer.rows.at(-1)!.airlessPa, 6);
  });

  it('bares the outlet on the swing after a step of g that would keep it covered at rest', () => {
    // 1 L in the box: bared at a slope of 0.01/(0.1 + r)^2, about 0.8; the step is to 0.6 g.
    // The engine barely turns, so that only the swing moves the oil.
    const step = (t: number) => ({ rpm: 60, aside: t < 1 ? 0 : 0.6 });
    const answer = lap({ tankL: 1 }, every(3, 100, step));
    expect(answer.worst.air.length).toBeGreaterThan(0);
    const first = answer.worst.air.reduce((a, b) => (b.fromS < a.fromS ? b : a));
    // Half a swing of sqrt((pi g/L) tanh(pi h/L)) at sqrt(1.36) g, h = 25 mm: the farthest point, air on either side of it.
    const f = Math.sqrt(((Math.PI * 9.80665) / 0.2) * Math.tanh((Math.PI * 0.025) / 0.2)) / (2 * Math.PI);
    const half = 1 / (2 * f * 1.36 ** 0.25);
    expect(first.fromS).toBeLessThan(1 + half);
    expect(first.toS).toBeGreaterThan(1 + half);
    // Brought on over two seconds the same g bares nothing.
    const slow = lap(
      { tankL: 1 },
      every(4, 100, (t) => ({ rpm: 60, aside: Math.min(0.6, 0.3 * t) })),
    );
    expect(slow.worst.air).toEqual([]);
  });

  it('fills the feed with air as a stirred vessel does: 1 - exp(-Q t/V)', () => {
    const model = lapModel(boxCircuit({ tankL: 0 }));
    if ('why' in model) throw new Error(model.why);
    const answer = lap(
      { tankL: 0, panL: 0, scavengeCc: 0.001 },
      every(1, 200, () => ({})),
    );
    const out = new Float64Array(4);
    model.pressure.at(6000, 100, 0, out);
    const row = answer.rows.find(({ timeS }) => timeS === 0.05)!;
    // What the pump draws hangs a little on the air itself.
    expect(row.feedAir).toBeCloseTo(1 - Math.exp((-0.05 * out[1]!) / model.feedM3), 1);
  });
});

describe('a lap as a property', () => {
  const drives = fc.array(
    fc.record({
      aside: fc.integer({ min: -15, max: 15 }),
      along: fc.integer({ min: -14, max: 9 }),
      rpm: fc.integer({ min: 2000, max: 8000 }),
    }),
    { minLength: 4, maxLength: 8 },
  );
  const rowsOf = (points: readonly { aside: number; along: number; rpm: number }[]): Row[] =>
    every(points.length - 1, 25, (t) => {
      const i = Math.min(points.length - 2, Math.floor(t));
      const mix = (a: number, b: number): number => a + (b - a) * (t - i);
      const [p, q] = [points[i]!, points[i + 1]!];
      return { aside: mix(p.aside, q.aside) / 10, along: mix(p.along, q.along) / 10, rpm: mix(p.rpm, q.rpm) };
    });

  it('keeps its oil to 1e-9 and moves no level or pressure by 0.5 % at ten times the tolerance', () => {
    const ready = boxCircuit({ tankL: 2.5, panL: 0.2 });
    let airy = 0;
    fc.assert(
      fc.property(drives, (points) => {
        const log = logOf(rowsOf(points));
        const [rough, fine] = [1e-4, 1e-5].map((tolerance) => lapOf(ready, log, { tolerance, mostRows: 1e6 }));
        if (rough === undefined || fine === undefined || 'why' in rough || 'why' in fine) throw new Error('refused');
        expect(rough.volumeOff).toBeLessThan(1e-9);
        airy += rough.worst.airS > 0 ? 1 : 0;
        rough.rows.forEach((row, i) => {
          const other = fine.rows[i]!;
          expect(Math.abs(row.tankM3 - other.tankM3)).toBeLessThan(0.005 * other.tankM3);
          expect(Math.abs(row.galleryPa - other.galleryPa)).toBeLessThan(0.005 * other.galleryPa);
        });
      }),
      { seed: 7, numRuns: 25 },
    );
    expect(airy).toBeGreaterThan(5);
  });
});

describe('the pieces of a lap', () => {
  it('integrate a swing to its closed form, better by the tolerance', () => {
    const off = [1e-3, 1e-6].map((tolerance) => {
      const y = Float64Array.of(1, 0);
      const steps = new ControlledSteps((_, s, d) => ((d[0] = s[1]!), (d[1] = -s[0]!)), [1, 1], tolerance, 0.01);
      steps.advance(0, 4, y);
      steps.advance(4, 10, y);
      return Math.hypot(y[0]! - Math.cos(10), y[1]! + Math.sin(10));
    });
    expect(off[0]).toBeLessThan(2e-2);
    expect(off[1]).toBeLessThan(2e-5);
    expect(off[1]).toBeLessThan(off[0]! / 50);
  });

  it('cover a bore by the share of its disc', () => {
    expect(shareCovered(1, 2, 3, 4)).toBe(0);
    expect(shareCovered(5, 2, 3, 4)).toBe(1);
    expect(shareCovered(3, 2, 3, 4)).toBeCloseTo(0.5, 12);
    // A quarter of the height: (acos(1/2) - sqrt(3)/4)/pi.
    expect(shareCovered(2.5, 2, 3, 4)).toBeCloseTo((Math.acos(0.5) - Math.sqrt(3) / 4) / Math.PI, 12);
  });

  it('lose pressure with air, in a table that does not hang on the order of asking', () => {
    const out = new Float64Array(4);
    const table = new PressureTable(boxCircuit(), ['tank', 'pan']);
    const asked = [0, 0.03, 0.1, 0.3, 0.5, 0.8, 0.95, 1].map((air) => {
      table.at(6100, 97, air, out);
      return out[0]!;
    });
    for (let i = 1; i < asked.length; i++) expect(asked[i]).toBeLessThan(asked[i - 1]!);
    expect(asked.at(-1)).toBe(0);
    const other = new PressureTable(boxCircuit(), ['tank', 'pan']);
    other.at(6100, 97, 0.5, out);
    expect(out[0]).toBe(asked[4]);
  });

  it('refuse a log that does not run on, in one line', () => {
    const ready = boxCircuit();
    expect(lapOf(ready, logOf([{ t: 0 }]))).toEqual({ why: 'the log has 1 row; allowed: two or more' });
    expect(lapOf(ready, logOf([{ t: 0 }, { t: 1 }, { t: 1 }]))).toEqual({
      why: 'row 3 of the log: time 1 s after 1 s; allowed: later than the row before',
    });
    expect(lapOf(ready, logOf([{ t: 0 }, { t: 1, rpm: Number.NaN }]))).toEqual({
      why: 'row 2 of the log: rpm is NaN; allowed: a number',
    });
  });
});
