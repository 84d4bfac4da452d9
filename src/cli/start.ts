import { fileURLToPath } from 'node:url';
import { carWithTaken } from '#answers';
import { ReadyCar } from '#server';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { freshOption } from './kept-plans.ts';
import { lengthsIn } from '#units';
import { totalText } from './order-rows.ts';
import { planText } from './plan.ts';
import { type PlannedCar, plannedCar } from './planned-car.ts';
import { forever, idOf, opened, putOnce, scansOf, shareOption, tell } from './serve.ts';
import { snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import { colourOption, inchesOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

const demoCar = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));
const WORST_SHOWN = 10;

export const start: Command = {
  name: 'start',
  about: 'plans the demo car, or CAR, prints how it stands, and opens the screen',
  operands: [{ name: 'CAR', about: 'the car file', isOptional: true }],
  options: [inchesOption, freshOption, shareOption, colourOption],
  more: [
    'The car is put on the shelf with the ways that the plan took, once: what was done to it since stays.',
    'FAIRLEAD_PORT picks the port, FAIRLEAD_DATA the folder that cars are kept in.',
  ],
  async run(asked, terminal) {
    const file = asked.operands[0] ?? demoCar;
    const answer = await plannedCar(file, asked, terminal, { isQuiet: false });
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
    const planned = await withWays(answer, file);
    const serving = await opened(asked, terminal, async () => planned);
    try {
      await putOnce(serving, planned, idOf(file));
      tell(serving, asked, terminal, file);
      await (terminal.ends ?? forever);
    } finally {
      await serving.close();
    }
    return exitCode.done;
  },
};

/** The car as planned: its ways taken, its refused lines with the best that was tried. */
async function withWays({ car, planned }: PlannedCar, file: string): Promise<ReadyCar> {
  const refused = planned.lines.flatMap((row) => (row.taken === null ? [[row.line, row.best] as const] : []));
  const taken = carWithTaken(car, planned, (name) => name);
  return new ReadyCar(taken, await scansOf(car, file), new Map(refused));
}
