import type { Formula } from '#sources';
import { of } from '../given.ts';
import { deliveredShare } from './delivered-share.ts';

/** Formulas of the driven lap, as the register lists them. */
export const lapFormulas: readonly Formula[] = [
  {
    id: 'aerated-pump-delivery',
    title: 'What reaches the pressure side when a pump takes in oil and air',
    equation: 'k = (1 - a) + a p1/p2',
    inputs: [
      { name: 'voidAtInlet', unit: '-', range: [0, 1], text: 'air by volume at the inlet' },
      { name: 'inletAbsPa', unit: 'Pa', range: [1e3, 1e6], text: 'absolute pressure at the inlet' },
      { name: 'outletAbsPa', unit: 'Pa', range: [1e3, 1e8], text: 'absolute pressure behind the pump' },
    ],
    result: { unit: '-', text: 'volume behind the pump over volume at its inlet' },
    source: 'boyle-henry',
    known: 'computed',
    example: { given: { voidAtInlet: 0.5, inletAbsPa: 101325, outletAbsPa: 506625 }, gives: 0.6, digits: 6 },
    evaluate: (g) => deliveredShare(of(g, 'voidAtInlet'), of(g, 'inletAbsPa'), of(g, 'outletAbsPa')),
  },
];
