import type { Formula } from '#sources';
import { of } from '../given.ts';
import { airConductivity, airDensity, airSpecificHeat, airViscosity } from './air.ts';
import { standardPressure, standardTemperature } from './standard-atmosphere.ts';

const airC = { name: 'temperatureC', unit: 'degC', range: [-80, 800], text: 'temperature of the air' } as const;

/** The formulas of air and altitude, as the register lists them. */
export const airFormulas: readonly Formula[] = [
  {
    id: 'air-density',
    title: 'Density of dry air',
    equation: 'rho = p/(R T), R = 287.053 J/(kg K)',
    inputs: [airC, { name: 'pressureAbsPa', unit: 'Pa', range: [100, 1e6], text: 'absolute pressure' }],
    result: { unit: 'kg/m3', text: 'density' },
    source: 'us-standard-atmosphere',
    known: 'second-hand',
    example: { given: { temperatureC: 15, pressureAbsPa: 101325 }, gives: 1.225, digits: 3 },
    evaluate: (g) => airDensity(of(g, 'temperatureC'), of(g, 'pressureAbsPa')),
  },
  {
    id: 'air-viscosity',
    title: 'Viscosity of air',
    equation: 'mu = 1.458e-6 T^1.5/(T + 110.4)',
    inputs: [airC],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'us-standard-atmosphere',
    known: 'second-hand',
    example: { given: { temperatureC: 15 }, gives: 1.7894e-5, digits: 9 },
    evaluate: (g) => airViscosity(of(g, 'temperatureC')),
  },
  {
    id: 'air-conductivity',
    title: 'Thermal conductivity of air',
    equation: 'k = 2.64638e-3 T^1.5/(T + 245.4 10^(-12/T))',
    inputs: [airC],
    result: { unit: 'W/(m K)', text: 'thermal conductivity' },
    source: 'us-standard-atmosphere',
    known: 'second-hand',
    example: { given: { temperatureC: 15 }, gives: 0.02533, digits: 5 },
    evaluate: (g) => airConductivity(of(g, 'temperatureC')),
  },
  {
    id: 'air-specific-heat',
    title: 'Specific heat of dry air',
    equation:
      'c = R (3.5 x_N2 + x_N2 E(3393 K/T) + 3.5 x_O2 + x_O2 E(2273 K/T) + 2.5 x_Ar + 4 x_rest), E(y) = y^2 e^y/(e^y - 1)^2',
    inputs: [airC],
    result: { unit: 'J/(kg K)', text: 'specific heat' },
    source: 'ideal-gas-modes',
    known: 'computed',
    example: { given: { temperatureC: 26.85 }, gives: 1004, digits: 0 },
    evaluate: (g) => airSpecificHeat(of(g, 'temperatureC')),
  },
  {
    id: 'standard-pressure',
    title: 'Pressure of the standard atmosphere',
    equation: 'p = 101325 (T/288.15)^(g/(R 0.0065)), T = 288.15 - 0.0065 H, H = 6356766 z/(6356766 + z)',
    inputs: [{ name: 'altitudeM', unit: 'm', range: [-500, 11000], text: 'height above sea level' }],
    result: { unit: 'Pa', text: 'absolute pressure' },
    source: 'us-standard-atmosphere',
    known: 'second-hand',
    example: { given: { altitudeM: 2000 }, gives: 79501, digits: 0 },
    evaluate: (g) => standardPressure(of(g, 'altitudeM')),
  },
  {
    id: 'standard-temperature',
    title: 'Temperature of the standard atmosphere',
    equation: 'T = 288.15 - 0.0065 H, H = 6356766 z/(6356766 + z)',
    inputs: [{ name: 'altitudeM', unit: 'm', range: [-500, 11000], text: 'height above sea level' }],
    result: { unit: 'degC', text: 'temperature' },
    source: 'us-standard-atmosphere',
    known: 'second-hand',
    example: { given: { altitudeM: 2000 }, gives: 2.0, digits: 2 },
    evaluate: (g) => standardTemperature(of(g, 'altitudeM')),
  },
];
