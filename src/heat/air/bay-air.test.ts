import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import type { BaySpace, Case } from '#car';
import { readCar } from '#car';
import { airDensity, airSpecificHeat, airViscosity } from '#flow';
import { panelLayouts } from '#panels';
import { describe, expect, it } from 'vitest';
import { expectedNumber, expectedOf, named, published, tolerance } from '../../../test/published/published.ts';
import { balancedFlows, type NetOpening, speedUnder } from './air-net.kernel.ts';
import { bayAir } from './bay-air.ts';
import type { BayAirAsk } from './bay-air-ask.ts';
import { baySpaces, type BayOpening, type SpaceOfBay } from './bay-space.ts';
import { perforatedSheetLoss, squareGrilleLoss, wireScreenLoss } from './mesh-loss.ts';
import { levelTwoWayFlow, ramPressure, seriesArea, stackFlow, stackPressure, twoWayFlow } from './vent-formulas.ts';

/** Air of the reference rows: an ideal gas at sea level. */
const rho = (kelvin: number) => 101_325 / (287.05 * kelvin);
const orifice = (areaM2: number, dischargeCoefficient: number, heightM: number, outsidePa = 0): NetOpening => ({
  areaM2,
  loss: 1 / dischargeCoefficient ** 2,
  heightM,
  outsidePa,
});

describe('published: air through openings', () => {
  it.each(published('heat.ventilation').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const given = item.inputs;
    if (item.id.startsWith('stack-')) {
      const [inKgM3, outKgM3] = [rho(given['T_in']!), rho(given['T_out']!)];
      expect(stackPressure(outKgM3, inKgM3, given['H']!)).toBeCloseTo(expectedOf(item, 'dp_Pa'), 5);
      const net = [orifice(given['A_in']!, given['Cd']!, 0), orifice(given['A_out']!, given['Cd']!, given['H']!)];
      // The row's air creeps nowhere: with next to no viscosity.
      const { massKgS, levelPa } = balancedFlows(net, { inKgM3, outKgM3, inPaS: 1e-12, outPaS: 1e-12 }, 0);
      expect(massKgS[1]).toBeCloseTo(expectedOf(item, 'm_kg_s'), 6);
      expect(massKgS[0]! / -outKgM3).toBeCloseTo(expectedOf(item, 'Q_in_m3_s'), 6);
      expect(massKgS[1]! / inKgM3).toBeCloseTo(expectedOf(item, 'Q_out_m3_s'), 6);
      const neutral = -levelPa / (9.80665 * (outKgM3 - inKgM3));
      expect(neutral / expectedOf(item, 'h_neutral_above_inlet')).toBeCloseTo(1, 4);
    } else if (item.id.startsWith('ashrae-stack')) {
      const flow = stackFlow(given['Cd']!, given['A']!, given['dH_NPL']!, given['Ti']!, given['To']!);
      // The row has g 9.81, we 9.80665.
      expect(flow * Math.sqrt(9.81 / 9.80665)).toBeCloseTo(expectedNumber(item), 6);
    } else if (item.id.startsWith('series-area')) {
      const area = seriesArea(given['A1']!, given['A2']!);
      expect(area).toBeCloseTo(expectedOf(item, 'Ae'), 8);
    } else if (item.id.startsWith('ram-vent')) {
      const kgM3 = 1.2;
      const net = [
        orifice(given['A1']!, given['Cd']!, 0, given['dCp']! * ramPressure(kgM3, given['V']!)),
        orifice(given['A2']!, given['Cd']!, 0),
      ];
      const { massKgS } = balancedFlows(net, { inKgM3: kgM3, outKgM3: kgM3, inPaS: 1e-12, outPaS: 1e-12 }, 0);
      expect(massKgS[1]! / kgM3).toBeCloseTo(expectedNumber(item), 6);
    } else throw new Error(`no check for ${item.id}`);
  });

  it.each(published('heat.mesh').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const share = item.inputs['open_area']!;
    if (item.id === 'screen-round') {
      // Straight through; the row's slanted ones are not counted.
      expect(wireScreenLoss(share, 100)).toBeCloseTo((item.expected as unknown as number[])[0]!, 3);
    } else if (item.id.startsWith('screen-round')) {
      for (const re of [20, 100, 400]) {
        const want = expectedOf(item, String(re));
        expect(Math.abs(wireScreenLoss(share, re) - want)).toBeLessThanOrEqual(tolerance(item, want));
      }
    } else if (item.id === 'grill-square') expect(squareGrilleLoss(share)).toBeCloseTo(expectedNumber(item), 6);
    else if (item.id.startsWith('plate-')) {
      expect(perforatedSheetLoss(share)).toBeCloseTo(expectedOf(item, 'Idelchik_formula'), 4);
      // Table and formula lie up to 22 % apart where next to nothing is closed.
      expect(perforatedSheetLoss(share) / expectedOf(item, 'handbook_table')).toBeGreaterThan(0.78);
      expect(perforatedSheetLoss(share) / expectedOf(item, 'handbook_table')).toBeLessThan(1.12);
    } else throw new Error(`no check for ${item.id}`);
  });

  it('hand: both ways through a third of a doorway, 0.8 by 2 m, 10 K: (0.445/3) 1.6 sqrt(9.80665 2 10/293) = 0.1942 m3/s', () => {
    expect(twoWayFlow(1.6, 2, 293, 283)).toBeCloseTo(0.1942, 4);
  });

  it('hand: through a level hole of 0.2 m: 0.055 sqrt(9.80665 0.2^5 50/328) = 0.001203 m3/s', () => {
    expect(levelTwoWayFlow(Math.PI * 0.01, 353, 303)).toBeCloseTo(0.001203, 6);
  });

  it('second: a slow hole follows 6 pi mu v/D, a fast one Cd sqrt(2 dp/rho)', () => {
    const hole = orifice(0.01, 0.62, 0);
    const mu = airViscosity(20);
    const d = Math.sqrt(0.04 / Math.PI);
    expect(speedUnder(hole, 1e-9, 1.2, mu) / ((1e-9 * d) / (6 * Math.PI * mu))).toBeCloseTo(1, 3);
    expect(speedUnder(hole, 100, 1.2, mu) / (0.62 * Math.sqrt(200 / 1.2))).toBeCloseTo(1, 3);
  });
});

