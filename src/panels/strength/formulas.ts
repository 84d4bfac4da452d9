import type { Formula, FormulaInput } from '#sources';
import { openShareHexagon, openShareRound, openShareSquare, openShareWoven } from '../mesh/open-share.ts';
import {
  bucklingStress,
  deflectionNumber,
  flatPlateFrequency,
  frequencyNumber,
  momentNumber,
  plateStiffness,
  pressedNumber,
  shearNumber,
} from './closed-plates.ts';
import {
  armDeflection,
  bearingStress,
  ellipseConcentration,
  holeConcentration,
  massSaved,
  netSectionStress,
  tearOutStress,
  windowConcentration,
} from './holes-and-lugs.ts';

const input = (name: string, unit: string, range: readonly [number, number], text: string): FormulaInput => ({
  name,
  unit,
  range,
  text,
});
const mm = (name: string, text: string): FormulaInput => input(name, 'mm', [0.01, 10_000], text);
const stiffness = input('stiffnessMpa', 'MPa', [1000, 400_000], "Young's modulus");
const poisson = input('poisson', '-', [0, 0.49], "Poisson's ratio");
const thick = input('thicknessMm', 'mm', [0.1, 50], 'thickness');
const density = input('densityKgM3', 'kg/m3', [500, 20_000], 'density');
const clamped = input('isClamped', '-', [0, 1], '1 clamped, 0 simply held');
const slender = input('slender', '-', [1, 100], 'a/b, long side over short side');
const aspect = input('aspect', '-', [0.01, 1], 'b/a, short side over long side');
const force = input('forceN', 'N', [0, 1e6], 'force');
const hole = mm('holeMm', 'hole');
const pitch = mm('pitchMm', 'centre to centre');
const share = { unit: '-', text: 'open share' } as const;
const stress = { unit: 'MPa', text: 'stress' } as const;
const of = (given: Readonly<Record<string, number>>, ...names: readonly string[]): number[] =>
  names.map((name) => given[name]!);

const plates: readonly Formula[] = [
  {
    id: 'plate-stiffness',
    title: 'Bending stiffness of a plate',
    equation: 'D = E t^3 / (12 (1 - nu^2))',
    inputs: [stiffness, thick, poisson],
    result: { unit: 'N mm', text: 'D' },
    source: 'plate-theory',
    known: 'computed',
    example: { given: { stiffnessMpa: 70_000, thicknessMm: 1.2, poisson: 0.33 }, gives: 11_312, digits: 0 },
    evaluate: (g) => plateStiffness(g['stiffnessMpa']!, g['thicknessMm']!, g['poisson']!),
  },
  {
    id: 'plate-frequency-number',
    title: 'First frequency number of a plate held alike all round',
    equation: 'lambda = pi^2 sqrt(Ga^4 (b/a)^4 + Gb^4 + 2 (b/a)^2 (nu Ha Hb + (1 - nu) Ja Jb))',
    inputs: [aspect, poisson, clamped],
    result: { unit: '-', text: 'lambda on the short side' },
    source: 'warburton-1954',
    known: 'from-memory',
    example: { given: { aspect: 1, poisson: 0.3, isClamped: 0 }, gives: 19.739, digits: 3 },
    evaluate: (g) => {
      const held = g['isClamped'] === 1 ? 'clamped' : 'simply';
      return frequencyNumber(g['aspect']!, g['poisson']!, held, held);
    },
  },
  {
    id: 'plate-frequency',
    title: 'First frequency of a flat plate',
    equation: 'f = lambda / (2 pi b^2) sqrt(D / (rho t))',
    inputs: [
      input('lambda', '-', [0.1, 1000], 'frequency number'),
      mm('shortMm', 'short side'),
      input('stiffnessNmm', 'N mm', [1, 1e9], 'D'),
      density,
      thick,
    ],
    result: { unit: 'Hz', text: 'frequency' },
    source: 'plate-theory',
    known: 'computed',
    example: {
      given: { lambda: 19.739, shortMm: 200, stiffnessNmm: 11_312, densityKgM3: 2700, thicknessMm: 1.2 },
      gives: 146.8,
      digits: 1,
    },
    evaluate: (g) =>
      flatPlateFrequency(g['lambda']!, g['shortMm']!, g['stiffnessNmm']!, g['densityKgM3']!, g['thicknessMm']!),
  },
  {
    id: 'plate-pressed-number',
    title: 'Buckling number of a plate pressed along its length',
    equation: 'k = min over m of (m b/a + a/(m b))^2; clamped by table',
    inputs: [input('slender', '-', [0.75, 100], 'length that is pressed over the width'), clamped],
    result: { unit: '-', text: 'k' },
    source: 'timoshenko-stability',
    known: 'from-memory',
    example: { given: { slender: 1, isClamped: 0 }, gives: 4, digits: 2 },
    evaluate: (g) => pressedNumber(g['slender']!, g['isClamped']!),
  },
  {
    id: 'plate-shear-number',
    title: 'Buckling number of a plate in shear',
    equation: 'k = 5.35 + 4 (b/a)^2 simply held, 8.98 + 5.6 (b/a)^2 clamped',
    inputs: [aspect, clamped],
    result: { unit: '-', text: 'k' },
    source: 'timoshenko-stability',
    known: 'from-memory',
    example: { given: { aspect: 1, isClamped: 0 }, gives: 9.35, digits: 2 },
    evaluate: (g) => shearNumber(g['aspect']!, g['isClamped']!),
  },
  {
    id: 'plate-buckling-stress',
    title: 'Stress at which a flat plate buckles',
    equation: 'sigma = k pi^2 E / (12 (1 - nu^2)) (t/b)^2',
    inputs: [input('k', '-', [0.1, 100], 'buckling number'), stiffness, poisson, thick, mm('widthMm', 'side b')],
    result: stress,
    source: 'timoshenko-stability',
    known: 'from-memory',
    example: {
      given: { k: 4, stiffnessMpa: 70_000, poisson: 0.33, thicknessMm: 1.2, widthMm: 200 },
      gives: 9.304,
      digits: 3,
    },
    evaluate: (g) => bucklingStress(g['k']!, g['stiffnessMpa']!, g['poisson']!, g['thicknessMm']!, g['widthMm']!),
  },
  {
    id: 'plate-deflection-number',
    title: 'Deflection number of a plate under even pressure',
    equation: 'w = alpha q b^4 / D',
    inputs: [slender, clamped],
    result: { unit: '-', text: 'alpha' },
    source: 'timoshenko-plates',
    known: 'from-memory',
    example: { given: { slender: 1, isClamped: 0 }, gives: 0.00406, digits: 5 },
    evaluate: (g) => deflectionNumber(g['slender']!, g['isClamped']!),
  },
  {
    id: 'plate-moment-number',
    title: 'Greatest moment of a plate under even pressure',
    equation: 'M = beta q b^2, sigma = 6 M / t^2',
    inputs: [slender, clamped, poisson],
    result: { unit: '-', text: 'beta' },
    source: 'timoshenko-plates',
    known: 'from-memory',
    example: { given: { slender: 1, isClamped: 0, poisson: 0.3 }, gives: 0.0479, digits: 4 },
    evaluate: (g) => momentNumber(g['slender']!, g['isClamped']!, g['poisson']!),
  },
];

