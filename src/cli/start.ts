import { fileURLToPath } from 'node:url';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { freshOption } from './kept-plans.ts';
import { lengthsIn } from './lengths.ts';
import { totalText } from './order-rows.ts';
import { planText } from './plan.ts';
import { plannedCar } from './planned-car.ts';
import { snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import { colourOption, inchesOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

const demoCar = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));
const WORST_SHOWN = 10;

export const start: Command = {
  name: 'start',
  about: 'plans the demo car, or CAR, and prints how it stands',
  operands: [{ name: 'CAR', about: 'the car file', isOptional: true }],
  options: [inchesOption, freshOption, colourOption],
  async run(asked, terminal) {
    const answer = await plannedCar(asked.operands[0] ?? demoCar, asked, terminal, { isQuiet: false });
    const style = styleFor(asked, terminal);
    const lengths = lengthsIn(asked.has('inches'));
    const name = asked.operands[0] ?? 'demo/fellside.json';
    const next = [
      `fairlead ways ${name} ${answer.car.lines[0]?.id ?? 'LINE'}`,
      `fairlead snags ${name}`,
      `fairlead order ${name}`,
      'fairlead --help',
    ].map((words) => style.blue(`  npx ${words}`));
    const text = [
      style.strong(answer.car.name ?? name),
      ...planText(answer, { style, lengths }),
      ...(answer.snags.length === 0
        ? []
        : ['', style.strong(`The worst ${Math.min(WORST_SHOWN, answer.snags.length)}`)]),
      ...answer.snags.slice(0, WORST_SHOWN).flatMap((snag) => snagRows(snag, style, lengths, terminal.columns)),
      '',
      `Order: ${totalText(answer.order)}`,
      ...wrapped(
        "It works from what was measured. The event's rules, local codes and a qualified person come first.",
        Math.max(60, terminal.columns),
        '',
      ).map(style.soft),
      'Next:',
      ...next,
    ];
    terminal.out(`${text.join('\n')}\n`);
    return exitCode.done;
  },
};
