import { describe, expect, it } from 'vitest';
import { type Car, carFrom } from '#car';
import { DATUM, partBounds, placeFromTape, tapeStart, tapeStarts, type TapeStep } from './tape-place.ts';

const reading = carFrom({
  fairlead: 1,
  parts: [
    {
      id: 'tank',
      name: 'Oil tank',
      class: 'fixed',
      knownToMm: 8,
      shapes: [{ cylinder: { fromMm: [1780, -600, 90], toMm: [1780, -600, 570], radiusMm: 90 } }],
      ports: [{ id: 'out', atMm: [1690, -600, 120], faces: [-1, 0, 0], end: { type: 'orb', dash: 16 }, knownToMm: 3 }],
    },
    { id: 'bare', class: 'fixed' },
    {
      id: 'pipe',
      class: 'fixed',
      shapes: [
        {
          tube: {
            pointsMm: [
              [0, 0, 0],
              [100, 0, 0],
            ],
            radiusMm: 10,
          },
          turnDeg: [0, 0, 90],
          atMm: [5, 0, 0],
        },
      ],
    },
  ],
});
if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
const car: Car = reading.car;
const steps = (a: TapeStep, b: TapeStep, c: TapeStep) => [a, b, c] as const;
const plus = (mm: number): TapeStep => ({ side: 'plus', mm });
const minus = (mm: number): TapeStep => ({ side: 'minus', mm });
const middle: TapeStep = { side: 'middle', mm: 0 };

describe('from what, to what, how far', () => {
  // hand: X rearward, Y right, Z up from the datum; left is minus Y.
  it('from the datum: rearward, left, up', () => {
    expect(placeFromTape(DATUM, steps(plus(1690), minus(600), plus(120)), 5)).toEqual({
      atMm: [1690, -600, 120],
      knownToMm: 5,
    });
  });

  // hand: tank port at (1690, -600, 120) known to 3: 40 forward, 25 right, 10 down = (1650, -575, 110); sqrt(3^2 + 4^2) = 5.
  it('from a port, whose own tolerance joins in', () => {
    expect(placeFromTape(tapeStart(car, 'port tank.out')!, steps(minus(40), plus(25), minus(10)), 4)).toEqual({
      atMm: [1650, -575, 110],
      knownToMm: 5,
    });
  });

  // hand: the tank stands X 1690 to 1870, Y -690 to -510, Z 90 to 570. Rear face 1870 + 50; left face -690 - 20; middle 330.
  // Known to 8 and 6: sqrt(64 + 36) = 10.
  it('from a part: from the face on that side, or level with its middle', () => {
    expect(placeFromTape(tapeStart(car, 'part tank')!, steps(plus(50), minus(20), middle), 6)).toEqual({
      atMm: [1920, -710, 330],
      knownToMm: 10,
    });
  });

  // hand: a tube of radius 10 along X from 0 to 100, turned 90 deg about Z (X becomes Y), then moved 5 along X.
  it('a turned part has the faces that it has where it stands', () => {
    const { min, max } = partBounds(car.parts[2]!)!;
    [-5, -10, -10].forEach((mm, i) => expect(min[i]).toBeCloseTo(mm, 9));
    [15, 110, 10].forEach((mm, i) => expect(max[i]).toBeCloseTo(mm, 9));
  });

  it('a part without a shape is no thing to hold a tape to', () => {
    expect(tapeStarts(car).map(({ name }) => name)).toEqual(['datum', 'part tank', 'port tank.out', 'part pipe']);
    expect(tapeStart(car, 'part bare')).toBeUndefined();
    expect(tapeStart(car, 'port tank.in')).toBeUndefined();
  });
});