const holes: readonly Formula[] = [
  {
    id: 'hole-concentration',
    title: 'Stress concentration of a hole in a strip, on the net section',
    equation: 'Ktn = 3 - 3.14 x + 3.667 x^2 - 1.527 x^3, x = d/W',
    inputs: [input('share', '-', [0, 0.6], 'd/W')],
    result: { unit: '-', text: 'Ktn' },
    source: 'peterson',
    known: 'from-memory',
    example: { given: { share: 0.2 }, gives: 2.5065, digits: 4 },
    evaluate: (g) => holeConcentration(g['share']!),
  },
  {
    id: 'ellipse-concentration',
    title: 'Stress concentration of an ellipse in a wide sheet',
    equation: 'Kt = 1 + 2 a/b',
    inputs: [mm('acrossMm', 'half axis across the pull'), mm('alongMm', 'half axis along the pull')],
    result: { unit: '-', text: 'Kt' },
    source: 'inglis-1913',
    known: 'from-memory',
    example: { given: { acrossMm: 10, alongMm: 5 }, gives: 5, digits: 1 },
    evaluate: (g) => ellipseConcentration(g['acrossMm']!, g['alongMm']!),
  },
  {
    id: 'window-concentration',
    title: 'Stress concentration of a window with round corners',
    equation: 'Kt = 1 + 2 sqrt(a/r)',
    inputs: [mm('halfAcrossMm', 'half the window across the pull'), mm('radiusMm', 'corner radius')],
    result: { unit: '-', text: 'Kt' },
    source: 'inglis-1913',
    known: 'from-memory',
    example: { given: { halfAcrossMm: 40, radiusMm: 10 }, gives: 5, digits: 1 },
    evaluate: (g) => windowConcentration(g['halfAcrossMm']!, g['radiusMm']!),
  },
  {
    id: 'net-section-stress',
    title: 'Stress on the net section at a hole',
    equation: 'sigma = P / ((w - d) t)',
    inputs: [force, mm('wideMm', 'width at the hole'), hole, thick],
    result: stress,
    source: 'lug-handbook',
    known: 'from-memory',
    example: { given: { forceN: 2500, wideMm: 30, holeMm: 8, thicknessMm: 3 }, gives: 37.9, digits: 1 },
    evaluate: (g) => netSectionStress(g['forceN']!, g['wideMm']!, g['holeMm']!, g['thicknessMm']!),
  },
  {
    id: 'tear-out-stress',
    title: 'Shear where a pin tears out to the edge',
    equation: 'tau = P / (2 t (e - d/2))',
    inputs: [force, mm('edgeMm', "hole's middle to the edge"), hole, thick],
    result: stress,
    source: 'lug-handbook',
    known: 'from-memory',
    example: { given: { forceN: 2500, edgeMm: 16, holeMm: 8, thicknessMm: 3 }, gives: 34.7, digits: 1 },
    evaluate: (g) => tearOutStress(g['forceN']!, g['edgeMm']!, g['holeMm']!, g['thicknessMm']!),
  },
  {
    id: 'bearing-stress',
    title: 'Bearing of a pin on its hole',
    equation: 'sigma = P / (d t)',
    inputs: [force, hole, thick],
    result: stress,
    source: 'lug-handbook',
    known: 'from-memory',
    example: { given: { forceN: 2500, holeMm: 8, thicknessMm: 3 }, gives: 104.2, digits: 1 },
    evaluate: (g) => bearingStress(g['forceN']!, g['holeMm']!, g['thicknessMm']!),
  },
  {
    id: 'arm-deflection',
    title: 'Deflection at the end of a flat arm pulled in its plane',
    equation: 'w = P L^3 / (3 E I) + 1.2 P L / (G h t)',
    inputs: [force, mm('longMm', 'root to the hand'), mm('deepMm', 'depth'), thick, stiffness, poisson],
    result: { unit: 'mm', text: 'deflection' },
    source: 'plate-theory',
    known: 'computed',
    example: {
      given: { forceN: 250, longMm: 120, deepMm: 30, thicknessMm: 3, stiffnessMpa: 70_000, poisson: 0.33 },
      gives: 0.32,
      digits: 3,
    },
    evaluate: (g) => {
      const [p, l, h, t, e, nu] = of(g, 'forceN', 'longMm', 'deepMm', 'thicknessMm', 'stiffnessMpa', 'poisson');
      return armDeflection(p!, l!, h!, t!, e!, nu!);
    },
  },
  {
    id: 'mass-saved',
    title: 'Mass that openings take out of a sheet',
    equation: 'm = rho t A',
    inputs: [input('openMm2', 'mm2', [0, 1e8], 'area of the openings'), thick, density],
    result: { unit: 'kg', text: 'mass' },
    source: 'plate-theory',
    known: 'computed',
    example: { given: { openMm2: 50_000, thicknessMm: 1.2, densityKgM3: 2685 }, gives: 0.1611, digits: 4 },
    evaluate: (g) => massSaved(g['openMm2']!, g['thicknessMm']!, g['densityKgM3']!),
  },
];

