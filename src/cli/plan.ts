import { planCar } from '#answers';
import { carOnFile } from './car-on-file.ts';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';

export const plan: Command = {
  name: 'plan',
  about: 'all lines in state planned, together',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [jsonOption, inchesOption, colourOption],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const { world } = await carOnFile(file);
    const planned = planCar(world);
    if (asked.has('json')) terminal.out(`${JSON.stringify({ lines: planned.lines, lineGaps: planned.lineGaps })}\n`);
    return planned.lines.every((row) => row.taken !== null) ? exitCode.done : exitCode.stop;
  },
};
