import type { Car, LineState } from '#car';
import { bodiesOfWay, type LineGap, lineGaps, type LinesWorld, type PlannedLine, standingWay, type Way } from '#lines';
import { type FoundLater, type Snag, snags, withFound } from '#snags';
import { type Order, order } from '#stock';
import { dueFound } from './due-found.ts';
import { leversOf } from './lever-of.ts';
import type { BodiesByLine } from './bodies-by-line.ts';
import { panelsAround } from './panels-of.ts';

/** One line as it stands: the way taken for it, judged on the car as it is now. */
export interface StandingLine {
  readonly line: string;
  readonly state: LineState;
  /** Null where none is taken. */
  readonly way: Way | null;
  /** Where none is taken: the least bad way of the last try, judged anew. */
  readonly tried: Way | null;
}

/** How the car stands with what the builder has decided; nothing is planned for it. */
export interface Standing {
  readonly lines: readonly StandingLine[];
  readonly lineGaps: readonly LineGap[];
  readonly snags: readonly Snag[];
  readonly order: Order;
}

/** Limits that only planning looks at: what a try broke of them, it still breaks. */
const FROM_THE_TRY: ReadonlySet<string> = new Set(['reach', 'self', 'straight', 'mating']);

/**
 * Every line as it stands, with all open points and the order.
 *
 * @param tried - the least bad ways of lines that found none when they were last worked out
 */
export function standing(world: LinesWorld, tried: ReadonlyMap<string, Way> = new Map()): Standing {
  const lines = world.car.lines.map((line): StandingLine => {
    const taken = line.taken ?? null;
    if (taken !== null) return { line: line.id, state: line.state, way: standingWay(world, line, taken), tried: null };
    const last = tried.get(line.id);
    const again = last === undefined || line.state !== 'planned' ? null : triedAgain(world, line, last);
    return { line: line.id, state: line.state, way: null, tried: again };
  });
  const solids = new Map(
    lines.flatMap(({ line, way }) => (way === null || way.bodies.length === 0 ? [] : [[line, bodiesOfWay(way)]])),
  );
  const gaps = lineGaps(world.car, solids, world.lineKeepOffMm);
  const answers = lines.flatMap(({ line, way, tried: best }): PlannedLine[] => {
    if (way !== null) return [{ line, taken: way.feasible ? way : null, best: way }];
    return best === null || best.feasible ? [] : [{ line, taken: null, best }];
  });
  const without = lines.filter(({ way, tried: best }) => way === null && (best === null || best.feasible));
  return {
    lines,
    lineGaps: gaps,
    snags: snags(
      world,
      { lines: answers, lineGaps: gaps, takenUp: 0, stopped: false },
      {
        extra: [
          ...dueFound(world, answers),
          ...without.map(({ line }) => ({
            code: 'no-way-yet',
            level: 'note' as const,
            line,
            text: `${line} has no way taken yet`,
            source: 'the car as it stands',
            cures: ['work its ways out and take one'],
          })),
        ],
        panels: panelsAround(world, bodiesOfLines(lines)).flatMap(({ findings }) => findings),
        levers: leversOf(world.car, world.meshes, bodiesOfLines(lines)).flatMap(({ findings }) => findings),
      },
    ),
    order: order(world.car, { lines: [] }, world.shelf),
  };
}

/** As it stands, with what takes longer among the snags: circuits, heat, reach and rules are worked out on their own. */
export const standingWithFound = (car: Car, stands: Standing, found: FoundLater): Standing => ({
  ...stands,
  snags: withFound(car, stands.snags, found),
});

const bodiesOfLines = (lines: readonly StandingLine[]): BodiesByLine =>
  new Map(lines.map(({ line, way, tried }) => [line, (way ?? tried)?.bodies ?? []]));

function triedAgain(world: LinesWorld, line: LinesWorld['car']['lines'][number], last: Way): Way {
  if (last.bodies.length === 0) return last;
  const now = standingWay(world, line, last);
  const fails = [
    ...now.fails,
    ...last.fails.filter((fail) => FROM_THE_TRY.has(fail.limit) && !now.fails.some((f) => f.limit === fail.limit)),
  ];
  return { ...now, fails, feasible: fails.length === 0 };
}
