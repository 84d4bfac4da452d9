import type { Formula } from '#sources';
import { of } from '../given.ts';
import { dissolvedAir, releasedAir } from './air-release.ts';
import { dwellTime, riseOfCleanBubble, riseOfRigidBubble, smallestRisenBubble } from './bubble-rise.ts';
import { smallestSpunBubble, turningSpeed } from './spun-oil.ts';

const liquid = { name: 'liquidKgM3', unit: 'kg/m3', range: [500, 2000], text: 'density of the liquid' } as const;
const bubble = { name: 'bubbleKgM3', unit: 'kg/m3', range: [0, 5000], text: 'density of the bubble' } as const;
const liquidPaS = { name: 'liquidPaS', unit: 'Pa s', range: [1e-5, 1e4], text: 'viscosity of the liquid' } as const;

/** The formulas of dissolved air and bubbles, as the register lists them. */
export const bubbleFormulas: readonly Formula[] = [
  {
    id: 'turning-speed',
    title: 'Oil kept turning in a round tank by returns along its wall',
    equation: 'Q (v - w R) = (pi/4) f w^2 R^3 (h + R/5)',
    inputs: [
      { name: 'flowM3S', unit: 'm3/s', range: [0, 0.1], text: 'oil in the returns' },
      { name: 'speedMS', unit: 'm/s', range: [0, 50], text: 'of oil and air where they come in' },
      { name: 'radiusM', unit: 'm', range: [0.01, 1], text: 'of the tank' },
      { name: 'depthM', unit: 'm', range: [0.001, 2], text: 'of the oil' },
      {
        name: 'friction',
        unit: '-',
        range: [0.001, 10],
        text: 'Darcy friction factor of the wall, known to a factor of two',
      },
    ],
    result: { unit: 'rad/s', text: 'turning speed, all of the oil as one' },
    source: 'moment-balance',
    known: 'computed',
    example: {
      given: { flowM3S: 0.0008, speedMS: 3, radiusM: 0.09, depthM: 0.3, friction: 0.03 },
      gives: 15.38,
      digits: 2,
    },
    evaluate: (g) =>
      turningSpeed(of(g, 'flowM3S'), of(g, 'speedMS'), of(g, 'radiusM'), of(g, 'depthM'), of(g, 'friction')),
  },
  {
    id: 'smallest-spun-bubble',
    title: 'Smallest bubble that comes inward through turning oil in a time',
    equation: 'd = sqrt(18 mu ln(R/r)/((rho_l - rho_b) w^2 t))',
    inputs: [
      { name: 'ratio', unit: '-', range: [1.001, 1000], text: 'of the radius it begins at to the one it comes to' },
      { name: 'turningRadS', unit: 'rad/s', range: [0.001, 1000], text: 'turning speed of the oil' },
      { name: 'timeS', unit: 's', range: [0.01, 10000], text: 'time given' },
      liquidPaS,
      liquid,
      bubble,
    ],
    result: { unit: 'm', text: 'diameter; Reynolds number below 1' },
    source: 'slow-spheres',
    known: 'computed',
    example: {
      given: { ratio: 2, turningRadS: 12, timeS: 8, liquidPaS: 0.01, liquidKgM3: 845, bubbleKgM3: 1 },
      gives: 0.000358,
      digits: 6,
    },
    evaluate: (g) =>
      smallestSpunBubble(
        of(g, 'ratio'),
        of(g, 'turningRadS'),
        of(g, 'timeS'),
        of(g, 'liquidPaS'),
        of(g, 'liquidKgM3'),
        of(g, 'bubbleKgM3'),
      ),
  },
  {
    id: 'dissolved-air',
    title: 'Air dissolved in a liquid',
    equation: 'V = B p/101325',
    inputs: [
      {
        name: 'bunsen',
        unit: '-',
        range: [0, 0.5],
        text: 'air (0 degC, 1 atm) that a volume of liquid dissolves under 1 atm; 0.09 for mineral oil',
      },
      { name: 'pressureAbsPa', unit: 'Pa', range: [0, 1e7], text: 'absolute pressure' },
    ],
    result: { unit: '-', text: 'air at 0 degC and 1 atm over liquid, by volume' },
    source: 'boyle-henry',
    known: 'computed',
    example: { given: { bunsen: 0.09, pressureAbsPa: 200000 }, gives: 0.178, digits: 3 },
    evaluate: (g) => dissolvedAir(of(g, 'bunsen'), of(g, 'pressureAbsPa')),
  },
  {
    id: 'released-air',
    title: 'Air that comes out of a liquid when the pressure falls',
    equation: 'V = B (p1 - p2)/p2 T/273.15, none when p2 >= p1',
    inputs: [
      {
        name: 'bunsen',
        unit: '-',
        range: [0, 0.5],
        text: 'air (0 degC, 1 atm) that a volume of liquid dissolves under 1 atm; 0.09 for mineral oil',
      },
      { name: 'fromAbsPa', unit: 'Pa', range: [100, 1e7], text: 'absolute pressure that it stood under' },
      { name: 'toAbsPa', unit: 'Pa', range: [100, 1e7], text: 'absolute pressure now' },
      { name: 'temperatureC', unit: 'degC', range: [-40, 160], text: 'temperature of the liquid' },
    ],
    result: { unit: '-', text: 'free air over liquid, by volume' },
    source: 'boyle-henry',
    known: 'computed',
    example: { given: { bunsen: 0.09, fromAbsPa: 101300, toAbsPa: 70000, temperatureC: 0 }, gives: 0.0402, digits: 4 },
    evaluate: (g) => releasedAir(of(g, 'bunsen'), of(g, 'fromAbsPa'), of(g, 'toAbsPa'), of(g, 'temperatureC')),
  },
  {
    id: 'rise-of-rigid-bubble',
    title: 'Rise of a small bubble with a dirty skin',
    equation: 'v = g d^2 (rho_l - rho_b)/(18 mu)',
    inputs: [
      { name: 'diameterM', unit: 'm', range: [1e-6, 0.01], text: 'diameter of the bubble' },
      liquidPaS,
      liquid,
      bubble,
    ],
    result: { unit: 'm/s', text: 'speed upward; Reynolds number below 1' },
    source: 'slow-spheres',
    known: 'computed',
    example: { given: { diameterM: 1e-4, liquidPaS: 0.01, liquidKgM3: 845, bubbleKgM3: 1 }, gives: 0.00046, digits: 5 },
    evaluate: (g) =>
      riseOfRigidBubble(of(g, 'diameterM'), of(g, 'liquidPaS'), of(g, 'liquidKgM3'), of(g, 'bubbleKgM3')),
  },
  {
    id: 'rise-of-clean-bubble',
    title: 'Rise of a small clean bubble',
    equation: 'v = f g d^2 (rho_l - rho_b)/(18 mu_l), f = 3 (mu_l + mu_b)/(2 mu_l + 3 mu_b)',
    inputs: [
      { name: 'diameterM', unit: 'm', range: [1e-6, 0.01], text: 'diameter of the bubble' },
      liquidPaS,
      liquid,
      bubble,
      { name: 'bubblePaS', unit: 'Pa s', range: [0, 10], text: 'viscosity within the bubble' },
    ],
    result: { unit: 'm/s', text: 'speed upward; Reynolds number below 1' },
    source: 'slow-spheres',
    known: 'computed',
    example: {
      given: { diameterM: 1e-4, liquidPaS: 0.01, liquidKgM3: 845, bubbleKgM3: 1, bubblePaS: 0 },
      gives: 0.00069,
      digits: 5,
    },
    evaluate: (g) =>
      riseOfCleanBubble(
        of(g, 'diameterM'),
        of(g, 'liquidPaS'),
        of(g, 'liquidKgM3'),
        of(g, 'bubbleKgM3'),
        of(g, 'bubblePaS'),
      ),
  },
  {
    id: 'dwell-time',
    title: 'Time that oil stays in a tank',
    equation: 't = V/Q',
    inputs: [
      { name: 'volumeM3', unit: 'm3', range: [1e-6, 1], text: 'oil in the tank' },
      { name: 'flowM3S', unit: 'm3/s', range: [1e-7, 0.1], text: 'flow through it' },
    ],
    result: { unit: 's', text: 'time, if it moves as a plug' },
    source: 'slow-spheres',
    known: 'computed',
    example: { given: { volumeM3: 0.008, flowM3S: 0.001 }, gives: 8, digits: 1 },
    evaluate: (g) => dwellTime(of(g, 'volumeM3'), of(g, 'flowM3S')),
  },
  {
    id: 'smallest-risen-bubble',
    title: 'Smallest bubble that rises through a depth in a time',
    equation: 'd = sqrt(18 mu h/(g (rho_l - rho_b) t))',
    inputs: [
      { name: 'depthM', unit: 'm', range: [0.001, 2], text: 'depth to rise through' },
      { name: 'timeS', unit: 's', range: [0.01, 10000], text: 'time given' },
      liquidPaS,
      liquid,
      bubble,
    ],
    result: { unit: 'm', text: 'diameter; Reynolds number below 1' },
    source: 'slow-spheres',
    known: 'computed',
    example: {
      given: { depthM: 0.2, timeS: 8, liquidPaS: 0.01, liquidKgM3: 845, bubbleKgM3: 1 },
      gives: 0.00074,
      digits: 5,
    },
    evaluate: (g) =>
      smallestRisenBubble(
        of(g, 'depthM'),
        of(g, 'timeS'),
        of(g, 'liquidPaS'),
        of(g, 'liquidKgM3'),
        of(g, 'bubbleKgM3'),
      ),
  },
];
