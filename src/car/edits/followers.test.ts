import { describe, expect, it } from 'vitest';
import { faultLine } from '../fault.ts';
import { carFrom } from '../read-car.ts';
import type { Car } from '../schema/car.ts';
import { applyEdit } from './apply-edit.ts';
import type { Edit } from './edit.ts';
import { followersOf } from './followers.ts';

const port = (id: string, atMm: readonly number[], more: object = {}) => ({
  id,
  atMm,
  faces: [1, 0, 0],
  end: { type: 'orb', dash: 8 },
  ...more,
});
const box = (x: number) => [{ box: { minMm: [x, 0, 0], maxMm: [x + 10, 10, 10] } }];

/** A tank; a bracket that follows its outlet; a cooler of which one port was taped from the bracket and one was not. */
const file = {
  fairlead: 1,
  parts: [
    { id: 'tank', class: 'fixed', shapes: box(0), ports: [port('out', [0, 0, 0])] },
    { id: 'bracket', class: 'fixed', follows: 'tank.out', shapes: box(100), ports: [port('eye', [100, 0, 0])] },
    {
      id: 'cooler',
      class: 'fixed',
      shapes: box(200),
      ports: [port('in', [200, 0, 0], { follows: 'bracket.eye' }), port('out', [210, 0, 0])],
    },
  ],
};
const read = (from: object): Car => {
  const reading = carFrom(JSON.parse(JSON.stringify(from)));
  if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
  return reading.car;
};
const faults = (change: (parts: Record<string, unknown>[]) => void): string[] => {
  const made = JSON.parse(JSON.stringify(file)) as { parts: Record<string, unknown>[] };
  change(made.parts);
  const reading = carFrom(made as never);
  return reading.ok ? [] : reading.faults.map(faultLine);
};
const car = read(file);
const places = (edit: Edit) => {
  const { car: now, inverse } = applyEdit(car, edit);
  expect(applyEdit(now, inverse).car).toEqual(car);
  const x = now.parts.flatMap((part) => part.ports.map((one) => [`${part.id}.${one.id}`, one.atMm[0]] as const));
  return { ...Object.fromEntries(x), bracketSolid: now.parts[1]!.shapes[0]!.box!.minMm[0] };
};

describe('what was taped from something and goes along with it', () => {
  it('goes with a part that is moved, and what follows it in turn', () => {
    expect(places({ do: 'move-part', part: 'tank', byMm: [5, 0, 0] })).toEqual({
      'tank.out': 5,
      'bracket.eye': 105,
      bracketSolid: 105,
      'cooler.in': 205,
      'cooler.out': 210,
    });
  });

  it('goes with a port that is measured anew, the part of that port staying', () => {
    const told = places({ do: 'set-port', port: 'tank.out', field: 'atMm', value: [7, 0, 0] });
    expect(told).toEqual({ 'tank.out': 7, 'bracket.eye': 107, bracketSolid: 107, 'cooler.in': 207, 'cooler.out': 210 });
    // What it follows does not go along with the follower.
    expect(places({ do: 'move-part', part: 'bracket', byMm: [5, 0, 0] })).toMatchObject({
      'tank.out': 0,
      'cooler.in': 205,
    });
  });

  it('turns with a part that is turned', () => {
    // Hand: a quarter about Z through the origin takes (200, 0, 0) to (0, 200, 0), and a port that faces rearward to the right.
    const { car: now } = applyEdit(car, { do: 'move-part', part: 'tank', byMm: [0, 0, 0], turnDeg: [0, 0, 90] });
    const inlet = now.parts[2]!.ports[0]!;
    [0, 200, 0].forEach((mm, i) => expect(inlet.atMm[i]).toBeCloseTo(mm, 9));
    [0, 1, 0].forEach((v, i) => expect(inlet.faces[i]).toBeCloseTo(v, 9));
  });

  it('goes once where two things follow each other, and with the readings of a port', () => {
    const ring = read({
      ...file,
      parts: file.parts.map((part) => (part.id === 'tank' ? { ...part, follows: 'cooler' } : part)),
    });
    expect(applyEdit(ring, { do: 'move-part', part: 'cooler', byMm: [3, 0, 0] }).car.parts[2]!.ports[0]!.atMm[0]).toBe(
      203,
    );
    expect([...followersOf(ring, 'cooler').parts].sort()).toEqual(['bracket', 'tank']);
    const measured = read({
      ...file,
      parts: file.parts.map((part) =>
        part.id === 'tank'
          ? { ...part, ports: [{ ...port('out', []), atMm: undefined, measured: [{ xMm: 1, yMm: 0, zMm: 0 }] }] }
          : part,
      ),
    });
    const edit: Edit = { do: 'set-port', port: 'tank.out', field: 'measured', value: [{ xMm: 9, yMm: 0, zMm: 0 }] };
    const now = applyEdit(measured, edit);
    // One mm by the first reading, nine by the second: eight more.
    expect(now.car.parts[1]!.ports[0]!.atMm[0]).toBeCloseTo(108, 6);
    expect(applyEdit(now.car, now.inverse).car).toEqual(measured);
  });

  it('is a part or a port of the car, and not itself', () => {
    expect(faults((parts) => (parts[1]!['follows'] = 'tank.oout'))).toEqual([
      expect.stringMatching(/^parts\[1\]\.follows: .*tank\.oout.*tank\.out/u),
    ]);
    expect(faults((parts) => (parts[1]!['follows'] = 'tonk'))).toEqual([expect.stringContaining('tank')]);
    expect(faults((parts) => (parts[1]!['follows'] = 'bracket'))).toEqual([expect.stringContaining('another part')]);
    expect(faults((parts) => (parts[1]!['follows'] = 'a b.c'))).toHaveLength(1);
  });
});
