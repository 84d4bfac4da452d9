import type { Line } from '#car';
import type { LinesWorld, Way } from '#lines';
import type { PanelLayout } from '#panels';
import { conflictsOf } from './conflicts.ts';
import { askedWords, judged } from './judged.ts';
import { type Clause, type Measured, notMeasured, unitOf } from './measured.ts';
import { measuredOfLine } from './measured-of-line.ts';
import { measuredOfPanel, measuredOfPart } from './measured-of-part.ts';
import type { ClauseAnswer, RuleEvidence, RulesAnswer, RuleVerdict } from './rule-answer.ts';

/** What rules are looked at on. */
export interface RulesAsk {
  readonly world: LinesWorld;
  /** Every line that has a way, judged as it lies. */
  readonly ways: ReadonlyMap<string, Way>;
  readonly layouts: readonly PanelLayout[];
  /** Hottest place of a line in any case, where heat was worked out [degC]. */
  readonly hottestC?: ReadonlyMap<string, number>;
}

/** Every clause of every pack on the car as it is planned and taken, with the evidence; and where packs ask different things. */
export function rulesOfCar(ask: RulesAsk): RulesAnswer {
  const packs = ask.world.car.rulePacks ?? [];
  return {
    packs: packs.map(({ id, name, year, clauses }) => ({
      id,
      name,
      year,
      clauses: clauses.map((clause) => answered(ask, clause)),
    })),
    conflicts: conflictsOf(packs),
  };
}

function answered(ask: RulesAsk, clause: Clause): ClauseAnswer {
  const evidence = subjects(ask, clause).map(({ measured, ...about }): RuleEvidence => {
    const { value, text, atMm } = measured;
    return {
      ...about,
      verdict: judged(clause, measured),
      value: value ?? null,
      unit: unitOf(clause.measure),
      asked: askedWords(clause),
      text,
      ...(atMm === undefined ? {} : { atMm }),
    };
  });
  return {
    clause: clause.clause,
    text: clause.text,
    about: clause.about,
    verdict: worst(clause, evidence),
    evidence,
    isPhotoWanted: clause.photo === true,
  };
}

const rank: Readonly<Record<RuleVerdict, number>> = {
  'does not meet': 0,
  'not measured: look': 1,
  'meets the entered rule': 2,
};

/** A clause about nothing that is on the car is met; one for the eye is looked at. */
function worst(clause: Clause, evidence: readonly RuleEvidence[]): RuleVerdict {
  if (evidence.length === 0) return clause.measure === 'by-eye' ? 'not measured: look' : 'meets the entered rule';
  return evidence.reduce((a, b) => (rank[b.verdict] < rank[a.verdict] ? b : a)).verdict;
}

type Subject = Pick<RuleEvidence, 'line' | 'part' | 'panel'> & { readonly measured: Measured };

/** The things that a clause is about, each with what was measured on it. */
function subjects(ask: RulesAsk, clause: Clause): readonly Subject[] {
  if (clause.about === 'part' || clause.about === 'panel') return things(ask, clause);
  return ask.world.car.lines.filter((line) => isAbout(clause, line)).map((line) => lineSubject(ask, line, clause));
}

const VENTS: readonly string[] = ['oil-vent', 'fuel-vent', 'water-bleed'];

/** Lines by duty; vents among them; those that are clamped; those that pass a bulkhead. */
function isAbout(clause: Clause, line: Line): boolean {
  if (clause.duties !== undefined && !clause.duties.includes(line.duty)) return false;
  if (clause.about === 'vent' && clause.duties === undefined && !VENTS.includes(line.duty)) return false;
  const ends = [line.from, line.to].map((port) => port.split('.')[0]!);
  const passes = line.through.map(({ part }) => part);
  if (clause.about === 'bulkhead')
    return clause.parts === undefined ? passes.length > 0 : passes.some((part) => clause.parts!.includes(part));
  return clause.parts === undefined || [...ends, ...passes].some((part) => clause.parts!.includes(part));
}

function lineSubject({ world, ways, layouts, hottestC }: RulesAsk, line: Line, clause: Clause): Subject {
  if (clause.measure === 'by-eye') return { line: line.id, measured: notMeasured('by eye') };
  const hottest = hottestC?.get(line.id);
  return {
    line: line.id,
    measured: measuredOfLine(
      {
        world,
        line,
        way: ways.get(line.id) ?? null,
        layouts,
        ...(hottest === undefined ? {} : { hottestC: hottest }),
      },
      clause,
    ),
  };
}

function things({ world, layouts }: RulesAsk, clause: Clause): readonly Subject[] {
  const isAsked = (id: string): boolean => clause.parts === undefined || clause.parts.includes(id);
  const eye = clause.measure === 'by-eye' ? notMeasured('by eye') : null;
  if (clause.about === 'panel')
    return layouts
      .filter(({ panel }) => isAsked(panel.id))
      .map((layout) => ({ panel: layout.panel.id, measured: eye ?? measuredOfPanel(layout, clause) }));
  // Without parts named, a clause about parts is one for the eye: nobody means every part of the car.
  if (clause.parts === undefined) return [];
  return clause.parts.map((id) => {
    const part = world.bay.partById.get(id);
    const measured =
      part === undefined ? notMeasured('the car has no such part') : (eye ?? measuredOfPart(world.car, part, clause));
    return { part: id, measured };
  });
}
