import { type Car, readCar } from '#car';
import { catalogue } from '#standards';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import { flowOfCar } from '../flow-of-car.ts';
import { workedOnce } from '../planted/worked-once.fixture.ts';

type Row = Record<string, unknown>;

const port = (id: string, atMm: readonly number[]) => ({ id, atMm, faces: [1, 0, 0], end: { type: 'orb', dash: 16 } });
const box = (minMm: readonly number[], maxMm: readonly number[]) => [{ box: { minMm, maxMm } }];

/** What of the water car a test changes. */
export interface WaterCarWish {
  readonly cases?: readonly Row[];
  readonly engine?: Row;
  readonly header?: Row;
  readonly noPump?: boolean;
  readonly noDuty?: boolean;
  readonly dutyKw?: number;
  readonly radiatorUpMm?: number;
  readonly headerUpMm?: number;
}

function partsOf({ radiatorUpMm: up = 0, headerUpMm: head = 0 }: WaterCarWish): readonly object[] {
  return [
    {
      id: 'engine',
      class: 'fixed',
      shapes: box([1500, -200, 200], [1900, 200, 550]),
      ports: [
        port('out', [1500, 0, 540]),
        port('in', [1500, 100, 300]),
        port('bleed', [1520, 50, 550]),
        port('fill', [1500, 130, 310]),
      ],
    },
    {
      id: 'radiator',
      class: 'fixed',
      shapes: box([-50, -300, 100], [0, 300, 480]),
      ports: [port('in', [0, -250, 450 + up]), port('out', [0, 250, 120])],
    },
    {
      id: 'header',
      class: 'fixed',
      shapes: box([1300, -50, 620 + head], [1400, 50, 720 + head]),
      ports: [port('out', [1350, 0, 620 + head]), port('bleed', [1350, 30, 715 + head])],
    },
  ];
}

const circuitOf = (wish: WaterCarWish): object => ({
  id: 'w',
  kind: 'coolant',
  fluid: 'water',
  lines: ['W1', 'W2', 'W3', 'W4'],
  pumps: wish.noPump
    ? []
    : [
        {
          id: 'pump',
          from: 'engine.in',
          to: 'engine',
          atRpm: 6000,
          curveLMinKpa: [
            [0, 120],
            [150, 60],
            [220, 10],
          ],
        },
      ],
  passages: [
    {
      id: 'jacket',
      from: wish.noPump ? 'engine.in' : 'engine',
      to: 'engine.out',
      heats: true,
      curveLMinKpa: [
        [80, 8],
        [160, 30],
      ],
      ...wish.engine,
    },
    { id: 'fill', from: 'engine.in', to: 'engine.fill', open: true },
    { id: 'bleed', from: 'engine.out', to: 'engine.bleed', open: true },
    {
      id: 'core',
      from: 'radiator.in',
      to: 'radiator.out',
      curveLMinKpa: [
        [80, 4],
        [160, 14],
      ],
      ...(wish.noDuty
        ? {}
        : {
            duty: { heatKw: wish.dutyKw ?? 60, flowLMin: 120, entryDifferenceK: 60, airMPerS: 6, coreM2: 0.2 },
          }),
    },
  ],
  vessels: [{ part: 'header', kind: 'header', fillL: 0.6, capBar: 1.1, ...wish.header }],
});

/** An invented engine, radiator and header, lines straight across: answers that can be held against hand sums. */
export function waterCar(wish: WaterCarWish = {}): Car {
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      fluids: [{ id: 'water', water: {} }],
      cases: wish.cases ?? [{ id: 'hot', engineRpm: 6000, coolantC: 95, airC: 25, heatToWaterKw: 60 }],
      parts: partsOf(wish),
      lines: [
        { id: 'W1', from: 'engine.out', to: 'radiator.in', duty: 'water', boreMm: 34, dash: 24 },
        { id: 'W2', from: 'radiator.out', to: 'engine.in', duty: 'water', boreMm: 34, dash: 24 },
        { id: 'W3', from: 'header.out', to: 'engine.fill', duty: 'water', dash: 12 },
        { id: 'W4', from: 'engine.bleed', to: 'header.bleed', duty: 'water-bleed', dash: 6 },
      ],
      circuits: [circuitOf(wish)],
    }),
  );
  if (!('car' in reading) || reading.car === undefined) throw new Error(JSON.stringify(reading));
  return reading.car;
}

/** The water of a car worked out, its lines straight across. */
export const waterIn = workedOnce(
  (car): CircuitFlow => flowOfCar({ car, shelf: catalogue(), ways: new Map(), meshes: new Map() }).circuits[0]!,
);

export const water = (wish: WaterCarWish = {}): CircuitFlow => waterIn(waterCar(wish));
