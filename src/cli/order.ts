import { cutsCsv, orderCsv } from '#stock';
import type { Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { lengthsIn } from '#units';
import { orderText } from './order-rows.ts';
import { freshOption } from './kept-plans.ts';
import { planExit, plannedCar } from './planned-car.ts';
import { styleFor } from './style.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';

export const order: Command = {
  name: 'order',
  about: 'what to buy with where each goes, and the cut list',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    jsonOption,
    { name: 'csv', about: 'comma-separated: the parts, an empty row, the cuts' },
    inchesOption,
    freshOption,
    colourOption,
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    if (asked.has('csv') && asked.has('json'))
      throw new CommandFault(['order: --csv and --json stand together; allowed: one of them']);
    const answer = await plannedCar(file, asked, terminal);
    const found = answer.order;
    if (asked.has('json')) terminal.out(`${JSON.stringify(found)}\n`);
    else if (asked.has('csv')) terminal.out(`${orderCsv(found)}\r\n${cutsCsv(found)}`);
    else terminal.out(`${orderText(found, styleFor(asked, terminal), lengthsIn(asked.has('inches'))).join('\n')}\n`);
    return planExit(answer);
  },
};