const opening = (row: Partial<BayOpening>): BayOpening => ({
  opening: 'o',
  name: 'o',
  atMm: [0, 0, 0],
  faces: [0, 0, 1],
  areaM2: 0.02,
  dischargeCoefficient: 0.62,
  heightM: 0,
  isDrain: false,
  ...row,
});
const bay: BaySpace = { id: 'bay', name: 'Bay', minMm: [0, 0, 0], maxMm: [1000, 1000, 800] };
const space = (openings: readonly BayOpening[], more: Partial<BaySpace> = {}): SpaceOfBay => ({
  bay: { ...bay, ...more },
  openings,
  bare: new Map(),
});
const idle: Case = { id: 'idle', engineRpm: 1000, powerKw: 0, airC: 25 };
const ask = (rows: readonly BayOpening[], more: Partial<BayAirAsk> = {}): BayAirAsk => ({
  space: space(rows),
  case: idle,
  heat: { heatW: 2000, atC: 25, slopeWPerK: 5 },
  ...more,
});
const low = opening({ opening: 'low', atMm: [0, 0, 100], faces: [1, 0, 0], heightM: 0.1 });
const high = opening({ opening: 'high', atMm: [0, 0, 800] });

describe('bayAir', () => {
  it('hand: two openings, standing: in below, out above, and the heat goes with the air', () => {
    const air = bayAir(ask([low, high]));
    expect(air.openings.map(({ flowM3S }) => Math.sign(flowM3S))).toEqual([-1, 1]);
    expect(air.massKgS * 1007 * (air.airC - 25)).toBeCloseTo(air.heatW, -1);
    expect(air.heatW).toBeCloseTo(2000 - 5 * (air.airC - 25), 6);
  });

  it('hand: a closed bay stands where its parts give no more: 25 + 2000/5 degC; without that it says why', () => {
    expect(bayAir(ask([])).airC).toBeCloseTo(425, 6);
    expect(bayAir(ask([], { heat: { heatW: 2000, atC: 25, slopeWPerK: 0 } })).unsettled).toMatch(
      /^2000 W into its air find no way out below/,
    );
  });

  it('hand: with the pressures changed over the directions change over', () => {
    const driving = (lowCp: number, highCp: number): BayAirAsk => {
      const pressures = [
        { at: 'low', cp: lowCp, how: 'stated' as const },
        { at: 'high', cp: highCp, how: 'stated' as const },
      ];
      return ask([low, high], { case: { ...idle, speedKmh: 120, pressures } });
    };
    const signs = (one: BayAirAsk) => bayAir(one).openings.map(({ flowM3S }) => Math.sign(flowM3S));
    expect(signs(driving(0.4, -0.3))).toEqual([-1, 1]);
    expect(signs(driving(-0.3, 0.4))).toEqual([1, -1]);
  });

  it('hand: a manometer reading goes with the square of the speed: 10 mm at 100 km/h are 40 mm at 200', () => {
    const at = (speedKmh: number) =>
      bayAir(
        ask([low, high], {
          case: {
            ...idle,
            speedKmh,
            pressures: [
              { at: 'low', mmWater: 10, measuredKmh: 100, how: 'manometer' },
              { at: 'high', pa: 0, how: 'stated' },
            ],
          },
        }),
      ).openings[0]!.outsidePa;
    expect(at(200)).toBeCloseTo(40 * 9.80665, 6);
    expect(at(50)).toBeCloseTo(2.5 * 9.80665, 6);
  });

  it('guesses no pressure: where one is wanted the bay counts as standing, and says so', () => {
    const pressures = [{ at: 'low', cp: 0.5, how: 'stated' as const }];
    const air = bayAir(ask([low, high], { case: { ...idle, speedKmh: 120, pressures }, advises: true }));
    expect(air.asStanding).toBe(true);
    expect(air.airC).toBe(bayAir(ask([low, high])).airC);
    expect(air.openings.map(({ outsidePa }) => outsidePa)).toEqual([0, null]);
    expect(air.findings.map(({ code }) => code)).toContain('bay-pressure-wanted');
  });

  it('tells a vent that is to let out and draws in, with the engine pulling on the bay', () => {
    const pulled = space(
      [
        { ...high, lets: 'out' },
        { ...low, areaM2: 0.001 },
      ],
      {
        intakes: [{ part: 'turbo', atMm: [0, 0, 300] }],
      },
    );
    const load: Case = { ...idle, powerKw: 330, id: 'load' };
    const air = bayAir({ ...ask([]), space: pulled, case: load, advises: true });
    const told = air.findings.find(({ code }) => code === 'bay-vent-draws-in')!;
    expect(told.text).toMatch(/^Bay: o is to let air out, and \d+ L\/s come in there$/);
    expect(told.cures[0]).toMatch(/^an airbox/);
    // second: what the engine breathes comes through the openings.
    expect(air.massKgS).toBeCloseTo(0.34375, 5);
    expect(air.findings.find(({ code }) => code === 'bay-intake-hot')?.value).toBeCloseTo(air.airC - 25, 9);
  });

  it('breathes both ways where all openings are at one height, and takes the lesser exchange of a mesh', () => {
    const one = bayAir(ask([high]));
    expect(one.openings[0]!.bothWaysM3S).toBeGreaterThan(0);
    expect(one.unsettled).toBeUndefined();
    const meshed = bayAir(ask([{ ...high, mesh: { openShare: 0.6 } }]));
    expect(meshed.airC).toBeGreaterThan(one.airC);
    expect(bayAir(ask([low, high])).openings.every(({ bothWaysM3S }) => bothWaysM3S === undefined)).toBe(true);
  });

  it('keeps drains apart, and tells one where air is drawn in', () => {
    const drain = opening({ opening: 'drain', name: 'Drain', isDrain: true, areaM2: 0.01 });
    const pressures = [
      { at: 'low', pa: -300, how: 'stated' as const },
      { at: 'high', pa: -300, how: 'stated' as const },
    ];
    const air = bayAir(ask([low, high, drain], { case: { ...idle, speedKmh: 100, pressures }, advises: true }));
    expect(air.openings.length).toBe(2);
    expect(air.drains[0]!.overPa).toBeLessThan(-290);
    expect(air.findings.find(({ code }) => code === 'bay-drain-draws')?.text).toMatch(/holds 31 mm of water back/);
  });

  it('opens a bay whose cover is off, and stops the fan where it is told to', () => {
    const bare = new Map([['lid', opening({ opening: 'lid', panel: 'lid', areaM2: 0.4, atMm: [0, 0, 800] })]]);
    const closed = { ...space([low, { ...high, panel: 'lid' }]), bare };
    const on = bayAir({ ...ask([]), space: closed });
    const off = bayAir({ ...ask([]), space: closed, coversOff: ['lid'] });
    expect(off.openings.map((row) => row.opening)).toEqual(['low', 'lid']);
    expect(off.airC).toBeLessThan(on.airC);
    const blown = space([low, high], { fan: { flowLMin: 12_000, blows: 'out', opening: 'high' } });
    const runs = bayAir({ ...ask([]), space: blown });
    expect(runs.openings.find(({ fan }) => fan === true)?.flowM3S).toBeCloseTo(0.2, 9);
    expect(runs.airC).toBeLessThan(bayAir({ ...ask([]), space: blown, fanStands: true }).airC);
  });

  it('says what area is wanted, and it does it', () => {
    const panel = { panel: 'lid', name: 'V1 of Lid' };
    const rows = [
      { ...low, areaM2: 0.04 },
      { ...high, areaM2: 0.002, ...panel },
    ];
    const air = bayAir(ask(rows, { advises: true, wantC: 90 }));
    expect(air.airC).toBeGreaterThan(90);
    const wanted = air.advice!.wanted[0]!;
    expect([wanted.panel, wanted.name, wanted.freeCm2]).toEqual(['lid', 'lid', 20]);
    const opened = bayAir(ask([rows[0]!, { ...rows[1]!, areaM2: wanted.wantCm2! / 1e4 }]));
    expect(opened.airC).toBeLessThanOrEqual(90);
    expect(opened.airC).toBeGreaterThan(89);
    expect(air.advice!.per50Cm2.every(({ changeK }) => changeK <= 0)).toBe(true);
  });
});

