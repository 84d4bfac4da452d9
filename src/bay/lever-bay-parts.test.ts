import { type Car, readCar } from '#car';
import { describe, expect, it } from 'vitest';
import { bay } from './bay.ts';
import { gapFaults, gapsToParts, type LineInBay } from './gaps.ts';
import { planningItems } from './planning-items.ts';

/** A lever of 300 mm that swings 40 degrees either way about Y at the origin, its cylinder beside it, a port each end of a line. */
const carOf = (pushes: boolean, laid?: boolean): Car => {
  const port = (id: string, atMm: number[], faces: number[]) => ({
    id,
    shapes: [{ box: { minMm: atMm.map((v) => v - 5), maxMm: atMm.map((v) => v + 5) } }],
    class: 'fixed',
    ports: [{ id: 'p', atMm: atMm.map((v, k) => v + 5 * faces[k]!), faces, end: { type: 'plain-tube', odMm: 6 } }],
  });
  const car = {
    fairlead: 1,
    parts: [
      port('a', [105, -205, 200], [0, 1, 0]),
      port('b', [105, 205, 200], [0, -1, 0]),
      port('slave', [0, 40, 20], [0, 1, 0]),
    ],
    lines: [],
    levers: [
      {
        id: 'stick',
        acts: 'hand',
        knownToMm: 1,
        pivotMm: [0, 0, 0],
        axis: [0, 1, 0],
        handle: { atMm: [0, 0, 290] },
        arms: [{ id: 'low', atMm: [0, 0, 20] }],
        turnDeg: [-40, 40],
        shapes: [
          {
            pointsMm: [
              [0, 0, 0],
              [0, 0, 300],
            ],
            radiusMm: 6,
          },
        ],
        ...(pushes
          ? { cylinders: [{ id: 'c', arm: 'low', farMm: [60, 0, 20], boreMm: 15, strokeMm: 25, part: 'slave' }] }
          : {}),
        ...(laid === undefined
          ? {}
          : {
              cables: [
                {
                  id: 'K',
                  arm: 'low',
                  to: { lever: 'far', arm: 'in' },
                  pathMm: [
                    [50, 0, 20],
                    [250, 0, 20],
                  ],
                  odMm: 10,
                  laid,
                },
              ],
            }),
      },
      ...(laid === undefined
        ? []
        : [
            {
              id: 'far',
              acts: 'link',
              pivotMm: [300, 0, 0],
              axis: [0, 1, 0],
              arms: [{ id: 'in', atMm: [300, 0, 20] }],
              turnDeg: [-50, 50],
            },
          ]),
    ],
  };
  const reading = readCar(JSON.stringify(car));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
};

/** Places 3 mm apart at most on a straight. */
const straight = (from: readonly number[], to: readonly number[]): Float64Array =>
  Float64Array.from(
    { length: 3 * 151 },
    (_, i) => from[i % 3]! + ((to[i % 3]! - from[i % 3]!) * Math.floor(i / 3)) / 150,
  );

/** A straight line of 6 mm across the way of the lever, 105 mm ahead of its pivot and 200 above. */
const across = (x: number): LineInBay => ({
  line: { duty: 'air' },
  bodies: [
    {
      part: 'tube',
      path: straight([x, -200, 200], [x, 200, 200]),
      radiusMm: 3,
    },
  ],
  from: 'a.p',
  to: 'b.p',
  nearMm: [60, 60],
});

describe('levers in the bay', () => {
  it('a line that the lever would strike in mid-swing is told, though it clears it at rest and at both ends', () => {
    const space = bay(carOf(false), new Map());
    // By hand: at rest 105 - 6 - 3 = 96 mm of air. Struck at atan(105/200) = 27.7 deg; at 40 deg the lever is 200 sin 40 - 105 cos 40 = 48 mm past it.
    const rows = gapsToParts(across(105), space);
    const stick = rows.find(({ part }) => part === 'stick')!;
    expect(stick.gapMm).toBeCloseTo(96, 1);
    // 4 degrees at 226 mm are 16: looked at within 8 of the very place, of the 9 that they overlap there.
    expect(stick.movedMm).toBeLessThan(-1);
    expect(gapFaults(rows).find(({ row }) => row.part === 'stick')).toMatchObject({ when: 'touched' });
    // Beyond its reach at that height, 223 mm out, nothing is told.
    expect(gapFaults(gapsToParts(across(290), space)).map(({ row }) => row.part)).not.toContain('stick');
  });

  it('are to be kept off by plans in every place of their swing, no two of them further apart than the lever is thick', () => {
    const space = bay(carOf(false), new Map());
    const items = planningItems(space, {
      id: 'L',
      from: 'a.p',
      to: 'b.p',
      duty: 'air',
      state: 'planned',
      through: [],
    } as never);
    const turns = items
      .filter(({ part, moved }) => part === 'stick' && moved)
      .map(({ solid }) => (solid.bounds.min[0] + solid.bounds.max[0]) / 2)
      .toSorted((a, b) => a - b);
    // Middle of the lever: 150 sin t, every 4 degrees from -40 to 40 but for rest.
    const wanted = Array.from({ length: 21 }, (_, i) => 150 * Math.sin(((4 * i - 40) * Math.PI) / 180)).filter(
      (_, i) => i !== 10,
    );
    expect(turns).toHaveLength(20);
    turns.forEach((x, i) => expect(x).toBeCloseTo(wanted[i]!, 6));
  });

  it.each([true, false])('a cable is planned round where it was measured as it lies: %s', (laid) => {
    const space = bay(carOf(false, laid), new Map());
    const line = { id: 'L', from: 'a.p', to: 'b.p', duty: 'air', state: 'planned', through: [] } as never;
    expect(planningItems(space, line).some(({ part }) => part === 'stick-K')).toBe(laid);
    // By hand: 40 mm over its middle, less 5 of the conduit and 3 of the line.
    const over = {
      ...across(150),
      bodies: [{ part: 'tube', path: straight([150, -200, 60], [150, 200, 60]), radiusMm: 3 }],
    };
    const row = gapsToParts(over, space).find(({ part }) => part === 'stick-K');
    if (laid) expect(row!.gapMm).toBeCloseTo(32, 6);
    else expect(row).toBeUndefined();
  });

  it('a line from the cylinder that a lever pushes need not keep its distance from the lever beside that port', () => {
    const from = (pushes: boolean) => {
      const line: LineInBay = {
        line: { duty: 'brake' },
        bodies: [
          {
            part: 'tube',
            path: straight([0, 45, 20], [0, 400, 20]),
            radiusMm: 3,
          },
        ],
        from: 'slave.p',
        to: 'b.p',
        nearMm: [60, 60],
      };
      return gapsToParts(line, bay(carOf(pushes), new Map())).find(({ part }) => part === 'stick')!;
    };
    expect(from(true)).toMatchObject({ own: true, keepOffMm: 0 });
    expect(from(false)).toMatchObject({ own: false });
  });
});
