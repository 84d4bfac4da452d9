import { carFrom } from '#car';
import { isOfItself } from '#heat';
import { linesWorld } from '#lines';
import { heatSnags } from '#snags';
import { describe, expect, it } from 'vitest';
import { heatOf } from './heat-of.ts';

/** A straight exhaust of 3 m with a loom that comes to it from 2 m off, runs along it 160 mm away, and a cable across. */
const EXHAUST_C = 650;
const RADIUS_MM = 40;
const APART_MM = 160;
function car(cable: Record<string, unknown> = {}) {
  const read = carFrom({
    fairlead: 1,
    name: 'Loom by the exhaust',
    parts: [
      {
        id: 'exhaust',
        class: 'hot',
        surfaceC: EXHAUST_C,
        emissivity: 0.8,
        massKg: 5,
        shapes: [
          {
            tube: {
              pointsMm: [
                [0, 0, 300],
                [3000, 0, 300],
              ],
              radiusMm: RADIUS_MM,
            },
          },
        ],
      },
      {
        id: 'loom',
        name: 'Engine loom',
        class: 'fixed',
        standsC: 125,
        emissivity: 0.9,
        shapes: [
          {
            tube: {
              pointsMm: [
                [1800, 2000, 300],
                [1800, APART_MM, 300],
                [1200, APART_MM, 300],
              ],
              radiusMm: 8,
            },
          },
        ],
      },
      {
        id: 'spare',
        name: 'Spare of the loom',
        class: 'fixed',
        standsC: 60,
        emissivity: 0.9,
        // Doubled back on itself beside the exhaust: each leg sees as much of the other as of that.
        shapes: [
          {
            tube: {
              pointsMm: [
                [600, -250, 300],
                [900, -250, 300],
                [900, -252, 320],
                [600, -252, 320],
              ],
              radiusMm: 8,
            },
          },
        ],
      },
    ],
    levers: [
      {
        id: 'K1',
        acts: 'hand',
        pivotMm: [0, 900, 900],
        axis: [0, 1, 0],
        handle: { atMm: [0, 900, 1100] },
        arms: [{ id: 'low', atMm: [0, 900, 850] }],
        turnDeg: [-10, 10],
        cables: [
          {
            id: 'gear',
            name: 'Gear cable',
            arm: 'low',
            to: { mover: 'fork', atMm: [1500, -900, 420] },
            pathMm: [
              [1500, 900, 420],
              [1500, -900, 420],
            ],
            odMm: 10,
            ...cable,
          },
        ],
      },
    ],
    movers: [{ id: 'fork', pivotMm: [1500, -850, 300], axis: [0, 0, 1], turnDeg: [-10, 10] }],
    cases: [{ id: 'full', engineRpm: 6000, airC: 30 }],
    lines: [],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.car;
}

const SIGMA = 5.670374419e-8;

describe('a loom that runs past an exhaust', () => {
  const [at] = heatOf(linesWorld(car(), new Map()), []).cases;
  const loom = at!.parts.find(({ part }) => part === 'loom')!;

  it('is as hot as each place of it gets: cold far off, hottest where it runs along the exhaust', () => {
    const places = loom.places!;
    expect(Math.max(...places.map(({ c }) => c))).toBe(loom.surfaceC);
    expect(places[0]!.c).toBeLessThan(60);
    const hottest = places.find(({ c }) => c === loom.surfaceC)!;
    expect(hottest.atMm[1]).toBeCloseTo(APART_MM, 6);
    const mean = places.reduce((sum, { c }) => sum + c, 0) / places.length;
    expect(loom.surfaceC - 30).toBeGreaterThan(2 * (mean - 30));
    expect(loom.limits[0]!.marginK).toBeLessThan(0);
    // Over 40 stretches it gives off by air what it takes up by radiation, each for itself.
    expect(Math.abs(loom.toAirW + loom.byRadiationW)).toBeLessThan(1e-4 * loom.toAirW);
  });

  it('takes up there what a thin rod beside a long pipe sees of it, F = asin(R/d)/pi (hand: solid angle over pi^2)', () => {
    const seen = Math.asin(RADIUS_MM / APART_MM) / Math.PI;
    const from = loom.shares.find(({ of }) => of === 'exhaust')!;
    const stretchM = loom.places![1]!.alongMm - loom.places![0]!.alongMm;
    const area = (2 * Math.PI * 0.008 * stretchM) / 1000;
    const net = SIGMA * ((EXHAUST_C + 273.15) ** 4 - (loom.surfaceC + 273.15) ** 4);
    // The hottest of a dozen alike, each known to some 5 %.
    expect(from.watts / (0.8 * 0.9 * area * net) / seen).toBeGreaterThan(0.92);
    expect(from.watts / (0.8 * 0.9 * area * net) / seen).toBeLessThan(1.15);
  });

  it('is not told to heat itself where it is doubled back: what its other leg gives is the rest of it', () => {
    const spare = at!.parts.find(({ part }) => part === 'spare')!;
    expect(spare.shares.map(({ of }) => of)).not.toContain('spare');
    expect(spare.shares.filter(isOfItself)).toMatchObject([{ name: 'the rest of it' }]);
    expect(spare.shares.find(isOfItself)!.kelvin).toBeGreaterThan(1);
    // All that the place takes up and gives off is nothing.
    expect(Math.abs(spare.shares.reduce((sum, { watts }) => sum + watts, 0))).toBeLessThan(1e-3);
    const told = at!.findings.find(({ part }) => part === 'spare')!;
    expect(told.text).toMatch(/most of it from exhaust/u);
  });

  it('is told with place, length along it and what heats it; a cable of a lever is told too, with what is recalled of cables', () => {
    const snags = heatSnags({ cases: [at!], readings: [], rays: { patches: 0, raysShot: 0, seed: 0 }, findings: [] });
    const [told, ofCable] = ['loom', 'Gear cable'].map((word) => snags.find(({ text }) => text.includes(word))!);
    expect(told).toMatchObject({ part: 'loom', level: 'stop', limit: 125 });
    expect(told!.text).toMatch(
      /Engine loom comes to \d+ degC \(\+-\d+ K\) 2\d\d\d mm along it; .*most of it from exhaust/u,
    );
    expect(told!.atMm![1]).toBeCloseTo(APART_MM, 6);
    expect(ofCable).toMatchObject({ level: 'stop', limit: 110 });
    expect(ofCable!.text).toMatch(/Gear cable, a control cable with a plastic liner comes to/u);
    expect(ofCable!.source).toMatch(/Recalled/u);
    expect(ofCable!.part).toBeUndefined();
    expect(ofCable).toMatchObject({ lever: 'K1', id: expect.stringMatching(/^K1-gear-heat-/u) });
    expect(ofCable!.atMm![1]).toBeGreaterThan(-50);
    const better = heatOf(linesWorld(car({ standsC: 260 }), new Map()), []).cases[0]!;
    const cable = better.parts.find(({ part }) => part === 'K1-gear')!;
    expect(cable.limits).toMatchObject([{ limitC: 260, source: 'the car file' }]);
    expect(better.findings.filter(({ text }) => text.includes('Gear cable comes'))).toEqual([]);
  });
});
