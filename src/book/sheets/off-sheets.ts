import { cautionsFor } from '#snags';
import { formatNumber, minutesWords } from '#units';
import type { Shape } from '../drawing.ts';
import { framed } from '../panel-head.ts';
import { row } from '../text-block.ts';
import { textWidth } from '../text-width.ts';
import { type Block, counted, headingBlocks, stackBlock, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import { signBlock } from './sign-block.ts';
import type { OffPlan } from './handed-over.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** A sheet for each strip-down: off from the top down, on from the bottom up, with a box for either way. */
export function offSheets(input: BookInput, frame: SheetFrame): BookSheet[] {
  return (input.offPlans ?? []).map((plan): BookSheet => {
    const code = `off-${plan.id}`;
    const total = plan.minutesOff + plan.minutesOn;
    const head = {
      code,
      title: plan.title,
      about: [
        `${counted(plan.steps.length, 'step')} · ${minutesWords(plan.minutesOff)} off, ${minutesWords(plan.minutesOn)} on, ${minutesWords(total)} in all${plan.crew === undefined ? '' : ` with ${plan.crew}`}`,
      ],
      car: input.car.name ?? 'Car',
    };
    const blocks: Block[] = [
      stackBlock(framed([...cautionsFor(input.car).slice(0, -1), LIFTING], frame.inner, frame.small)),
      ...plan.about.flatMap((text) => textBlocks(text, frame.inner, { size: frame.size }, { space: frame.size * 0.4 })),
      timeBar(plan, frame),
      ...headingBlocks('Off: from the top down. On: from the bottom up', frame.inner, frame.size),
      ...stepRows(plan, frame),
      ...(plan.caps.length === 0
        ? []
        : [
            ...headingBlocks('Caps and plugs to have at hand', frame.inner, frame.size),
            ...textBlocks(plan.caps.join(', '), frame.inner, { size: frame.size }),
          ]),
      ...(plan.onAgain.length === 0
        ? []
        : [
            ...headingBlocks('On again: orders that were found one way only', frame.inner, frame.size),
            ...plan.onAgain.flatMap((text) => textBlocks(text, frame.inner, { size: frame.size })),
          ]),
      ...(plan.wins.length === 0
        ? []
        : [
            ...headingBlocks('What would make it shorter, each alone', frame.inner, frame.size),
            ...plan.wins.flatMap((text) => textBlocks(text, frame.inner, { size: frame.size })),
          ]),
      signBlock(frame, ['off by', 'on again by']),
    ];
    return {
      code,
      title: `Strip-down: ${plan.title}`,
      group: 'off',
      pages: filledPages(frame, head, blocks),
      lines: plan.lines,
      rows: [
        ['step', 'what', 'how', 'drips', 'minutes'],
        ...plan.steps.map((step, i) => [String(i + 1), step.what, step.how, step.drips, formatNumber(step.minutes, 1)]),
      ],
    };
  });
}

const LIFTING =
  "Nothing is worked on that hangs from a hoist or stands on a jack alone. Way out and minutes are worked out from the car as drawn; the event's rules and a qualified person come first.";

const stepRows = ({ steps }: OffPlan, frame: SheetFrame): Block[] =>
  gridBlocks(
    [
      { head: 'off', em: 2.4 },
      { head: '', em: 2.2, anchor: 'end', weight: 'bold' },
      { head: 'what', share: 5, weight: 'bold' },
      { head: 'how', share: 7 },
      { head: 'drips', share: 4 },
      { head: 'min', em: 3.2, anchor: 'end' },
      { head: 'on', em: 2.4 },
    ],
    steps.map((step, i): Cell[] => [
      { tick: true },
      String(i + 1),
      step.what,
      step.how,
      step.drips,
      formatNumber(step.minutes),
      { tick: true },
    ]),
    frame.inner,
    frame.small,
    frame.size * 0.4,
  );

/** Each step as long as it takes, one behind the other, to its number. */
function timeBar({ steps, minutesOff }: OffPlan, frame: SheetFrame): Block {
  const { inner, small } = frame;
  const total = steps.reduce((sum, { minutes }) => sum + minutes, 0) || 1;
  const bar = small * 1.9;
  let x = 0;
  const shapes = steps.flatMap((step, i): Shape[] => {
    const width = (inner * step.minutes) / total;
    const at = x;
    x += width;
    const number = String(i + 1);
    return [
      {
        kind: 'rect',
        at: [at, 0],
        width,
        height: bar,
        pen: { role: 'ink', width: 0.25 },
        fill: i % 2 === 0 ? 'tape' : 'card',
      },
      ...(textWidth(number, small, 'bold') < width - 0.6
        ? [row([at + width / 2, bar * 0.68], number, { size: small, weight: 'bold', anchor: 'middle' })]
        : []),
    ];
  });
  return {
    shapes: [
      ...shapes,
      row([0, bar + small * 1.1], '0', { size: small, role: 'soft' }),
      row([inner, bar + small * 1.1], `${minutesWords(minutesOff)} off`, { size: small, role: 'soft', anchor: 'end' }),
    ],
    height: bar + small * 1.4,
    space: frame.size * 0.8,
  };
}
