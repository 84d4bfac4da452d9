import type { Formula } from '#sources';
import {
  boxTankDamping,
  boxTankFrequency,
  hoofVolume,
  measuredRoundTankDamping,
  ringBaffleDamping,
  roundTankDamping,
  roundTankFrequency,
  roundTankPendulum,
  roundTankSwingingShare,
  stepOvershoot,
  surfaceAngle,
  wallRise,
} from './slosh-formulas.ts';

/** `workFormula` has checked that every input is there; a missing one would give NaN, which it refuses. */
const of = (given: Readonly<Record<string, number>>, name: string): number => given[name] ?? Number.NaN;

const input = (name: string, unit: string, range: readonly [number, number], text: string) => ({
  name,
  unit,
  range,
  text,
});
const gravity = input('gravityMS2', 'm/s2', [0, 10], 'gravity');
const radius = input('radiusM', 'm', [0.01, 2], 'radius of the tank');
const depth = input('depthM', 'm', [0.001, 5], 'depth of the oil');
const pull = input('pullMS2', 'm/s2', [0.1, 100], 'acceleration that holds the oil down');
const viscosity = input('viscosityM2S', 'm2/s', [0, 0.001], 'kinematic viscosity');
const length = input('lengthM', 'm', [0.01, 5], 'length of the tank along the wave');

const levels: readonly Formula[] = [
  {
    id: 'oil-surface-angle',
    title: 'Angle of the free surface to the horizontal',
    equation: 'tan theta = a / (g + az)',
    inputs: [
      input('sidewaysMS2', 'm/s2', [0, 100], 'acceleration along the ground'),
      input('verticalMS2', 'm/s2', [-9, 100], 'acceleration upward, on top of gravity'),
      gravity,
    ],
    result: { unit: 'deg', text: 'angle of the surface' },
    source: 'fluid-statics',
    known: 'computed',
    example: { given: { sidewaysMS2: 14.7, verticalMS2: 0, gravityMS2: 9.80665 }, gives: 56.292, digits: 3 },
    evaluate: (g) => surfaceAngle(of(g, 'sidewaysMS2'), of(g, 'verticalMS2'), of(g, 'gravityMS2')),
  },
  {
    id: 'oil-wall-rise',
    title: 'Rise of the oil at the wall of an upright tank',
    equation: 'dh = (D/2) a/g',
    inputs: [
      input('acrossMm', 'mm', [0, 2000], 'length of the tank along the acceleration'),
      input('sidewaysG', 'g', [0, 5], 'acceleration along the ground over the vertical one'),
    ],
    result: { unit: 'mm', text: 'rise; it falls as much at the wall opposite, until floor or lid is reached' },
    source: 'fluid-statics',
    known: 'computed',
    example: { given: { acrossMm: 180, sidewaysG: 1.5 }, gives: 135, digits: 0 },
    evaluate: (g) => wallRise(of(g, 'acrossMm'), of(g, 'sidewaysG')),
  },
  {
    id: 'hoof-volume',
    title: 'Volume between the floor of a round tank and a tilted surface that cuts it',
    equation: 'V = s [ (2/3)(R^2 - x^2)^1.5 - x (R^2 acos(x/R) - x sqrt(R^2 - x^2)) ]',
    inputs: [
      input('radiusM', 'm', [0, 2], 'radius'),
      input('dryToM', 'm', [-2, 2], 'where the surface cuts the floor, from the axis toward the high side'),
      input('slope', '-', [0, 1000], 'slope of the surface'),
    ],
    result: { unit: 'm3', text: 'volume' },
    source: 'geometry',
    known: 'computed',
    example: { given: { radiusM: 0.09, dryToM: 0.02, slope: 1.5 }, gives: 0.00040107, digits: 8 },
    evaluate: (g) => hoofVolume(of(g, 'radiusM'), of(g, 'dryToM'), of(g, 'slope')),
  },
];

const waves: readonly Formula[] = [
  {
    id: 'slosh-round-frequency',
    title: 'First sideways wave in an upright round tank',
    equation: 'f = sqrt((1.8412 g / R) tanh(1.8412 h / R)) / (2 pi)',
    inputs: [radius, depth, pull],
    result: { unit: 'Hz', text: 'frequency' },
    source: 'nasa-sp-106',
    known: 'second-hand',
    example: { given: { radiusM: 0.09, depthM: 0.3, pullMS2: 9.80665 }, gives: 2.254, digits: 3 },
    evaluate: (g) => roundTankFrequency(of(g, 'radiusM'), of(g, 'depthM'), of(g, 'pullMS2')),
  },
  {
    id: 'slosh-box-frequency',
    title: 'First wave along a box-shaped tank',
    equation: 'f = sqrt((pi g / L) tanh(pi h / L)) / (2 pi)',
    inputs: [length, depth, pull],
    result: { unit: 'Hz', text: 'frequency' },
    source: 'nasa-sp-106',
    known: 'second-hand',
    example: { given: { lengthM: 0.4, depthM: 0.08, pullMS2: 9.80665 }, gives: 1.042, digits: 3 },
    evaluate: (g) => boxTankFrequency(of(g, 'lengthM'), of(g, 'depthM'), of(g, 'pullMS2')),
  },
  {
    id: 'slosh-round-pendulum',
    title: 'Pendulum that swings as the first wave in a round tank',
    equation: 'l = (R / 1.8412) / tanh(1.8412 h / R)',
    inputs: [radius, depth],
    result: { unit: 'm', text: 'length' },
    source: 'nasa-sp-106',
    known: 'second-hand',
    example: { given: { radiusM: 0.09, depthM: 0.3 }, gives: 0.0489, digits: 4 },
    evaluate: (g) => roundTankPendulum(of(g, 'radiusM'), of(g, 'depthM')),
  },
  {
    id: 'slosh-round-share',
    title: 'Share of the oil that swings with the first wave in a round tank',
    equation: 'm1/m = 2 tanh(x h/R) / ((x h/R)(x^2 - 1)), x = 1.8412',
    inputs: [radius, depth],
    result: { unit: '-', text: 'share of the mass' },
    source: 'nasa-sp-106',
    known: 'second-hand',
    example: { given: { radiusM: 0.09, depthM: 0.3 }, gives: 0.136, digits: 3 },
    evaluate: (g) => roundTankSwingingShare(of(g, 'radiusM'), of(g, 'depthM')),
  },
  {
    id: 'slosh-overshoot',
    title: 'How far a damped swing runs past its rest after a step',
    equation: 'o = exp(-pi z / sqrt(1 - z^2))',
    inputs: [input('damping', '-', [0, 0.9999], 'share of critical damping')],
    result: { unit: '-', text: 'share of the step' },
    source: 'damped-oscillator',
    known: 'computed',
    example: { given: { damping: 0.00943 }, gives: 0.971, digits: 3 },
    evaluate: (g) => stepOvershoot(of(g, 'damping')),
  },
];

