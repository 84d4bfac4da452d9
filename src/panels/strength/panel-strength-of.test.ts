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
/**
 * Own frequency of a right triangle simply held on its legs, free on the long side, over the root of D / (rho t): Ritz with
 * w = x y sum c x^i y^j. Over the triangle x^p y^q integrates to a^(p+1) b^(q+1) p! q! / (p + q + 2)!.
 */
function triangleFrequency(a: number, b: number, nu: number, degree: number): number {
  const terms = Array.from({ length: degree + 1 }, (_, n) =>
    Array.from({ length: n + 1 }, (__, j) => [n - j + 1, j + 1] as const),
  ).flat();
  const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
  const over = (p: number, q: number): number =>
    p < 0 || q < 0 ? 0 : (a ** (p + 1) * b ** (q + 1) * factorial(p) * factorial(q)) / factorial(p + q + 2);
  const [stiff, mass] = [0, 1].map((what) =>
    terms.map(([i, j]) =>
      terms.map(([k, l]) => {
        if (what === 1) return over(i + k, j + l);
        const [xx, yy, xy] = [i * (i - 1), j * (j - 1), i * j];
        const [kx, ky, kxy] = [k * (k - 1), l * (l - 1), k * l];
        return (
          xx * kx * over(i + k - 4, j + l) +
          yy * ky * over(i + k, j + l - 4) +
          (nu * (xx * ky + yy * kx) + 2 * (1 - nu) * xy * kxy) * over(i + k - 2, j + l - 2)
        );
      }),
    ),
  ) as [number[][], number[][]];
  // The lowest by inverse iteration; Rayleigh's quotient of what it settles on.
  const times = (m: readonly number[][], x: readonly number[]) =>
    m.map((row) => row.reduce((sum, v, k) => sum + v * x[k]!, 0));
  const dot = (x: readonly number[], y: readonly number[]) => x.reduce((sum, v, k) => sum + v * y[k]!, 0);
  let shape: number[] = terms.map((_, k) => (k === 0 ? 1 : 0));
  for (let round = 0; round < 12; round++) {
    shape = solved(stiff, times(mass, shape));
    const size = Math.sqrt(dot(shape, times(mass, shape)));
    shape = shape.map((x) => x / size);
  }
  return Math.sqrt(dot(shape, times(stiff, shape))) / (2 * Math.PI);
}

function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  for (let k = 0; k < rows.length; k++) {
    const best = rows.reduce((at, row, i) => (i >= k && Math.abs(row[k]!) > Math.abs(rows[at]![k]!) ? i : at), k);
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    for (const [i, row] of rows.entries()) {
      if (i === k) continue;
      const by = row[k]! / rows[k]![k]!;
      for (let c = k; c < row.length; c++) row[c]! -= by * rows[k]![c]!;
    }
  }
  return rows.map((row, k) => row.at(-1)! / row[k]!);
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

  const raised = [...lid.corners.slice(0, 3), { id: 'D', atMm: [0, 200, 506] }];
  const twisted = (kind: string, change: object = {}) =>
    panelStrengthOf(
      laid({
        corners: raised,
        creases: [{ kind, from: 'A', to: 'C' }],
        load: { pressureKpa: 0.1, shearNPerMm: 1 },
        ...change,
      }),
    )!;
  const noted = ({ findings }: NonNullable<ReturnType<typeof panelStrengthOf>>): string =>
    findings.find(({ code }) => code === 'panel-model-ends')!.text;

  it('a shallow crease: no less than the sheet laid flat, and nothing of what goes through its plane', () => {
    const flat = panelStrengthOf(laid({ load: { pressureKpa: 0.1 } }))!.strength!;
    const creased = twisted('crease');
    expect(creased.strength!.frequencyHz.value / flat.frequencyHz.value).toBeCloseTo(1, 1);
    expect(creased.strength!.deflectionMm!.value / flat.deflectionMm!.value).toBeCloseTo(1, 1);
    expect(creased.strength!.bucklingFactor).toBeUndefined();
    // By hand: 6 over 178.9 from A-C to D are 1.9 degrees.
    expect(noted(creased)).toMatch(/creased by 1.9 degrees .* that or higher/);
    expect(noted(creased)).toMatch(/presses and shears its edges is not worked out/);
  });

  it('a relief: two right triangles simply held on their legs, free along the slit (second: Ritz, x y times polynomials)', () => {
    const { strength, findings } = twisted('relief');
    const [e, nu, t, rho] = [69_600e6, 0.33, 1.2e-3, 2685];
    const ritz = triangleFrequency(0.4, 0.2, nu, 5) * Math.sqrt((e * t ** 2) / (12 * (1 - nu ** 2) * rho));
    // Ritz is high by its few terms, triangles low by their mass at the nodes.
    expect(strength!.frequencyHz.value / ritz).toBeGreaterThan(0.97);
    expect(strength!.frequencyHz.value / ritz).toBeLessThan(1.005);
    expect(noted({ findings })).toMatch(/its slit went right through .* that or higher, and it gives less/);
    // A window on either side stays open in its own half; one more is found to save what both do.
    const holes = [100, 300].map((x, i) => ({
      id: `H${i}`,
      diameterMm: 30,
      for: 'duct',
      atMm: [x, i === 0 ? 150 : 50, 500 + (i === 0 ? 3 : 0)],
    }));
    expect(twisted('relief', { holes }).massSavedKg).toBeCloseTo(2 * Math.PI * 0.015 ** 2 * 0.0012 * 2685, 4);
  });

  it('a thin web is told by the rules of windows', () => {
    const { findings } = panelStrengthOf(laid({ windows: [{ ...window, webMm: 4 }], load: { shakeHz: 1 } }))!;
    expect(findings.map(({ code }) => code)).toContain('window-web-thin');
  });

  it.each([
    [
      { sheet: '5052H32' },
      /stiffness of 5052H32 is in no table/,
      'a sheet of the table (nearest: 5052-H32), or test it on the car',
    ],
    [
      {
        creases: [{ kind: 'crease', from: 'A', to: 'C' }],
        // By hand: 100 over 178.9 from A-C to D are 29.2 degrees.
        corners: [...lid.corners.slice(0, 3), { id: 'D', atMm: [0, 200, 600] }],
      },
      /it has a crease of 29 degrees, and up to 20 it can be taken as flat/,
      'test it on the car',
    ],
  ])('%j: no numbers, and why', (change, why, cure) => {
    const answer = panelStrengthOf(laid({ ...change, load: { shakeHz: 60 } }))!;
    expect(answer.strength).toBeUndefined();
    expect(answer.findings.map(({ code }) => code)).toEqual(['panel-strength-unknown']);
    expect(answer.findings[0]!.text).toMatch(why);
    expect(answer.findings[0]!.cures).toEqual([cure]);
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
