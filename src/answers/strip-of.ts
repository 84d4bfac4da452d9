import {
  type AccessWorld,
  carDrips,
  type CarProblem,
  carProblem,
  crewMinutes,
  type EndDrip,
  neverOff,
  type StripAim,
  type StripFound,
  type StripGain,
  stripGains,
  stripPlan,
  swingReach,
} from '#access';
import type { TakenWay } from '#car';
import { bodiesOfWay, directionWords, type LinesWorld, type PlannedLine, type Way } from '#lines';
import { builtInPlugs } from '#standards';
import type { StripCap, StripOf, StripOfStep, StripOpen, StripWin, StripWish } from './strip-answer.ts';
import { cautionsOf } from './strip-cautions.ts';
import { stripNames, type StripNames } from './strip-names.ts';
import { litresOf, toldOnce, uncountedParts } from './strip-runs.ts';
import { jointWords, stepOf, type Wordbook } from './strip-step.ts';

const problems = new WeakMap<
  LinesWorld,
  { readonly lines: readonly PlannedLine[]; readonly car: CarProblem; readonly drips: ReadonlyMap<string, EndDrip> }
>();

const areSameLines = (a: readonly PlannedLine[], b: readonly PlannedLine[]): boolean =>
  a === b || (a.length === b.length && a.every((line, i) => line === b[i]));

/** The car as what comes off: worked out once for as long as the world and its lines are held. */
function ready(world: LinesWorld, lines: readonly PlannedLine[]) {
  const known = problems.get(world);
  if (known !== undefined && areSameLines(known.lines, lines)) return known;
  const ways = new Map<string, Way | TakenWay>(
    world.car.lines.flatMap(({ id, taken }) => (taken === null || taken === undefined ? [] : [[id, taken] as const])),
  );
  for (const { line, taken, best } of lines) ways.set(line, taken ?? best);
  const access: AccessWorld = {
    car: world.car,
    bay: world.bay,
    meshes: world.meshes,
    shelf: world.shelf,
    ways,
    bodies: new Map([...ways].map(([id, way]) => [id, bodiesOfWay(way)])),
    toolReach: swingReach({ bay: world.bay, shelf: world.shelf, ways }),
  };
  const drips = carDrips(access);
  const litres = new Map([...drips].map(([end, drip]) => [end, drip.litres]));
  const made = { lines, car: carProblem(access, litres), drips };
  problems.set(world, made);
  return made;
}

/** Ids that a strip-down can be asked for: parts, panels, lines. */
export const strippable = ({ car }: Pick<LinesWorld, 'car'>): readonly string[] => [
  ...car.parts.map(({ id }) => id),
  ...(car.panels ?? []).map(({ id }) => id),
  ...car.lines.map(({ id }) => id),
];

/**
 * What comes off to reach, remove or replace one part, panel or line.
 *
 * @param id - one of `strippable`
 */
export function stripOf(world: LinesWorld, lines: readonly PlannedLine[], id: string, wish: StripWish = {}): StripOf {
  const { car, drips } = ready(world, lines);
  const aim = wish.aim ?? 'replace';
  const crew = wish.crew ?? world.car.workshop?.crew ?? 1;
  const names = stripNames(world.car);
  const nameOf = names.full;
  const plan = stripPlan(car, id, aim, wish.watch);
  const book = wordbookOf(world, car, drips, names);
  const steps =
    plan.kind === 'found'
      ? toldOnce(
          plan.steps.map((step, i) => stepOf(step, i + 1, book)),
          drips,
        )
      : [];
  const opens = steps.flatMap((step) => step.opens);
  const minutesOff = plan.kind === 'found' ? plan.minutesOff : 0;
  const minutesOn = plan.kind === 'found' ? plan.minutesOn : 0;
  const alone = crewMinutes(steps.map(crewStep), 1);
  const together = crewMinutes(steps.map(crewStep), crew);
  const share = alone === 0 ? 1 : together / alone;
  const drains = drainsOf(opens, nameOf);
  const minutes = minutesOff + minutesOn;
  return {
    target: id,
    name: nameOf(id),
    aim,
    found: plan.kind,
    ...provedOf(plan),
    steps,
    minutesOff,
    minutesOn,
    minutes,
    crew,
    crewMinutes: minutes * share,
    litres: litresOf(opens, steps, drains),
    uncounted: uncountedParts(world.car, opens).map(names.short),
    drainFirst: drains,
    caps: capsOf(world, opens),
    closeWith: opens.flatMap(({ line, port, closeWith }) =>
      closeWith === null ? [] : [`${line} at ${port}: ${closeWith}`],
    ),
    ...onAgainOf(steps, plan, book),
    breaks: (world.car.workshop?.breaks ?? []).flatMap((row) =>
      row.jobs?.includes(id) === true
        ? [{ name: row.name, minutes: row.minutes, jobMinutes: minutes * share, fits: minutes * share <= row.minutes }]
        : [],
    ),
    blockedBy: plan.kind === 'none' ? blockedByOf(car, id, nameOf) : [],
    cautions: cautionsOf(world, steps),
    wins:
      wish.wins === true && plan.kind === 'found'
        ? winsOf(ready(world, lines), id, aim, plan, share, nameOf, wish.watch)
        : [],
  };
}

