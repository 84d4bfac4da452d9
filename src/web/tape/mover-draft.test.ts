import { lengthsIn } from '#units';
import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar } from '#car';
import { emptyMover, moverDraft, type MoverDraft, moverEdits, moverWords } from './mover-draft.ts';

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
    expect(moverWords(car.movers[0]!, lengthsIn(false))).toBe('swings -1° to 1°');
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

  it('is changed where it stands: what was not touched stays, what was is set, one step', () => {
    const askew = {
      id: 'tilt',
      axis: [1, 1, 0] as [number, number, number],
      pivotMm: [1.23456, 2, 3] as [number, number, number],
      turnDeg: [-2, 3] as [number, number],
    };
    const wheel = {
      id: 'wheel',
      slideMm: [
        [0, 0, -50.12345],
        [0, 0, 60],
      ] as [[number, number, number], [number, number, number]],
    };
    const car: Car = { ...empty, movers: [askew, wheel] };
    const change = (id: string, over: Partial<MoverDraft>) => {
      const was = car.movers.find((mover) => mover.id === id)!;
      const made = moverEdits(car, { ...moverDraft(was), ...over }, 'mm', id);
      if (!made.ok) throw new Error(made.fault);
      return made.value.edits.reduce((now, edit) => applyEdit(now, edit).car, car).movers.find((one) => one.id === id);
    };
    for (const { id } of car.movers) expect(change(id, {})).toEqual(car.movers.find((one) => one.id === id));
    expect(moverDraft(askew).along).toBe('own');
    expect(change('tilt', { more: '4' })).toEqual({ ...askew, turnDeg: [-2, 4] });
    // Hand: 40 mm down instead of 50, the way as it was.
    expect(change('wheel', { less: '40 mm' })).toEqual({
      ...wheel,
      slideMm: [
        [0, 0, -40],
        [0, 0, 60],
      ],
    });
    expect(change('wheel', { name: 'Front wheel' })).toEqual({ ...wheel, name: 'Front wheel' });
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
