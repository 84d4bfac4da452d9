import type { Formula, FormulaInput } from '#sources';
import { perforatedSheetLoss, squareGrilleLoss, wireScreenLoss } from './mesh-loss.ts';
import {
  airOfPower,
  creepingDrop,
  levelTwoWayFlow,
  ramPressure,
  seriesArea,
  stackFlow,
  stackPressure,
  twoWayFlow,
} from './vent-formulas.ts';

type Range = readonly [number, number];
const input = (name: string, unit: string, range: Range, text: string): FormulaInput => ({ name, unit, range, text });
/** `workFormula` has checked that it is there. */
const of = (given: Readonly<Record<string, number>>, name: string): number => given[name]!;

const area = input('areaM2', 'm2', [1e-6, 100], 'free area');
const insideK = input('insideK', 'K', [200, 1500], 'air inside');
const outsideK = input('outsideK', 'K', [200, 400], 'air outside');
const share = (range: Range): FormulaInput => input('openShare', '-', range, 'open share of the area');
const loss = { unit: '-', text: 'loss coefficient on the velocity head before it' };

/** What moves the air of a bay. */
const moving: readonly Formula[] = [
  {
    id: 'stack-pressure',
    title: 'Pressure of a warm column of air over its height',
    equation: 'dp = (rho_out - rho_in) g h',
    inputs: [
      input('outKgM3', 'kg/m3', [0.2, 2], 'density outside'),
      input('inKgM3', 'kg/m3', [0.2, 2], 'density inside'),
      input('heightM', 'm', [0, 50], 'height'),
    ],
    result: { unit: 'Pa', text: 'what pushes outwards at its top' },
    source: 'two-orifice-stack',
    known: 'computed',
    example: { given: { outKgM3: 1.1649, inKgM3: 0.99992, heightM: 0.6 }, gives: 0.9708, digits: 3 },
    evaluate: (g) => stackPressure(of(g, 'outKgM3'), of(g, 'inKgM3'), of(g, 'heightM')),
  },
  {
    id: 'stack-flow',
    title: 'Flow of warm air out of one of several openings',
    equation: 'Q = Cd A sqrt(2 g dH (Ti - To)/Ti)',
    inputs: [
      input('dischargeCoefficient', '-', [0.1, 1], 'discharge coefficient'),
      area,
      input('aboveM', 'm', [0, 20], 'height above that of no pressure difference'),
      insideK,
      outsideK,
    ],
    result: { unit: 'm3/s', text: 'flow at the density inside' },
    source: 'ashrae-1997-ventilation',
    known: 'second-hand',
    example: {
      given: { dischargeCoefficient: 0.65, areaM2: 0.02, aboveM: 0.3, insideK: 353, outsideK: 303 },
      gives: 0.01187,
      digits: 5,
    },
    evaluate: (g) =>
      stackFlow(of(g, 'dischargeCoefficient'), of(g, 'areaM2'), of(g, 'aboveM'), of(g, 'insideK'), of(g, 'outsideK')),
  },
  {
    id: 'ram-pressure',
    title: 'Pressure of air that is brought to rest',
    equation: 'q = rho v^2/2',
    inputs: [
      input('densityKgM3', 'kg/m3', [0.2, 2], 'density'),
      input('velocityMPerS', 'm/s', [0, 100], 'speed of the car'),
    ],
    result: { unit: 'Pa', text: 'over the air about the car' },
    source: 'two-orifice-stack',
    known: 'computed',
    example: { given: { densityKgM3: 1.2, velocityMPerS: 20 }, gives: 240, digits: 0 },
    evaluate: (g) => ramPressure(of(g, 'densityKgM3'), of(g, 'velocityMPerS')),
  },
  {
    id: 'air-of-power',
    title: 'Air that an engine breathes, from its power',
    equation: 'm = 3.75 kg/kWh P',
    inputs: [input('powerKw', 'kW', [0, 5000], 'power')],
    result: { unit: 'kg/s', text: 'air' },
    source: 'common-practice',
    known: 'practice',
    example: { given: { powerKw: 330 }, gives: 0.344, digits: 3 },
    evaluate: (g) => airOfPower(of(g, 'powerKw')),
  },
];

