import type { Formula, FormulaInput } from '#sources';
import { biot, lumpedTemperature, roundWallResistance } from './conduction.ts';
import { crossFlowCylinder, forcedPlate, mixedConvection } from './forced-convection.ts';
import { freeCylinder, freePlateWarmDown, freePlateWarmUp, freeUprightPlate } from './free-convection.ts';
import { insideLine, laminarInside, turbulentInside } from './inside-line.ts';
import { plateExchange, shieldedExchange, tubeExchange } from './radiation.ts';

/** An input that `workFormula` has checked to be there. */
const of = (given: Readonly<Record<string, number>>, name: string): number => given[name]!;

type Range = readonly [number, number];
const input = (name: string, unit: string, range: Range, text: string): FormulaInput => ({ name, unit, range, text });
const rayleigh = (range: Range): FormulaInput => input('rayleigh', '-', range, 'Rayleigh number');
const reynolds = (range: Range): FormulaInput => input('reynolds', '-', range, 'Reynolds number');
const prandtl = input('prandtl', '-', [0.5, 2000], 'Prandtl number');
const kelvin = (name: string, text: string): FormulaInput => input(name, 'K', [1, 2000], text);
const shine = (name: string, text: string): FormulaInput => input(name, '-', [0.01, 1], text);
const metres = (name: string, text: string): FormulaInput => input(name, 'm', [1e-4, 10], text);
const nusselt = { unit: '-', text: 'Nusselt number' };
const hot = kelvin('hotK', 'hot side');
const cold = kelvin('coldK', 'cold side');
const conducts = input('conductivityWPerMK', 'W/(m K)', [0.01, 500], 'conductivity');

/** A row whose example gives its inputs in their order. */
const row = (
  about: Pick<Formula, 'id' | 'title' | 'equation' | 'source' | 'known' | 'result'>,
  inputs: readonly FormulaInput[],
  example: { readonly at: readonly number[]; readonly gives: number; readonly digits: number },
): Omit<Formula, 'evaluate'> => ({
  ...about,
  inputs,
  example: {
    given: Object.fromEntries(inputs.map(({ name }, i) => [name, example.at[i]!])),
    gives: example.gives,
    digits: example.digits,
  },
});

const nu = (
  id: string,
  title: string,
  equation: string,
  source: Formula['source'],
  known: Formula['known'],
): Pick<Formula, 'id' | 'title' | 'equation' | 'source' | 'known' | 'result'> => ({
  id,
  title,
  equation,
  source,
  known,
  result: nusselt,
});

