import { curesOf, isMarked, type NutRoom, type ToolRoom, toolWords } from '#access';
import type { BookInput, OffNut, OffPlan, RuleClause, RulePackSheet } from '#book';
import { type Car, findLine } from '#car';
import type { FlowAnswer } from '#flow';
import type { LinesWorld, Way } from '#lines';
import { standsWords } from '#stock';
import { formatNumber, litresWords, minutesWords } from '#units';
import { compareDecided } from './compare-decided.ts';
import { flowOf } from './flow-of.ts';
import type { RuleEvidence, RulesAnswer, RuleVerdict } from '#rules';
import { type LifingAnswer, lifingOf } from './lifing-of.ts';
import { panelsOf } from './panels-of.ts';
import { rulesOf } from './rules-of.ts';
import { toolRoomOf } from './tool-room-of.ts';
import type { StripOf } from './strip-answer.ts';
import { provedWords } from './proved-words.ts';
import { undoneWords } from './strip-names.ts';
import { uncountedWords } from './strip-runs.ts';
import { stripOf } from './strip-of.ts';
import { type Standing, standing, standingWithFound } from './standing.ts';

/** What may be handed over where it is known already. */
export interface BookKnown {
  /** The least bad ways of lines that found none. */
  readonly tried?: ReadonlyMap<string, Way>;
  readonly standing?: Standing;
  readonly flow?: FlowAnswer;
  readonly nuts?: readonly OffNut[];
  readonly offPlans?: readonly OffPlan[];
  /** Today, from whoever has a clock, such as 2026-11-25: what is due is told as of then. */
  readonly day?: string;
  /** The car as it was, with its ways: what the change costs is worked out. */
  readonly before?: { readonly name: string; readonly world: LinesWorld };
}

/** Nuts that no tool goes on well: a third of the work of a book, and nothing else of it is needed for them. */
export const bookNuts = (world: LinesWorld): readonly OffNut[] => {
  const room = toolRoomOf(world, []);
  return room.nuts.flatMap((nut) => nutOf(room, nut));
};

/** All that the book is made of, of a car with its ways taken; nothing is planned for it. */
export const bookOf = (world: LinesWorld, known: BookKnown = {}): BookInput => ({
  ...bookBesidesNuts(world, known),
  nuts: known.nuts ?? bookNuts(world),
});

/** What flows and what comes off, of a book: the other half of what can be worked out by itself. */
export const bookBeside = (world: LinesWorld): Required<Pick<BookKnown, 'flow' | 'offPlans'>> => ({
  flow: flowOf(world, []),
  offPlans: offPlansOf(world),
});

const offPlansOf = (world: LinesWorld): readonly OffPlan[] =>
  jobsOf(world.car).map((job) => offPlanOf(stripOf(world, [], job, { wins: true })));

/** The same without the nuts. */
export function bookBesidesNuts(world: LinesWorld, known: BookKnown = {}): Omit<BookInput, 'nuts'> {
  const { car } = world;
  const stands = known.standing ?? standing(world, known.tried);
  const flow = known.flow ?? flowOf(world, []);
  const whole = standingWithFound(car, stands, { flow });
  return {
    car,
    shelf: world.shelf,
    meshes: world.meshes,
    lines: whole.lines.map(({ line, way, tried }) => ({
      line: findLine(car, line)!,
      way: way ?? tried,
      isTaken: way !== null,
    })),
    snags: whole.snags,
    order: whole.order,
    flow,
    panels: panelsOf(world),
    rulePacks: rulePacksOf(rulesOf(world, [])),
    offPlans: known.offPlans ?? offPlansOf(world),
    ...(known.day === undefined ? {} : { lifing: lifingSheetOf(lifingOf(world, [], known.day)) }),
    ...(known.before === undefined
      ? {}
      : {
          against: { name: known.before.name, comparison: compareDecided(known.before.world, world) },
        }),
  };
}

/** What is to be done in the breaks that the car file names, each once. */
const jobsOf = (car: Car): readonly string[] => [
  ...new Set((car.workshop?.breaks ?? []).flatMap(({ jobs }) => jobs ?? [])),
];

const AIMS = { reach: 'reached', remove: 'taken off', replace: 'changed' } as const;

function offPlanOf(answer: StripOf): OffPlan {
  const fits = answer.breaks.map(
    (row) =>
      `${row.name}: ${minutesWords(row.minutes)} there are, ${minutesWords(row.jobMinutes)} it takes with ${answer.crew}.`,
  );
  return {
    id: answer.target,
    title: `${answer.name}: ${AIMS[answer.aim]}`,
    about: [
      ...(answer.found === 'none' ? ['No way out was found; that does not say that there is none.'] : []),
      ...(answer.found === 'stays-on' ? ['It stays on the car, by its own mark.'] : []),
      ...answer.blockedBy.map((words) => `Pulled ${words}`),
      ...answer.drainFirst.map(
        (row) => `Drain first: ${litresWords(row.litres)} from ${row.name}; else it runs out of ${row.by}.`,
      ),
      ...fits,
      ...[uncountedWords(answer)].filter((words) => words !== ''),
      `${provedWords(answer)} Minutes are from memory where the crew has not clocked its own.`,
    ],
    steps: answer.steps.map((step) => ({
      what: step.words,
      how: undoneWords([...step.undo, ...step.onBench]).join('; '),
      drips: [
        ...(step.spillsL >= 0.005 ? [`${litresWords(step.spillsL)} from ${step.name}`] : []),
        ...step.opens
          .filter((open) => open.litres >= 0.005)
          .map((open) => `${litresWords(open.litres)} from ${open.line} at ${open.port}`),
      ].join('; '),
      minutes: step.minutes,
    })),
    minutesOff: answer.minutesOff,
    minutesOn: answer.minutesOn,
    crew: 1,
    caps: [
      ...answer.caps.map(
        ({ qty, name, inBox }) => `${qty} x ${name}${inBox === 0 ? '' : ` (${Math.min(qty, inBox)} in the box)`}`,
      ),
      ...answer.closeWith,
    ],
    onAgain: answer.fitBefore.map(({ words }) => `${words}: no order the other way was found.`),
    wins: winRows(answer.wins),
    lines: [...new Set(answer.steps.flatMap(({ opens }) => opens.map(({ line }) => line)))],
  };
}

