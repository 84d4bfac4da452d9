import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar } from '#car';
import { emptyMover, type MoverDraft, moverEdits, moverWords } from './mover-draft.ts';

const empty: Car = { fairlead: 1, parts: [], movers: [], lines: [] };
const put = (draft: MoverDraft): Car => {
  const made = moverEdits(empty, draft, 'mm');
  if (!made.ok) throw new Error(made.fault);
  return made.value.edits.reduce((now, edit) => applyEdit(now, edit).car, empty);
};

describe('what carries parts about', () => {
  // hand: the engine rocks 1 deg either way about an axis along the car through (1700, 0, 190).
  it('swings about an axis', () => {
    const car = put({ ...emptyMover, name: 'Engine', pivot: { ...emptyMover.pivot, far: ['1700', '0', '190'] } });
    expect(checkCar(car)).toEqual([]);
    expect(car.movers[0]).toEqual({
      id: 'engine',
      name: 'Engine',
      pivotMm: [1700, 0, 190],
      axis: [1, 0, 0],
      turnDeg: [-1, 1],
    });
    expect(moverWords(car.movers[0]!)).toBe('swings -1° to 1°');
  });

  // hand: 50 mm down and 60 mm up of where it is drawn.
  it('slides', () => {
    const car = put({ ...emptyMover, name: 'Wheel', kind: 'slides', along: 'up', less: '50', more: '60 mm' });
    expect(checkCar(car)).toEqual([]);
    expect(car.movers[0]!.slideMm).toEqual([
      [0, 0, -50],
      [0, 0, 60],
    ]);
  });

  it('what does not move is refused', () => {
    const fault = (draft: Partial<MoverDraft>): string => {
      const made = moverEdits(empty, { ...emptyMover, name: 'x', kind: 'slides', ...draft }, 'mm');
      return made.ok ? '' : made.fault;
    };
    expect(fault({ less: '0', more: '0' })).toMatch(/does not move/);
    expect(fault({ less: '-5 mm' })).toMatch(/too far; 0 to 2000 mm/);
    expect(fault({ kind: 'swings' })).toMatch(/axis is missing/);
  });
});
