import { lengthsIn } from '#units';
import type { Block } from './block.ts';
import { headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import type { DueRow, SpareRow } from './handed-over.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** What is due on the day of printing, and what to carry. */
export function dueSheet(input: BookInput, frame: SheetFrame): BookSheet[] {
  const { due, spares } = input.lifing ?? { due: [], spares: [] };
  if (due.length + spares.length === 0) return [];
  const blocks = [...dueBlocks(due, frame), ...spareBlocks(spares, frame)];
  const head = {
    code: 'due',
    title: 'Due, and spares for a weekend',
    about: [`as of ${input.lifing?.day ?? 'the day of printing'}`],
    car: input.car.name ?? 'Car',
  };
  return [
    {
      code: 'due',
      title: head.title,
      group: 'off',
      pages: filledPages(frame, head, blocks),
      lines: [...new Set([...due.flatMap(({ lines }) => lines), ...spares.flatMap(({ servesLines }) => servesLines)])],
      rows: [
        ['what', 'due', 'stands', 'when', 'source'],
        ...due.map((row) => [`${row.id} ${row.what}`, row.isDue ? 'due' : '', row.stands, row.when, row.source]),
        ...spares.map((row) => [
          row.what,
          `carry ${qtyWords(row, frame.inches)}`,
          row.why,
          row.servesLines.join('; '),
          '',
        ]),
      ],
    },
  ];
}

function dueBlocks(due: readonly DueRow[], frame: SheetFrame): Block[] {
  if (due.length === 0) return [];
  return [
    ...headingBlocks('Due', frame.inner, frame.size, 0),
    ...textBlocks(
      'A hose that looks well outside may be gone inside: dates count. Lives marked as common practice or from memory are a starting point.',
      frame.inner,
      { size: frame.small, role: 'soft' },
      { isHead: true },
    ),
    ...gridBlocks(
      [
        { head: '', em: 2.1 },
        { head: 'what', share: 6, weight: 'bold' },
        { head: 'when', share: 4 },
        { head: 'what it did and stands', share: 6 },
        { head: 'after', share: 4 },
      ],
      due.map((row): Cell[] => [
        { tick: true },
        `${row.id} ${row.what}`,
        row.isDue ? { level: 'fix', text: row.when } : row.when,
        row.stands,
        row.source,
      ]),
      frame.inner,
      frame.small,
      frame.size * 0.4,
    ),
  ];
}

function spareBlocks(spares: readonly SpareRow[], frame: SheetFrame): Block[] {
  if (spares.length === 0) return [];
  return [
    ...headingBlocks('To carry', frame.inner, frame.size),
    ...gridBlocks(
      [
        { head: '', em: 2.1 },
        { head: 'qty', em: 4.2, anchor: 'end', weight: 'bold' },
        { head: 'what', share: 7 },
        { head: 'serves', share: 4 },
        { head: 'without it', share: 5 },
      ],
      spares.map((row): Cell[] => [
        { tick: true, isDone: row.inBox >= row.qty },
        qtyWords(row, frame.inches),
        row.what,
        row.servesLines.join(', '),
        row.why,
      ]),
      frame.inner,
      frame.small,
      frame.size * 0.4,
    ),
  ];
}

/** Hose by the metre or the foot. */
const qtyWords = ({ qty, unit }: SpareRow, inches: boolean): string => {
  if (unit !== 'm') return String(qty);
  return inches ? lengthsIn(true).metres(qty) : `${qty} m`;
};
