import type { Finding } from '#sources';
import type { ClauseAnswer, PackAnswer, RuleEvidence, RulesAnswer } from './rule-answer.ts';

/** A finding of this room, with what it is about. */
export interface RuleFinding extends Finding {
  readonly line?: string;
  readonly part?: string;
  readonly panel?: string;
  readonly pack: string;
  readonly clause: string;
  readonly cures: readonly string[];
}

/** What is open about the rules: every clause that is not met, at each thing that does not meet it; packs that contradict each other. */
export function ruleFindings({ packs, conflicts }: RulesAnswer): readonly RuleFinding[] {
  return [
    ...packs.flatMap((pack) => pack.clauses.flatMap((clause) => unmet(pack, clause))),
    ...conflicts.map(
      ({ a, b, isContradiction, text }): RuleFinding => ({
        code: 'rules-differ',
        level: isContradiction ? 'fix' : 'note',
        pack: a.pack,
        clause: `${a.clause}/${b.pack}-${b.clause}`,
        text: text.replace(/^./, (first) => first.toUpperCase()),
        source: 'the rule packs as entered',
        cures: isContradiction ? ['ask the event which of the two holds, and enter that'] : ['keep the stricter one'],
      }),
    ),
  ];
}

const unmet = (pack: PackAnswer, clause: ClauseAnswer): readonly RuleFinding[] =>
  clause.evidence.filter(({ verdict }) => verdict === 'does not meet').map((row) => finding(pack, clause, row));

function finding(pack: PackAnswer, clause: ClauseAnswer, row: RuleEvidence): RuleFinding {
  const { line, part, panel, value, unit, asked, atMm } = row;
  const limit = Number(/-?\d+(?:\.\d+)?/.exec(asked)?.[0] ?? Number.NaN);
  return {
    code: 'rule-not-met',
    level: 'fix',
    ...(line === undefined ? {} : { line }),
    ...(part === undefined ? {} : { part }),
    ...(panel === undefined ? {} : { panel }),
    pack: pack.id,
    clause: clause.clause,
    text: `${line ?? panel ?? part ?? ''}${line === undefined && panel === undefined && part === undefined ? '' : ' '}does not meet ${pack.name} ${pack.year}, ${clause.clause} as entered (${clause.text}): ${row.text}; asked: ${asked}`,
    ...(value === null ? {} : { value }),
    ...(Number.isFinite(limit) && value !== null ? { limit } : {}),
    ...(unit === '' || value === null ? {} : { unit }),
    source: `${pack.name} ${pack.year}, ${clause.clause}, as entered`,
    ...(atMm === undefined ? {} : { place: atMm }),
    cures: ['change it, or look the clause up again: it is as you entered it'],
  };
}
