import { carFrom, type Panel } from '#car';
import { outlineArea } from '#geometry';
import { describe, expect, it } from 'vitest';
import { laidOut } from '../laid-out.ts';
import type { PanelLayout } from '../layout.ts';
import { NOWHERE } from '../nowhere.fixture.ts';
import { panelStrengthOf } from './panel-strength-of.ts';

/** 400 by 200 of 5052-H32, 1.2 mm, riveted all round. */
const held = { fixing: { kind: 'rivet', pitchMm: 50 } };
const lid = {
  id: 'lid',
  thicknessMm: 1.2,
  sheet: '5052-H32',
  corners: [
    { id: 'A', atMm: [0, 0, 500] },
    { id: 'B', atMm: [400, 0, 500] },
    { id: 'C', atMm: [400, 200, 500] },
    { id: 'D', atMm: [0, 200, 500] },
  ],
  edges: [
    { from: 'A', to: 'B', ...held },
    { from: 'B', to: 'C', ...held },
    { from: 'C', to: 'D', ...held },
    { from: 'D', to: 'A', ...held },
  ],
  outside: [0, 0, 1],
};
function laid(change: object): PanelLayout {
  const reading = carFrom({ fairlead: 1, parts: [], panels: [{ ...lid, ...change }] });
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return laidOut(reading.car.panels![0] as Panel, NOWHERE)[0]!;
}
const window = { id: 'W1', shape: 'trapezoid', count: 2, webMm: 8, along: { from: 'A', to: 'B' } };