/** The formulas of convection, radiation and conduction, as the register lists them. */
export const lawFormulas: readonly Formula[] = [
  {
    ...row(
      nu(
        'free-cylinder',
        'Free convection from a level cylinder',
        'Nu = (0.60 + 0.387 Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27))^2',
        'churchill-chu-1975',
        'second-hand',
      ),
      [rayleigh([1e-5, 1e12]), prandtl],
      { at: [5.07e6, 0.697], gives: 23.1, digits: 1 },
    ),
    evaluate: (g) => freeCylinder(of(g, 'rayleigh'), of(g, 'prandtl')),
  },
  {
    ...row(
      nu(
        'free-upright-plate',
        'Free convection from an upright plate',
        'Nu = (0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27))^2',
        'churchill-chu-1975',
        'second-hand',
      ),
      [rayleigh([0.1, 1e12]), prandtl],
      { at: [1e9, 0.7], gives: 122.6, digits: 1 },
    ),
    evaluate: (g) => freeUprightPlate(of(g, 'rayleigh'), of(g, 'prandtl')),
  },
  {
    ...row(
      nu(
        'free-plate-warm-up',
        'Free convection from a level plate, warm face up',
        'Nu = 0.54 Ra^(1/4); 0.15 Ra^(1/3) above 1e7',
        'heat-transfer-textbook',
        'from-memory',
      ),
      [rayleigh([1e4, 1e11])],
      { at: [1e6], gives: 17.08, digits: 2 },
    ),
    evaluate: (g) => freePlateWarmUp(of(g, 'rayleigh')),
  },
  {
    ...row(
      nu(
        'free-plate-warm-down',
        'Free convection from a level plate, warm face down',
        'Nu = 0.27 Ra^(1/4)',
        'heat-transfer-textbook',
        'from-memory',
      ),
      [rayleigh([1e5, 1e10])],
      { at: [1e6], gives: 8.538, digits: 3 },
    ),
    evaluate: (g) => freePlateWarmDown(of(g, 'rayleigh')),
  },
  {
    ...row(
      nu(
        'cross-flow-cylinder',
        'A cylinder across a stream',
        'Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3)/[1 + (0.4/Pr)^(2/3)]^(1/4) [1 + (Re/282000)^(5/8)]^(4/5)',
        'churchill-bernstein-1977',
        'second-hand',
      ),
      [reynolds([0.3, 1e7]), prandtl],
      { at: [6071, 0.7], gives: 40.637, digits: 3 },
    ),
    evaluate: (g) => crossFlowCylinder(of(g, 'reynolds'), of(g, 'prandtl')),
  },
  {
    ...row(
      nu(
        'forced-plate',
        'A plate along a stream',
        'Nu = 0.664 Re^(1/2) Pr^(1/3); (0.037 Re^(4/5) - 871) Pr^(1/3) above 5e5',
        'heat-transfer-textbook',
        'from-memory',
      ),
      [reynolds([0, 1e8]), prandtl],
      { at: [1e5, 0.7], gives: 186.4, digits: 1 },
    ),
    evaluate: (g) => forcedPlate(of(g, 'reynolds'), of(g, 'prandtl')),
  },
  {
    ...row(
      nu(
        'mixed-convection',
        'Stream and buoyancy together',
        'Nu^3 = Nu_forced^3 + Nu_free^3',
        'heat-transfer-textbook',
        'from-memory',
      ),
      [
        input('forced', '-', [0, 1e5], 'Nusselt number by the stream'),
        input('free', '-', [0, 1e5], 'Nusselt number by buoyancy'),
      ],
      { at: [10, 10], gives: 12.599, digits: 3 },
    ),
    evaluate: (g) => mixedConvection(of(g, 'forced'), of(g, 'free')),
  },
  {
    ...row(
      nu(
        'laminar-inside',
        'Laminar flow in a pipe',
        'Nu = 3.66 + 0.0668 Gz/(1 + 0.04 Gz^(2/3)), Gz = Re Pr D/L',
        'hausen-1943',
        'from-memory',
      ),
      [input('graetz', '-', [0, 1e6], 'Graetz number')],
      { at: [100], gives: 7.25, digits: 2 },
    ),
    evaluate: (g) => laminarInside(of(g, 'graetz')),
  },
  {
    ...row(
      nu(
        'turbulent-inside',
        'Turbulent flow in a pipe',
        'Nu = (f/8)(Re - 1000) Pr/(1 + 12.7 (f/8)^(1/2) (Pr^(2/3) - 1)), f = (0.79 ln Re - 1.64)^-2',
        'gnielinski-1976',
        'from-memory',
      ),
      [reynolds([4000, 5e6]), prandtl],
      { at: [1e4, 0.7], gives: 29.82, digits: 2 },
    ),
    evaluate: (g) => turbulentInside(of(g, 'reynolds'), of(g, 'prandtl')),
  },
  {
    ...row(
      nu(
        'inside-line',
        'Flow in a line, whatever its regime',
        'Nu = (1 - g) Nu_lam(2300) + g Nu_turb(4000), g = (Re - 2300)/1700',
        'gnielinski-1976',
        'from-memory',
      ),
      [reynolds([0, 5e6]), prandtl, input('boreOverLength', '-', [0, 1], 'bore over length')],
      { at: [1e4, 0.7, 0.01], gives: 29.82, digits: 2 },
    ),
    evaluate: (g) => insideLine(of(g, 'reynolds'), of(g, 'prandtl'), of(g, 'boreOverLength')),
  },
  {
    ...row(
      {
        id: 'plate-exchange',
        title: 'Radiation between two large grey plates',
        equation: 'q = sigma (T1^4 - T2^4)/(1/e1 + 1/e2 - 1)',
        source: 'grey-exchange',
        known: 'computed',
        result: { unit: 'W/m2', text: 'heat' },
      },
      [hot, cold, shine('hotEmissivity', 'of the hot one'), shine('coldEmissivity', 'of the cold one')],
      { at: [900, 400, 0.8, 0.9], gives: 26266.6, digits: 1 },
    ),
    evaluate: (g) => plateExchange(of(g, 'hotK'), of(g, 'coldK'), of(g, 'hotEmissivity'), of(g, 'coldEmissivity')),
  },
  {
    ...row(
      {
        id: 'tube-exchange',
        title: 'Radiation between concentric grey tubes',
        equation: "q' = sigma pi D1 (T1^4 - T2^4)/(1/e1 + (D1/D2)(1/e2 - 1))",
        source: 'grey-exchange',
        known: 'computed',
        result: { unit: 'W/m', text: 'heat for a metre' },
      },
      [
        kelvin('innerK', 'inner tube'),
        kelvin('outerK', 'outer tube'),
        metres('innerM', 'inner diameter'),
        metres('outerM', 'outer diameter'),
        shine('innerEmissivity', 'of the inner'),
        shine('outerEmissivity', 'of the outer'),
      ],
      { at: [77, 300, 0.02, 0.05, 0.02, 0.05], gives: -0.49884, digits: 5 },
    ),
    evaluate: (g) =>
      tubeExchange(
        of(g, 'innerK'),
        of(g, 'outerK'),
        of(g, 'innerM'),
        of(g, 'outerM'),
        of(g, 'innerEmissivity'),
        of(g, 'outerEmissivity'),
      ),
  },
  {
    ...row(
      {
        id: 'shielded-exchange',
        title: 'Radiation through one thin shield',
        equation: 'q = sigma (T1^4 - T2^4)/[(1/e1 + 1/eh - 1) + (1/ec + 1/e2 - 1)]',
        source: 'grey-exchange',
        known: 'computed',
        result: { unit: 'W/m2', text: 'heat' },
      },
      [
        hot,
        cold,
        shine('hotEmissivity', 'of the hot plate'),
        shine('coldEmissivity', 'of the cold plate'),
        shine('shieldHotSide', "of the shield's hot side"),
        shine('shieldColdSide', 'of its cold side'),
      ],
      { at: [900, 400, 0.8, 0.9, 0.1, 0.1], gives: 1755.88, digits: 2 },
    ),
    evaluate: (g) =>
      shieldedExchange(
        of(g, 'hotK'),
        of(g, 'coldK'),
        of(g, 'hotEmissivity'),
        of(g, 'coldEmissivity'),
        of(g, 'shieldHotSide'),
        of(g, 'shieldColdSide'),
      ),
  },
  {
    ...row(
      {
        id: 'round-wall-resistance',
        title: 'Heat through a round wall',
        equation: "R' = ln(r2/r1)/(2 pi k)",
        source: 'heat-conduction',
        known: 'computed',
        result: { unit: 'm K/W', text: 'resistance of a metre' },
      },
      [metres('innerM', 'inside radius'), metres('outerM', 'outside radius'), conducts],
      { at: [0.0111, 0.0155, 0.2], gives: 0.2657, digits: 4 },
    ),
    evaluate: (g) => roundWallResistance(of(g, 'innerM'), of(g, 'outerM'), of(g, 'conductivityWPerMK')),
  },
  {
    ...row(
      {
        id: 'lumped-temperature',
        title: 'A body of one temperature that cools',
        equation: 'T = Tinf + (T0 - Tinf) exp(-t/tau), tau = m c/(h A)',
        source: 'lumped-cooling',
        known: 'computed',
        result: { unit: 'degC', text: 'temperature' },
      },
      [
        input('startC', 'degC', [-60, 1500], 'at first'),
        input('aroundC', 'degC', [-60, 1500], 'surroundings'),
        input('seconds', 's', [0, 1e6], 'time since'),
        input('timeConstantS', 's', [1e-3, 1e7], 'time constant'),
      ],
      { at: [100, 60, 60, 376.2], gives: 94.1, digits: 1 },
    ),
    evaluate: (g) => lumpedTemperature(of(g, 'startC'), of(g, 'aroundC'), of(g, 'seconds'), of(g, 'timeConstantS')),
  },
  {
    ...row(
      {
        id: 'biot',
        title: 'Biot number',
        equation: 'Bi = h L/k, L = volume over surface',
        source: 'lumped-cooling',
        known: 'computed',
        result: { unit: '-', text: 'below 0.1 one temperature stands for the whole' },
      },
      [
        input('filmWPerM2K', 'W/(m2 K)', [1e-3, 1e5], 'film'),
        metres('volumeOverSurfaceM', 'volume over surface'),
        conducts,
      ],
      { at: [200, 0.005, 180], gives: 0.005556, digits: 6 },
    ),
    evaluate: (g) => biot(of(g, 'filmWPerM2K'), of(g, 'volumeOverSurfaceM'), of(g, 'conductivityWPerMK')),
  },
];
