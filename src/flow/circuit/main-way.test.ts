import { describe, expect, it } from 'vitest';
import type { Circuit } from '#car';
import type { CircuitState } from './flow-answer.ts';
import { mainWay } from './main-way.ts';

const ends: Readonly<Record<string, readonly [string, string]>> = {
  A: ['tank.out', 'pump.in'],
  B: ['cooler.in', 'pump.out'],
  C: ['cooler.out', 'tank.back'],
  S: ['pump.out', 'turbo.in'],
};
const at = (line: string) => (ends[line] === undefined ? undefined : { from: ends[line][0], to: ends[line][1] });
const line = (id: string, flowM3S: number, fromPa: number, toPa: number) =>
  ({ line: id, carries: 'liquid', flowM3S, fromPa, toPa, pieces: [] }) as unknown as CircuitState['lines'][number];
const through = (id: string, flowM3S: number, fromPa: number, toPa: number) => ({
  id,
  words: id,
  flowM3S,
  dropPa: 0,
  fromPa,
  toPa,
});
const circuit = (vessels: Circuit['vessels']): Circuit => ({
  id: 'oil',
  kind: 'coolant',
  lines: ['A', 'B', 'C', 'S'],
  pumps: [{ id: 'p', from: 'pump.in', to: 'pump.out', steadyLMin: 10 }],
  passages: [{ id: 'core', from: 'cooler.in', to: 'cooler.out', boreMm: 10, lengthMm: 10 }],
  vessels,
});
const state = {
  // B is drawn against its flow: it is turned round.
  lines: [line('A', 1, 0, -10), line('B', -0.9, 60, 80), line('C', 0.9, 40, 0), line('S', 0.1, 80, 0)],
  pumps: [{ ...through('p', 1, -10, 80), reliefM3S: 0 }],
  passages: [through('core', 0.9, 60, 40)],
} as unknown as CircuitState;

describe('the main way of a circuit', () => {
  it('goes from the tank by the pump along the greater flow back to the tank, pressures in the way of the flow', () => {
    const way = mainWay(circuit([{ part: 'tank', kind: 'tank' }]), at, state);
    expect(way.map(({ id, fromPa, toPa }) => [id, fromPa, toPa])).toEqual([
      ['A', 0, -10],
      ['p', -10, 80],
      ['B', 80, 60],
      ['core', 60, 40],
      ['C', 40, 0],
    ]);
  });

  it('begins at the pump where it goes round without a vessel, and ends before it comes again', () => {
    const round = {
      ...circuit(undefined),
      passages: [...circuit(undefined).passages!, { from: 'tank.back', to: 'tank.out', open: true as const }],
    };
    expect(mainWay(round, at, state).map(({ id }) => id)).toEqual(['p', 'B', 'core', 'C', 'A']);
  });

  it('is empty where nothing is pumped', () => {
    expect(mainWay(circuit([]), at, { ...state, pumps: [] })).toEqual([]);
  });
});
