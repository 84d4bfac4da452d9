import type { Car } from '#car';
import { type LeverInCar, leverOf, leversOf } from '#answers';
import type { LeverFinding } from '#levers';
import { leverSnag } from '#snags';
import { carOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { conventionsIn } from './conventions.ts';
import { exitCode } from './exit-code.ts';
import { lengthsIn } from '#units';
import { leverNamed } from './lever-named.ts';
import { gapRows } from './lever-gap-rows.ts';
import { bracketRows } from './bracket-rows.ts';
import { leverRows } from './lever-rows.ts';
import { leverUnits, type LeverUnits } from './lever-units.ts';
import { snagCount, snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const lever: Command = {
  name: 'lever',
  about: 'levers and pedals: ratio, travel, effort, sweep, cables, and what is open about them',
  operands: [
    { name: 'CAR', about: 'the car file' },
    { name: 'LEVER', about: 'id or name of a lever; absent: all of them', isOptional: true },
  ],
  options: [jsonOption, inchesOption, colourOption],
  more: [
    'The ratio is movement of the handle over that of the output, worked out exactly, not for small swings.',
    'Turns are right-handed about the axis, from as drawn.',
  ],
  async run(asked, terminal) {
    const [file = '', word] = asked.operands;
    const { car, input } = await carOnFile(file);
    const answers =
      word === undefined ? leversOf(car, input.meshes) : [leverOf(car, input.meshes, leverNamed(car, word, file))];
    if (asked.has('json')) terminal.out(`${JSON.stringify(word === undefined ? { levers: answers } : answers[0])}\n`);
    else terminal.out(text(car, answers, asked, terminal));
    const isStopped = answers.some(({ findings }) => findings.some(({ level }) => level === 'stop'));
    return isStopped ? exitCode.stop : exitCode.done;
  },
};

/** A row too long for the terminal goes on under itself. */
function folded(row: string, wide: number): string[] {
  const margin = row.slice(0, row.length - row.trimStart().length);
  return wrapped(row.trimStart(), wide - margin.length, '    ').map((line) => margin + line);
}

const ofBracket = (car: Car, { lever, bracket }: LeverInCar, units: LeverUnits): string[] => {
  const plate = car.levers?.find(({ id }) => id === lever)?.bracket;
  return bracket === null || plate === undefined ? [] : bracketRows(bracket, plate, units);
};

const rank = { stop: 0, fix: 1, note: 2 } as const;

function text(car: Car, answers: readonly LeverInCar[], asked: Asked, terminal: Terminal): string {
  if (answers.length === 0)
    return 'The car has no levers: enter them under "levers" in the car file (docs/levers.md).\n';
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const units = leverUnits(asked.has('inches'), lengths);
  const wide = Math.max(60, terminal.columns);
  const findings: readonly LeverFinding[] = answers
    .flatMap((answer) => answer.findings)
    .toSorted((a, b) => rank[a.level] - rank[b.level]);
  const snags = findings.map(leverSnag);
  const feet = [...new Set([conventionsIn(lengths), ...answers.flatMap(({ cautions }) => cautions)])];
  return `${[
    ...answers.flatMap((answer) => [
      ...[
        ...leverRows(answer, units, style),
        ...ofBracket(car, answer, units),
        ...gapRows(answer, units, style),
      ].flatMap((row) => folded(row, wide)),
      '',
    ]),
    ...snags.flatMap((snag) => snagRows(snag, style, lengths, terminal.columns)),
    '',
    `${snagCount(snags)}.`,
    ...feet.flatMap((foot) => wrapped(foot, wide, '')).map(style.soft),
  ].join('\n')}\n`;
}