/** A random bay: openings anywhere, with mesh, pressures, an engine that pulls. */
const bays = fc.record({
  rows: fc.array(
    fc.record({
      area: fc.double({ min: 0.0005, max: 0.1, noNaN: true }),
      z: fc.double({ min: 0, max: 1000, noNaN: true }),
      up: fc.boolean(),
      share: fc.constantFrom(1, 0.6, 0.4),
      wire: fc.boolean(),
      pa: fc.double({ min: -400, max: 400, noNaN: true }),
    }),
    { minLength: 1, maxLength: 10 },
  ),
  heatW: fc.double({ min: -300, max: 12_000, noNaN: true }),
  slopeWPerK: fc.double({ min: 0, max: 40, noNaN: true }),
  drives: fc.boolean(),
  powerKw: fc.constantFrom(0, 0, 40, 330),
});

function randomAsk({
  rows,
  heatW,
  slopeWPerK,
  drives,
  powerKw,
}: typeof bays extends fc.Arbitrary<infer T> ? T : never): BayAirAsk {
  const openings = rows.map(({ area, z, up, share, wire }, i) =>
    opening({
      opening: `o${i}`,
      areaM2: area,
      atMm: [0, 0, z],
      faces: up ? [0, 0, 1] : [1, 0, 0],
      heightM: up ? 0 : Math.sqrt(area),
      ...(share === 1 ? {} : { mesh: { openShare: share, ...(wire ? { wireGapM: 0.003 } : {}) } }),
    }),
  );
  const pressures = rows.map(({ pa }, i) => ({ at: `o${i}`, pa, how: 'manometer' as const }));
  return {
    space: space(openings, { intakes: [{ part: 'turbo', atMm: [0, 0, 300] }] }),
    case: { ...idle, powerKw, ...(drives ? { speedKmh: 100, pressures } : {}) },
    heat: { heatW, atC: 25, slopeWPerK },
  };
}

