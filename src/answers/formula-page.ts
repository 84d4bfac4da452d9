import { describeSource, type FormulaInput } from '#sources';
import type { RegisteredFormula } from './formula-register.ts';

/** The register as a page for docs: every formula with its equation, inputs, ranges, source and a worked example. */
export function formulaPage(register: readonly RegisteredFormula[]): string {
  const rooms = [...new Set(register.map((row) => row.room))];
  const head = [
    '# Formulas',
    '',
    `Every formula that Fairlead works with, ${register.length} in all, made from the register by \`npm run docs:formulas\`. The same list: \`npx fairlead formula\`; one worked:`,
    '`npx fairlead formula bore-area boreMm="3/4 in"`. "Known" says how: `read` in the source itself; `second-hand` in a copy; `practice` = common practice, no source;',
    '`from-memory` = recalled, not checked; `computed` = worked out from stated inputs.',
  ];
  return `${[...head, ...rooms.flatMap((room) => ['', `## ${room}`, ...register.filter((row) => row.room === room).flatMap(entry)])].join('\n')}\n`;
}

function entry(row: RegisteredFormula): string[] {
  const given = Object.entries(row.example.given).map(([name, value]) => `${name}=${Number(value.toPrecision(6))}`);
  return [
    '',
    `### ${row.id}`,
    '',
    `${row.title}.`,
    '',
    `    ${row.equation}`,
    '',
    '| input | unit | range | is |',
    '|---|---|---|---|',
    ...row.inputs.map((input) => `| ${input.name} | ${input.unit} | ${rangeText(input)} | ${cell(input.text)} |`),
    '',
    `Gives ${row.result.text} [${row.result.unit}]. Source: ${describeSource(row.source)}; known: ${row.known}.`,
    `Example: ${given.join(', ')} gives ${Number(row.example.gives.toFixed(row.example.digits))} ${row.result.unit}.`,
  ];
}

const rangeText = ({ range }: FormulaInput): string =>
  range === undefined ? 'any' : `${Number(range[0].toPrecision(6))} to ${Number(range[1].toPrecision(6))}`;

/** A bar would end the cell of the table. */
const cell = (text: string): string => text.replaceAll('|', '\\|');
