import { snagsOf } from '#answers';
import { linesWorld } from '#lines';
import { cautionsFor } from '#snags';
import type { Command } from './command.ts';
import { freshOption } from './kept-plans.ts';
import { lengthsIn } from '#units';
import { planExit, plannedCar } from './planned-car.ts';
import { snagCount, snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const snags: Command = {
  name: 'snags',
  about: 'every open point, worst first',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [jsonOption, inchesOption, freshOption, colourOption],
  more: [
    '▲ Stop: a limit is broken, a joint does not mate, or hot or moving is touched at worst case. ◆ Fix: broken only at worst case, or relaxed near a port. · Note: the rest.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const planned = await plannedCar(file, asked, terminal);
    const answer = { ...planned, snags: snagsOf(linesWorld(planned.car, planned.input.meshes), planned.planned) };
    if (asked.has('json')) terminal.out(`${JSON.stringify(answer.snags)}\n`);
    else {
      const style = styleFor(asked, terminal);
      const lengths = lengthsIn(asked.has('inches'));
      const rows = answer.snags.flatMap((snag) => snagRows(snag, style, lengths, terminal.columns));
      const feet = cautionsFor(answer.car)
        .flatMap((text) => wrapped(text, Math.max(60, terminal.columns), ''))
        .map(style.soft);
      terminal.out(`${[...rows, '', `${snagCount(answer.snags)}.`, ...feet].join('\n')}\n`);
    }
    return planExit(answer);
  },
};
