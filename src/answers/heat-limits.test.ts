import type { Car, Case, Line } from '#car';
import type { HeatCase } from '#heat';
import { linesWorld } from '#lines';
import { describe, expect, it } from 'vitest';
import { takenDemo } from '../../test/heat/demo-bay.ts';
import { heatOf } from './heat-of.ts';

/** Lines of the demo without its circuits and panels, in one case; `other` changes what a line says. */
function inCase(
  at: Partial<Case>,
  lines: Readonly<Record<string, Partial<Line>>>,
  hoses: readonly object[] = [],
  bays: Car['bays'] = [],
): HeatCase {
  const car = takenDemo();
  const own = car.lines.filter(({ id }) => id in lines).map((line) => ({ ...line, ...lines[line.id] }));
  const used = new Set([
    'turbine',
    ...own.flatMap(({ from, to, through = [] }) => [
      ...[from, to].map((port) => port.split('.')[0]!),
      ...through.map(({ part }) => part),
    ]),
  ]);
  const world = linesWorld(
    {
      ...car,
      circuits: [],
      panels: [],
      bays,
      levers: [],
      heatReadings: [],
      catalogue: { ...car.catalogue, hoses: [...car.catalogue!.hoses!, ...hoses] as never },
      lines: own,
      cases: [{ id: 'run', engineRpm: 6000, airC: 30, ...at }],
      parts: car.parts.filter(({ id }) => used.has(id)),
    },
    new Map(),
  );
  return heatOf(world, []).cases[0]!;
}
const limitOf = (at: HeatCase, id: string, kind: string) =>
  at.lines.find(({ line }) => line === id)!.limits.find(({ what }) => what === kind);

describe('a line of two hoses', () => {
  it('is judged by each: the second one, weaker and cooler, is the one that is over', () => {
    const { taken } = takenDemo().lines.find(({ id }) => id === 'C2')!;
    const weak = { id: 'weak-38', name: 'weak hose', boreMm: 38, odMm: 48, minBendRadiusMm: 115, maxC: 95 };
    const silicone = takenDemo().catalogue!.hoses!.find(({ id }) => id === 'silicone-38')!;
    const bodies = taken!.bodies!.map((body, i) =>
      i > 2 && body['row'] === 'silicone-38' ? { ...body, row: 'weak-38' } : body,
    );
    const at = inCase({ coolantC: 100 }, { C2: { taken: { ...taken!, bodies } } }, [{ ...silicone, ...weak }]);
    expect(limitOf(at, 'C2', 'hose')).toMatchObject({ name: 'weak hose', limitC: 95 });
    expect(at.findings.find(({ code, line }) => code === 'heat-hose' && line === 'C2')).toMatchObject({
      level: 'stop',
    });
    const last = taken!.bodies!.map((body, i) => (i < 2 ? { ...body, row: 'weak-38' } : body));
    const first = inCase({ coolantC: 100 }, { C2: { taken: { ...taken!, bodies: last } } }, [{ ...silicone, ...weak }]);
    expect(limitOf(first, 'C2', 'hose')).toMatchObject({ name: 'weak hose', limitC: 95 });
  });
});

describe('what a finding says it comes from', () => {
  const car = takenDemo();
  const [bay] = car.bays!;
  const c2 = (at: Partial<Case>) =>
    inCase(at, { C2: { pressureBar: 0, flowLMin: 90 } }, [], [{ ...bay!, panels: [], openings: [] }]).findings.filter(
      ({ line }) => line === 'C2',
    );

  it('is the air of the bay where that is what is hot, and no part for the few kelvin that it adds', () => {
    const told = c2({ coolantC: 60, bayAirC: 500, bayAirMPerS: 30 }).find(({ code }) => code === 'heat-hose')!;
    expect(told.text).toMatch(/most of it from the air about it \(500 degC\)/u);
    expect(told.cures[0]).toBe('a way where the air is cooler');
  });

  it('is the fluid itself where it comes in as hot as that', () => {
    const told = c2({ coolantC: 120, bayAirC: 40 }).find(({ code }) => code === 'heat-fluid')!;
    expect(told.text).toMatch(
      /coolant boils at the pressure of the air; no cap is stated at 100 degC, as it comes in$/u,
    );
    expect(told.cures.join()).toMatch(/cooler/u);
  });
});

describe('beyond what is known', () => {
  const at = inCase(
    { coolantC: 160, fuelC: 85, oilC: -45 },
    { C2: { pressureBar: 1.3 }, F1: { pressureBar: 4 }, O2: {} },
  );
  const texts = at.findings.filter(({ code }) => code === 'heat-table').map(({ text }) => text);

  it('water hotter than its table keeps its boiling point as limit (published: steam tables, 124.7 degC at 2.3 bar absolute)', () => {
    const limit = limitOf(at, 'C2', 'fluid')!;
    expect(limit.limitC).toBeGreaterThan(124.5);
    expect(limit.limitC).toBeLessThan(125.1);
    expect(limit.marginK).toBeLessThan(-30);
    expect(texts.find((text) => text.includes('in C2'))).toMatch(
      /water of 160 degC lies beyond its tables \(0 to 150\): it is counted as at 150/u,
    );
  });

  it('fuel under pressure is told to be known to 80 degC, never that it boils there', () => {
    const limit = limitOf(at, 'F1', 'fluid')!;
    expect(limit).toMatchObject({ limitC: 80, isTableEnd: true });
    const found = at.findings.find(({ code, line }) => code === 'heat-fluid' && line === 'F1')!;
    expect(found.level).toBe('fix');
    expect(found.text).toMatch(/fuel at 4 bar, known to stay liquid/u);
    expect(found.text).not.toMatch(/boils/u);
  });

  it('oil colder than its table is counted as at its end, and that is said', () => {
    expect(texts.find((text) => text.includes('in O2'))).toMatch(
      /oil of -45 degC lies beyond its tables \(-40 to 160\)/u,
    );
  });
});
