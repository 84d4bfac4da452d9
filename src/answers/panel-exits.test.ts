import { readCar } from '#car';
import { linesWorld } from '#lines';
import { describe, expect, it } from 'vitest';
import { panelsAround } from './panels-of.ts';

interface Wish {
  /** X at which the pipe ends [mm]. */
  readonly ends?: number;
  /** X and Y of the near face of a box behind the wall [mm]. */
  readonly box?: readonly [x: number, y: number];
  /** A second hot pipe that goes on from the end of the first. */
  readonly goesOn?: boolean;
  /** Middle of an inlet in the wall, from its first corner along [mm]. */
  readonly inlet?: number;
  readonly bend?: boolean;
  /** The pipe's own shape, in its place. */
  readonly shape?: object;
}

/** A wall at X 1000, 800 wide from Y -400 and 600 high, its outside backwards; a hot pipe of 76 mm goes out through it at Y 0, Z 300. */
function carOf({ ends = 1060, box, goesOn = false, inlet, bend = false, shape }: Wish) {
  const corner = (id: string, y: number, z: number) => ({ id, atMm: [1000, y, z] });
  const pipe = (id: string, pointsMm: readonly (readonly number[])[]) => ({
    id,
    name: id,
    class: 'hot',
    surfaceC: 520,
    shapes: [{ tube: { pointsMm, radiusMm: 38 } }],
    ports: [],
  });
  const out = bend
    ? [
        [500, 0, 300],
        [1080, 0, 300],
        [1080, ends, 300],
      ]
    : [
        [500, 0, 300],
        [ends, 0, 300],
      ];
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      parts: [
        { ...pipe('tailpipe', out), ...(shape && { shapes: [shape] }) },
        ...(goesOn
          ? [
              pipe('silencer', [
                [ends, 0, 300],
                [ends, 600, 300],
              ]),
            ]
          : []),
        ...(box === undefined
          ? []
          : [
              {
                id: 'bumper',
                name: 'bumper',
                class: 'fixed',
                shapes: [{ box: { minMm: [box[0], box[1], 0], maxMm: [box[0] + 50, box[1] + 400, 600] } }],
                ports: [],
              },
            ]),
      ],
      lines: [],
      panels: [
        {
          id: 'wall',
          thicknessMm: 1.2,
          outside: [1, 0, 0],
          corners: [corner('A', -400, 0), corner('B', 400, 0), corner('C', 400, 600), corner('D', -400, 600)],
          ...(inlet === undefined
            ? {}
            : { windows: [{ id: 'I', shape: 'slot', count: 2, sizeMm: [80, 60], lets: 'in', centreAlongMm: inlet }] }),
        },
      ],
    }),
  );
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
}

const told = (wish: Wish, hose?: readonly (readonly [number, number, number])[]) => {
  const bodies = new Map(hose === undefined ? [] : [['L1', [{ part: 'hose', pathMm: hose, odMm: 20 }]]]);
  return panelsAround(linesWorld(carOf(wish), new Map()), bodies)
    .flatMap(({ findings }) => findings)
    .filter(({ code }) => /exit|inlet/.test(code));
};

describe('hot pipes that leave through a panel, by hand', () => {
  it('stand half a diameter out of it, 38 mm', () => {
    expect(told({ ends: 1060 })).toEqual([]);
    expect(told({ ends: 1010 })).toMatchObject([
      { code: 'panel-exit-short', value: 10, limit: 38, part: 'tailpipe', cures: ['carry it 28 mm further out'] },
    ]);
  });

  it('blow on nothing within five diameters, 380 mm: on the axis, and beside it where the jet has widened', () => {
    // Face 300 before the mouth at 1060; met when the jet's edge is 38 + s tan 12 deg from it: s = (300 - 38) / (1 + 0.2126) = 216.
    const [row] = told({ box: [1360, -200] });
    expect(row).toMatchObject({ code: 'panel-exit-blows-on', part: 'bumper', limit: 380, level: 'fix' });
    expect(row!.value).toBeGreaterThanOrEqual(216);
    expect(row!.value).toBeLessThanOrEqual(226);
    // Beyond five diameters and the jet's half width there, 380 + 119.
    expect(told({ box: [1570, -200] })).toEqual([]);
    // Beside the jet, 140 to 190 before the mouth, where it is 68 to 78 wide either way: 90 off the axis it is not met, 70 off at (70 - 38) / 0.2126 = 151.
    expect(told({ box: [1200, 90] })).toEqual([]);
    const [beside] = told({ box: [1200, 70] });
    expect(beside!.value).toBeGreaterThanOrEqual(150);
    expect(beside!.value).toBeLessThanOrEqual(161);
  });

  it('on a line it is a stop', () => {
    const hose = Array.from({ length: 41 }, (_, i) => [1300, -200 + 10 * i, 300] as const);
    expect(told({}, hose)).toMatchObject([{ code: 'panel-exit-blows-on', line: 'L1', level: 'stop' }]);
  });

  it('an end at which another hot pipe begins is no mouth', () => {
    expect(told({ goesOn: true, box: [1200, -200] }).map(({ code }) => code)).not.toContain('panel-exit-short');
    expect(told({ ends: 1010 })).toHaveLength(1);
    expect(told({ ends: 1010, goesOn: true })).toEqual([]);
  });
});

