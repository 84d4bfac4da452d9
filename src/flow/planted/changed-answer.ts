import { type Car, readCar } from '#car';
import { type LinesWorld, linesWorld, standingWay, type Way } from '#lines';
import { flowOfCar } from '../flow-of-car.ts';
import { flowViews } from '../flow-views.ts';
import type { DriveLog } from '../lap/drive-log.ts';
import { lapsOfCar } from '../lap/lap-of-car.ts';
import { answerFaults, numberFaults } from './answer-faults.ts';
import { changedCar } from './changed-car.ts';

/** What became of one changed car. */
export interface ChangedAnswer {
  readonly changes: readonly string[];
  /** The reader of cars would not have it. */
  readonly isRefused: boolean;
  readonly states: number;
  /** States that are refused in words. */
  readonly unsolved: number;
  /** What must not be; empty: as it should. */
  readonly faults: readonly string[];
}

/** Changes a car by a seed and asks for all that flows in it; `isWhole` also for its pictures and a short drive. */
export function changedAnswer(carText: string, seed: number, isWhole: boolean): ChangedAnswer {
  const { text, changes } = changedCar(carText, seed);
  const none = { changes, states: 0, unsolved: 0 };
  try {
    const reading = readCar(text);
    if (!reading.ok) {
      const bare = reading.faults.some(({ place, allowed }) => place === '' || allowed === '');
      const faults = bare || reading.faults.length === 0 ? [`refused without a place: ${JSON.stringify(reading)}`] : [];
      return { ...none, isRefused: true, faults };
    }
    const { car } = reading;
    const world = linesWorld(car, new Map());
    const ask = { car, shelf: world.shelf, ways: waysOf(world, car), meshes: new Map() };
    const answer = flowOfCar(ask);
    const faults = [
      ...answerFaults(answer),
      ...(isWhole ? [...numberFaults(flowViews(ask), 'views'), ...numberFaults(lapsOfCar(ask, corner), 'laps')] : []),
    ];
    const states = answer.circuits.flatMap((circuit) => circuit.states);
    const unsolved = states.filter(({ fluid }) => fluid === null).length;
    return { changes, isRefused: false, states: states.length, unsolved, faults };
  } catch (error) {
    const where = error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 4) : [String(error)];
    return { ...none, isRefused: false, faults: [`thrown: ${where.map((row) => row.trim()).join(' ')}`] };
  }
}

const waysOf = (world: LinesWorld, car: Car): ReadonlyMap<string, Way> =>
  new Map(
    car.lines.flatMap((line) => {
      const way = line.taken === undefined || line.taken === null ? null : standingWay(world, line, line.taken);
      return way === null ? [] : [[line.id, way] as const];
    }),
  );

const SAMPLES = 31;
const samples = (of: (i: number) => number): Float64Array => Float64Array.from({ length: SAMPLES }, (_, i) => of(i));

/** Three seconds of a left-hander. */
const corner: DriveLog = {
  timeS: samples((i) => i / 10),
  rpm: samples((i) => 4000 + 50 * i),
  longitudinalG: samples(() => 0),
  lateralG: samples((i) => -Math.min(1.5, i / 10)),
  verticalG: samples(() => 1),
  oilC: samples(() => 100),
  notes: [],
};
