import type { Formula, FormulaInput } from '#sources';
import {
  bendAllowance,
  bendDeduction,
  bendingMoment,
  growthWithHeat,
  joggleAngle,
  joggleSlope,
  setback,
  twistPull,
  twistShear,
} from './flat/bend-formulas.ts';
import { strengthFormulas } from './strength/formulas.ts';

const input = (name: string, unit: string, range: readonly [number, number], text: string): FormulaInput => ({
  name,
  unit,
  range,
  text,
});
const turn = input('turnDeg', 'deg', [0, 170], 'angle bent through, not the angle enclosed');
const radius = input('radiusMm', 'mm', [0, 1000], 'inside radius');
const thick = input('thicknessMm', 'mm', [0.01, 50], 'thickness');
const k = input('kFactor', '-', [0.2, 0.6], 'where the neutral line lies, share of the thickness from the inside');
const step = input('stepMm', 'mm', [0.01, 100], 'height of the step');

/** The formulas of bends, windows and strength, as the register lists them. */
export const formulas: readonly Formula[] = [
  {
    id: 'bend-allowance',
    title: 'Flat length that goes into a bend',
    equation: 'BA = (pi/180) N (R + k T)',
    inputs: [turn, radius, thick, k],
    result: { unit: 'mm', text: 'bend allowance' },
    source: 'navy-bend-allowance',
    known: 'read',
    example: { given: { turnDeg: 90, radiusMm: 3, thicknessMm: 1.2, kFactor: 0.447 }, gives: 5.555, digits: 3 },
    evaluate: (g) => bendAllowance(g['turnDeg']!, g['radiusMm']!, g['thicknessMm']!, g['kFactor']!),
  },
  {
    id: 'bend-setback',
    title: 'From the tangent line of a bend to its mould line',
    equation: 'SB = tan(N/2) (R + T)',
    inputs: [turn, radius, thick],
    result: { unit: 'mm', text: 'setback' },
    source: 'faa-ac-43-13-1b-sheet',
    known: 'read',
    example: { given: { turnDeg: 45, radiusMm: 6.35, thicknessMm: 1.6256 }, gives: 3.3, digits: 1 },
    evaluate: (g) => setback(g['turnDeg']!, g['radiusMm']!, g['thicknessMm']!),
  },
  {
    id: 'bend-deduction',
    title: 'What a bend saves of the two outside lengths that meet in it',
    equation: 'BD = 2 SB - BA',
    inputs: [turn, radius, thick, k],
    result: { unit: 'mm', text: 'bend deduction' },
    source: 'faa-ac-43-13-1b-sheet',
    known: 'read',
    example: { given: { turnDeg: 90, radiusMm: 3, thicknessMm: 1.2, kFactor: 0.447 }, gives: 2.845, digits: 3 },
    evaluate: (g) => bendDeduction(g['turnDeg']!, g['radiusMm']!, g['thicknessMm']!, g['kFactor']!),
  },
  {
    id: 'bending-moment',
    title: 'Moment at which a strip of sheet stays bent',
    equation: 'M = Sy b T^2 / 4',
    inputs: [
      input('yieldMpa', 'MPa', [1, 2000], 'yield strength'),
      input('wideMm', 'mm', [0.01, 10_000], 'width along the bend'),
      thick,
    ],
    result: { unit: 'N mm', text: 'moment' },
    source: 'plastic-moment',
    known: 'computed',
    example: { given: { yieldMpa: 159, wideMm: 50, thicknessMm: 1.2 }, gives: 2862, digits: 0 },
    evaluate: (g) => bendingMoment(g['yieldMpa']!, g['wideMm']!, g['thicknessMm']!),
  },
  {
    id: 'twist-pull',
    title: 'Pull at each corner that springs a flat plate into a twist',
    equation: 'P = E T^3 h / (6 (1 + nu) a b)',
    inputs: [
      input('stiffnessMpa', 'MPa', [1000, 400_000], "Young's modulus"),
      input('poisson', '-', [0, 0.49], "Poisson's ratio"),
      thick,
      input('liftMm', 'mm', [0, 1000], 'how far the fourth corner stands off the plane of the others'),
      input('longMm', 'mm', [1, 10_000], 'one side'),
      input('wideMm', 'mm', [1, 10_000], 'the other'),
    ],
    result: { unit: 'N', text: 'pull at each corner' },
    source: 'timoshenko-plates',
    known: 'from-memory',
    example: {
      given: { stiffnessMpa: 70_000, poisson: 0.33, thicknessMm: 1.2, liftMm: 30, longMm: 800, wideMm: 400 },
      gives: 1.42,
      digits: 2,
    },
    evaluate: (g) =>
      twistPull(g['stiffnessMpa']!, g['poisson']!, g['thicknessMm']!, g['liftMm']!, g['longMm']!, g['wideMm']!),
  },
  {
    id: 'twist-shear',
    title: 'Shear at the faces of a plate sprung into a twist',
    equation: 'tau = 3 P / T^2',
    inputs: [input('pullN', 'N', [0, 1e6], 'pull at each corner'), thick],
    result: { unit: 'MPa', text: 'shear' },
    source: 'timoshenko-plates',
    known: 'from-memory',
    example: { given: { pullN: 1.42, thicknessMm: 1.2 }, gives: 2.96, digits: 2 },
    evaluate: (g) => twistShear(g['pullN']!, g['thicknessMm']!),
  },
  {
    id: 'joggle-angle',
    title: 'Angle of the two bends of a joggle',
    equation: 'cos theta = 1 - s / (2R + T), at most the angle asked',
    inputs: [step, radius, thick, input('mostDeg', 'deg', [1, 89], 'steepest that is asked')],
    result: { unit: 'deg', text: 'angle of either bend' },
    source: 'geometry',
    known: 'computed',
    example: { given: { stepMm: 1.2, radiusMm: 3, thicknessMm: 1.2, mostDeg: 45 }, gives: 33.56, digits: 2 },
    evaluate: (g) => joggleAngle(g['stepMm']!, g['radiusMm']!, g['thicknessMm']!, g['mostDeg']!),
  },
  {
    id: 'joggle-slope',
    title: 'Straight between the two bends of a joggle',
    equation: 'L = (s - (2R + T)(1 - cos theta)) / sin theta',
    inputs: [step, radius, thick, input('turnDeg', 'deg', [1, 89], 'angle of either bend')],
    result: { unit: 'mm', text: 'straight along the sheet' },
    source: 'geometry',
    known: 'computed',
    example: { given: { stepMm: 6, radiusMm: 3, thicknessMm: 1.2, turnDeg: 45 }, gives: 5.5, digits: 1 },
    evaluate: (g) => joggleSlope(g['stepMm']!, g['radiusMm']!, g['thicknessMm']!, g['turnDeg']!),
  },
  {
    id: 'growth-with-heat',
    title: 'Growth of a length with heat',
    equation: 'dL = alpha L dT',
    inputs: [
      input('growthPerMk', '1e-6/K', [0, 40], 'growth of the metal'),
      input('lengthMm', 'mm', [0, 10_000], 'length from where it is held'),
      input('warmedByK', 'K', [-100, 1200], 'how much warmer'),
    ],
    result: { unit: 'mm', text: 'growth' },
    source: 'mil-hdbk-5',
    known: 'from-memory',
    example: { given: { growthPerMk: 23.6, lengthMm: 400, warmedByK: 60 }, gives: 0.566, digits: 3 },
    evaluate: (g) => growthWithHeat(g['growthPerMk']!, g['lengthMm']!, g['warmedByK']!),
  },
  ...strengthFormulas,
];
