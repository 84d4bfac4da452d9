import { describe, expect, it } from 'vitest';
import { dashSizes, endTypes, tightening } from './index.ts';

describe('tightening', () => {
  // published: US Army TM 55-1520-240-23-1 prints both units: -4 hose 11.3 to 13.6 Nm, -12 steel tube 101.7 to 113.0, -16 aluminium 67.8 to 79.1.
  it.each([
    [4, 'hose', [11.3, 13.6]],
    [12, 'steel-tube', [101.7, 113]],
    [16, 'aluminium-tube', [67.8, 79.1]],
    [20, 'hose', [107.3, 129.9]],
  ] as const)('-%i 37-degree nut on %s', (dash, held, range) => {
    expect(tightening({ type: 'flare37-male', dash }, held)?.torqueNm).toEqual(range);
  });
  // published: US Army TM 9-2320-364-20-4 table 2-67: -8 hose 1 1/4 to 1 3/4 flats, -16 3/4 to 1; -6 45-degree 3/4 to 1.
  it('flats past seat contact', () => {
    expect(tightening({ type: 'flare37-female', dash: 8 })?.flats).toEqual([1.25, 1.75]);
    expect(tightening({ type: 'flare37-female', dash: 16 })?.flats).toEqual([0.75, 1]);
    expect(tightening({ type: 'flare45-male', dash: 6 })?.flats).toEqual([0.75, 1]);
  });
  // published: four public service manuals; -10 from 46 +-10 % to 105 +-11 lb-ft (1 lb-ft = 1.355818 Nm), the spread is 2.3 times.
  it('never gives one torque for an O-ring boss: a band, and why', () => {
    for (const { dash } of dashSizes) {
      const boss = tightening({ type: 'orb', dash });
      expect(boss?.torqueNm).toBeUndefined();
      expect(boss?.mostNm).toBeUndefined();
      const band = boss?.bandNm ?? [0, 0];
      expect([dash, band[1] > 1.15 * band[0]]).toEqual([dash, true]);
      expect(boss?.text).toMatch(/disagree/u);
    }
    expect(tightening({ type: 'orb-stud', dash: 10 })?.bandNm).toEqual([56.1, 157.3]);
  });
  it('turns a taper thread and never backs it off', () => {
    expect(tightening({ type: 'npt-male', pipe: '1/8' })).toMatchObject({ turns: [0.75, 1.75], mostNm: 16.3 });
    expect(tightening({ type: 'npt-female', pipe: '1/8' })?.text).toMatch(/never backed off/u);
  });
  it('says nothing where no table was found', () => {
    for (const type of endTypes)
      if (!/^(?:flare|orb|npt)/u.test(type))
        expect(tightening({ type, dash: 8, thread: 'M14x1.5', pipe: '1/8', odMm: 8 })).toBeUndefined();
  });
});
