import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar } from '#car';
import { emptyPart, partDraft, type PartDraft, partEdits } from './part-draft.ts';
import { emptySolid } from './solid-draft.ts';

const empty: Car = {
  fairlead: 1,
  parts: [],
  movers: [
    {
      id: 'engine',
      slideMm: [
        [0, 0, 0],
        [0, 0, 5],
      ],
    },
  ],
  lines: [],
};
const manifold: PartDraft = {
  ...emptyPart,
  name: 'Manifold',
  class: 'hot',
  surface: '1382 F',
  keepOff: '4 in',
  movesWith: 'engine',
  solid: {
    ...emptySolid,
    size: ['300 mm', '100 mm', '80 mm'],
    place: { ...emptySolid.place, far: ['1500 mm', '0', '400 mm'], known: '3 mm' },
  },
};
function put(car: Car, id: string | null, draft: PartDraft): Car {
  const made = partEdits(car, id, draft, 'mm');
  if (!made.ok) throw new Error(made.fault);
  return made.value.edits.reduce((now, edit) => applyEdit(now, edit).car, car);
}

describe('a part in the form', () => {
  // hand: 1382 F = (1382 - 32) / 1.8 = 750 C; 4 in = 101.6 mm.
  it('comes onto the car', () => {
    const car = put(empty, null, manifold);
    expect(checkCar(car)).toEqual([]);
    expect(car.parts[0]).toEqual({
      id: 'manifold',
      name: 'Manifold',
      class: 'hot',
      surfaceC: 750,
      keepOffMm: 101.6,
      movesWith: 'engine',
      knownToMm: 5,
      shapes: [{ box: { minMm: [1350, -50, 400], maxMm: [1650, 50, 480] }, knownToMm: 3 }],
      ports: [],
    });
  });

  it('opened and kept again it changes nothing; a field that is emptied is taken away', () => {
    const car = put(empty, null, manifold);
    const again = partEdits(car, 'manifold', partDraft(car.parts[0]!), 'mm');
    expect(again.ok && again.value.edits).toEqual([]);
    const cold = put(car, 'manifold', { ...partDraft(car.parts[0]!), class: 'fixed', surface: '', keepOff: '' });
    expect(checkCar(cold)).toEqual([]);
    expect(cold.parts[0]!.surfaceC).toBeUndefined();
    expect(cold.parts[0]!.keepOffMm).toBeUndefined();
    expect(cold.parts[0]!.shapes).toEqual(car.parts[0]!.shapes);
  });

  it('what is missing is said', () => {
    const fault = (draft: PartDraft): string => {
      const made = partEdits(empty, null, draft, null);
      return made.ok ? '' : made.fault;
    };
    expect(fault({ ...manifold, name: ' ' })).toMatch(/no name/);
    expect(fault({ ...manifold, surface: '750' })).toMatch(/"750" has no unit; write 750 C or 750 F/);
    expect(fault({ ...manifold, surface: '2000 C' })).toMatch(/not within/);
    expect(fault({ ...manifold, solid: emptySolid })).toMatch(/solid/);
  });
});
