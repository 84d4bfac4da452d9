import type { Car, Line, TakenWay } from '#car';
import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import type { LineWithWay } from '../planned-lines.ts';
import { monthsBetween, monthsLater } from './days.ts';
import { usualLife, type UsualLife } from './usual-lives.ts';

/** One thing with a life, on a day. */
export interface DueItem {
  /** Line or part; with "seals" behind it for the seals of a line. */
  readonly id: string;
  readonly kind: 'hose' | 'seals' | 'part';
  readonly what: string;
  readonly madeOn?: string;
  readonly fittedOn?: string;
  readonly testedOn?: string;
  /** What it has done since it was fitted. */
  readonly months: number | null;
  readonly runs: number;
  readonly heatCycles: number;
  readonly standsMonths?: number;
  readonly standsRuns?: number;
  readonly standsHeatCycles?: number;
  /** The most used of its lives, as a share; null where no day is entered. */
  readonly usedShare: number | null;
  readonly isDue: boolean;
  /** Last day of its months. */
  readonly dueOn?: string;
  /** Where the life comes from. */
  readonly source: string;
  readonly lines: readonly string[];
}

export interface DueAsk {
  readonly car: Car;
  readonly lines: readonly LineWithWay[];
  readonly shelf: Catalogue;
  /** Today, from whoever has a clock: 2026-11-25. */
  readonly day: string;
  /** Lines that lie near something hot, where heat was worked out; absent: those that pass a hot part within 150 mm. */
  readonly nearHeat?: ReadonlySet<string>;
}