const meshes: readonly Formula[] = [
  {
    id: 'open-share-round',
    title: 'Open share of round holes, 60 degrees',
    equation: 'share = pi / (2 sqrt(3)) (d/p)^2',
    inputs: [hole, pitch],
    result: share,
    source: 'perforated-sheet',
    known: 'read',
    example: { given: { holeMm: 3, pitchMm: 5 }, gives: 0.3265, digits: 4 },
    evaluate: (g) => openShareRound(g['holeMm']!, g['pitchMm']!),
  },
  {
    id: 'open-share-square',
    title: 'Open share of round holes in a square pattern',
    equation: 'share = pi / 4 (d/p)^2',
    inputs: [hole, pitch],
    result: share,
    source: 'perforated-sheet',
    known: 'read',
    example: { given: { holeMm: 3, pitchMm: 5 }, gives: 0.2827, digits: 4 },
    evaluate: (g) => openShareSquare(g['holeMm']!, g['pitchMm']!),
  },
  {
    id: 'open-share-hexagon',
    title: 'Open share of hexagon holes',
    equation: 'share = (a/p)^2',
    inputs: [mm('acrossFlatsMm', 'across flats'), pitch],
    result: share,
    source: 'perforated-sheet',
    known: 'read',
    example: { given: { acrossFlatsMm: 6, pitchMm: 8 }, gives: 0.5625, digits: 4 },
    evaluate: (g) => openShareHexagon(g['acrossFlatsMm']!, g['pitchMm']!),
  },
  {
    id: 'open-share-woven',
    title: 'Open share of woven wire',
    equation: 'share = (w / (w + d))^2',
    inputs: [mm('openingMm', 'clear opening'), mm('wireMm', 'wire')],
    result: share,
    source: 'perforated-sheet',
    known: 'read',
    example: { given: { openingMm: 5, wireMm: 1 }, gives: 0.6944, digits: 4 },
    evaluate: (g) => openShareWoven(g['openingMm']!, g['wireMm']!),
  },
];

/** The formulas of windows, mesh and strength, as the register lists them. */
export const strengthFormulas: readonly Formula[] = [...plates, ...holes, ...meshes];
