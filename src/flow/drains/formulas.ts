import type { Formula } from '#sources';
import { of } from '../given.ts';
import { input, inputs } from '../losses/formula-row.ts';
import { laminarFullDrain, laminarPartFullRatio } from './laminar-part-full.ts';
import { manningFlow, turbulentDrainFlow } from './part-full.ts';

const area = input('areaM2', 'm2', [1e-8, 1], 'wetted area');
const hydraulic = input('hydraulicRadiusM', 'm', [1e-5, 0.5], 'wetted area over wetted wall');
const { bore, slope, density, viscosity } = inputs;
const flow = { unit: 'm3/s', text: 'flow' } as const;

/** The formulas of part-full drains, as the register lists them. */
export const drainFormulas: readonly Formula[] = [
  {
    id: 'drain-manning',
    title: 'Turbulent flow of water in a part-full channel',
    equation: 'Q = A R^(2/3) S^(1/2)/n',
    inputs: [area, hydraulic, slope, input('manning', 's/m^(1/3)', [0.009, 0.03], "Manning's roughness")],
    result: flow,
    source: 'manning-1891',
    known: 'second-hand',
    example: {
      given: { areaM2: 0.026592, hydraulicRadiusM: 0.060784, slope: 0.001, manning: 0.013 },
      gives: 0.01,
      digits: 5,
    },
    evaluate: (g) => manningFlow(of(g, 'areaM2'), of(g, 'hydraulicRadiusM'), of(g, 'slope'), of(g, 'manning')),
  },
  {
    id: 'drain-turbulent',
    title: 'Turbulent flow of any liquid in a part-full channel',
    equation: 'Q = -2 A w log10( e/(3.7 d) + 2.51 nu/(d w) ), d = 4 R, w = sqrt(2 g d S)',
    inputs: [
      area,
      hydraulic,
      slope,
      input('roughnessM', 'm', [0, 0.01], 'wall roughness'),
      input('kinematicM2S', 'm2/s', [1e-8, 0.01], 'kinematic viscosity'),
    ],
    result: flow,
    source: 'colebrook-1939',
    known: 'second-hand',
    example: {
      given: { areaM2: 1e-4, hydraulicRadiusM: 0.004, slope: 0.5, roughnessM: 3e-6, kinematicM2S: 1e-6 },
      gives: 2.654e-4,
      digits: 7,
    },
    evaluate: (g) =>
      turbulentDrainFlow(
        of(g, 'areaM2'),
        of(g, 'hydraulicRadiusM'),
        of(g, 'slope'),
        of(g, 'roughnessM'),
        of(g, 'kinematicM2S'),
      ),
  },
  {
    id: 'drain-laminar-ratio',
    title: 'Laminar flow in a part-full round pipe over that in the full pipe',
    equation:
      'ratio = 8 q/(pi r^4), q = int y^2 dA - pi int_0^inf k tanh(k t) F(k)^2 dk, F = r^2 sin t (k sin t cosh kt - cos t sinh kt)/sinh(k pi), t = acos(1 - 2 h/D)',
    inputs: [input('depthOverBore', '-', [0, 1], 'depth over bore')],
    result: { unit: '-', text: 'ratio' },
    source: 'part-full-laminar',
    known: 'computed',
    example: { given: { depthOverBore: 0.5 }, gives: 0.5, digits: 8 },
    evaluate: (g) => laminarPartFullRatio(of(g, 'depthOverBore')),
  },
  {
    id: 'drain-laminar-full',
    title: 'Laminar flow in a round pipe that runs full under its own weight',
    equation: 'Q = pi rho g D^4 sin(fall)/(128 mu)',
    inputs: [bore, slope, density, viscosity],
    result: flow,
    source: 'poiseuille-1840',
    known: 'computed',
    example: {
      given: { boreM: 0.0127, slope: 0.34202, densityKgM3: 845, viscosityPaS: 0.01 },
      gives: 1.8096e-4,
      digits: 8,
    },
    evaluate: (g) => laminarFullDrain(of(g, 'boreM'), of(g, 'slope'), of(g, 'densityKgM3'), of(g, 'viscosityPaS')),
  },
];
