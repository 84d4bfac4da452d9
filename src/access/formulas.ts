import type { Formula } from '#sources';
import { boreLitres } from './drips/held.ts';
import { toolRoomFormulas } from './tool-room/register.ts';

/** The formulas of reach and strip-down, as the register lists them. */
export const formulas: readonly Formula[] = [
  {
    id: 'bore-litres',
    title: 'Fluid in a round bore',
    equation: 'V = pi d^2 L/4',
    inputs: [
      { name: 'boreMm', unit: 'mm', range: [0.5, 500], text: 'bore' },
      { name: 'lengthMm', unit: 'mm', range: [0, 100_000], text: 'length' },
    ],
    result: { unit: 'L', text: 'volume' },
    source: 'geometry',
    known: 'computed',
    example: { given: { boreMm: 22.2, lengthMm: 1000 }, gives: 0.3871, digits: 4 },
    evaluate: (given) => boreLitres(given['boreMm'] ?? Number.NaN, given['lengthMm'] ?? Number.NaN),
  },
  ...toolRoomFormulas,
];
