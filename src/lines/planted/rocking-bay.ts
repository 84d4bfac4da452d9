import { chance } from './chance.ts';
import type { MovedCar } from './extreme-faults.ts';
import type { BayCar } from './planted-bay.ts';
import type { Point } from './solid-distance.ts';

/** A car file whose engine rocks on its mounts: a hose goes from a tank on the chassis to the engine, too long to hang free. */
export type RockingCar = Omit<MovedCar, 'parts'> &
  Pick<BayCar, 'fairlead' | 'name' | 'lines'> & { readonly parts: readonly RockingPart[] };

type RockingPart = Omit<MovedCar['parts'][number], 'ports'> & {
  readonly ports: readonly { readonly id: string; readonly atMm: Point; readonly faces: Point; readonly end: object }[];
};

/** Clear of floor, tank and engine there is room to spare; what stands between is drawn. The same for the same seed. */
export function rockingBay(seed: number, rockDeg: number): RockingCar {
  const draw = chance(7000 + seed);
  const tankX = -draw.between(150, 260);
  const faces = draw.oneOf<Point>([
    [1, 0, 0],
    [0, -1, 0],
    [0, 0, 1],
  ]);
  const into = draw.oneOf<Point>([
    [-1, 0, 0],
    [0, 0, 1],
    [0, -1, 0],
  ]);
  const engine = box([760, -160, 80], [1100, 160, 480]);
  const onFace = (low: Point, high: Point, f: Point): Point =>
    [0, 1, 2].map((k) =>
      f[k] === 1 ? high[k]! : f[k] === -1 ? low[k]! : (low[k]! + high[k]!) / 2,
    ) as unknown as Point;
  const tankLow: Point = [tankX - 160, -80, 150];
  const tankHigh: Point = [tankX, 80, 420];
  const end = { type: 'flare37-male', dash: 8 };
  return {
    fairlead: 1,
    name: `rocking ${seed}`,
    parts: [
      { id: 'floor', class: 'fixed', shapes: [box([-600, -700, -10], [1400, 700, 0])], ports: [] },
      rail(draw.between(120, 220)),
      {
        id: 'tank',
        class: 'fixed',
        shapes: [box(tankLow, tankHigh)],
        ports: [{ id: 'p', atMm: onFace(tankLow, tankHigh, faces), faces, end }],
      },
      {
        id: 'block',
        class: 'fixed',
        movesWith: 'engine',
        shapes: [engine],
        ports: [{ id: 'p', atMm: onFace([760, -160, 80], [1100, 160, 480], into), faces: into, end }],
      },
      manifold,
    ],
    movers: [{ id: 'engine', pivotMm: [900, 0, 100], axis: [1, 0, 0], turnDeg: [-rockDeg, rockDeg] }],
    lines: [
      {
        id: 'L1',
        from: 'tank.p',
        to: 'block.p',
        duty: 'oil-pressure',
        dash: 8,
        hose: 'rubber-braid-8',
        state: 'planned',
      },
    ],
  };
}

const box = (minMm: Point, maxMm: Point) => ({ box: { minMm, maxMm } });

const rail = (railY: number): RockingPart => ({
  id: 'rail',
  class: 'fixed',
  shapes: [
    {
      tube: {
        pointsMm: [
          [-500, railY, 60],
          [1300, railY, 60],
        ],
        radiusMm: 20,
      },
    },
  ],
  ports: [],
});

const manifold: RockingPart = {
  id: 'manifold',
  class: 'hot',
  movesWith: 'engine',
  keepOffMm: 60,
  shapes: [
    {
      tube: {
        pointsMm: [
          [800, 230, 420],
          [1080, 230, 420],
        ],
        radiusMm: 30,
      },
    },
  ],
  ports: [],
};