describe('hot pipes through a panel whichever way they stand', () => {
  const flatOf = (shape: object) =>
    panelsAround(linesWorld(carOf({ shape }), new Map()), new Map()).map(({ flats, findings }) => ({
      flat: flats[0]!,
      codes: findings.map(({ code }) => code),
    }))[0]!;
  const opening = (shape: object) => flatOf(shape).flat.slots.find(({ for: what }) => what === 'tailpipe')!;

  it('leave their opening on the flat: a tube that leans, the same turned by its shape, a cylinder', () => {
    // From X 500 to 1200 it rises by 700 tan 30: through the wall at X 1000 it is 300 up, as the straight one.
    const rise = (x: number) => 300 + (x - 1000) * Math.tan(Math.PI / 6);
    const tube = {
      tube: {
        pointsMm: [
          [500, 0, rise(500)],
          [1200, 0, rise(1200)],
        ],
        radiusMm: 38,
      },
    };
    // About car Y a turn of -30 degrees lifts what points along X.
    const long = 700 / Math.cos(Math.PI / 6);
    const turned = {
      tube: {
        pointsMm: [
          [0, 0, 0],
          [long, 0, 0],
        ],
        radiusMm: 38,
      },
      turnDeg: [0, -30, 0],
      atMm: [500, 0, rise(500)],
    };
    const cylinder = { cylinder: { fromMm: [500, 0, rise(500)], toMm: [1200, 0, rise(1200)], radiusMm: 38 } };
    for (const shape of [tube, turned, cylinder]) {
      const slot = opening(shape);
      // 76 + 2 x 12 of air + growth either way, 17.3e-6 x 500 / cos 30 x 500 K = 4.99, is 110 wide or the next saw; 110 / cos 30 - 110 + 1.2 tan 30 longer.
      expect(slot.wideMm).toBeGreaterThanOrEqual(109.9);
      expect(slot.longMm - slot.wideMm).toBeCloseTo(17.02 + 0.69, 1);
      expect(Math.abs(slot.turnDeg % 180)).toBeCloseTo(90, 6);
      expect(flatOf(shape).flat.seals.find(({ at }) => at === 'tailpipe')!.words).toMatch(/stand-off ring/);
    }
    expect(opening(turned).at).toEqual(opening(tube).at.map((mm) => expect.closeTo(mm, 6) as number));
    expect(flatOf(turned).codes).not.toContain('panel-exit-short');
  });
});

describe('air inlets that are cut on purpose', () => {
  it('draw exhaust where a pipe blows across them, and hot air within 100 mm of a pipe', () => {
    // The pipe turns outside the wall and blows along it, 80 mm from it: 38 + s tan 12 deg is 80 at s = 198, Y 318. The inlet's two slots are at 320 and 360.
    const across = told({ bend: true, ends: 120, inlet: 740 }).filter(({ code }) => code === 'panel-inlet-hot');
    expect(across).toMatchObject([{ at: 'I', part: 'tailpipe', limit: 760, level: 'fix' }]);
    expect(across[0]!.text).toContain('blows its exhaust into it');
    expect(across[0]!.value).toBeGreaterThan(200);
    // Upstream of it, on the other side, it does not.
    expect(told({ bend: true, ends: 120, inlet: 140 }).filter(({ code }) => code === 'panel-inlet-hot')).toEqual([]);
    // Beside the pipe as it comes out, clear of its ring, 66: the nearer slot's middle is some 100 from the axis, 62 from the pipe; 100 are wanted.
    const warm = told({ inlet: 280 }).filter(({ code }) => code === 'panel-inlet-hot');
    expect(warm.length).toBeGreaterThan(0);
    expect(warm[0]!.text).toContain('warms what it draws');
  });
});