const DRY_BREAK = 'a dry-break where ';

/** What would make it shorter; dry-breaks that win the same as one row. */
function winRows(wins: StripOf['wins']): string[] {
  const couplings = (savedMin: number): string[] =>
    wins
      .filter((win) => win.savedMin === savedMin && win.words.startsWith(DRY_BREAK))
      .map(({ words }) => words.slice(DRY_BREAK.length));
  const rows = wins.map(({ words, savedMin }) => {
    const alike = couplings(savedMin);
    return words.startsWith(DRY_BREAK) && alike.length > 1
      ? `${minutesWords(savedMin)} less each: ${DRY_BREAK}${alike.join('; ')}`
      : `${minutesWords(savedMin)} less: ${words}`;
  });
  return [...new Set(rows)];
}

const lifingSheetOf = ({ day, due, spares }: LifingAnswer): NonNullable<BookInput['lifing']> => ({
  day,
  due: due.map((item) => ({
    id: item.id,
    what: item.what,
    isDue: item.isDue,
    stands: standsWords(item),
    when:
      item.dueOn ?? (item.usedShare === null ? 'no day is entered' : `${formatNumber(100 * item.usedShare, 0)} % used`),
    source: item.source,
    lines: item.lines,
  })),
  spares,
});

function nutOf(whole: ToolRoom, room: NutRoom): OffNut[] {
  const isMarkHidden = isMarked(room) && !room.isInSight;
  if (room.verdict === 'yes' && !isMarkHidden) return [];
  const inWay = room.inTheWay.slice(0, 3).join(', ');
  const cure = room.verdict === 'no' ? curesOf(whole, room)[0] : undefined;
  return [
    {
      id: room.nut.id,
      verdict: room.verdict,
      tool: toolWords(room),
      freeDeg: room.freeDeg,
      needDeg: room.needDeg,
      why: `${room.why}${inWay === '' ? '' : `; in the way: ${inWay}`}`,
      ...(cure === undefined ? {} : { cure }),
      ...(isMarkHidden ? { isMarkHidden } : {}),
      ...(room.nut.line === undefined ? {} : { line: room.nut.line }),
    },
  ];
}

const VERDICTS: Readonly<Record<RuleVerdict, RuleClause['verdict']>> = {
  'meets the entered rule': 'meets',
  'does not meet': 'does not meet',
  'not measured: look': 'look',
};

/** Rule packs as their sheets show them; what does not meet stands first among the evidence. */
function rulePacksOf({ packs, conflicts }: RulesAnswer): RulePackSheet[] {
  return packs.map((pack) => ({
    id: pack.id,
    name: pack.name,
    year: pack.year,
    conflicts: conflicts.filter(({ a, b }) => a.pack === pack.id || b.pack === pack.id).map(({ text }) => text),
    clauses: pack.clauses.map((clause) => ({
      clause: clause.clause,
      text: clause.text,
      verdict: VERDICTS[clause.verdict],
      evidence: clause.evidence
        .toSorted((p, q) => WORST_FIRST.indexOf(p.verdict) - WORST_FIRST.indexOf(q.verdict))
        .reduce<readonly Alike[]>(alike, [])
        .map(({ about, text }) => (about.length === 0 ? text : `${about.join(', ')}: ${text}`)),
      wantsPhoto: clause.isPhotoWanted,
      lines: [...new Set(clause.evidence.flatMap(({ line }) => line ?? []))],
    })),
  }));
}

interface Alike {
  readonly about: readonly string[];
  readonly text: string;
}

/** The same evidence of several lines, parts or panels stands once, with all of them before it. */
function alike(rows: readonly Alike[], row: RuleEvidence): readonly Alike[] {
  const about = row.line ?? row.part ?? row.panel;
  const number =
    row.value === null ? '' : `: ${formatNumber(row.value, row.unit === '' ? 2 : 0)} ${row.unit}`.trimEnd();
  const text = `${row.text}${number}`;
  const own = about === undefined ? [] : [about];
  const at = rows.findIndex((one) => one.text === text);
  if (at < 0) return [...rows, { about: own, text }];
  return rows.with(at, { about: [...new Set([...rows[at]!.about, ...own])], text });
}

const WORST_FIRST: readonly RuleVerdict[] = ['does not meet', 'not measured: look', 'meets the entered rule'];