describe('200 random bays, seed 20261126', () => {
  const seen = { seed: 20_261_126, numRuns: 200 };

  it('settle, and their mass closes to 1e-9', () => {
    fc.assert(
      fc.property(bays, (one) => {
        const made = randomAsk(one);
        const air = bayAir(made);
        const most = Math.max(...air.openings.map(({ flowM3S }) => Math.abs(flowM3S)), 1e-6);
        const sum = air.openings.reduce((total, { flowM3S, airC }) => total + flowM3S * airDensity(airC, 101_325), 0);
        const drawn = air.intakes.reduce((total, { massKgS }) => total + massKgS, 0);
        expect(Math.abs(sum + drawn)).toBeLessThan(1e-9 * Math.max(most, drawn));
        // Second: what the air carries off is the heat of the parts at its temperature.
        const lost = air.massKgS * airSpecificHeat((air.airC + 25) / 2) * (air.airC - 25);
        if (air.unsettled === undefined) expect(Math.abs(air.heatW - lost)).toBeLessThan(1e-6 * Math.max(1, air.heatW));
        else expect(Math.abs(one.heatW)).toBeGreaterThan(80 * one.slopeWPerK);
      }),
      seen,
    );
  });

  it('are never hotter for an opening twice as large, standing with nothing pulling on them', () => {
    fc.assert(
      fc.property(bays, fc.nat(9), (one, which) => {
        const made = randomAsk({ ...one, drives: false, powerKw: 0, heatW: Math.abs(one.heatW) });
        const rows = made.space.openings;
        const larger = rows.map((row, i) => (i === which % rows.length ? { ...row, areaM2: row.areaM2 * 2 } : row));
        const opened = bayAir({ ...made, space: { ...made.space, openings: larger } });
        expect(opened.airC).toBeLessThanOrEqual(bayAir(made).airC + 0.02);
      }),
      seen,
    );
  });
});

