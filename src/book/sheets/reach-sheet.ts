import { formatNumber } from '#units';
import { type Block, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import type { OffNut } from './handed-over.ts';
import type { SheetFrame } from './sheet-frame.ts';

const whyWords = ({ why, cure }: OffNut): string => [why, cure].filter((words) => words).join('; ');

/** Nuts and screws that no tool goes on freely: known before the engine is in. */
export function reachSheet(input: BookInput, frame: SheetFrame): BookSheet[] {
  const nuts = input.nuts ?? [];
  if (nuts.length === 0) return [];
  const rows = nuts
    .filter(({ verdict }) => verdict !== 'yes')
    .toSorted((a, b) => Number(b.verdict === 'no') - Number(a.verdict === 'no'));
  const hidden = nuts.filter(({ isMarkHidden }) => isMarkHidden === true).map(({ id }) => id);
  const blocks = [...nutRows(rows, frame), ...markBlocks(hidden, frame)];
  const head = {
    code: 'reach',
    title: 'Spanner room',
    about: [
      'nuts and screws that are no plain yes with everything else in place; tools and hand as entered, else usual ones, from memory',
    ],
    car: input.car.name ?? 'Car',
  };
  return [
    {
      code: 'reach',
      title: 'Spanner room',
      group: 'off',
      pages: filledPages(frame, head, blocks),
      lines: [...new Set(nuts.flatMap(({ line }) => line ?? []))],
      rows: [
        ['nut', 'verdict', 'tool', 'freeDeg', 'needDeg', 'why', 'markSeen'],
        ...nuts.map((nut) => [
          nut.id,
          nut.verdict,
          nut.tool,
          String(Math.round(nut.freeDeg)),
          String(nut.needDeg),
          whyWords(nut),
          nut.isMarkHidden === true ? 'no' : '',
        ]),
      ],
    },
  ];
}

const nutRows = (rows: readonly OffNut[], frame: SheetFrame): Block[] =>
  gridBlocks(
    [
      { head: '', em: 4 },
      { head: 'nut or screw', share: 6, weight: 'bold' },
      { head: 'tool', share: 4 },
      { head: 'swing', em: 6.5, anchor: 'end' },
      { head: 'why, and what would let one on', share: 10 },
    ],
    rows.map((nut): Cell[] => [
      { level: nut.verdict === 'no' ? 'fix' : 'note', text: nut.verdict },
      nut.id,
      nut.tool,
      nut.needDeg > 0 ? `${formatNumber(nut.freeDeg)} of ${formatNumber(nut.needDeg)}°` : '',
      whyWords(nut),
    ]),
    frame.inner,
    frame.small,
  );

const markBlocks = (hidden: readonly string[], frame: SheetFrame): Block[] =>
  hidden.length === 0
    ? []
    : [
        ...headingBlocks('Witness marks not seen from outside, covers off', frame.inner, frame.size),
        ...textBlocks('Feel these with a spanner at each look-over, or a mirror and lamp.', frame.inner, {
          size: frame.small,
          role: 'soft',
        }),
        ...textBlocks(hidden.join(', '), frame.inner, { size: frame.size }),
      ];
