import type { Formula } from '#sources';
import { of } from './given.ts';
import { openHeadMm, ringHeadMm, socketOdMm } from './tool-envelope.ts';

const hexagon = { name: 'acrossFlatsMm', unit: 'mm', range: [5, 60], text: 'hexagon across flats' } as const;

/** The formulas of spanners and sockets, as the register lists them. */
export const toolFormulas: readonly Formula[] = [
  {
    id: 'open-head-width',
    title: 'Greatest outside width of an open-ended head',
    equation: 'b = 2.1 s + 7',
    inputs: [hexagon],
    result: { unit: 'mm', text: 'width of the head' },
    source: 'iso-3318',
    known: 'from-memory',
    example: { given: { acrossFlatsMm: 19 }, gives: 46.9, digits: 1 },
    evaluate: (g) => openHeadMm(of(g, 'acrossFlatsMm')),
  },
  {
    id: 'ring-head-width',
    title: 'Greatest outside width of a ring head',
    equation: 'b = 1.5 s + 4',
    inputs: [hexagon],
    result: { unit: 'mm', text: 'width of the head' },
    source: 'iso-3318',
    known: 'from-memory',
    example: { given: { acrossFlatsMm: 13 }, gives: 23.5, digits: 1 },
    evaluate: (g) => ringHeadMm(of(g, 'acrossFlatsMm')),
  },
  {
    id: 'socket-outside',
    title: 'Usual outside diameter of a socket',
    equation: 'D = 1.33 s + 1.5',
    inputs: [hexagon],
    result: { unit: 'mm', text: 'outside diameter' },
    source: 'iso-2725-1',
    known: 'from-memory',
    example: { given: { acrossFlatsMm: 13 }, gives: 18.8, digits: 1 },
    evaluate: (g) => socketOdMm(of(g, 'acrossFlatsMm')),
  },
];
