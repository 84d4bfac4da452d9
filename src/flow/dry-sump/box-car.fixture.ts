import { type Car, readCar } from '#car';
import { catalogue } from '#standards';
import { type ReadyCircuit, readyCircuit } from '../circuit/circuit-state.ts';
import { drawnCircuit } from '../circuit/drawn-circuit.ts';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { flowOfCar } from '../flow-of-car.ts';
import { workedOnce } from '../planted/worked-once.fixture.ts';

const port = (id: string, atMm: readonly number[], faces: readonly number[], dash = 12) => ({
  id,
  atMm,
  faces,
  end: { type: 'orb', dash },
});
const part = (id: string, minMm: readonly number[], maxMm: readonly number[], ports: readonly unknown[]) => ({
  id,
  class: 'fixed',
  shapes: [{ box: { minMm, maxMm } }],
  ports,
});

const PARTS = [
  part(
    'tank',
    [2000, -100, 0],
    [2200, 100, 400],
    [port('out', [2100, 0, 0], [0, 0, -1], 16), port('back', [2100, 50, 400], [0, 0, 1], 16)],
  ),
  part(
    'pan',
    [1000, -100, 0],
    [1400, 100, 100],
    [port('pick-up', [1200, 0, 0], [0, 0, -1]), port('top', [1200, 0, 100], [0, 0, 1])],
  ),
  part(
    'pump',
    [1500, -50, 0],
    [1600, 50, 100],
    [
      port('in', [1600, 0, 50], [1, 0, 0], 16),
      port('out', [1550, 50, 50], [0, 1, 0]),
      port('suck', [1500, 0, 50], [-1, 0, 0]),
      port('give', [1550, -50, 50], [0, -1, 0], 16),
    ],
  ),
  part('block', [1000, -200, 100], [1400, 200, 500], [port('gallery', [1400, 0, 300], [1, 0, 0])]),
];

/** What of the box car a test changes. */
export interface BoxCarWish {
  readonly tankL?: number;
  readonly panL?: number;
  /** Displacement of the scavenge stage [cc/rev]. */
  readonly scavengeCc?: number;
  readonly cases?: readonly object[];
}

const boxSump = (wish: BoxCarWish): object => ({
  id: 'oil',
  kind: 'dry-sump',
  fluid: 'oil',
  lines: ['F', 'P', 'S', 'R'],
  pumps: [
    { id: 'pressure', from: 'pump.in', to: 'pump.out', displacementCcRev: 12, driveRatio: 0.5 },
    {
      id: 'scavenge',
      from: 'pump.suck',
      to: 'pump.give',
      displacementCcRev: wish.scavengeCc ?? 30,
      driveRatio: 0.5,
    },
  ],
  passages: [
    {
      id: 'gallery',
      from: 'block.gallery',
      to: 'pan',
      curveLMinKpa: [
        [15, 80],
        [35, 350],
      ],
      atC: 100,
    },
  ],
  vessels: [
    { part: 'tank', kind: 'tank', fillL: wish.tankL ?? 8, leastFillL: 5 },
    { part: 'pan', kind: 'pan', fillL: wish.panL ?? 0.2 },
  ],
  hiddenL: 0.8,
});

/**
 * A dry sump of boxes, worked by hand in the tests: a tank 200 x 200 x 400 mm whose outlet faces down in the middle of its floor,
 * a pan 400 x 200 x 100 mm whose one pick-up faces down in the middle of its floor.
 */
export function boxCar(wish: BoxCarWish = {}): Car {
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      parts: PARTS,
      lines: [
        { id: 'F', from: 'tank.out', to: 'pump.in', duty: 'oil-suction', dash: 16 },
        { id: 'P', from: 'pump.out', to: 'block.gallery', duty: 'oil-pressure', dash: 12 },
        { id: 'S', from: 'pan.pick-up', to: 'pump.suck', duty: 'oil-scavenge', dash: 12 },
        { id: 'R', from: 'pump.give', to: 'tank.back', duty: 'oil-return', dash: 16 },
      ],
      fluids: [
        {
          id: 'oil',
          oil: {
            points: [
              { atC: 40, viscosityCst: 160 },
              { atC: 100, viscosityCst: 23 },
            ],
          },
        },
      ],
      cases: wish.cases ?? [{ id: 'full', engineRpm: 6000, oilC: 100 }],
      circuits: [boxSump(wish)],
    }),
  );
  if (!('car' in reading) || reading.car === undefined) throw new Error(JSON.stringify(reading));
  return reading.car;
}

/** The dry sump of the box car, ready to be asked. */
export function boxCircuit(wish: BoxCarWish = {}): ReadyCircuit {
  const car = boxCar(wish);
  return readyCircuit(car, drawnCircuit(car, catalogue(), car.circuits![0]!, new Map()), new Map());
}

/** The box car with something of it changed. */
export function changedBox(wish: BoxCarWish, change: (car: Car) => void): Car {
  const car = boxCar(wish);
  change(car);
  return car;
}

/** The first circuit of a car worked out, its lines straight across; `cases`: without what holds in every case, which takes longer. */
export const flowIn = workedOnce(
  (car, part): CircuitFlow =>
    flowOfCar({
      car,
      shelf: catalogue(),
      ways: new Map(),
      meshes: new Map(),
      ...(part === undefined ? {} : { part }),
    }).circuits[0]!,
);

/** All that is found in it. */
export const findingsIn = (car: Car, part?: 'cases'): FlowFinding[] => {
  const flow = flowIn(car, part);
  return [...flow.findings, ...flow.states.flatMap(({ findings }) => findings)];
};

/** What a cure of a finding says, by a pattern; all cures told where none is like it. */
export function cureLike({ code, cures }: FlowFinding, like: RegExp): RegExpExecArray {
  const match = like.exec(cures.join('\n'));
  if (match === null) throw new Error(`no cure of ${code} like ${like.source} among:\n${cures.join('\n')}`);
  return match;
}

/** A change of a car. */
export type CarChange = (car: Car) => void;

/** A port of a part otherwise. */
export const portAs =
  (part: string, id: string, change: object): CarChange =>
  (car) =>
    void Object.assign(car.parts.find((row) => row.id === part)!.ports.find((row) => row.id === id)!, change);