const wordbookOf = (
  world: LinesWorld,
  car: CarProblem,
  drips: ReadonlyMap<string, EndDrip>,
  names: StripNames,
): Wordbook => ({
  drips,
  names,
  spills: new Map(world.car.parts.map((part) => [part.id, part.spillsL ?? 0])),
  heldWords: heldWordsIn(world, car, names.short),
  fastenings: new Map(
    world.car.parts.flatMap((part) => (part.fasteners ?? []).map((row) => [`${part.id}/${row.id}`, row] as const)),
  ),
});

/** The order in which it goes on again, and what of it no order the other way was found for. */
function onAgainOf(
  steps: readonly StripOfStep[],
  plan: StripFound,
  { drips, names }: Wordbook,
): Pick<StripOf, 'fittingOrder' | 'onAgain' | 'fitBefore'> {
  const fittingOrder = steps.toReversed().flatMap(({ what, along }) => [what, ...along]);
  const wordsFor = (what: string): string => (drips.has(what) ? jointWords(what, drips) : names.short(what));
  const pairs = plan.kind === 'found' ? plan.fitBefore : [];
  return {
    fittingOrder,
    onAgain: fittingOrder.map(wordsFor),
    fitBefore: pairs.map((pair) => ({ ...pair, words: `${wordsFor(pair.first)} before ${wordsFor(pair.second)}` })),
  };
}

/** What the straightest ways out meet; a line is drawn out by hand. */
const blockedByOf = (car: CarProblem, id: string, nameOf: (id: string) => string): string[] =>
  car.kinds[car.placeOf.get(id)!] === 'line'
    ? []
    : car.ways
        .hindrances(id)
        .map(
          ({ direction, touches }) =>
            `${directionWords(direction)}: ${touches.slice(0, 5).map(nameOf).join(', ') || 'what it is held by'}`,
        );

const provedOf = (plan: StripFound): Pick<StripOf, 'isProved' | 'couldWinMin'> =>
  plan.kind === 'found' ? { isProved: plan.isProved, couldWinMin: plan.couldWin } : { isProved: false, couldWinMin: 0 };

function winsOf(
  { car, drips }: ReturnType<typeof ready>,
  id: string,
  aim: StripAim,
  plan: Parameters<typeof stripGains>[3],
  share: number,
  nameOf: (id: string) => string,
  watch: StripWish['watch'],
): StripWin[] {
  return stripGains(car, id, aim, plan, watch).map((gain) => ({
    words: winWords(gain, drips, nameOf),
    minutes: gain.minutes,
    crewMinutes: gain.minutes * share,
    savedMin: gain.savedMin,
  }));
}

function winWords(
  { by, id, lines }: StripGain,
  drips: ReadonlyMap<string, EndDrip>,
  nameOf: (id: string) => string,
): string {
  if (by === 'dry-break') return `a dry-break where ${jointWords(id, drips)}`;
  if (by === 'quarter-turn') return `quarter-turns round ${nameOf(id)}`;
  return `${nameOf(id)} split at ${lines.join(', ')}, so that it comes away with them in place`;
}

/** What holds a line besides its joints, which its minutes count too: ", out of 3 clamps and a bulkhead fitting in Front wall". */
const heldWordsIn =
  ({ car }: LinesWorld, { scene }: CarProblem, nameOf: (id: string) => string) =>
  (id: string): string => {
    const clamps = scene.world.ways.get(id)?.clamps?.length ?? 0;
    const passed = car.lines.find((line) => line.id === id)?.through ?? [];
    const held = [
      ...(clamps === 0 ? [] : [clamps === 1 ? 'a clamp' : `${clamps} clamps`]),
      ...passed.map(({ kind, part }) => `a ${kind.replace('-', ' ')} in ${nameOf(part)}`),
    ];
    return held.length === 0 ? '' : `, out of ${held.join(' and ')}`;
  };

/** Parts that no order was found to take off or put on in, with what is in the way. */
export const neverOffOf = (
  world: LinesWorld,
  lines: readonly PlannedLine[],
): readonly { readonly id: string; readonly name: string; readonly behind: readonly string[] }[] => {
  const { car } = ready(world, lines);
  const nameOf = stripNames(world.car).full;
  return neverOff(car).map(({ id, behind }) => ({ id, name: nameOf(id), behind: behind.map(nameOf) }));
};

const crewStep = ({ undo, onBench, minutes }: StripOfStep) => {
  const each = undo.map((row) => row.minutes);
  const known = [...undo, ...onBench].reduce((sum, row) => sum + row.minutes, 0);
  return { each, together: Math.max(0, minutes - known) + onBench.reduce((sum, row) => sum + row.minutes, 0) };
};

/** Each vessel once, by the joint through which most of it runs. */
function drainsOf(opens: readonly StripOpen[], nameOf: (id: string) => string): StripOf['drainFirst'] {
  const by = new Map<string, StripOpen>();
  for (const open of opens)
    if (open.vessel !== null && open.litres > (by.get(open.vessel)?.litres ?? 0)) by.set(open.vessel, open);
  return [...by].map(([part, { litres, line, port }]) => ({
    part,
    name: nameOf(part),
    litres,
    by: `${line} at ${port}`,
  }));
}

function capsOf({ car }: LinesWorld, opens: readonly StripOpen[]): StripCap[] {
  const counts = new Map<string, number>();
  for (const id of opens.flatMap(({ caps }) => caps)) counts.set(id, (counts.get(id) ?? 0) + 1);
  return [...counts]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([id, qty]) => ({
      id,
      name: builtInPlugs.find((row) => row.id === id)?.name ?? id,
      qty,
      inBox: car.box?.find((row) => row.id === id)?.qty ?? 0,
    }));
}
