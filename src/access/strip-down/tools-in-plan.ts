import type { Nut, NutReach } from '../tool-reach.ts';
import type { CarProblem } from './car-problem.ts';
import { type Bond, bit, type Clause, type StripMove, type StripProblem, type Thing } from './strip-problem.ts';

/** A tool that is ground or bent for a nut that something bars counts as so much work [min]: from memory. */
const MADE_TOOL_COSTS_MIN = 5;

/** What a tool made for a nut is called among the things of a problem. */
const TOOL = 'tool for ';

/** What a tool meets at nuts that some plan undoes, by fastening (`part/fastener`) or end of a line (`line@from`); looked at so far. */
export type ToolsMet = Map<string, NutReach>;

/** A nut in a strip-down by its name there; undefined: the fixings of a panel, which face outwards. */
function nutOf({ scene }: CarProblem, id: string): Nut | undefined {
  const [part, fastener] = id.split('/');
  if (fastener !== undefined)
    return scene.panels.has(part!)
      ? undefined
      : { kind: 'fastener', part: part!, fastener: id.slice(part!.length + 1) };
  const [name, which] = id.split('@');
  const line = scene.world.car.lines.find((one) => one.id === name);
  return line === undefined ? undefined : { kind: 'joint', line: line.id, port: which === 'to' ? line.to : line.from };
}

/**
 * Looks at every nut that these moves undo on the car and that was not looked at yet; true where one is barred by what can come off, which
 * the plan did not know.
 */
export function lookAtTools(car: CarProblem, moves: readonly StripMove[], met: ToolsMet): boolean {
  let isBarred = false;
  const look = (id: string): void => {
    const nut = met.has(id) ? undefined : nutOf(car, id);
    const reach = nut === undefined ? undefined : car.scene.world.toolReach?.(nut);
    if (reach === undefined) return;
    met.set(id, reach);
    isBarred ||= barredBy(car, reach).length > 0;
  };
  for (const { root, ends, undone } of moves) {
    for (const { id } of undone) look(id);
    for (const end of ends) look(car.problem.things[end]!.id);
    if (car.kinds[root] === 'end') look(car.problem.things[root]!.id);
  }
  return isBarred;
}

/**
 * The problem with what tools meet: a nut that something bars wants that off first, or a tool made for it. A nut that a tool goes on only just,
 * or that none goes on whatever comes off, is told and costs as before. So a plan of the problem as it was that undoes nothing barred is still
 * the least.
 */
export function withTools(car: CarProblem, problem: StripProblem, met: ToolsMet): StripProblem {
  const first = problem.things.length;
  const made: Thing[] = [];
  const clauses = new Map<string, Clause>();
  for (const [id, reach] of met) {
    const sets = barredBy(car, reach);
    if (sets.length === 0) continue;
    clauses.set(id, [...sets, bit(first + made.length)]);
    const cost = MADE_TOOL_COSTS_MIN;
    made.push({ id: `${TOOL}${id}`, staysOn: false, cost, carries: [], undoes: [], needs: [] });
  }
  if (made.length === 0) return problem;
  /** Plain rows: searches read them millions of times. */
  const needs = (row: Thing | Bond): readonly Clause[] => [...row.needs, clauses.get(row.id)!];
  return {
    ...problem,
    things: [
      ...problem.things.map((row) => (clauses.has(row.id) ? { ...thingOf(row), needs: needs(row) } : row)),
      ...made,
    ],
    bonds: problem.bonds.map((row) =>
      clauses.has(row.id) ? { id: row.id, a: row.a, b: row.b, cost: row.cost, needs: needs(row) } : row,
    ),
    waysOf: (at) => (at < first ? problem.waysOf(at) : ['free']),
    inTheWay: (at, way) => (at < first ? problem.inTheWay(at, way) : []),
  };
}

const thingOf = ({ id, staysOn, cost, carries, undoes, hangsBetween }: Thing): Omit<Thing, 'needs'> => ({
  id,
  staysOn,
  cost,
  carries,
  undoes,
  ...(hangsBetween === undefined ? {} : { hangsBetween }),
});

/** Sets that let a tool on once they are off; none: a tool goes on as it is, or nothing that may come off helps. */
const barredBy = (car: CarProblem, reach: NutReach): Clause =>
  reach.reach === 'no' ? reach.clearedBy.flatMap((set) => placed(car, set)) : [];

/** A set of ids as things; nothing where one of them never comes off. */
function placed({ placeOf, problem }: CarProblem, set: readonly string[]): bigint[] {
  const places = set.map((id) => placeOf.get(id));
  if (places.some((place) => place === undefined || problem.things[place]!.staysOn)) return [];
  return [places.reduce<bigint>((all, place) => all | bit(place!), 0n)];
}

/** What is said of the tool at a nut of a plan. */
export interface ToolSaid {
  /** `none`: no tool of the table goes on as the plan stands. */
  readonly goes: 'tight' | 'none';
  readonly tool: string;
}

/** Of each nut that no tool goes on plainly when the plan comes to it. */
export function toolsSaid(
  car: CarProblem,
  problem: StripProblem,
  moves: readonly StripMove[],
  met: ToolsMet,
): ReadonlyMap<string, ToolSaid> {
  const made = new Set(moves.map(({ root }) => problem.things[root]!.id));
  return new Map(
    [...met].flatMap(([id, reach]): [string, ToolSaid][] => {
      const isLetOn = barredBy(car, reach).length > 0 && !made.has(`${TOOL}${id}`);
      if (reach.reach === 'yes' || isLetOn) return [];
      return [[id, { goes: reach.reach === 'tight' ? 'tight' : 'none', tool: reach.tool ?? '' }]];
    }),
  );
}
