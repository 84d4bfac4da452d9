import type { Formula } from '#sources';
import { waterLatentHeat } from './latent-heat.ts';

export const boilingFormula: Formula = {
  id: 'water-latent-heat',
  title: 'Heat that boils water away',
  equation: 'L = R T^2/p dp/dT',
  source: 'iapws-if97',
  known: 'computed',
  result: { unit: 'J/kg', text: 'latent heat' },
  inputs: [{ name: 'temperatureC', unit: 'degC', range: [1, 180], text: 'at which it boils' }],
  example: { given: { temperatureC: 100 }, gives: 2_293_294, digits: 0 },
  evaluate: (g) => waterLatentHeat(g['temperatureC']!),
};