const dampings: readonly Formula[] = [
  {
    id: 'slosh-round-damping',
    title: 'Damping of the first wave in a smooth round tank, laminar layers',
    equation: 'z = (sqrt(2 nu / w) / R) [ (x^2+1) / (4 (x^2-1)) + x (1 - h/R) / (2 sinh(2 x h/R)) ], x = 1.8412',
    inputs: [radius, depth, pull, viscosity],
    result: { unit: '-', text: 'share of critical damping' },
    source: 'stokes-layer',
    known: 'computed',
    example: {
      given: { radiusM: 0.09, depthM: 0.3, pullMS2: 9.80665, viscosityM2S: 1.2e-5 },
      gives: 0.00664,
      digits: 5,
    },
    evaluate: (g) => roundTankDamping(of(g, 'radiusM'), of(g, 'depthM'), of(g, 'pullMS2'), of(g, 'viscosityM2S')),
  },
  {
    id: 'slosh-round-damping-measured',
    title: 'Damping of the first wave in a smooth round tank, as measured',
    equation: 'z = 0.79 sqrt(nu / sqrt(R^3 g)) [ 1 + (0.318 / sinh(x h/R)) (1 + (1 - h/R) / cosh(x h/R)) ], x = 1.8412',
    inputs: [
      { ...radius, range: [0.05, 2] },
      { ...depth, range: [0.01, 5] },
      pull,
      { ...viscosity, range: [0, 0.0001] },
    ],
    result: { unit: '-', text: 'share of critical damping' },
    source: 'nasa-sp-106-damping',
    known: 'from-memory',
    example: {
      given: { radiusM: 0.09, depthM: 0.3, pullMS2: 9.80665, viscosityM2S: 1.2e-5 },
      gives: 0.00942,
      digits: 5,
    },
    evaluate: (g) =>
      measuredRoundTankDamping(of(g, 'radiusM'), of(g, 'depthM'), of(g, 'pullMS2'), of(g, 'viscosityM2S')),
  },
  {
    id: 'slosh-box-damping',
    title: 'Damping of the first wave along a smooth box-shaped tank, laminar layers',
    equation: 'z = sqrt(nu / (2 w)) [ 1/L + 1/B + (pi/L) (1 - 2 h/L) / sinh(2 pi h/L) ]',
    inputs: [length, input('widthM', 'm', [0.01, 5], 'length across the wave'), depth, pull, viscosity],
    result: { unit: '-', text: 'share of critical damping' },
    source: 'stokes-layer',
    known: 'computed',
    example: {
      given: { lengthM: 0.4, widthM: 0.25, depthM: 0.08, pullMS2: 9.80665, viscosityM2S: 1.2e-5 },
      gives: 0.00902,
      digits: 5,
    },
    evaluate: (g) =>
      boxTankDamping(of(g, 'lengthM'), of(g, 'widthM'), of(g, 'depthM'), of(g, 'pullMS2'), of(g, 'viscosityM2S')),
  },
  {
    id: 'slosh-ring-damping',
    title: 'Damping that one ring baffle adds in a round tank',
    equation: 'z = 2.83 exp(-4.6 d/R) (2 w/R - (w/R)^2)^1.5 sqrt(a/R)',
    inputs: [
      { ...radius, range: [0.05, 2] },
      input('widthM', 'm', [0, 0.5], 'width of the ring from the wall'),
      input('belowM', 'm', [0, 2], 'depth of the ring below the surface at rest'),
      input('waveM', 'm', [0, 0.5], 'height of the wave at the wall'),
    ],
    result: { unit: '-', text: 'share of critical damping, on top of the smooth tank' },
    source: 'ring-baffle-1958',
    known: 'from-memory',
    example: { given: { radiusM: 0.09, widthM: 0.015, belowM: 0.03, waveM: 0.02 }, gives: 0.0486, digits: 4 },
    evaluate: (g) => ringBaffleDamping(of(g, 'radiusM'), of(g, 'widthM'), of(g, 'belowM'), of(g, 'waveM')),
  },
];

/** The formulas of tank and pan under g. */
export const tankFormulas: readonly Formula[] = [...levels, ...waves, ...dampings];
