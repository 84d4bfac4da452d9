import type { Formula, FormulaInput } from '#sources';
import {
  capstanShare,
  cylinderPressure,
  displacedMl,
  handleForce,
  linkRate,
  slantedHole,
  strokeFor,
} from './effort-formulas.ts';

type Given = Readonly<Record<string, number>>;

/** `workFormula` has checked that every input is there; a missing one would give NaN, which it refuses. */
const of = (given: Given, name: string): number => given[name] ?? Number.NaN;

const input = (name: string, unit: string, range: readonly [number, number], text: string): FormulaInput => ({
  name,
  unit,
  range,
  text,
});

const force = input('forceN', 'N', [0, 100_000], 'force at handle or pad');
const ratio = input('leverRatio', '-', [0.01, 1000], 'movement of the handle over that of the piston');
const bore = input('boreMm', 'mm', [0.5, 500], 'bore');
const share = input('share', '-', [0.01, 1], 'share of the force that this cylinder gets');
const lost = input('lostShare', '-', [0, 0.9], 'share lost in seals and pivots');

/** The formulas of levers, as the register lists them. */
export const formulas: readonly Formula[] = [
  {
    id: 'lever-cylinder-pressure',
    title: 'Pressure that a lever makes in a cylinder',
    equation: 'p = F i s (1 - l) / (pi d^2/4)',
    inputs: [force, ratio, bore, share, lost],
    result: { unit: 'Pa', text: 'pressure above the air outside' },
    source: 'lever-statics',
    known: 'computed',
    example: {
      given: { forceN: 300, leverRatio: 5, boreMm: 17.5, share: 1, lostShare: 0 },
      gives: 6236275,
      digits: 0,
    },
    evaluate: (g) =>
      cylinderPressure(of(g, 'forceN'), of(g, 'leverRatio'), of(g, 'boreMm'), of(g, 'share'), of(g, 'lostShare')),
  },
  {
    id: 'lever-handle-force',
    title: 'Force at handle or pad for a pressure',
    equation: 'F = p (pi d^2/4) / (i s (1 - l))',
    inputs: [input('pressurePa', 'Pa', [0, 1e9], 'pressure above the air outside'), ratio, bore, share, lost],
    result: { unit: 'N', text: 'force' },
    source: 'lever-statics',
    known: 'computed',
    example: {
      given: { pressurePa: 6.894757e6, leverRatio: 5, boreMm: 22.225, share: 1, lostShare: 0 },
      gives: 534.96,
      digits: 2,
    },
    evaluate: (g) =>
      handleForce(of(g, 'pressurePa'), of(g, 'leverRatio'), of(g, 'boreMm'), of(g, 'share'), of(g, 'lostShare')),
  },
  {
    id: 'cable-passes',
    title: 'Share of the force that comes out of a bent cable',
    equation: 'F_out/F_in = exp(-mu theta)',
    inputs: [
      input('frictionRatio', '-', [0, 1], 'friction of core on liner'),
      input('bendDeg', 'deg', [0, 3600], 'all bends together'),
    ],
    result: { unit: '-', text: 'force out over force in' },
    source: 'capstan-1762',
    known: 'second-hand',
    example: { given: { frictionRatio: 0.1, bendDeg: 270 }, gives: 0.6242, digits: 4 },
    evaluate: (g) => capstanShare(of(g, 'frictionRatio'), of(g, 'bendDeg')),
  },
  {
    id: 'cylinder-displaced',
    title: 'Fluid that a piston moves',
    equation: 'V = pi d^2/4 s',
    inputs: [bore, input('strokeMm', 'mm', [0, 1000], 'stroke')],
    result: { unit: 'ml', text: 'volume' },
    source: 'geometry',
    known: 'computed',
    example: { given: { boreMm: 17.8, strokeMm: 12.9 }, gives: 3.21, digits: 2 },
    evaluate: (g) => displacedMl(of(g, 'boreMm'), of(g, 'strokeMm')),
  },
  {
    id: 'cylinder-stroke',
    title: 'Stroke of a piston that moves a volume of fluid',
    equation: 's = V / (pi d^2/4)',
    inputs: [bore, input('volumeMl', 'ml', [0, 10_000], 'volume')],
    result: { unit: 'mm', text: 'stroke' },
    source: 'geometry',
    known: 'computed',
    example: { given: { boreMm: 17.8, volumeMl: 3.21 }, gives: 12.9, digits: 2 },
    evaluate: (g) => strokeFor(of(g, 'boreMm'), of(g, 'volumeMl')),
  },
  {
    id: 'lever-link-rate',
    title: 'Turn of a driven lever per turn of the one that drives it through a rod, in one plane',
    equation: 'i = (r1 sin a1)/(r2 sin a2)',
    inputs: [
      input('fromRadiusMm', 'mm', [0.5, 10_000], 'driving arm'),
      input('fromArmDeg', 'deg', [0, 180], 'between driving arm and rod'),
      input('toRadiusMm', 'mm', [0.5, 10_000], 'driven arm'),
      input('toArmDeg', 'deg', [0.1, 179.9], 'between driven arm and rod'),
    ],
    result: { unit: '-', text: 'turn out over turn in' },
    source: 'lever-statics',
    known: 'computed',
    example: {
      given: { fromRadiusMm: 40, fromArmDeg: 90, toRadiusMm: 80, toArmDeg: 90 },
      gives: 0.5,
      digits: 6,
    },
    evaluate: (g) => linkRate(of(g, 'fromRadiusMm'), of(g, 'fromArmDeg'), of(g, 'toRadiusMm'), of(g, 'toArmDeg')),
  },
  {
    id: 'cable-hole',
    title: 'Opening that a cable needs where it goes through a plate at a slant',
    equation: 'w = d/cos a + t tan a',
    inputs: [
      input('odMm', 'mm', [0.5, 200], 'outside of the cable'),
      input('slantDeg', 'deg', [0, 79], "between cable and the plate's normal"),
      input('thicknessMm', 'mm', [0, 100], 'plate'),
    ],
    result: { unit: 'mm', text: 'length of the opening' },
    source: 'geometry',
    known: 'computed',
    example: { given: { odMm: 11, slantDeg: 30, thicknessMm: 1.2 }, gives: 13.39, digits: 2 },
    evaluate: (g) => slantedHole(of(g, 'odMm'), of(g, 'slantDeg'), of(g, 'thicknessMm')),
  },
];
