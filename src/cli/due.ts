import { type LifingAnswer, lifingOf } from '#answers';
import { linesWorld } from '#lines';
import { describeSource } from '#sources';
import { standsWords } from '#stock';
import { lengthsIn } from '#units';
import { carOnFile } from './car-on-file.ts';
import { columns } from './columns.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { quoted } from './quoted.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const due: Command = {
  name: 'due',
  about:
    'which hose, seal or part is due, by months, runs and heat cycles; spares for a weekend, what saves most first',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    { name: 'day', value: 'DAY', about: 'as of this day, such as 2026-11-25; today if not said' },
    jsonOption,
    inchesOption,
    colourOption,
  ],
  more: [
    'Days come from what a line was signed for, from the "life" of parts and from "runDays". Lives that are not entered are usual ones, marked.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const day = asked.value('day') ?? new Date().toISOString().slice(0, 10);
    if (!/^\d{4}-\d\d-\d\d$/u.test(day) || Number.isNaN(Date.parse(day)))
      throw new CommandFault([`--day: ${quoted(day)} is no day; allowed: a day such as 2026-11-25`]);
    const { car, input } = await carOnFile(file);
    const answer = lifingOf(linesWorld(car, input.meshes), [], day);
    terminal.out(asked.has('json') ? `${JSON.stringify(answer)}\n` : text(answer, asked, terminal));
    return exitCode.done;
  },
};

function text({ day, due: items, spares }: LifingAnswer, asked: Asked, terminal: Terminal): string {
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const known = items.filter(({ usedShare }) => usedShare !== null);
  const undated = items.filter(({ usedShare }) => usedShare === null);
  const rows = columns(
    known.map((item) => [
      item.isDue ? '◆ due' : '',
      `${((item.usedShare ?? 0) * 100).toFixed(0)} %`,
      item.id,
      standsWords(item),
      item.dueOn === undefined ? '' : `by ${item.dueOn}`,
      describeSource(item.source),
    ]),
    [1],
  );
  const carried = columns(
    spares.map((spare) => [
      spare.unit === 'm' ? lengths.metres(spare.qty, 1) : String(spare.qty),
      spare.what,
      spare.why,
      spare.inBox >= spare.qty ? 'in the box' : '',
      spare.servesLines.join(' '),
    ]),
    [0],
  );
  return `${[
    style.strong(`As of ${day}`),
    ...(rows.length === 0
      ? ['Nothing has a day yet: sign lines as made and fitted, and enter the "life" of parts (docs/lifing.md).']
      : rows),
    ...(undated.length === 0
      ? []
      : wrapped(`No day entered: ${undated.map(({ id }) => id).join(', ')}.`, Math.max(60, terminal.columns), '')),
    '',
    style.strong('For a weekend away'),
    ...(carried.length === 0 ? ['No line has a way yet.'] : carried),
  ].join('\n')}\n`;
}
