import { rulesWithHeat } from '#answers';
import { linesWorld } from '#lines';
import { type ClauseAnswer, ruleFindings, type RuleEvidence, type RulesAnswer } from '#rules';
import { ruleSnag } from '#snags';
import { carOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { type Lengths, lengthsIn } from '#units';
import { snagCount } from './snag-rows.ts';
import { type Style, styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const rules: Command = {
  name: 'rules',
  about: 'the rules as you entered them, clause by clause, with what was measured; packs that contradict each other',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [jsonOption, inchesOption, colourOption],
  more: [
    'Lines count as they were taken. It says whether the entered rule is met, never more: the event and its scrutineer decide.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const { car, input } = await carOnFile(file);
    const answer = rulesWithHeat(linesWorld(car, input.meshes), []);
    terminal.out(asked.has('json') ? `${JSON.stringify(answer)}\n` : text(answer, asked, terminal));
    return exitCode.done;
  },
};

function text(answer: RulesAnswer, asked: Asked, terminal: Terminal): string {
  if (answer.packs.length === 0)
    return 'No rules are entered: put them into the car file under "rulePacks", in your own words (docs/rules.md).\n';
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const wide = Math.max(60, terminal.columns);
  const packs = answer.packs.flatMap(({ name, year, clauses }) => [
    style.strong(`${name} ${year}`),
    ...clauses.flatMap((clause) => clauseRows(clause, style, lengths, wide)),
    '',
  ]);
  const conflicts = answer.conflicts.flatMap(({ text: words, isContradiction }) =>
    wrapped(`${isContradiction ? '◆' : '·'} ${words}`, wide, '  '),
  );
  const snags = ruleFindings(answer).map(ruleSnag);
  const feet = wrapped("As entered, in your own words: the event's own rules and its scrutineer decide.", wide, '').map(
    style.soft,
  );
  return `${[...packs, ...(conflicts.length === 0 ? [] : [style.strong('Where packs differ'), ...conflicts, '']), `${snagCount(snags)}.`, ...feet].join('\n')}\n`;
}

const MARGIN = '    ';

function clauseRows(clause: ClauseAnswer, style: Style, lengths: Lengths, wide: number): string[] {
  const paint =
    clause.verdict === 'does not meet'
      ? style.fix
      : clause.verdict === 'meets the entered rule'
        ? style.strong
        : style.soft;
  const open = clause.evidence.filter(({ verdict }) => verdict !== 'meets the entered rule');
  const met = clause.evidence.filter(({ verdict }) => verdict === 'meets the entered rule');
  return [
    ...wrapped(`${clause.clause}  ${clause.text}`, wide - 2, MARGIN).map((row) => `  ${row}`),
    `${MARGIN}${paint(clause.verdict)}${clause.isPhotoWanted ? ', photograph wanted' : ''}`,
    ...alike(open).flatMap(([row, about]) => evidenceRow(row, lengths, wide, about)),
    ...(met.length === 0 ? [] : evidenceRow(nearest(met), lengths, wide, subjectOf(nearest(met)), met.length)),
  ];
}

/** Of those that are met the one with the least number is told. */
const nearest = (met: readonly RuleEvidence[]): RuleEvidence =>
  met.reduce((a, b) => ((b.value ?? Infinity) < (a.value ?? Infinity) ? b : a));

const subjectOf = (row: RuleEvidence): string => row.line ?? row.panel ?? row.part ?? '';

/** Those of which the same is said are said once. */
function alike(rows: readonly RuleEvidence[]): [RuleEvidence, string][] {
  const groups = new Map<string, RuleEvidence[]>();
  for (const row of rows) {
    const key = row.value === null ? `${row.verdict} ${row.text}` : subjectOf(row);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [...groups.values()].map((group) => [group[0]!, group.map(subjectOf).join(', ')]);
}

function evidenceRow(row: RuleEvidence, lengths: Lengths, wide: number, about: string, of = 1): string[] {
  const value = row.value === null ? '' : ` ${shown(row)} (${row.asked})`;
  const place = row.atMm === undefined ? '' : ` at ${lengths.place(row.atMm)}`;
  const more = of > 1 ? ` (and ${of - 1} more that meet it)` : '';
  const words = `${about}: ${row.verdict}:${value} ${lengths.text(row.text)}${place}${more}`;
  return wrapped(words, wide - MARGIN.length, '  ').map((line) => MARGIN + line);
}

const shown = ({ value, unit }: RuleEvidence): string =>
  `${unit === '' || unit === 'L' ? value!.toFixed(2) : value!.toFixed(Math.abs(value!) < 10 ? 1 : 0)}${unit === '' ? '' : ` ${unit === 'degC' ? '°C' : unit}`}`;
