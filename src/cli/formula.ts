import { formulaNamed, formulaRegister, type RegisteredFormula, type WorkedByName, workedFormula } from '#answers';
import { describeSource, type FormulaInput } from '#sources';
import { columns } from './columns.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { quoted } from './quoted.ts';
import { type Style, styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, jsonOption } from './usual-options.ts';

export const formula: Command = {
  name: 'formula',
  about: 'every formula, with range and source; or one worked',
  operands: [
    { name: 'ID', about: 'id of a formula', isOptional: true },
    {
      name: 'name=value',
      about: 'its inputs: a plain number is in the formula\'s unit, else write the unit: boreMm="3/4 in"',
      isOptional: true,
      isMany: true,
    },
  ],
  options: [jsonOption, colourOption],
  async run(asked, terminal) {
    const [id, ...inputs] = asked.operands;
    const style = styleFor(asked, terminal);
    if (id === undefined) listed(asked, terminal, style);
    else if (inputs.length === 0) opened(id, asked, terminal, style);
    else worked(id, inputs, asked, terminal, style);
    return exitCode.done;
  },
};

function listed(asked: Asked, terminal: Terminal, style: Style): void {
  if (asked.has('json')) {
    terminal.out(`${JSON.stringify({ formulas: formulaRegister.map(described) })}\n`);
    return;
  }
  const rows = formulaRegister.flatMap((row) => [
    `${style.strong(row.id)}  ${row.title}`,
    `    ${row.equation}  [${row.result.unit}]`,
    style.soft(`    ${row.room}; ${describeSource(row.source)}; known: ${row.known}`),
  ]);
  terminal.out(
    `${rows.join('\n')}\n${style.blue('One in full: fairlead formula ID. Worked: fairlead formula ID name=value ...')}\n`,
  );
}

/** A formula as data, without the function that works it. */
function described(row: RegisteredFormula): object {
  const { id, title, room, equation, inputs, result, source, known, example } = row;
  return {
    id,
    title,
    room,
    equation,
    inputs,
    result,
    source: { id: source, text: describeSource(source) },
    known,
    example,
  };
}

function opened(id: string, asked: Asked, terminal: Terminal, style: Style): void {
  const found = formulaNamed(id);
  if (!found.ok) throw new CommandFault(found.faults);
  if (asked.has('json')) {
    terminal.out(`${JSON.stringify(described(found.formula))}\n`);
    return;
  }
  const { formula: row } = found;
  const given = Object.entries(row.example.given).map(([name, value]) => `${name}=${digits(value)}`);
  terminal.out(
    `${[
      `${style.strong(row.id)}  ${row.title}`,
      `  ${row.equation}`,
      ...columns(row.inputs.map((input) => [`  ${input.name}`, `[${input.unit}]`, input.text, rangeWords(input)])),
      `  gives ${row.result.text} [${row.result.unit}]`,
      `  ${row.room}; ${describeSource(row.source)}; known: ${row.known}`,
      style.blue(`  fairlead formula ${row.id} ${given.join(' ')}`) +
        `  gives ${Number(row.example.gives.toFixed(row.example.digits))} ${row.result.unit}`,
    ].join('\n')}\n`,
  );
}

const rangeWords = (input: FormulaInput): string =>
  input.range === undefined ? '' : `good from ${digits(input.range[0])} to ${digits(input.range[1])}`;

/** Enough digits to check a result by hand, no tail of rounding. */
const digits = (value: number): string => String(Number(value.toPrecision(6)));

function worked(id: string, inputs: readonly string[], asked: Asked, terminal: Terminal, style: Style): void {
  const answer = workedFormula(id, typedInputs(inputs));
  if (!answer.ok) throw new CommandFault(answer.faults);
  if (asked.has('json')) terminal.out(`${JSON.stringify(asData(answer))}\n`);
  else terminal.out(`${inWords(answer, style).join('\n')}\n`);
}

function typedInputs(inputs: readonly string[]): Map<string, string> {
  const typed = new Map<string, string>();
  for (const word of inputs) {
    const at = word.indexOf('=');
    if (at <= 0) throw new CommandFault([`formula: ${quoted(word)} is no input; allowed: name=value`]);
    const name = word.slice(0, at);
    if (typed.has(name)) throw new CommandFault([`formula: ${quoted(name)} stands twice; allowed: once`]);
    typed.set(name, word.slice(at + 1));
  }
  return typed;
}

function asData({ formula: row, given, worked: { value, unit, findings } }: WorkedByName & { ok: true }): object {
  return {
    id: row.id,
    title: row.title,
    room: row.room,
    equation: row.equation,
    value,
    unit,
    inRange: findings.length === 0,
    inputs: row.inputs.map((input) => ({
      name: input.name,
      value: given[input.name],
      unit: input.unit,
      ...(input.range === undefined ? {} : { range: input.range }),
      text: input.text,
    })),
    source: { id: row.source, text: describeSource(row.source) },
    known: row.known,
    findings,
  };
}

function inWords(
  { formula: row, given, worked: { value, unit, findings } }: WorkedByName & { ok: true },
  style: Style,
): string[] {
  return [
    `${style.strong(row.id)}  ${row.title}`,
    `  ${row.equation}`,
    ...columns(
      row.inputs.map((input) => [
        `  ${input.name}`,
        `${digits(given[input.name] ?? Number.NaN)} ${input.unit}`,
        input.text,
        rangeWords(input),
      ]),
    ),
    `  ${style.strong(`${row.result.text}: ${digits(value)} ${unit}`)}`,
    ...findings.map((finding) => style.fix(`  ◆ out of range: ${finding.text}`)),
    `  ${row.room}; ${describeSource(row.source)}; known: ${row.known}`,
  ];
}
