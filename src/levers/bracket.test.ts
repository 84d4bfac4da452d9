import { describe, expect, it } from 'vitest';
import { bracketAnswer, bracketByTriangles } from './bracket.ts';
import { bracketFindings } from './bracket-findings.ts';
import { sayOf } from './say.ts';

/** Two plates of 5 mm, 110 wide at the foot, 40 at the top, 75 high; pin of 10 at 60, three bolts of 6.5 at 10. */
const plate = {
  sheet: '6061-T6',
  thicknessMm: 5,
  widthMm: 110,
  heightMm: 75,
  topWidthMm: 40,
  pin: { atMm: [0, 60] as [number, number], diameterMm: 10 },
  count: 2,
  bolts: {
    diameterMm: 6.5,
    atMm: [
      [-40, 10],
      [0, 10],
      [40, 10],
    ] as [number, number][],
  },
  pullN: 300,
};
const answer = bracketAnswer(plate, 1800, 300, 260)!;
const row = (what: string) => answer.rows.find((one) => one.what === what)!.stressMpa;

describe('the bracket of a lever', () => {
  it('worked by hand with the lug formulas of the handbook (P/dt, P/(w-d)t, P/2t(e-d/2))', () => {
    // 1800 N on two plates: 900 N each. At the pin the plate is 110 - 70 x 60/75 = 54 wide, and 10 mm stand over the hole.
    expect(answer.forceN).toBe(900);
    expect(row('bearing')).toBeCloseTo(900 / (10 * 5), 9);
    expect(row('net-section')).toBeCloseTo(900 / ((30 - 10) * 5), 9);
    expect(row('tear-out')).toBeCloseTo(900 / (2 * 5 * (27 - 5)), 9);
    // At the bolts: 50 mm under the pin, 110 - 70 x 10/75 wide, three holes out of it, two of them 40 mm off the middle.
    const wide = 110 - (70 * 10) / 75;
    const inertia = (5 * wide ** 3) / 12 - (3 * 5 * 6.5 ** 3) / 12 - 2 * 5 * 6.5 * 40 ** 2;
    expect(row('foot')).toBeCloseTo((900 * 50 * (wide / 2)) / inertia, 9);
    // Each bolt 300 N along; the moment of 45 Nm on two bolts 40 mm off the middle: 562.5 N up or down.
    expect(row('bolt-bearing')).toBeCloseTo(Math.hypot(300, 562.5) / (6.5 * 5), 9);
    expect(answer.rows.map(({ standsMpa }) => Math.round(standsMpa))).toEqual([362, 241, 174, 241, 362, 174]);
  });

  it('gives as its own triangles do, held at the bolts (second: a plate of triangles against a tapered arm)', () => {
    const fine = bracketByTriangles(plate, answer)!;
    // The triangles also have the give round pin and bolts; the arm is held all along its foot.
    expect(fine.pivotGivesMm).toBeGreaterThan(answer.pivotGivesMm);
    expect(fine.pivotGivesMm).toBeLessThan(4 * answer.pivotGivesMm);
    // The peak at a hole is that of the closed forms times what holes raise it by: not under it, not over five times.
    const most = Math.max(...answer.rows.map(({ stressMpa }) => stressMpa));
    expect(fine.stressMpa).toBeGreaterThan(most * 0.8);
    expect(fine.stressMpa).toBeLessThan(5 * most);
  });

  it('lightening holes: bending at their level, the mass they save, the usual rules, worked by hand', () => {
    const holes = [{ atMm: [0, 35] as [number, number], diameterMm: 30 }];
    const light = bracketAnswer({ ...plate, holes }, 1800, 300, 260)!;
    // 25 mm under the pin the plate is 110 - 70 x 35/75 wide: less stress than over the foot, where nothing changed.
    const foot = light.rows.find(({ what }) => what === 'foot')!.stressMpa;
    expect(foot).toBeCloseTo(row('foot'), 9);
    // Two plates, 15 mm about, 5 mm thick, 2700 kg/m3 of 6061.
    expect(light.massSavedKg).toBeCloseTo((2 * Math.PI * 15 ** 2 * 5 * light.sheet.densityKgM3) / 1e9, 9);
    // To the pin 25 - 5 - 15 = 5 mm, to the middle bolt 25 - 3.25 - 15 = 6.75; to the side 38.67 / 1.1034 - 15 = 20.0; 30 of 77.3 wide.
    expect(light.lightening).toEqual([
      { hole: 0, text: 'metal between two holes', value: expect.closeTo(5, 9) as number, limit: 30, unit: 'mm' },
    ]);
    const [told] = bracketFindings(light, 5, sayOf({ id: 'K2' }));
    expect(told).toMatchObject({ code: 'bracket-lightening', level: 'fix', value: expect.closeTo(5, 9) as number });
    expect(told!.text).toMatch(/hole 1: metal between two holes 5.0 mm, at least 30.0 mm is usual$/);
    // Wide open it bends there: b = 77.33, 66 out of it, 900 N x 25 mm (hand).
    const open = bracketAnswer({ ...plate, holes: [{ ...holes[0]!, diameterMm: 66 }] }, 1800, 300, 260)!;
    const wide = 110 - (70 * 35) / 75;
    const inertia = (5 * (wide ** 3 - 66 ** 3)) / 12;
    expect(open.rows.find(({ what }) => what === 'foot')!.stressMpa).toBeGreaterThan(
      ((900 * 25 * wide) / 2 / inertia) * 0.9999,
    );
    expect(bracketByTriangles({ ...plate, holes: [{ ...holes[0]!, diameterMm: 66 }] }, open)).toBeNull();
    expect(bracketByTriangles({ ...plate, holes }, light)!.pivotGivesMm).toBeGreaterThan(
      bracketByTriangles(plate, answer)!.pivotGivesMm,
    );
  });

  it('a plate that narrows to a point is weakest between foot and pin: most of (h - y) / w^2, by hand', () => {
    const horn = { ...plate, topWidthMm: 2, heightMm: 75, bolts: undefined } as never;
    const made = bracketAnswer(horn, 1800, 300, 260)!;
    // w = 110 - 1.44 y, pin at 60: (60 - y) / w^2 is greatest where w = 2 x 1.44 (60 - y): y = 43.6, w = 47.2.
    const most = (900 * (60 - 43.6) * 6) / (5 * 47.2 ** 2);
    expect(made.rows.find(({ what }) => what === 'foot')!.stressMpa / most).toBeCloseTo(1, 2);
  });

  it('half as thick it bears twice, gives twice; too thin is told with the thickness that would do', () => {
    const thin = bracketAnswer({ ...plate, thicknessMm: 2.5 }, 1800, 300, 260)!;
    for (const [i, { stressMpa }] of thin.rows.entries())
      expect(stressMpa / answer.rows[i]!.stressMpa).toBeCloseTo(2, 9);
    expect(thin.handGivesMm / answer.handGivesMm).toBeCloseTo(2, 9);
    const say = sayOf({ id: 'K2' });
    expect(bracketFindings(answer, 5, say)).toEqual([]);
    const foil = bracketAnswer({ ...plate, thicknessMm: 0.2 }, 1800, 300, 260)!;
    const [weak] = bracketFindings(foil, 0.2, say);
    expect(weak).toMatchObject({ code: 'bracket-weak', level: 'stop', unit: 'MPa' });
    const cure = Number(/^([\d.]+) mm/.exec(weak!.cures[0]!)![1]);
    const cured = bracketAnswer({ ...plate, thicknessMm: cure }, 1800, 300, 260)!;
    expect(bracketFindings(cured, cure, say).map(({ code }) => code)).not.toContain('bracket-weak');
  });

  it('of a sheet whose strength no table has there is no answer', () => {
    expect(bracketAnswer({ ...plate, sheet: 'shed-plate' }, 1800, 300, 260)).toBeNull();
  });
});