describe('strength of a panel as the car file says it', () => {
  it.each([{}, { load: { pressureKpa: 0 } }])('%j: nothing is worked out', (load) => {
    expect(panelStrengthOf(laid(load))).toBeNull();
  });

  it('only how it is held: its own frequency and the mass that its windows save; by itself where each edge is held by something', () => {
    const windows = [{ id: 'W1', shape: 'round', count: 3, cornerDrillMm: 40, sizeMm: [200, 60] }];
    const clamped = panelStrengthOf(laid({ load: { held: 'clamped' }, windows }))!;
    const alone = panelStrengthOf(laid({ windows }), { unloaded: true })!;
    // Clamped over simply held, two to one: 24.57 / 12.34 (Leissa, tables of SSSS and CCCC).
    const bare = panelStrengthOf(laid({}), { unloaded: true })!.strength!.frequencyHz.value;
    const fast = panelStrengthOf(laid({ load: { held: 'clamped' } }))!.strength!.frequencyHz.value;
    expect(fast / bare).toBeCloseTo(24.57 / 12.34, 1);
    // Three rounds of 40 out of 1.2 mm at 2685 kg/m3: 12.1 g.
    for (const { massSavedKg, strength } of [clamped, alone]) {
      expect(massSavedKg).toBeCloseTo(3 * Math.PI * 0.02 ** 2 * 0.0012 * 2685, 4);
      expect(strength!.deflectionMm).toBeUndefined();
    }
    const loose = laid({ edges: lid.edges.slice(1) });
    expect(panelStrengthOf(loose, { unloaded: true })).toBeNull();
  });

  it('a plate simply held: Navier, frequency and deflection within 2 % (Timoshenko: 0.01013 at 2 to 1)', () => {
    const { strength } = panelStrengthOf(laid({ load: { pressureKpa: 0.1, shakeHz: 20, held: 'simply' } }))!;
    // The table of sheets: 69.6 GPa, 0.33, 2685 kg/m3 as in strength-findings.test.ts; written out here again.
    const [e, nu, t, rho, a, b] = [69_600e6, 0.33, 1.2e-3, 2685, 0.2, 0.4];
    const d = (e * t ** 3) / (12 * (1 - nu ** 2));
    const hz = (Math.PI / 2) * (1 / a ** 2 + 1 / b ** 2) * Math.sqrt(d / (rho * t));
    expect(Math.abs(strength!.frequencyHz.value / hz - 1)).toBeLessThan(0.02);
    const mm = ((0.01013 * 100 * a ** 4) / d) * 1000;
    expect(Math.abs(strength!.deflectionMm!.value / mm - 1)).toBeLessThan(0.02);
    expect(strength!.bucklingFactor).toBeUndefined();
  });

  it('by edge: two ends clamped and two sides free is a beam (22.373 / 2 pi L^2), between that of a strip and that of a wide plate', () => {
    const say = (hold: string) => (edge: object) => ({ ...edge, held: hold });
    const [ab, bc, cd, da] = lid.edges;
    const sided = laid({ edges: [say('free')(ab!), say('clamped')(bc!), say('free')(cd!), say('clamped')(da!)] });
    const { strength, findings } = panelStrengthOf(sided)!;
    const [e, nu, t, rho, l] = [69_600e6, 0.33, 1.2e-3, 2685, 0.4];
    const strip = (22.373 / (2 * Math.PI * l ** 2)) * Math.sqrt((e * t ** 2) / (12 * rho));
    expect(strength!.frequencyHz.value).toBeGreaterThan(strip * 0.99);
    expect(strength!.frequencyHz.value).toBeLessThan((strip / Math.sqrt(1 - nu ** 2)) * 1.01);
    expect(findings.map(({ text }) => text).join()).not.toMatch(/is not said|nothing holds/);
    // Rounded corners cut the outline into more sides: each goes with its edge, so little changes.
    const corners = lid.corners.map((corner) => ({ ...corner, radiusMm: 5 }));
    const round = panelStrengthOf(laid({ corners, edges: sided.panel.edges }))!.strength!.frequencyHz.value;
    expect(round / strength!.frequencyHz.value).toBeCloseTo(1, 1);
  });

  it('tells the panel, a place on it, and cures that are the panel laid out again', () => {
    const load = { shakeHz: 500 };
    const layout = laid({ windows: [window], load });
    const { strength, findings } = panelStrengthOf(layout)!;
    const low = findings.find(({ code }) => code === 'panel-frequency-low')!;
    expect(low).toMatchObject({ panel: 'lid', level: 'stop', place: [200, 100, 500] });
    expect(low.text).toMatch(/^lid: its own frequency is /);
    const again = (change: object) =>
      panelStrengthOf(laid({ ...change, load }))!.strength!.frequencyHz.value.toFixed(0);
    const was = strength!.frequencyHz.value.toFixed(0);
    expect(low.cures).toEqual([
      `webs of 12 mm instead of 8.0: ${was} -> ${again({ windows: [{ ...window, webMm: 12 }] })} Hz`,
      `1.5 mm sheet instead of 1.2: ${was} -> ${again({ windows: [window], thicknessMm: 1.5 })} Hz`,
    ]);
  });

  it('windows and large holes are open; a hole at an edge is left out and said', () => {
    const hz = (change: object) => panelStrengthOf(laid({ ...change, load: { shakeHz: 1 } }))!.strength!;
    const hole = (x: number) => ({ holes: [{ id: 'H1', diameterMm: 60, for: 'duct', atMm: [x, 100, 500] }] });
    const bare = hz({});
    expect(Math.abs(hz(hole(200)).frequencyHz.value - bare.frequencyHz.value)).toBeGreaterThan(0.1);
    expect(hz(hole(30)).frequencyHz).toEqual(bare.frequencyHz);
    expect(hz(hole(30)).limits).toContain('1 of its holes at an edge or another opening are not in it');
  });

  it('says what it takes for granted: how edges are held, an edge that nothing holds', () => {
    const [, ...rest] = lid.edges;
    const { findings } = panelStrengthOf(laid({ edges: rest, load: { shakeHz: 1 } }))!;
    const note = findings.find(({ code }) => code === 'panel-model-ends')!.text;
    expect(note).toMatch(/is not said: simply held is taken/);
    expect(note).toMatch(/nothing holds A-B in the car file/);
  });

  it('a thin web is told by the rules of windows', () => {
    const { findings } = panelStrengthOf(laid({ windows: [{ ...window, webMm: 4 }], load: { shakeHz: 1 } }))!;
    expect(findings.map(({ code }) => code)).toContain('window-web-thin');
  });

  it.each([
    [{ sheet: 'plywood' }, /stiffness of plywood is in no table/],
    [
      {
        creases: [{ kind: 'crease', from: 'A', to: 'C' }],
        corners: [...lid.corners.slice(0, 3), { id: 'D', atMm: [0, 200, 540] }],
      },
      /it has a crease/,
    ],
  ])('%j: no numbers, and why', (change, why) => {
    const answer = panelStrengthOf(laid({ ...change, load: { shakeHz: 60 } }))!;
    expect(answer.strength).toBeUndefined();
    expect(answer.findings.map(({ code }) => code)).toEqual(['panel-strength-unknown']);
    expect(answer.findings[0]!.text).toMatch(why);
  });
});

describe('mesh in the free area of a panel (open shares of a handbook of perforated sheet, by hand)', () => {
  it.each([
    [{ openPercent: 60 }, 0.6],
    [{ woven: { openingMm: 5, wireMm: 1 } }, 0.6944],
    [{ round: { holeMm: 3, pitchMm: 5 } }, 0.3265],
    [{ square: { holeMm: 3, pitchMm: 5 } }, 0.2827],
    [{ hexagon: { acrossFlatsMm: 6, pitchMm: 8 } }, 0.5625],
  ])('%j leaves its share: openings are so much larger', (mesh, share) => {
    const { flats, windows, findings } = laid({ windows: [{ ...window, freeCm2: 100, mesh }] });
    const open = flats[0]!.cutOuts.reduce((sum, { outline }) => sum + Math.abs(outlineArea(outline)), 0);
    expect(open * share).toBeGreaterThan(9990);
    expect(open * share).toBeLessThan(10_010);
    expect(windows[0]!.freeMm2).toBeCloseTo(10_000, -1);
    expect(findings).toEqual([]);
  });
});
