import type { Formula } from '#sources';
import { of } from '../given.ts';
import { input, inputs } from './formula-row.ts';
import {
  allRegimeFrictionFactor,
  blasiusFrictionFactor,
  colebrookFrictionFactor,
  haalandFrictionFactor,
  laminarFrictionFactor,
  swameeJainFrictionFactor,
} from './friction-factor.ts';
import { laminarDrop } from './line-figures.ts';
import { curvedLaminarRatio, singleBendFactor, smoothBendLossCoefficient } from './smooth-bend.ts';

const factor = { unit: '-', text: 'Darcy friction factor, four times the Fanning one' } as const;
const { reynolds, rough, flow, bore, length, viscosity } = inputs;
const turbulent = { ...reynolds, range: [4000, 1e8] } as const;
const angle = input('angleDeg', 'deg', [1, 360], 'angle bent through');
const radius = input('radiusOverBore', '-', [1, 50], 'centreline radius over bore');

/** The formulas of friction and bends, as the register lists them. */
export const frictionFormulas: readonly Formula[] = [
  {
    id: 'friction-laminar',
    title: 'Friction factor of laminar flow in a round bore',
    equation: 'f = 64/Re',
    inputs: [{ ...reynolds, range: [1e-3, 2000] }],
    result: factor,
    source: 'poiseuille-1840',
    known: 'computed',
    example: { given: { reynolds: 128 }, gives: 0.5, digits: 6 },
    evaluate: (g) => laminarFrictionFactor(of(g, 'reynolds')),
  },
  {
    id: 'friction-all-regimes',
    title: 'Friction factor from laminar to turbulent; uncertain between Reynolds 2000 and 4000',
    equation: 'f = 8 ( (8/Re)^12 + (A + B)^-1.5 )^(1/12), A = (-2.457 ln((7/Re)^0.9 + 0.27 e/D))^16, B = (37530/Re)^16',
    inputs: [reynolds, rough],
    result: factor,
    source: 'churchill-1977',
    known: 'second-hand',
    example: { given: { reynolds: 1e5, relativeRoughness: 1e-4 }, gives: 0.018463, digits: 6 },
    evaluate: (g) => allRegimeFrictionFactor(of(g, 'reynolds'), of(g, 'relativeRoughness')),
  },
  {
    id: 'friction-colebrook',
    title: 'Friction factor of turbulent flow by the implicit rough-pipe law',
    equation: '1/sqrt(f) = -2 log10( (e/D)/3.7 + 2.51/(Re sqrt(f)) )',
    inputs: [turbulent, rough],
    result: factor,
    source: 'colebrook-1939',
    known: 'second-hand',
    example: { given: { reynolds: 1e5, relativeRoughness: 1e-4 }, gives: 0.018514, digits: 6 },
    evaluate: (g) => colebrookFrictionFactor(of(g, 'reynolds'), of(g, 'relativeRoughness')),
  },
  {
    id: 'friction-haaland',
    title: 'Friction factor of turbulent flow, explicit',
    equation: '1/sqrt(f) = -1.8 log10( ((e/D)/3.7)^1.11 + 6.9/Re )',
    inputs: [turbulent, rough],
    result: factor,
    source: 'haaland-1983',
    known: 'second-hand',
    example: { given: { reynolds: 1e5, relativeRoughness: 1e-4 }, gives: 0.018265, digits: 6 },
    evaluate: (g) => haalandFrictionFactor(of(g, 'reynolds'), of(g, 'relativeRoughness')),
  },
  {
    id: 'friction-swamee-jain',
    title: 'Friction factor of turbulent flow, explicit, as many published networks have it',
    equation: '1/sqrt(f) = -2 log10( (e/D)/3.7 + (6.97/Re)^0.9 )',
    inputs: [turbulent, rough],
    result: factor,
    source: 'swamee-jain-1976',
    known: 'second-hand',
    example: { given: { reynolds: 1e5, relativeRoughness: 1e-4 }, gives: 0.018452, digits: 6 },
    evaluate: (g) => swameeJainFrictionFactor(of(g, 'reynolds'), of(g, 'relativeRoughness')),
  },
  {
    id: 'friction-blasius',
    title: 'Friction factor of turbulent flow in a smooth bore',
    equation: 'f = 0.3164/Re^0.25',
    inputs: [{ ...reynolds, range: [4000, 1e5] }],
    result: factor,
    source: 'blasius-1913',
    known: 'second-hand',
    example: { given: { reynolds: 1e4 }, gives: 0.03164, digits: 5 },
    evaluate: (g) => blasiusFrictionFactor(of(g, 'reynolds')),
  },
  {
    id: 'laminar-drop',
    title: 'Drop of laminar flow along a straight round bore',
    equation: 'dp = 128 mu L Q/(pi D^4)',
    inputs: [flow, bore, length, viscosity],
    result: { unit: 'Pa', text: 'drop of pressure' },
    source: 'poiseuille-1840',
    known: 'computed',
    example: { given: { flowM3S: 1e-4, boreM: 0.01, lengthM: 1, viscosityPaS: 0.1 }, gives: 40743.7, digits: 1 },
    evaluate: (g) => laminarDrop(of(g, 'flowM3S'), of(g, 'boreM'), of(g, 'lengthM'), of(g, 'viscosityPaS')),
  },
  {
    id: 'bend-single-factor',
    title: 'Loss of a single smooth bend over that of an endless coil',
    equation: 'a(45) = 1 + 5.13 (D/R)^1.47, a(90) = 0.95 + 4.42 (D/R)^1.96, a(180) = 1 + 5.06 (D/R)^4.52',
    inputs: [angle, radius],
    result: { unit: '-', text: 'factor' },
    source: 'ito-1960',
    known: 'second-hand',
    example: { given: { angleDeg: 90, radiusOverBore: 2 }, gives: 2.086, digits: 3 },
    evaluate: (g) => singleBendFactor(of(g, 'angleDeg'), of(g, 'radiusOverBore')),
  },
  {
    id: 'bend-loss',
    title: 'Whole loss of a smooth bend in turbulent flow, its own friction counted in',
    equation: 'K = 0.00431 a angle Re^-0.17 (R/D)^0.84',
    inputs: [angle, radius, { ...reynolds, range: [2e4, 4e5] }],
    result: { unit: '-', text: 'loss coefficient on the velocity head' },
    source: 'ito-1960',
    known: 'second-hand',
    example: { given: { angleDeg: 90, radiusOverBore: 2, reynolds: 1e5 }, gives: 0.2046, digits: 4 },
    evaluate: (g) => smoothBendLossCoefficient(of(g, 'angleDeg'), of(g, 'radiusOverBore'), of(g, 'reynolds')),
  },
  {
    id: 'bend-laminar-ratio',
    title: 'Laminar friction of a curved bore over that of a straight one',
    equation: 'f_c/f_s = 1 + 0.033 (log10 De)^4, De = Re sqrt(D/(2R))',
    inputs: [input('dean', '-', [0, 3000], 'Dean number')],
    result: { unit: '-', text: 'ratio' },
    source: 'mishra-gupta-1979',
    known: 'from-memory',
    example: { given: { dean: 300 }, gives: 2.24, digits: 2 },
    evaluate: (g) => curvedLaminarRatio(of(g, 'dean')),
  },
];
