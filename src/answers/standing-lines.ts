import type { Car, Line, TakenWay } from '#car';
import { type Body, LineObstacles } from '#geometry';
import { bodiesOfWay } from '#lines';

/** The bodies of every line that is bought, made or fitted, by the way that was taken for it: nothing moves them. */
export function madeBodies(car: Car): ReadonlyMap<string, readonly Body[]> {
  return bodiesOf(car.lines.filter((line) => line.state !== 'planned'));
}

/** All lines with a way taken, decided or made, but this one: what a new way of it has to live with. */
export function standingBeside(car: Car, lineId: string): LineObstacles {
  const obstacles = new LineObstacles();
  for (const [id, bodies] of bodiesOf(car.lines.filter((line) => line.id !== lineId))) obstacles.add(id, bodies);
  return obstacles;
}

function bodiesOf(lines: readonly Line[]): Map<string, readonly Body[]> {
  return new Map(
    lines.flatMap((line) =>
      line.taken === undefined || line.taken === null ? [] : [[line.id, bodiesOfTaken(line.taken)]],
    ),
  );
}

/** The same bodies at each question: what is read off them once is kept by them. */
const known = new WeakMap<TakenWay, readonly Body[]>();

function bodiesOfTaken(taken: TakenWay): readonly Body[] {
  const bodies = known.get(taken) ?? bodiesOfWay(taken);
  known.set(taken, bodies);
  return bodies;
}
