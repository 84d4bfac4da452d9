import type { Car, Line } from '#car';
import { crewWays } from '#crew';
import type { Way } from '#lines';
import { lineCautions } from '#snags';
import { carOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { conventionsIn } from './conventions.ts';
import { exitCode } from './exit-code.ts';
import { type Lengths, lengthsIn } from '#units';
import { lineNamed } from './line-named.ts';
import { quoted } from './quoted.ts';
import { type Style, styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wayCard } from './way-card.ts';
import { wholeNumber } from './whole-number.ts';
import { wrapped } from './wrapped.ts';

const USUAL_COUNT = 5;
const MOST_WAYS = 50;

export const ways: Command = {
  name: 'ways',
  about: 'ranked ways of one line',
  operands: [
    { name: 'CAR', about: 'the car file' },
    { name: 'LINE', about: 'id of the line' },
  ],
  options: [
    { name: 'count', value: 'N', about: `how many ways at most (${USUAL_COUNT} if not said)` },
    jsonOption,
    inchesOption,
    colourOption,
  ],
  more: ['Other lines count as standing where a way is taken for them in the car file.'],
  async run(asked, terminal) {
    const [file = '', id = ''] = asked.operands;
    const count = wholeNumber(asked.value('count') ?? String(USUAL_COUNT), '--count', 1, MOST_WAYS);
    if (/\.json$/iu.test(id) && !/\.json$/iu.test(file))
      throw new CommandFault([
        `ways: ${quoted(id)} stands where LINE goes; allowed: the car first, fairlead ways ${id} ${file}`,
      ]);
    const { car, input } = await carOnFile(file);
    const line = lineNamed(car, id, file);
    const found = await crewWays(input, line.id, count);
    if (asked.has('json')) terminal.out(`${JSON.stringify({ line: line.id, ways: found })}\n`);
    else terminal.out(`${cards(car, line, found, asked, terminal).join('\n')}\n`);
    return found.some((way) => way.feasible) ? exitCode.done : exitCode.stop;
  },
};

function cards(car: Car, line: Line, found: readonly Way[], asked: Asked, terminal: Terminal): string[] {
  const style = styleFor(asked, terminal);
  const beside = found.flatMap((way) => way.gaps.map((gap) => gap.part));
  const look = { style, lengths: lengthsIn(asked.has('inches')), columns: terminal.columns };
  return [
    style.strong(`${line.id}${line.name === undefined ? '' : `  ${line.name}`}`) +
      `  ${line.from} → ${line.to}  ${sizeWords(line, look.lengths)}`,
    ...soft(conventionsIn(look.lengths), style, terminal),
    ...(line.state === 'planned' ? [] : [`${line.id} is ${line.state}: these are ways to make it anew.`]),
    ...found.flatMap((way) => ['', ...wayCard(way, look)]),
    '',
    ...lineCautions(car, line, beside).flatMap((text) => soft(text, style, terminal)),
  ];
}

const soft = (text: string, style: Style, terminal: Terminal): string[] =>
  wrapped(text, Math.max(60, terminal.columns), '').map(style.soft);

function sizeWords(line: Line, lengths: Lengths): string {
  const size =
    line.dash === undefined ? (line.boreMm === undefined ? '' : `bore ${lengths.fine(line.boreMm)}`) : `-${line.dash}`;
  return [line.duty, size].filter((text) => text !== '').join(', ');
}
