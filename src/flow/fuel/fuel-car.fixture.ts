import { type Car, readCar } from '#car';
import { catalogue } from '#standards';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import { flowOfCar } from '../flow-of-car.ts';
import { workedOnce } from '../planted/worked-once.fixture.ts';

const port = (id: string, atMm: readonly number[]) => ({ id, atMm, faces: [0, 0, 1], end: { type: 'orb', dash: 8 } });

/** What of the fuel car a test changes. */
export interface FuelCarWish {
  readonly liftLMin?: number;
  readonly pressureLMin?: number;
  readonly burnLPerH?: number;
  readonly fuelC?: number;
  readonly potL?: number;
  readonly cellFillL?: number;
  /** Where the vent ends [mm]. */
  readonly ventAtMm?: readonly number[];
  readonly lastsS?: number;
}

const partsOf = (wish: FuelCarWish): readonly object[] => [
  {
    id: 'cell',
    class: 'fixed',
    shapes: [{ box: { minMm: [1000, -250, 0], maxMm: [1200, 250, 300] } }],
    ports: [port('lift', [1100, 0, 300]), port('back', [1150, 0, 300]), port('vent', [1050, 0, 300])],
  },
  {
    id: 'pot',
    class: 'fixed',
    shapes: [{ cylinder: { fromMm: [1300, 0, 0], toMm: [1300, 0, 250], radiusMm: 60 } }],
    ports: [
      port('in', [1300, 0, 200]),
      port('over', [1320, 0, 250]),
      port('out', [1300, 30, 250]),
      port('back', [1280, 0, 200]),
    ],
  },
  {
    id: 'rail',
    class: 'fixed',
    shapes: [{ box: { minMm: [1500, -20, 600], maxMm: [1800, 20, 640] } }],
    ports: [port('in', [1500, 0, 620]), port('return', [1800, 0, 620])],
  },
  {
    id: 'exit',
    class: 'fixed',
    shapes: [{ box: { minMm: [1050, 400, 700], maxMm: [1060, 410, 710] } }],
    ports: [port('in', wish.ventAtMm ?? [1050, 0, 600])],
  },
];

const circuitOf = (wish: FuelCarWish): object => ({
  id: 'f',
  kind: 'fuel',
  fluid: 'petrol',
  lines: ['F1', 'F2', 'F3', 'F4', 'F5'],
  burnLPerH: wish.burnLPerH ?? 120,
  pumps: [
    { id: 'lift', from: 'cell', to: 'cell.lift', steadyLMin: wish.liftLMin ?? 4 },
    { id: 'pressure', from: 'pot', to: 'pot.out', steadyLMin: wish.pressureLMin ?? 5 },
  ],
  passages: [
    { id: 'through', from: 'rail.in', to: 'rail', open: true },
    {
      id: 'regulator',
      from: 'rail',
      to: 'rail.return',
      relief: { cracksBar: 3.9, fullFlowBar: 4.1, fullFlowLMin: 5 },
    },
  ],
  vessels: [
    { part: 'cell', kind: 'cell', volumeL: 30, fillL: wish.cellFillL ?? 20 },
    { part: 'pot', kind: 'surge-pot', volumeL: wish.potL ?? 2, fillL: 2 },
    { part: 'exit', kind: 'outside' },
  ],
});

/** An invented cell of 30 L (500 x 200 x 300), a pot, a rail and a vent, lines straight across. */
export function fuelCar(wish: FuelCarWish = {}): Car {
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      fluids: [{ id: 'petrol', fuel: { ethanolPercent: 5, reidKpa: 60 } }],
      cases: [{ id: 'full', engineRpm: 7000, fuelC: wish.fuelC ?? 25, airC: 25, lastsS: wish.lastsS ?? 3 }],
      parts: partsOf(wish),
      lines: [
        { id: 'F1', from: 'cell.lift', to: 'pot.in', duty: 'fuel', dash: 8 },
        { id: 'F2', from: 'pot.over', to: 'cell.back', duty: 'fuel-return', dash: 8 },
        { id: 'F3', from: 'pot.out', to: 'rail.in', duty: 'fuel', dash: 8 },
        { id: 'F4', from: 'rail.return', to: 'pot.back', duty: 'fuel-return', dash: 6 },
        { id: 'F5', from: 'cell.vent', to: 'exit.in', duty: 'fuel-vent', dash: 8 },
      ],
      circuits: [circuitOf(wish)],
    }),
  );
  if (!('car' in reading) || reading.car === undefined) throw new Error(JSON.stringify(reading));
  return reading.car;
}

/** The fuel of a car worked out, its lines straight across. */
export const fuelIn = workedOnce(
  (car): CircuitFlow => flowOfCar({ car, shelf: catalogue(), ways: new Map(), meshes: new Map() }).circuits[0]!,
);

export const fuel = (wish: FuelCarWish = {}): CircuitFlow => fuelIn(fuelCar(wish));
