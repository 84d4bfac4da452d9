import type { Formula } from '#sources';
import { conicalExpansion, roundedEntrance, suddenContraction, suddenExpansion } from './bore-steps.ts';
import { threeConstantLossCoefficient, twoConstantLossCoefficient } from './fitting-coefficients.ts';
import { of } from '../given.ts';
import { input, inputs } from './formula-row.ts';
import { frictionFormulas } from './friction-formulas.ts';
import { boreReynolds, lineVelocity, lineVolume } from './line-figures.ts';
import {
  orificePlateFlow,
  plateDischargeCoefficient,
  plateExpansibility,
  plateLostShare,
  reliefArea,
  reliefViscosityFactor,
  restrictorFlow,
} from './orifice-flow.ts';
import { screenLossCoefficient } from './screen-loss.ts';

const coefficient = { unit: '-', text: 'loss coefficient on the velocity head in the smaller bore' } as const;
const { reynolds, flow, bore, length, density, viscosity, drop, share, discharge } = inputs;

const fittingFormulas: readonly Formula[] = [
  {
    id: 'fitting-two-constants',
    title: 'Loss coefficient of a fitting by two constants',
    equation: 'K = K1/Re + Kinf (1 + 1/D)',
    inputs: [
      input('k1', '-', [0, 5000], 'slow constant'),
      input('kInf', '-', [0, 10], 'fast constant'),
      input('boreIn', 'in', [0.5, 24], 'bore'),
      reynolds,
    ],
    result: coefficient,
    source: 'hooper-1981',
    known: 'second-hand',
    example: { given: { k1: 1500, kInf: 4, boreIn: 2, reynolds: 1e4 }, gives: 6.15, digits: 4 },
    evaluate: (g) => twoConstantLossCoefficient(of(g, 'k1'), of(g, 'kInf'), of(g, 'boreIn'), of(g, 'reynolds')),
  },
  {
    id: 'fitting-three-constants',
    title: 'Loss coefficient of a fitting by three constants',
    equation: 'K = K1/Re + Ki (1 + Kd/Dn^0.3)',
    inputs: [
      input('k1', '-', [0, 5000], 'slow constant'),
      input('ki', '-', [0, 10], 'fast constant'),
      input('kd', 'in^0.3', [0, 10], 'constant of size'),
      input('nominalIn', 'in', [0.5, 24], 'nominal diameter'),
      reynolds,
    ],
    result: coefficient,
    source: 'darby-1999',
    known: 'second-hand',
    example: { given: { k1: 950, ki: 0.25, kd: 4, nominalIn: 2, reynolds: 1e4 }, gives: 1.1573, digits: 4 },
    evaluate: (g) =>
      threeConstantLossCoefficient(of(g, 'k1'), of(g, 'ki'), of(g, 'kd'), of(g, 'nominalIn'), of(g, 'reynolds')),
  },
  {
    id: 'sudden-expansion',
    title: 'Loss of a sudden step to a wider bore',
    equation: 'K = (1 - (d/D)^2)^2',
    inputs: [share],
    result: coefficient,
    source: 'borda-carnot',
    known: 'computed',
    example: { given: { smallOverLarge: 0.5 }, gives: 0.5625, digits: 4 },
    evaluate: (g) => suddenExpansion(of(g, 'smallOverLarge')),
  },
  {
    id: 'sudden-contraction',
    title: 'Loss of a sudden step to a narrower bore',
    equation: 'K = 0.5 (1 - (d/D)^2)',
    inputs: [share],
    result: coefficient,
    source: 'tp-410',
    known: 'second-hand',
    example: { given: { smallOverLarge: 0.4 }, gives: 0.42, digits: 4 },
    evaluate: (g) => suddenContraction(of(g, 'smallOverLarge')),
  },
  {
    id: 'conical-expansion',
    title: 'Loss of a conical widening',
    equation: 'K = 2.6 sin(t/2) (1 - (d/D)^2)^2 below 45 deg, (1 - (d/D)^2)^2 from there on',
    inputs: [share, input('includedAngleDeg', 'deg', [1, 180], 'full angle of the cone')],
    result: coefficient,
    source: 'tp-410',
    known: 'second-hand',
    example: { given: { smallOverLarge: 0.5, includedAngleDeg: 15 }, gives: 0.1909, digits: 4 },
    evaluate: (g) => conicalExpansion(of(g, 'smallOverLarge'), of(g, 'includedAngleDeg')),
  },
  {
    id: 'rounded-entrance',
    title: 'Loss of an entrance with a rounded edge',
    equation: 'K = 0.5/(1 + 36 (r/D)^1.2)',
    inputs: [input('edgeOverBore', '-', [0, 1], 'radius of the edge over bore')],
    result: coefficient,
    source: 'swamee-entrance',
    known: 'second-hand',
    example: { given: { edgeOverBore: 0.1 }, gives: 0.1528, digits: 4 },
    evaluate: (g) => roundedEntrance(of(g, 'edgeOverBore')),
  },
  {
    id: 'screen-loss',
    title: 'Loss of a screen of round wire in fast flow',
    equation: 'K = 1.3 (1 - s) + (1/s - 1)^2',
    inputs: [input('openShare', '-', [0.1, 1], 'open share of the area')],
    result: { unit: '-', text: 'loss coefficient on the velocity head before the screen' },
    source: 'idelchik-handbook',
    known: 'from-memory',
    example: { given: { openShare: 0.5 }, gives: 1.65, digits: 4 },
    evaluate: (g) => screenLossCoefficient(of(g, 'openShare')),
  },
];

