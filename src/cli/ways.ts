import { waysOf } from '#answers';
import { carOnFile } from './car-on-file.ts';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { lineNamed } from './line-named.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wholeNumber } from './whole-number.ts';

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
  async run(asked, terminal) {
    const [file = '', id = ''] = asked.operands;
    const count = wholeNumber(asked.value('count') ?? String(USUAL_COUNT), 'count', 1, MOST_WAYS);
    const { car, world } = await carOnFile(file);
    const line = lineNamed(car, id, file);
    const found = waysOf(world, line.id, count);
    if (asked.has('json')) terminal.out(`${JSON.stringify({ line: line.id, ways: found })}\n`);
    return found.some((way) => way.feasible) ? exitCode.done : exitCode.stop;
  },
};