describe("the demo car's bay", () => {
  const reading = readCar(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
  if (!reading.ok) throw new Error('the demo car is no car');
  const { car } = reading;
  const [ready] = baySpaces(car, panelLayouts(car));

  it('has the windows, the gaps and the drains of the car file', () => {
    expect(ready!.openings.map((row) => [row.opening, Math.round(row.areaM2 * 1e4), row.isDrain])).toEqual([
      ['PN2R.V1', 755, false],
      ['PN2L.V1', 755, false],
      ['PN3.V1', 359, false],
      ['PN4.D1', 20, true],
      ['PN4.D2', 20, true],
      ['arch-right', 180, false],
      ['arch-left', 180, false],
      ['tail', 240, false],
      ['weep', 5, true],
    ]);
  });

  it('is pulled on by the engine at full load, so that vents meant to let out draw in', () => {
    const air = bayAir({
      space: ready!,
      case: car.cases!.find(({ id }) => id === 'full-load')!,
      heat: { heatW: 8000, atC: 25, slopeWPerK: 20 },
      mostPowerKw: 330,
      advises: true,
    });
    expect(air.asStanding).toBe(false);
    expect(air.findings.map(({ code }) => code)).toContain('bay-intake-hot');
    const inflow = air.openings.filter(({ flowM3S }) => flowM3S < 0).map(({ opening: id }) => id);
    expect(inflow).toEqual(expect.arrayContaining(['arch-right', 'arch-left']));
  });
});
