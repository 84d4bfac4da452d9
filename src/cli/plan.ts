import { carWithTaken } from '#answers';
import { carText, findLine } from '#car';
import type { Command } from './command.ts';
import { conventionsIn } from './conventions.ts';
import { lengthsIn } from '#units';
import { meshesBeside } from './meshes-beside.ts';
import { outFile } from './out-file.ts';
import { freshOption } from './kept-plans.ts';
import { planExit, type PlannedCar, plannedCar } from './planned-car.ts';
import { type PlanLook, planRows } from './plan-rows.ts';
import { snagCount } from './snag-rows.ts';
import { styleFor } from './style.ts';
import { wholeNumber } from './whole-number.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';

export const plan: Command = {
  name: 'plan',
  about: 'all lines in state planned, together',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    { name: 'out', value: 'FILE', about: 'write the car with the ways taken; meshes go by names seen from FILE' },
    { name: 'seconds', value: 'N', about: 'begin no further line after N seconds; what that cuts off is named' },
    jsonOption,
    inchesOption,
    freshOption,
    colourOption,
  ],
  more: ['Lines that are bought, made or fitted are gone round and never changed.'],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const wanted = asked.value('out');
    const out = wanted === undefined ? undefined : await outFile(wanted, file);
    const given = asked.value('seconds');
    const bounds = given === undefined ? {} : { seconds: wholeNumber(given, '--seconds', 1, MOST_SECONDS) };
    const answer = await plannedCar(file, asked, terminal, bounds);
    if (out !== undefined) {
      const meshes = await meshesBeside(answer.car, file, out.file);
      await out.write(carText(carWithTaken(answer.car, answer.planned, meshes.nameOf)));
      for (const name of meshes.copied) terminal.err(`copied beside ${out.file}: ${name}\n`);
      terminal.err(`wrote ${out.file}\n`);
    }
    if (asked.has('json'))
      terminal.out(
        `${JSON.stringify({ lines: answer.planned.lines, lineGaps: answer.planned.lineGaps, ...(answer.planned.stopped ? { cutOff: cutOff(answer) } : {}) })}\n`,
      );
    else
      terminal.out(
        `${planText(answer, { style: styleFor(asked, terminal), lengths: lengthsIn(asked.has('inches')) }).join('\n')}\n`,
      );
    return planExit(answer);
  },
};

const MOST_SECONDS = 86_400;

/** Planned lines that the time did not reach. */
function cutOff({ car, planned }: Pick<PlannedCar, 'car' | 'planned'>): string[] {
  const reached = new Set(planned.lines.map((row) => row.line));
  return car.lines.filter((line) => line.state === 'planned' && !reached.has(line.id)).map((line) => line.id);
}

/** Every line of the plan, and how it stands as a whole. */
export function planText({ car, planned, snags }: PlannedCar, look: PlanLook): string[] {
  const taken = planned.lines.filter((row) => row.taken !== null).length;
  const rows = planned.lines.flatMap((answer) => {
    const line = findLine(car, answer.line);
    return line === undefined ? [] : planRows(line, answer, snags, look);
  });
  const close = [...planned.lineGaps].sort((p, q) => p.gapMm - q.gapMm)[0];
  return [
    look.style.soft(conventionsIn(look.lengths)),
    ...rows,
    '',
    ...(planned.stopped
      ? [
          look.style.stop(
            `Stopped before its end: not worked out ${cutOff({ car, planned }).join(', ') || 'none'}; refused lines not tried again.`,
          ),
        ]
      : []),
    `${taken} of ${planned.lines.length} lines taken, ${planned.lines.length - taken} refused${planned.takenUp === 0 ? '' : `; ${planned.takenUp} taken up again to make room`}.`,
    ...(close === undefined
      ? []
      : [
          look.lengths.text(
            `Nearest two lines: ${close.a} and ${close.b}, ${close.gapMm.toFixed(0)} mm apart; lines want ${close.keepOffMm}.`,
          ),
        ]),
    `Open: ${snagCount(snags)}; heat and spanner room were not asked. See all: fairlead snags CAR.`,
  ];
}