const holeFormulas: readonly Formula[] = [
  {
    id: 'restrictor-flow',
    title: 'Flow through a restrictor of a stated discharge coefficient',
    equation: 'Q = Cd A sqrt(2 dp/rho)',
    inputs: [bore, drop, density, discharge],
    result: { unit: 'm3/s', text: 'flow' },
    source: 'geometry',
    known: 'computed',
    example: {
      given: { boreM: 0.0015, dropPa: 4e5, densityKgM3: 850, discharge: 0.62 },
      gives: 3.3612e-5,
      digits: 8,
    },
    evaluate: (g) => restrictorFlow(of(g, 'boreM'), of(g, 'dropPa'), of(g, 'densityKgM3'), of(g, 'discharge')),
  },
  {
    id: 'orifice-plate-flow',
    title: 'Flow through an orifice plate in a pipe, from the drop between its taps',
    equation: 'Q = C A sqrt(2 dp/rho)/sqrt(1 - (d/D)^4)',
    inputs: [bore, { ...bore, name: 'pipeBoreM', text: 'bore of the pipe' }, drop, density, discharge],
    result: { unit: 'm3/s', text: 'flow' },
    source: 'iso-5167-2-2003',
    known: 'second-hand',
    example: {
      given: { boreM: 0.03, pipeBoreM: 0.04, dropPa: 13823.4, densityKgM3: 788.4, discharge: 0.61 },
      gives: 0.003088,
      digits: 6,
    },
    evaluate: (g) =>
      orificePlateFlow(of(g, 'boreM'), of(g, 'pipeBoreM'), of(g, 'dropPa'), of(g, 'densityKgM3'), of(g, 'discharge')),
  },
  {
    id: 'orifice-plate-coefficient',
    title: 'Discharge coefficient of an orifice plate with corner taps',
    equation:
      'C = 0.5961 + 0.0261 b^2 - 0.216 b^8 + 0.000521 (1e6 b/Re)^0.7 + (0.0188 + 0.0063 A) b^3.5 (1e6/Re)^0.3, A = (19000 b/Re)^0.8, and 0.011 (0.75 - b)(2.8 - D/25.4 mm) below 71.12 mm',
    inputs: [
      { ...bore, range: [0.0125, 0.5] },
      { ...bore, name: 'pipeBoreM', range: [0.05, 1], text: 'bore of the pipe' },
      { ...reynolds, range: [5000, 1e8] },
    ],
    result: { unit: '-', text: 'discharge coefficient' },
    source: 'iso-5167-2-2003',
    known: 'second-hand',
    example: { given: { boreM: 0.0222, pipeBoreM: 0.07391, reynolds: 115329 }, gives: 0.60001, digits: 5 },
    evaluate: (g) => plateDischargeCoefficient(of(g, 'boreM'), of(g, 'pipeBoreM'), of(g, 'reynolds'), 'corner'),
  },
  {
    id: 'orifice-plate-expansibility',
    title: 'How much less a gas flows through an orifice plate because it expands',
    equation: 'e = 1 - (0.351 + 0.256 b^4 + 0.93 b^8) (1 - (p2/p1)^(1/k))',
    inputs: [
      input('boreOverPipe', '-', [0.1, 0.75], 'bore of the plate over that of the pipe'),
      input('pressureRatio', '-', [0.75, 1], 'absolute pressure behind over that before'),
      input('isentropic', '-', [1, 1.7], 'ratio of specific heats'),
    ],
    result: { unit: '-', text: 'factor on the flow' },
    source: 'iso-5167-2-2003',
    known: 'second-hand',
    example: { given: { boreOverPipe: 0.5, pressureRatio: 0.9, isentropic: 1.4 }, gives: 0.9731, digits: 4 },
    evaluate: (g) => plateExpansibility(of(g, 'boreOverPipe'), of(g, 'pressureRatio'), of(g, 'isentropic')),
  },
  {
    id: 'orifice-plate-lost-share',
    title: "Share of an orifice plate's drop that is lost for good",
    equation: 'w = (r - C b^2)/(r + C b^2), r = sqrt(1 - b^4 (1 - C^2))',
    inputs: [input('boreOverPipe', '-', [0.1, 0.75], 'bore of the plate over that of the pipe'), discharge],
    result: { unit: '-', text: 'lost share' },
    source: 'iso-5167-2-2003',
    known: 'second-hand',
    example: { given: { boreOverPipe: 0.5, discharge: 0.61 }, gives: 0.7307, digits: 4 },
    evaluate: (g) => plateLostShare(of(g, 'boreOverPipe'), of(g, 'discharge')),
  },
  {
    id: 'relief-viscosity-factor',
    title: 'How much less a relief valve passes in a thick liquid',
    equation: 'Kv = 1/(0.9935 + 2.878/Re^0.5 + 342.75/Re^1.5)',
    inputs: [{ ...reynolds, range: [30, 1e6] }],
    result: { unit: '-', text: 'factor on the flow' },
    source: 'api-520',
    known: 'second-hand',
    example: { given: { reynolds: 4525 }, gives: 0.963939, digits: 6 },
    evaluate: (g) => reliefViscosityFactor(of(g, 'reynolds')),
  },
  {
    id: 'relief-area',
    title: 'Area that a certified liquid relief valve needs',
    equation: 'A = Q/(Kd Kw Kv sqrt(2 dp/rho))',
    inputs: [
      flow,
      drop,
      density,
      discharge,
      input('backPressureFactor', '-', [0.5, 1], 'Kw, 1 without bellows'),
      input('viscosityFactor', '-', [0.1, 1], 'Kv'),
    ],
    result: { unit: 'm2', text: 'area' },
    source: 'api-520',
    known: 'second-hand',
    example: {
      given: {
        flowM3S: 0.001,
        dropPa: 6e5,
        densityKgM3: 850,
        discharge: 0.65,
        backPressureFactor: 1,
        viscosityFactor: 1,
      },
      gives: 4.0945e-5,
      digits: 9,
    },
    evaluate: (g) =>
      reliefArea(
        of(g, 'flowM3S'),
        of(g, 'dropPa'),
        of(g, 'densityKgM3'),
        of(g, 'discharge'),
        of(g, 'backPressureFactor'),
        of(g, 'viscosityFactor'),
      ),
  },
];