/** Everything with a life, most used first: hoses and their seals from the day they were made or fitted, parts by what is entered of them. */
export function dueList(ask: DueAsk): readonly DueItem[] {
  const items = [
    ...ask.lines.flatMap(({ line, way }) => lineItems(ask, line, way)),
    ...ask.car.parts.flatMap((part) => partItem(ask, part)),
  ];
  return items.sort((a, b) => (b.usedShare ?? -1) - (a.usedShare ?? -1) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

/** Runs and heat cycles on the days from one on to another. */
function ranSince({ runDays }: Car, from: string | undefined, to: string): { runs: number; heatCycles: number } {
  const days = from === undefined ? [] : (runDays ?? []).filter(({ on }) => on >= from && on <= to);
  return {
    runs: days.reduce((sum, { runs }) => sum + runs, 0),
    heatCycles: days.reduce((sum, { runs, heatCycles }) => sum + (heatCycles ?? runs), 0),
  };
}

/** The day a line last came to a state. */
const signedOn = ({ signed }: Line, state: string): string | undefined =>
  (signed ?? [])
    .filter((row) => row.state === state)
    .map(({ on }) => on)
    .sort()
    .at(-1);

function lineItems(ask: DueAsk, line: Line, way: Way | TakenWay | null): DueItem[] {
  if (way === null || line.state === 'planned' || line.state === 'bought') return [];
  const madeOn = signedOn(line, 'made');
  const fittedOn = signedOn(line, 'fitted');
  const testedOn = signedOn(line, 'proved');
  const dates = {
    ...(madeOn === undefined ? {} : { madeOn }),
    ...(fittedOn === undefined ? {} : { fittedOn }),
    ...(testedOn === undefined ? {} : { testedOn }),
  };
  const ran = ranSince(ask.car, fittedOn, ask.day);
  const hoses = way.pieces.flatMap(({ hose }) => hose ?? []);
  const seals = sealsOf(way);
  const item = (kind: 'hose' | 'seals', what: string, life: UsualLife, from: string | undefined): DueItem =>
    judgedItem(ask.day, {
      id: kind === 'hose' ? line.id : `${line.id} seals`,
      kind,
      what,
      ...dates,
      ...ran,
      from,
      standsMonths: life.standsMonths,
      source: life.source,
      lines: [line.id],
    });
  return [
    ...(hoses.length === 0
      ? []
      : [item('hose', hoses.join(', '), usualLife(lifeOf(ask, line, way, hoses)), madeOn ?? fittedOn)]),
    ...(seals.length === 0 ? [] : [item('seals', seals.join(', '), usualLife('o-ring'), fittedOn)]),
  ];
}

function sealsOf(way: Way | TakenWay): string[] {
  const counts = new Map<string, number>();
  for (const end of way.ends) {
    const parts = (end as { readonly parts?: unknown }).parts;
    if (!Array.isArray(parts)) continue;
    for (const { id, kind, qty } of parts as { id: string; kind: string; qty: number }[])
      if (kind === 'seal' && id.startsWith('o-ring')) counts.set(id, (counts.get(id) ?? 0) + qty);
  }
  return [...counts].sort().map(([id, qty]) => `${qty} x ${id}`);
}

/** The shortest of the lives that hold for the line. */
function lifeOf(ask: DueAsk, line: Line, way: Way | TakenWay, hoses: readonly string[]): UsualLife['of'] {
  if (line.duty === 'brake' || line.duty === 'clutch') return 'brake hose';
  const gaps = (way as Partial<Way>).gaps ?? [];
  const isHot = ask.nearHeat?.has(line.id) ?? gaps.some((gap) => gap.class === 'hot');
  const isPlastic = hoses.every((id) => ask.shelf.findHose(id)?.family.startsWith('ptfe') === true);
  if (isPlastic) return 'plastic-lined hose';
  return isHot ? 'hose near heat' : 'rubber hose';
}

function partItem(ask: DueAsk, part: Car['parts'][number]): DueItem[] {
  const { life } = part;
  if (life === undefined) return [];
  const ran = ranSince(ask.car, life.fittedOn, ask.day);
  const { madeOn, fittedOn, testedOn, standsMonths, standsRuns, standsHeatCycles } = life;
  return [
    judgedItem(ask.day, {
      id: part.id,
      kind: 'part',
      what: part.name ?? part.id,
      ...(madeOn === undefined ? {} : { madeOn }),
      ...(fittedOn === undefined ? {} : { fittedOn }),
      ...(testedOn === undefined ? {} : { testedOn }),
      runs: (life.runs ?? 0) + ran.runs,
      heatCycles: (life.heatCycles ?? 0) + ran.heatCycles,
      ...(standsMonths === undefined ? {} : { standsMonths }),
      ...(standsRuns === undefined ? {} : { standsRuns }),
      ...(standsHeatCycles === undefined ? {} : { standsHeatCycles }),
      from: madeOn ?? fittedOn,
      source: 'builder',
      lines: ask.lines
        .filter(({ line }) => [line.from, line.to].some((ref) => ref.startsWith(`${part.id}.`)))
        .map(({ line }) => line.id),
    }),
  ];
}

function judgedItem(
  day: string,
  { from, ...item }: Omit<DueItem, 'months' | 'usedShare' | 'isDue' | 'dueOn'> & { readonly from: string | undefined },
): DueItem {
  const months = from === undefined ? null : monthsBetween(from, day);
  const shares = [
    item.standsMonths === undefined || months === null ? [] : [months / item.standsMonths],
    item.standsRuns === undefined ? [] : [item.runs / item.standsRuns],
    item.standsHeatCycles === undefined ? [] : [item.heatCycles / item.standsHeatCycles],
  ].flat();
  const usedShare = shares.length === 0 ? null : Math.max(...shares);
  return {
    ...item,
    months,
    usedShare,
    isDue: usedShare !== null && usedShare >= 1,
    ...(item.standsMonths === undefined || from === undefined ? {} : { dueOn: monthsLater(from, item.standsMonths) }),
  };
}

/** Does the car run on without this line? What a line carries decides. */
export function stopsTheCar({ duty }: Pick<Line, 'duty'>): boolean {
  return !['oil-vent', 'water-bleed', 'fuel-vent', 'air'].includes(duty);
}
