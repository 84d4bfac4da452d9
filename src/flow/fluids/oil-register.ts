import type { Formula } from '#sources';
import { of } from '../given.ts';
import { oilConductivity, oilDensity, oilSpecificHeat } from './engine-oil.ts';
import { viscosityAt40, viscosityIndex } from './viscosity-index.ts';
import { viscosityBetween } from './walther.ts';

const oilC = { name: 'temperatureC', unit: 'degC', range: [-40, 160], text: 'temperature of the oil' } as const;
const at100 = { name: 'at100CSt', unit: 'mm2/s', range: [2, 70], text: 'viscosity at 100 degC' } as const;

/** The formulas of engine oil, as the register lists them. */
export const oilFormulas: readonly Formula[] = [
  {
    id: 'oil-viscosity-between',
    title: 'Viscosity of oil between two measured points',
    equation: 'log10 log10 Z = A - B log10 T, Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2)',
    inputs: [
      oilC,
      { name: 'firstC', unit: 'degC', range: [-40, 160], text: 'temperature of the first point' },
      { name: 'firstCSt', unit: 'mm2/s', range: [0.21, 2e7], text: 'viscosity there' },
      { name: 'secondC', unit: 'degC', range: [-40, 160], text: 'temperature of the second point' },
      { name: 'secondCSt', unit: 'mm2/s', range: [0.21, 2e7], text: 'viscosity there' },
    ],
    result: { unit: 'mm2/s', text: 'kinematic viscosity' },
    source: 'astm-d341',
    known: 'second-hand',
    example: {
      given: { temperatureC: 60, firstC: 40, firstCSt: 100, secondC: 100, secondCSt: 14 },
      gives: 44.51,
      digits: 2,
    },
    evaluate: (g) =>
      viscosityBetween(of(g, 'temperatureC'), of(g, 'firstC'), of(g, 'firstCSt'), of(g, 'secondC'), of(g, 'secondCSt')),
  },
  {
    id: 'viscosity-index',
    title: 'Viscosity index',
    equation: 'VI = 100 (L - U)/(L - H); above 100: 100 + (10^N - 1)/0.00715, N = log(H/U)/log(Y)',
    inputs: [{ name: 'at40CSt', unit: 'mm2/s', range: [2.01, 5000], text: 'viscosity at 40 degC' }, at100],
    result: { unit: '-', text: 'viscosity index' },
    source: 'astm-d2270',
    known: 'second-hand',
    example: { given: { at40CSt: 73.3, at100CSt: 8.86 }, gives: 92, digits: 0 },
    evaluate: (g) => viscosityIndex(of(g, 'at40CSt'), of(g, 'at100CSt')),
  },
  {
    id: 'viscosity-at-40',
    title: 'Viscosity at 40 degC from the viscosity index',
    equation: 'U = L - VI (L - H)/100; above 100: U = H/Y^log10(1 + 0.00715 (VI - 100))',
    inputs: [at100, { name: 'index', unit: '-', range: [0, 400], text: 'viscosity index' }],
    result: { unit: 'mm2/s', text: 'kinematic viscosity at 40 degC' },
    source: 'astm-d2270',
    known: 'second-hand',
    example: { given: { at100CSt: 8.86, index: 92.43 }, gives: 73.3, digits: 1 },
    evaluate: (g) => viscosityAt40(of(g, 'at100CSt'), of(g, 'index')),
  },
  {
    id: 'oil-density',
    title: 'Density of lubricating oil',
    equation: 'rho = rho15 exp(-a dT (1 + 0.8 a dT)), a = 0.6278/rho15, dT = T - 15',
    inputs: [oilC, { name: 'densityAt15KgM3', unit: 'kg/m3', range: [800, 1164], text: 'density at 15 degC' }],
    result: { unit: 'kg/m3', text: 'density' },
    source: 'api-mpms-11-1',
    known: 'second-hand',
    example: { given: { temperatureC: 100, densityAt15KgM3: 870 }, gives: 815.8, digits: 1 },
    evaluate: (g) => oilDensity(of(g, 'temperatureC'), of(g, 'densityAt15KgM3')),
  },
  {
    id: 'oil-specific-heat',
    title: 'Specific heat of engine oil',
    equation: 'c = table A.5 at T, straight between its rows',
    inputs: [oilC],
    result: { unit: 'J/(kg K)', text: 'specific heat' },
    source: 'heat-transfer-a5',
    known: 'second-hand',
    example: { given: { temperatureC: 96.85 }, gives: 2206, digits: 0 },
    evaluate: (g) => oilSpecificHeat(of(g, 'temperatureC')),
  },
  {
    id: 'oil-conductivity',
    title: 'Thermal conductivity of engine oil',
    equation: 'k = table A.5 at T, straight between its rows',
    inputs: [oilC],
    result: { unit: 'W/(m K)', text: 'thermal conductivity' },
    source: 'heat-transfer-a5',
    known: 'second-hand',
    example: { given: { temperatureC: 96.85 }, gives: 0.137, digits: 3 },
    evaluate: (g) => oilConductivity(of(g, 'temperatureC')),
  },
];
