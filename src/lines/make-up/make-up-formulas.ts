import type { Formula } from '#sources';
import { cutToleranceMm } from '#standards';
import { cutFromOverall, facingShift, hoseCutLength } from './cut-length.ts';

/** The numbers of a formula's inputs in the order of its parameters; `workFormula` has checked that they are there. */
const inOrder = (given: Readonly<Record<string, number>>, names: readonly string[]): readonly number[] =>
  names.map((name) => given[name] ?? Number.NaN);

/** The formulas of this part of the room, for the register. */
export const makeUpFormulas: readonly Formula[] = [
  {
    id: 'cut-from-flexible',
    title: 'Length to cut a hose to',
    equation: 'cut = flexible + insertA + insertB',
    inputs: [
      {
        name: 'flexibleMm',
        unit: 'mm',
        range: [0, 30_000],
        text: 'hose between the mouths of the sockets, along its centreline',
      },
      { name: 'insertAMm', unit: 'mm', range: [0, 200], text: 'hose inside the first socket, or over its spigot' },
      { name: 'insertBMm', unit: 'mm', range: [0, 200], text: 'hose inside the second socket' },
    ],
    result: { unit: 'mm', text: 'cut length' },
    source: 'geometry',
    known: 'computed',
    example: { given: { flexibleMm: 600, insertAMm: 24, insertBMm: 24 }, gives: 648, digits: 3 },
    evaluate: (given) => {
      const [flexible = Number.NaN, a = Number.NaN, b = Number.NaN] = inOrder(given, [
        'flexibleMm',
        'insertAMm',
        'insertBMm',
      ]);
      return hoseCutLength(flexible, a, b);
    },
  },
  {
    id: 'cut-from-overall',
    title: "Cut length from the overall length and the ends' cut-off factors",
    equation: 'cut = overall - factorA - factorB',
    inputs: [
      { name: 'overallMm', unit: 'mm', range: [0, 30_000], text: 'seat to seat along the centreline' },
      { name: 'factorAMm', unit: 'mm', range: [0, 200], text: 'seat of the first end to the hose inside it' },
      { name: 'factorBMm', unit: 'mm', range: [0, 200], text: 'the same at the second end' },
    ],
    result: { unit: 'mm', text: 'cut length' },
    source: 'navy-14018',
    known: 'read',
    example: { given: { overallMm: 500, factorAMm: 20.574, factorBMm: 20.574 }, gives: 458.852, digits: 6 },
    evaluate: (given) => {
      const [overall = Number.NaN, a = Number.NaN, b = Number.NaN] = inOrder(given, [
        'overallMm',
        'factorAMm',
        'factorBMm',
      ]);
      return cutFromOverall(overall, a, b);
    },
  },
  {
    id: 'facing-shift',
    title: 'How far an unsure facing moves the end of the hose along the hose',
    equation: 'shift = |rise sin(angle) - offset cos(angle)| * facing',
    inputs: [
      { name: 'riseMm', unit: 'mm', range: [-500, 500], text: 'tail from the port along its axis' },
      { name: 'offsetMm', unit: 'mm', range: [0, 500], text: 'tail sideways from that axis' },
      { name: 'angleRad', unit: 'rad', range: [0, Math.PI], text: 'bend of the end' },
      { name: 'facingRad', unit: 'rad', range: [0, 0.35], text: 'how well the facing is known' },
    ],
    result: { unit: 'mm', text: 'shift along the hose' },
    source: 'geometry',
    known: 'computed',
    example: { given: { riseMm: 100, offsetMm: 30, angleRad: Math.PI / 2, facingRad: 0.05 }, gives: 5, digits: 3 },
    evaluate: (given) => {
      const [rise = Number.NaN, offset = Number.NaN, angle = Number.NaN, facing = Number.NaN] = inOrder(given, [
        'riseMm',
        'offsetMm',
        'angleRad',
        'facingRad',
      ]);
      return facingShift(rise, offset, angle, facing);
    },
  },
  {
    id: 'cut-tolerance',
    title: 'Tolerance of a hose cut to length',
    equation: 'tolerance = table(length): 1/8 in to 12 in, 3/16 to 24, 1/4 to 36, 3/8 to 48, 1/2 to 72, then 1 %',
    inputs: [{ name: 'cutMm', unit: 'mm', range: [1, 30_000], text: 'cut length' }],
    result: { unit: 'mm', text: 'tolerance, plus or minus' },
    source: 'rma-ip-2',
    known: 'read',
    example: { given: { cutMm: 300 }, gives: 3.175, digits: 4 },
    evaluate: (given) => cutToleranceMm(given['cutMm'] ?? Number.NaN),
  },
];
