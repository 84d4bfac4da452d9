import type { Formula } from '#sources';
import { of } from '../given.ts';
import { mixtureCompressibility, mixtureDensity, qualityOfVoid, voidAtPressure, voidOfQuality } from './aeration.ts';
import {
  viscosityBeattieWhalley,
  viscosityCicchitti,
  viscosityDukler,
  viscosityMcAdams,
  viscosityOfFewBubbles,
} from './mixture-viscosity.ts';

const gasByVolume = { name: 'voidFraction', unit: '-', range: [0, 1], text: 'gas by volume' } as const;
const gasByMass = { name: 'quality', unit: '-', range: [0, 1], text: 'gas by mass' } as const;
const liquid = { name: 'liquidKgM3', unit: 'kg/m3', range: [500, 2000], text: 'density of the liquid' } as const;
const gas = { name: 'gasKgM3', unit: 'kg/m3', range: [0.01, 100], text: 'density of the gas' } as const;
const liquidPaS = { name: 'liquidPaS', unit: 'Pa s', range: [1e-5, 1e4], text: 'viscosity of the liquid' } as const;
const gasPaS = { name: 'gasPaS', unit: 'Pa s', range: [1e-6, 1e-3], text: 'viscosity of the gas' } as const;

/** The formulas of gas in a liquid, as the register lists them. */
export const aerationFormulas: readonly Formula[] = [
  {
    id: 'void-of-quality',
    title: 'Void fraction from quality',
    equation: 'a = x/(x + (1 - x) rho_g/rho_l)',
    inputs: [gasByMass, liquid, gas],
    result: { unit: '-', text: 'gas by volume' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { quality: 0.4, liquidKgM3: 800, gasKgM3: 2.5 }, gives: 0.9953, digits: 4 },
    evaluate: (g) => voidOfQuality(of(g, 'quality'), of(g, 'liquidKgM3'), of(g, 'gasKgM3')),
  },
  {
    id: 'quality-of-void',
    title: 'Quality from void fraction',
    equation: 'x = a rho_g/(a rho_g + (1 - a) rho_l)',
    inputs: [gasByVolume, liquid, gas],
    result: { unit: '-', text: 'gas by mass' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { voidFraction: 0.2, liquidKgM3: 845, gasKgM3: 1 }, gives: 0.000296, digits: 6 },
    evaluate: (g) => qualityOfVoid(of(g, 'voidFraction'), of(g, 'liquidKgM3'), of(g, 'gasKgM3')),
  },
  {
    id: 'mixture-density',
    title: 'Density of gas and liquid at one speed',
    equation: 'rho = a rho_g + (1 - a) rho_l',
    inputs: [gasByVolume, liquid, gas],
    result: { unit: 'kg/m3', text: 'density' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { voidFraction: 0.2, liquidKgM3: 845, gasKgM3: 1 }, gives: 676.2, digits: 1 },
    evaluate: (g) => mixtureDensity(of(g, 'voidFraction'), of(g, 'liquidKgM3'), of(g, 'gasKgM3')),
  },
  {
    id: 'void-at-pressure',
    title: 'Void fraction at a pressure',
    equation: 'a = b/(b + 1 - a1), b = a1 101325/p',
    inputs: [
      { name: 'voidAtAtmosphere', unit: '-', range: [0, 1], text: 'gas by volume at 101325 Pa' },
      { name: 'pressureAbsPa', unit: 'Pa', range: [1000, 1e8], text: 'absolute pressure' },
    ],
    result: { unit: '-', text: 'gas by volume' },
    source: 'boyle-henry',
    known: 'computed',
    example: { given: { voidAtAtmosphere: 0.1, pressureAbsPa: 500000 }, gives: 0.022, digits: 3 },
    evaluate: (g) => voidAtPressure(of(g, 'voidAtAtmosphere'), of(g, 'pressureAbsPa')),
  },
  {
    id: 'mixture-compressibility',
    title: 'Compressibility of aerated liquid',
    equation: 'beta = a/p + (1 - a)/K',
    inputs: [
      gasByVolume,
      { name: 'pressureAbsPa', unit: 'Pa', range: [1000, 1e8], text: 'absolute pressure' },
      { name: 'liquidBulkPa', unit: 'Pa', range: [1e8, 1e10], text: 'bulk modulus of the liquid; 1.5e9 for oil' },
    ],
    result: { unit: '1/Pa', text: 'compressibility' },
    source: 'boyle-henry',
    known: 'computed',
    example: { given: { voidFraction: 0.02, pressureAbsPa: 500000, liquidBulkPa: 1.5e9 }, gives: 4.07e-8, digits: 10 },
    evaluate: (g) => mixtureCompressibility(of(g, 'voidFraction'), of(g, 'pressureAbsPa'), of(g, 'liquidBulkPa')),
  },
  {
    id: 'viscosity-mcadams',
    title: 'Viscosity of aerated liquid after McAdams',
    equation: '1/mu = x/mu_g + (1 - x)/mu_l',
    inputs: [gasByMass, liquidPaS, gasPaS],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { quality: 0.4, liquidPaS: 0.001, gasPaS: 1e-5 }, gives: 2.463e-5, digits: 8 },
    evaluate: (g) => viscosityMcAdams(of(g, 'quality'), of(g, 'liquidPaS'), of(g, 'gasPaS')),
  },
  {
    id: 'viscosity-cicchitti',
    title: 'Viscosity of aerated liquid after Cicchitti',
    equation: 'mu = x mu_g + (1 - x) mu_l',
    inputs: [gasByMass, liquidPaS, gasPaS],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { quality: 0.4, liquidPaS: 0.001, gasPaS: 1e-5 }, gives: 0.000604, digits: 6 },
    evaluate: (g) => viscosityCicchitti(of(g, 'quality'), of(g, 'liquidPaS'), of(g, 'gasPaS')),
  },
  {
    id: 'viscosity-dukler',
    title: 'Viscosity of aerated liquid after Dukler',
    equation: 'mu = a mu_g + (1 - a) mu_l',
    inputs: [gasByVolume, liquidPaS, gasPaS],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { voidFraction: 0.2, liquidPaS: 0.01, gasPaS: 2.2e-5 }, gives: 0.008, digits: 4 },
    evaluate: (g) => viscosityDukler(of(g, 'voidFraction'), of(g, 'liquidPaS'), of(g, 'gasPaS')),
  },
  {
    id: 'viscosity-beattie-whalley',
    title: 'Viscosity of aerated liquid after Beattie and Whalley',
    equation: 'mu = mu_l (1 - a)(1 + 2.5 a) + mu_g a',
    inputs: [gasByVolume, liquidPaS, gasPaS],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'two-phase-mixtures',
    known: 'second-hand',
    example: { given: { voidFraction: 0.2, liquidPaS: 0.01, gasPaS: 2.2e-5 }, gives: 0.012, digits: 4 },
    evaluate: (g) => viscosityBeattieWhalley(of(g, 'voidFraction'), of(g, 'liquidPaS'), of(g, 'gasPaS')),
  },
  {
    id: 'viscosity-few-bubbles',
    title: 'Viscosity of liquid with few small bubbles',
    equation: 'mu = mu_l (1 + a)',
    inputs: [gasByVolume, liquidPaS],
    result: { unit: 'Pa s', text: 'dynamic viscosity' },
    source: 'from-memory',
    known: 'from-memory',
    example: { given: { voidFraction: 0.2, liquidPaS: 0.01 }, gives: 0.012, digits: 4 },
    evaluate: (g) => viscosityOfFewBubbles(of(g, 'voidFraction'), of(g, 'liquidPaS')),
  },
];
