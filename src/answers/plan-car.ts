import type { Car, Line } from '#car';
import { LineObstacles } from '#geometry';
import { type Ahead, bodiesOfWay, inTurn, lineWays, type LinesWorld, plan, type Planned, type Way } from '#lines';
import { madeBodies } from './standing-lines.ts';

/** Told how many lines are done of how many; false stops the work. */
export type Watch = (done: number, total: number) => boolean;

/** The planned lines, in the turn in which they are placed. */
export const plannedInTurn = (car: Car): readonly Line[] =>
  inTurn(car.lines.filter((line) => line.state === 'planned'));

/** The best way of a line with only the made lines standing: what it would take if it had the car to itself. */
export function wayAlone(world: LinesWorld, line: Line): Way {
  const made = new LineObstacles();
  for (const [id, bodies] of madeBodies(world.car)) made.add(id, bodies);
  return lineWays(world, line, made, 1)[0]!;
}

/** The best way of a line among placed ones. */
export const wayAmong = (world: LinesWorld, line: Line, placed: LineObstacles): Way =>
  lineWays(world, line, placed, 1)[0]!;

/** Works a line out when it is asked for, on this thread. */
const aheadHere =
  (world: LinesWorld): Ahead =>
  (line, placed) => {
    const asTheyStand = new LineObstacles();
    for (const id of placed.ids) asTheyStand.add(id, placed.bodiesOf(id));
    return () => wayAmong(world, line, asTheyStand);
  };

/** What may be handed to a plan to save time; it changes nothing. */
export interface PlanHelp {
  /** Ways already worked out by `wayAlone`. */
  readonly alone?: ReadonlyMap<string, Way>;
  readonly ahead?: Ahead;
}

/**
 * All lines in state planned, worked out together round those that are bought, made or fitted. Each takes the way it would have
 * alone where no placed line is in its way, and is worked out anew where one is.
 */
export function planCar(world: LinesWorld, watch?: Watch, help: PlanHelp = {}): Planned {
  const made = madeBodies(world.car);
  const known = new Map(help.alone);
  const wayOf = (line: Line): Way => {
    const way = known.get(line.id) ?? wayAlone(world, line);
    known.set(line.id, way);
    return way;
  };
  const isClear = (way: Way, placed: LineObstacles): boolean =>
    placed.ids.every((id) => made.has(id)) || placed.gaps(bodiesOfWay(way), world.lineKeepOffMm).length === 0;
  return plan(world.car, {
    solve: (line, placed, count) => {
      const way = wayOf(line);
      // What finds no way with the car to itself finds none among other lines: its limits are the car's.
      if (!way.feasible) return [way];
      if (count > 1) return lineWays(world, line, placed, count);
      return isClear(way, placed) ? [way] : [wayAmong(world, line, placed)];
    },
    ahead: help.ahead ?? aheadHere(world),
    isHeavy: (line, placed) => wayOf(line).feasible && !isClear(wayOf(line), placed),
    bodies: (way) => bodiesOfWay(way),
    made,
    lineKeepOffMm: world.lineKeepOffMm,
    ...(watch === undefined ? {} : { watch }),
  });
}
