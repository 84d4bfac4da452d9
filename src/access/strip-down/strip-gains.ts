import { FIT_SHARE } from '#standards';
import { minutesOf } from '../minutes/minutes-of.ts';
import type { CarProblem } from './car-problem.ts';
import { SomePlan } from './some-plan.ts';
import { type Bond, bit, changedRow, type StripProblem, type Thing } from './strip-problem.ts';
import { type StripAim, type StripFound, stripPlan, type Undone } from './strip-plan.ts';
import type { StripWatch } from './strip-scope.ts';

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
 *
 * What makes cheaper something that the least plan undoes makes no other plan cheaper by more: that plan stays the least, and wins just that.
 * Only where something else may come off then is the job worked out again.
 *
 * @param watch - told how many are looked at; false: no more are
 */
export function stripGains(
  car: CarProblem,
  id: string,
  aim: StripAim,
  found: Found,
  watch: StripWatch = () => true,
): readonly StripGain[] {
  const total = found.minutesOff + found.minutesOn;
  const gain = (by: StripGain['by'], what: string, minutes: number, lines: readonly string[] = []): StripGain[] =>
    total - minutes < LEAST_WON_MIN ? [] : [{ by, id: what, lines, minutes, savedMin: total - minutes }];
  const again = (by: StripGain['by'], what: string, lines: readonly string[], changed: CarProblem): StripGain[] => {
    const plan = stripPlan(changed, id, aim, watch);
    return plan.kind === 'found' ? gain(by, what, plan.minutesOff + plan.minutesOn, lines) : [];
  };
  const cheaper = (by: StripGain['by'], what: string, rows: readonly Undone[], minutes: number): StripGain[] => {
    const was = sumOf(rows.map((row) => row.minutes));
    return gain(by, what, total - (was - minutes) * (1 + FIT_SHARE));
  };
  const undone = found.steps.flatMap((step) => step.undone);
  const quickMin = minutesOf(car.scene.world.car, 'quarter-turn').minutes;
  const dryMin = minutesOf(car.scene.world.car, 'dry-break').minutes;
  const tries: (() => readonly StripGain[])[] = [...car.scene.panels.values()].flatMap(({ panel, fixings, lines }) => {
    const rows = undone.filter(({ kind, id: of }) => kind === 'fixings' && of.startsWith(`${panel.id}/`));
    const quick = (): StripGain[] =>
      rows.length > 0
        ? cheaper('quarter-turn', panel.id, rows, quickMin * sumOf(rows.map(countOf)))
        : again('quarter-turn', panel.id, [], withQuarterTurns(car, panel.id));
    return [
      ...(fixings.some(({ kind }) => kind !== 'quarter-turn') ? [quick] : []),
      ...(lines.length > 0 ? [() => again('split', panel.id, lines, withSplit(car, panel.id))] : []),
    ];
  });
  const opened = [...new Set(found.steps.flatMap(({ ends }) => ends))].filter((end) => mayBeCoupled(car, end));
  for (const end of opened)
    tries.push(() =>
      cheaper(
        'dry-break',
        end,
        undone.filter((row) => row.id === end),
        dryMin,
      ),
    );
  const gains: StripGain[] = [];
  for (const [n, look] of tries.entries()) {
    if (!watch(n, tries.length)) break;
    gains.push(...look());
  }
  return gains.toSorted((a, b) => b.savedMin - a.savedMin || (a.id < b.id ? -1 : 1));
}

const sumOf = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0);

/** How many fixings a row of a panel stands for: `PN3/18 x rivnut`. */
const countOf = ({ id }: Pick<Bond, 'id'>): number => Number(id.split('/')[1]!.split(' ')[0]);

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

const withProblem = (car: CarProblem, to: Partial<StripProblem>): CarProblem => ({
  ...car,
  problem: { ...car.problem, ...to },
});

function withQuarterTurns(car: CarProblem, panel: string): CarProblem {
  const each = minutesOf(car.scene.world.car, 'quarter-turn').minutes;
  const place = car.placeOf.get(panel)!;
  const bonds = car.problem.bonds.map((bond): Bond => {
    if (bond.a !== place || bond.b >= 0) return bond;
    return changedRow(bond, { cost: each * countOf(bond) });
  });
  return withProblem(car, { bonds });
}

function withSplit(car: CarProblem, panel: string): CarProblem {
  const place = car.placeOf.get(panel)!;
  return withThing(car, place, { needs: [] });
}

const withThing = (car: CarProblem, place: number, to: Partial<Thing>): CarProblem =>
  withProblem(car, { things: car.problem.things.map((thing, at) => (at === place ? changedRow(thing, to) : thing)) });

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
