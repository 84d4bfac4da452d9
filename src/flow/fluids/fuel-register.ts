import type { Formula } from '#sources';
import { of } from '../given.ts';
import {
  blendConductivity,
  blendDensity,
  blendSpecificHeat,
  blendVapourPressure,
  blendViscosity,
} from './fuel-blend.ts';
import { ethanolVapourPressure, petrolVapourPressure } from './fuel-liquids.ts';

const fuelC = { name: 'temperatureC', unit: 'degC', range: [-30, 80], text: 'temperature of the fuel' } as const;
const ethanol = { name: 'ethanolFraction', unit: '-', range: [0, 1], text: 'ethanol by volume' } as const;

/** The formulas of petrol and ethanol, as the register lists them. */
export const fuelFormulas: readonly Formula[] = [
  {
    id: 'petrol-vapour-pressure',
    title: 'True vapour pressure of motor petrol',
    equation:
      'ln P = A - B/T, A = 15.64 - 1.854 S^0.5 - (0.8742 - 0.328 S^0.5) ln R, B = 8742 - 1042 S^0.5 - (1049 - 179.4 S^0.5) ln R; psi, degR, S = 3',
    inputs: [fuelC, { name: 'reidKpa', unit: 'kPa', range: [20, 110], text: 'Reid vapour pressure, at 37.8 degC' }],
    result: { unit: 'Pa', text: 'absolute pressure' },
    source: 'epa-ap-42-7-1',
    known: 'second-hand',
    example: { given: { temperatureC: 15.556, reidKpa: 68.948 }, gives: 35755, digits: 0 },
    evaluate: (g) => petrolVapourPressure(of(g, 'temperatureC'), of(g, 'reidKpa')),
  },
  {
    id: 'ethanol-vapour-pressure',
    title: 'Vapour pressure of ethanol',
    equation: 'log10 p = 8.247 - 1670.4/(T + 232.96), p in mm of mercury, T in degC',
    inputs: [fuelC],
    result: { unit: 'Pa', text: 'absolute pressure' },
    source: 'epa-ap-42-7-1',
    known: 'second-hand',
    example: { given: { temperatureC: 78.3 }, gives: 101234, digits: 0 },
    evaluate: (g) => ethanolVapourPressure(of(g, 'temperatureC')),
  },
  {
    id: 'blend-vapour-pressure',
    title: 'Vapour pressure of a petrol and ethanol blend',
    equation: 'p = P(T)^(1-e) (P(37.8) E(T)/E(37.8))^e, P of petrol of this Reid pressure, E of ethanol',
    inputs: [
      fuelC,
      ethanol,
      { name: 'reidKpa', unit: 'kPa', range: [10, 110], text: 'Reid vapour pressure of the blend' },
    ],
    result: { unit: 'Pa', text: 'absolute pressure' },
    source: 'epa-ap-42-7-1',
    known: 'second-hand',
    example: { given: { temperatureC: 37.778, ethanolFraction: 0, reidKpa: 68.948 }, gives: 73477, digits: 0 },
    evaluate: (g) => blendVapourPressure(of(g, 'temperatureC'), of(g, 'ethanolFraction'), of(g, 'reidKpa')),
  },
  {
    id: 'blend-density',
    title: 'Density of a petrol and ethanol blend',
    equation: 'rho = rho15 (e rho_e(T) + (1 - e) rho_p(T))/(e rho_e(15) + (1 - e) 745)',
    inputs: [
      fuelC,
      ethanol,
      { name: 'densityAt15KgM3', unit: 'kg/m3', range: [650, 850], text: 'density of the blend at 15 degC' },
    ],
    result: { unit: 'kg/m3', text: 'density' },
    source: 'api-mpms-11-1',
    known: 'second-hand',
    example: { given: { temperatureC: 40, ethanolFraction: 0.1, densityAt15KgM3: 750 }, gives: 727.2, digits: 1 },
    evaluate: (g) => blendDensity(of(g, 'temperatureC'), of(g, 'ethanolFraction'), of(g, 'densityAt15KgM3')),
  },
  {
    id: 'blend-viscosity',
    title: 'Viscosity of a petrol and ethanol blend',
    equation: 'ln mu = e ln mu_ethanol(T) + (1 - e) ln mu_iso-octane(T)',
    inputs: [fuelC, ethanol],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'perry-liquids',
    known: 'second-hand',
    example: { given: { temperatureC: 20, ethanolFraction: 0.1 }, gives: 0.00055, digits: 5 },
    evaluate: (g) => blendViscosity(of(g, 'temperatureC'), of(g, 'ethanolFraction')),
  },
  {
    id: 'blend-specific-heat',
    title: 'Specific heat of a petrol and ethanol blend',
    equation: 'c = m c_ethanol(T) + (1 - m) c_iso-octane(T), m of ethanol by mass',
    inputs: [fuelC, ethanol],
    result: { unit: 'J/(kg K)', text: 'specific heat' },
    source: 'perry-liquids',
    known: 'second-hand',
    example: { given: { temperatureC: 20, ethanolFraction: 0.1 }, gives: 2101, digits: 0 },
    evaluate: (g) => blendSpecificHeat(of(g, 'temperatureC'), of(g, 'ethanolFraction')),
  },
  {
    id: 'blend-conductivity',
    title: 'Thermal conductivity of a petrol and ethanol blend',
    equation: 'k = m k_ethanol(T) + (1 - m) k_iso-octane(T), m of ethanol by mass',
    inputs: [fuelC, ethanol],
    result: { unit: 'W/(m K)', text: 'thermal conductivity' },
    source: 'perry-liquids',
    known: 'second-hand',
    example: { given: { temperatureC: 20, ethanolFraction: 0.1 }, gives: 0.107, digits: 3 },
    evaluate: (g) => blendConductivity(of(g, 'temperatureC'), of(g, 'ethanolFraction')),
  },
];
