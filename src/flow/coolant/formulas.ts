import type { Formula } from '#sources';
import { of } from '../given.ts';
import { input, inputs } from '../losses/formula-row.ts';
import {
  counterFlowEffectiveness,
  crossFlowEffectiveness,
  crossFlowEffectivenessShort,
  crossFlowMixedEffectiveness,
  parallelFlowEffectiveness,
} from './effectiveness.ts';
import { coreConductance } from './radiator.ts';
import { laminarSiphonFlow } from './thermosiphon.ts';

const units = input('ntu', '-', [0, 200], 'transfer units, UA over the lesser capacity');
const ratio = input('capacityRatio', '-', [0, 1], 'lesser capacity over the greater');
const someRatio = input('capacityRatio', '-', [1e-6, 1], 'lesser capacity over the greater');
const effectiveness = { unit: '-', text: 'heat over the most that could be' };
const arrangement = { inputs: [units, ratio], result: effectiveness, known: 'second-hand' } as const;

/** The formulas of radiators and of water that runs by itself, as the register lists them. */
export const coolantFormulas: readonly Formula[] = [
  {
    ...arrangement,
    id: 'cross-flow-effectiveness',
    title: 'Effectiveness of a cross-flow core, neither stream mixed',
    equation: 'eff = 1/(Cr N) sum_n [1 - e^-N sum_(m<=n) N^m/m!] [1 - e^(-Cr N) sum_(m<=n) (Cr N)^m/m!]',
    source: 'mason-1955',
    example: { given: { ntu: 2, capacityRatio: 0.75 }, gives: 0.67108, digits: 4 },
    evaluate: (g) => crossFlowEffectiveness(of(g, 'ntu'), of(g, 'capacityRatio')),
  },
  {
    ...arrangement,
    id: 'cross-flow-effectiveness-short',
    title: 'The same, short form; a check',
    equation: 'eff = 1 - exp(N^0.22/Cr (exp(-Cr N^0.78) - 1))',
    inputs: [units, someRatio],
    source: 'heat-exchanger-handbook',
    example: { given: { ntu: 2, capacityRatio: 0.75 }, gives: 0.6752, digits: 4 },
    evaluate: (g) => crossFlowEffectivenessShort(of(g, 'ntu'), of(g, 'capacityRatio')),
  },
  {
    ...arrangement,
    id: 'counter-flow-effectiveness',
    title: 'Effectiveness of counterflow',
    equation: 'eff = (1 - e^(-N (1 - Cr)))/(1 - Cr e^(-N (1 - Cr)))',
    source: 'heat-exchanger-handbook',
    example: { given: { ntu: 3, capacityRatio: 1 }, gives: 0.75, digits: 6 },
    evaluate: (g) => counterFlowEffectiveness(of(g, 'ntu'), of(g, 'capacityRatio')),
  },
  {
    ...arrangement,
    id: 'parallel-flow-effectiveness',
    title: 'Effectiveness of parallel flow',
    equation: 'eff = (1 - e^(-N (1 + Cr)))/(1 + Cr)',
    source: 'heat-exchanger-handbook',
    example: { given: { ntu: 3, capacityRatio: 1 }, gives: 0.49876, digits: 5 },
    evaluate: (g) => parallelFlowEffectiveness(of(g, 'ntu'), of(g, 'capacityRatio')),
  },
  {
    ...arrangement,
    id: 'cross-flow-effectiveness-greater-mixed',
    title: 'Effectiveness of cross-flow, the stream of greater capacity mixed',
    equation: 'eff = (1 - e^(-Cr (1 - e^-N)))/Cr',
    inputs: [units, someRatio],
    source: 'heat-exchanger-handbook',
    example: { given: { ntu: 2, capacityRatio: 0.75 }, gives: 0.63623, digits: 4 },
    evaluate: (g) => crossFlowMixedEffectiveness(of(g, 'ntu'), of(g, 'capacityRatio'), 'greater'),
  },
  {
    ...arrangement,
    id: 'cross-flow-effectiveness-lesser-mixed',
    title: 'Effectiveness of cross-flow, the stream of lesser capacity mixed',
    equation: 'eff = 1 - e^(-(1 - e^(-Cr N))/Cr)',
    inputs: [units, someRatio],
    source: 'heat-exchanger-handbook',
    example: { given: { ntu: 2, capacityRatio: 0.75 }, gives: 0.64507, digits: 4 },
    evaluate: (g) => crossFlowMixedEffectiveness(of(g, 'ntu'), of(g, 'capacityRatio'), 'lesser'),
  },
  {
    id: 'core-conductance',
    title: 'Conductance of a core away from its measured point',
    equation: '1/UA = (0.8 (v0/v)^0.6 + 0.2 (Q0/Q)^0.8)/UA0',
    inputs: [
      input('uaWPerK', 'W/K', [1, 1e5], 'at the measured point'),
      input('airRatio', '-', [0.05, 20], 'air speed over the measured'),
      input('flowRatio', '-', [0.05, 20], 'water flow over the measured'),
    ],
    result: { unit: 'W/K', text: 'conductance' },
    source: 'from-memory',
    known: 'from-memory',
    example: { given: { uaWPerK: 3000, airRatio: 0.5, flowRatio: 1 }, gives: 2123.784, digits: 2 },
    evaluate: (g) => coreConductance(of(g, 'uaWPerK'), of(g, 'airRatio'), of(g, 'flowRatio')),
  },
  {
    id: 'laminar-thermosiphon',
    title: 'Flow that warmth drives round a laminar loop',
    equation: 'Q = (rho_cold - rho_hot) g H pi D^4/(128 mu L)',
    inputs: [
      input('densityGapKgM3', 'kg/m3', [0, 200], 'cold less hot'),
      input('heightM', 'm', [0, 5], 'of the hot leg'),
      inputs.bore,
      inputs.length,
      inputs.viscosity,
    ],
    result: { unit: 'm3/s', text: 'flow' },
    source: 'poiseuille-1840',
    known: 'computed',
    example: {
      given: { densityGapKgM3: 10, heightM: 0.4, boreM: 0.008, lengthM: 3, viscosityPaS: 0.0005 },
      gives: 2.628992e-6,
      digits: 11,
    },
    evaluate: (g) =>
      laminarSiphonFlow(
        of(g, 'densityGapKgM3'),
        of(g, 'heightM'),
        of(g, 'boreM'),
        of(g, 'lengthM'),
        of(g, 'viscosityPaS'),
      ),
  },
];
