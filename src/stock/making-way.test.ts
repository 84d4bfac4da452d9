import { describe, expect, it } from 'vitest';
import { keptLines, makingWay } from './kept-lines.ts';
import { plannedStraight, smallCar, straightWay, twoLines, worldOf } from './small-car.fixture.ts';

/** The second car asks for another O1, which finds no way past the kept O2. */
function blocked(stateOfSecond: string) {
  const a = smallCar();
  const b = smallCar({ lines: [{ ...twoLines[0], dash: 12, hose: 'rubber-braid-12' }, twoLines[1]] });
  const kept = keptLines(worldOf(a), plannedStraight(a), worldOf(b));
  const best = straightWay(b, b.lines[0]!, {
    fails: [{ limit: 'keep-off', text: 'passes line O2 at 1 mm; lines want 3', part: 'line O2' }],
  });
  const lines = b.lines.map((line, n) => (n === 1 ? { ...line, state: stateOfSecond } : line));
  const car = { ...b, lines } as typeof b;
  return { kept, fewer: makingWay(kept, { lines: [{ line: 'O1', taken: null, best }] }, car), best, car };
}

describe('a kept line in the way of one that finds none', () => {
  it('hand: makes way while it is only planned', () => {
    const { kept, fewer } = blocked('planned');
    expect([[...kept.kept.keys()], [...fewer!.kept.keys()]]).toEqual([['O2'], []]);
    expect(fewer!.wanting).toEqual(['O1']);
    expect(fewer!.not.get('O2')).toEqual({ line: 'O2', why: ['it makes way for O1'] });
  });

  it('hand: stays once it is bought or made', () => {
    for (const state of ['bought', 'made', 'fitted']) expect(blocked(state).fewer).toBeNull();
  });

  it('hand: stays where the other has a way', () => {
    const { kept, best, car } = blocked('planned');
    expect(makingWay(kept, { lines: [{ line: 'O1', taken: best, best }] }, car)).toBeNull();
  });
});