/** What an opening lets through. */
const openings: readonly Formula[] = [
  {
    id: 'series-area',
    title: 'Area that does as much as two openings one behind the other',
    equation: '1/A^2 = 1/A1^2 + 1/A2^2',
    inputs: [input('firstM2', 'm2', [1e-6, 100], 'one opening'), input('secondM2', 'm2', [1e-6, 100], 'the other')],
    result: { unit: 'm2', text: 'area' },
    source: 'ufc-3-440-06n',
    known: 'second-hand',
    example: { given: { firstM2: 0.01, secondM2: 0.04 }, gives: 0.009701, digits: 6 },
    evaluate: (g) => seriesArea(of(g, 'firstM2'), of(g, 'secondM2')),
  },
  {
    id: 'two-way-flow',
    title: 'Exchange both ways through one upright opening',
    equation: 'Q = (K/3) A sqrt(g h (Ti - To)/Ti), K = 0.40 + 0.0045 (Ti - To)',
    inputs: [area, input('heightM', 'm', [0, 10], 'height of the opening'), insideK, outsideK],
    result: { unit: 'm3/s', text: 'flow in each direction' },
    source: 'kiel-wilson-1986',
    known: 'from-memory',
    example: { given: { areaM2: 0.03, heightM: 0.1, insideK: 353, outsideK: 303 }, gives: 0.00233, digits: 5 },
    evaluate: (g) => twoWayFlow(of(g, 'areaM2'), of(g, 'heightM'), of(g, 'insideK'), of(g, 'outsideK')),
  },
  {
    id: 'level-two-way-flow',
    title: 'Exchange both ways through one opening in a level sheet over warm air',
    equation: 'Q = 0.055 sqrt(g D^5 2 (Ti - To)/(Ti + To)), D = sqrt(4 A/pi)',
    inputs: [area, insideK, outsideK],
    result: { unit: 'm3/s', text: 'flow in each direction' },
    source: 'epstein-1988',
    known: 'from-memory',
    example: { given: { areaM2: 0.03, insideK: 353, outsideK: 303 }, gives: 0.00114, digits: 5 },
    evaluate: (g) => levelTwoWayFlow(of(g, 'areaM2'), of(g, 'insideK'), of(g, 'outsideK')),
  },
  {
    id: 'creeping-drop',
    title: 'Pressure that creeping air takes through a hole in a thin sheet',
    equation: 'dp = 6 pi mu v/D',
    inputs: [
      input('velocityMPerS', 'm/s', [0, 1], 'mean velocity in the hole'),
      area,
      input('temperatureC', 'degC', [-80, 800], 'air'),
    ],
    result: { unit: 'Pa', text: 'drop of pressure' },
    source: 'sampson-1891',
    known: 'from-memory',
    example: { given: { velocityMPerS: 0.001, areaM2: 0.01, temperatureC: 20 }, gives: 3.03e-6, digits: 8 },
    evaluate: (g) => creepingDrop(of(g, 'velocityMPerS'), of(g, 'areaM2'), of(g, 'temperatureC')),
  },
  {
    id: 'wire-screen-loss',
    title: 'Loss of a screen of round wire by Reynolds number',
    equation: 'K = b(Re) (1 - s^2)/s^2, b from 1.3 at Re 20 to 0.52 at 400',
    inputs: [share([0.05, 0.8]), input('reynolds', '-', [20, 400], 'of the gap between the wires')],
    result: loss,
    source: 'applied-fluid-dynamics-handbook',
    known: 'second-hand',
    example: { given: { openShare: 0.5, reynolds: 100 }, gives: 2.1, digits: 2 },
    evaluate: (g) => wireScreenLoss(of(g, 'openShare'), of(g, 'reynolds')),
  },
  {
    id: 'perforated-sheet-loss',
    title: 'Loss of thin perforated sheet',
    equation: 'K = (0.707 sqrt(1 - s) + 1 - s)^2/s^2',
    inputs: [share([0.1, 1])],
    result: loss,
    source: 'idelchik-handbook',
    known: 'from-memory',
    example: { given: { openShare: 0.5 }, gives: 4, digits: 2 },
    evaluate: (g) => perforatedSheetLoss(of(g, 'openShare')),
  },
  {
    id: 'square-grille-loss',
    title: 'Loss of a grille of square-edged bars',
    equation: 'K = (0.5 (1 - s) + 1 - s^2)/s^2',
    inputs: [share([0.1, 1])],
    result: loss,
    source: 'applied-fluid-dynamics-handbook',
    known: 'second-hand',
    example: { given: { openShare: 0.45 }, gives: 5.3, digits: 2 },
    evaluate: (g) => squareGrilleLoss(of(g, 'openShare')),
  },
];

/** Rows of the bay's air, for the register. */
export const airFormulas: readonly Formula[] = [...moving, ...openings];