const lineFormulas: readonly Formula[] = [
  {
    id: 'line-velocity',
    title: 'Mean velocity in a round bore',
    equation: 'V = 4 Q/(pi D^2)',
    inputs: [flow, bore],
    result: { unit: 'm/s', text: 'velocity' },
    source: 'continuity',
    known: 'computed',
    example: { given: { flowM3S: 0.001, boreM: 0.02 }, gives: 3.183, digits: 3 },
    evaluate: (g) => lineVelocity(of(g, 'flowM3S'), of(g, 'boreM')),
  },
  {
    id: 'line-volume',
    title: 'Liquid in a hose or tube',
    equation: 'V = pi D^2 L/4',
    inputs: [bore, length],
    result: { unit: 'm3', text: 'volume' },
    source: 'geometry',
    known: 'computed',
    example: { given: { boreM: 0.0111, lengthM: 1.25 }, gives: 1.2096e-4, digits: 8 },
    evaluate: (g) => lineVolume(of(g, 'boreM'), of(g, 'lengthM')),
  },
  {
    id: 'bore-reynolds',
    title: 'Reynolds number in a round bore',
    equation: 'Re = 4 rho Q/(pi D mu)',
    inputs: [flow, bore, density, viscosity],
    result: { unit: '-', text: 'Reynolds number' },
    source: 'continuity',
    known: 'computed',
    example: { given: { flowM3S: 0.001, boreM: 0.02, densityKgM3: 850, viscosityPaS: 0.01 }, gives: 5411, digits: 0 },
    evaluate: (g) => boreReynolds(of(g, 'flowM3S'), of(g, 'boreM'), of(g, 'densityKgM3'), of(g, 'viscosityPaS')),
  },
];

/** The formulas of losses, as the register lists them. */
export const lossFormulas: readonly Formula[] = [
  ...frictionFormulas,
  ...fittingFormulas,
  ...holeFormulas,
  ...lineFormulas,
];
