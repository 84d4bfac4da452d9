import { minutesOf } from '../minutes/minutes-of.ts';
import type { CarProblem } from './car-problem.ts';
import { SomePlan } from './some-plan.ts';
import { type Bond, bit, type StripProblem, type Thing } from './strip-problem.ts';
import { type StripAim, type StripFound, stripPlan } from './strip-plan.ts';

/** What another way of fixing would win of a strip-down: the job worked out again with it. */
export interface StripGain {
  readonly by: 'quarter-turn' | 'dry-break' | 'split';
  /** The panel, or the end of a line as `line@from`. */
  readonly id: string;
  /** Lines that a split panel comes away from. */
  readonly lines: readonly string[];
  /** Off and on again, one alone [min]. */
  readonly minutes: number;
  readonly savedMin: number;
}

/** Less is not worth a change [min]. */
const LEAST_WON_MIN = 1;
/** A coupling goes into lines of these: not into brakes and clutch, where it lets air in, nor where a clip holds a hose on a bead. */
const COUPLED = /^(?:oil|water|fuel)/u;
/** A coupling's seals are not put on what is hotter [degC]: one has burnt through. From memory. */
const COUPLED_MOST_C = 140;

type Found = Extract<StripFound, { readonly kind: 'found' }>;

/**
 * What a quarter-turn in place of each screw of a panel, a dry-break at each joint that is opened, or a panel split where lines go through
 * it would win, each alone; the most first. The ways out are as they are.
 */
export function stripGains(car: CarProblem, id: string, aim: StripAim, found: Found): readonly StripGain[] {
  const total = found.minutesOff + found.minutesOn;
  const again = (by: StripGain['by'], what: string, lines: readonly string[], changed: CarProblem): StripGain[] => {
    const plan = stripPlan(changed, id, aim);
    if (plan.kind !== 'found') return [];
    const minutes = plan.minutesOff + plan.minutesOn;
    return total - minutes < LEAST_WON_MIN ? [] : [{ by, id: what, lines, minutes, savedMin: total - minutes }];
  };
  const opened = [...new Set(found.steps.flatMap(({ ends }) => ends))].filter((end) => mayBeCoupled(car, end));
  return [
    ...[...car.scene.panels.values()].flatMap(({ panel, fixings, lines }) => [
      ...(fixings.some(({ kind }) => kind !== 'quarter-turn')
        ? again('quarter-turn', panel.id, [], withQuarterTurns(car, panel.id))
        : []),
      ...(lines.length > 0 ? again('split', panel.id, lines, withSplit(car, panel.id)) : []),
    ]),
    ...opened.flatMap((end) => again('dry-break', end, [], withDryBreak(car, end))),
  ].toSorted((a, b) => b.savedMin - a.savedMin || (a.id < b.id ? -1 : 1));
}

function mayBeCoupled({ scene }: CarProblem, end: string): boolean {
  const { car, bay } = scene.world;
  const [id, which] = end.split('@') as [string, 'from' | 'to'];
  const line = car.lines.find((one) => one.id === id);
  const port = line === undefined ? undefined : bay.ports.get(line[which]);
  if (line === undefined || port === undefined || !COUPLED.test(line.duty) || port.port.end.type === 'bead')
    return false;
  const { class: kind, surfaceC = 0 } = bay.partById.get(port.partId)!.part;
  return kind !== 'hot' && surfaceC <= COUPLED_MOST_C;
}

/** A row changed in some of what it says; what it works out only when asked stays unasked. */
const changed = <T extends object>(row: T, to: Partial<T>): T =>
  Object.create(
    row,
    Object.fromEntries(Object.entries(to).map(([key, value]) => [key, { value, enumerable: true }])),
  ) as T;

const withProblem = (car: CarProblem, to: Partial<StripProblem>): CarProblem => ({
  ...car,
  problem: { ...car.problem, ...to },
});

function withQuarterTurns(car: CarProblem, panel: string): CarProblem {
  const each = minutesOf(car.scene.world.car, 'quarter-turn').minutes;
  const place = car.placeOf.get(panel)!;
  const bonds = car.problem.bonds.map((bond): Bond => {
    if (bond.a !== place || bond.b >= 0) return bond;
    return changed(bond, { cost: each * Number(bond.id.split('/')[1]!.split(' ')[0]) });
  });
  return withProblem(car, { bonds });
}

function withSplit(car: CarProblem, panel: string): CarProblem {
  const place = car.placeOf.get(panel)!;
  return withThing(car, place, { needs: [] });
}

function withDryBreak(car: CarProblem, end: string): CarProblem {
  const place = car.placeOf.get(end)!;
  const minutes = minutesOf(car.scene.world.car, 'dry-break').minutes;
  return {
    ...withThing(car, place, { cost: minutes }),
    minutesOf: (at) => (at === place ? minutes : car.minutesOf(at)),
  };
}

const withThing = (car: CarProblem, place: number, to: Partial<Thing>): CarProblem =>
  withProblem(car, { things: car.problem.things.map((thing, at) => (at === place ? changed(thing, to) : thing)) });

/**
 * Parts that came off in no order that was found, all else that may come off being off: none was found to put them on in either. With
 * what is in the way on their straightest ways.
 */
export function neverOff({
  problem,
  kinds,
  ways,
}: CarProblem): readonly { readonly id: string; readonly behind: readonly string[] }[] {
  const wanted = problem.things.reduce((all, { staysOn }, place) => (staysOn ? all : all | bit(place)), 0n);
  const off = new SomePlan({ ...problem, goal: wanted }).everything();
  return problem.things.flatMap(({ id, staysOn }, place) =>
    kinds[place] === 'part' && !staysOn && (off & bit(place)) === 0n
      ? [{ id, behind: ways.hindrances(id)[0]?.touches.slice(0, 4) ?? [] }]
      : [],
  );
}
