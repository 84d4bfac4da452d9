import type { Comparison, LineVerdict, Verdict } from '#stock';
import { lengthsIn } from '#units';
import { type Block, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import { signBlock } from './sign-block.ts';
import type { SheetFrame } from './sheet-frame.ts';

const ORDER: readonly Verdict[] = ['scrap', 'remake', 'new', 'keep'];
const WORDS: Readonly<Record<Verdict, string>> = { scrap: 'SCRAP', remake: 'REMAKE', new: 'NEW', keep: 'keep' };

/** From the earlier car to this one: each line's fate, what to buy, what goes back, which sheets are no more, signed. */
export function changeSheet({ car, against }: BookInput, frame: SheetFrame, gone: readonly BookSheet[]): BookSheet[] {
  if (against === undefined) return [];
  const { comparison } = against;
  const lines = [...comparison.lines].sort((p, q) => ORDER.indexOf(p.verdict) - ORDER.indexOf(q.verdict));
  const count = ORDER.map((verdict) => `${lines.filter((row) => row.verdict === verdict).length} ${verdict}`);
  const blocks = [
    ...textBlocks(`${count.join(' · ')}`, frame.inner, { size: frame.size * 1.25, weight: 'bold' }),
    ...lineRows(lines, frame),
    ...partRows(comparison, frame),
    ...goneRows(gone, frame),
    ...remarks(comparison, frame),
    signBlock(frame, ['changed by', 'agreed by']),
  ];
  const about = [`from: ${against.name}`, `to: ${car.name ?? 'this car'}`];
  return [
    {
      code: 'change',
      title: 'Change sheet',
      group: 'buy',
      pages: filledPages(frame, { code: 'change', title: 'Change sheet', about, car: car.name ?? 'Car' }, blocks),
      lines: lines.filter((row) => row.verdict !== 'keep').map((row) => row.line),
      rows: [
        ['line', 'verdict', 'why', 'steps'],
        ...lines.map((row) => [row.line, row.verdict, row.why, row.steps.join('; ')]),
      ],
    },
  ];
}

const lineRows = (lines: readonly LineVerdict[], frame: SheetFrame): Block[] =>
  gridBlocks(
    [
      { head: 'done', em: 3 },
      { head: 'line', em: 4.5, weight: 'bold' },
      { head: 'fate', em: 5, weight: 'bold' },
      { head: 'why, and what to do', share: 1 },
    ],
    lines.map((row): Cell[] => [
      { tick: true },
      row.line,
      { text: WORDS[row.verdict], role: row.verdict === 'scrap' ? 'stop' : row.verdict === 'keep' ? 'soft' : 'ink' },
      [row.why, ...stepsBeyond(row)].join('; '),
    ]),
    frame.inner,
    frame.small,
    frame.size * 0.6,
  );

/** The steps of a line that its why does not say already. */
const stepsBeyond = ({ why, steps }: LineVerdict): string[] =>
  steps.flatMap((step) => step.split('; ')).filter((step) => !why.includes(step));

function partRows({ buy, surplus }: Comparison, frame: SheetFrame): Block[] {
  const lengths = lengthsIn(frame.inches);
  // A little more or less of a hose is told as it is cut: rounded to a tenth of a metre it would be none.
  const amount = (qty: number, unit: string): string => {
    if (unit !== 'm') return String(qty);
    return qty < 1 ? lengths.one(Math.max(1, Math.round(qty * 1000))) : lengths.metres(qty, 1);
  };
  const columns = (where: string) =>
    [
      { head: '', em: 2 },
      { head: 'qty', em: 5.5, anchor: 'end', weight: 'bold' },
      { head: 'what', share: 11 },
      { head: where, share: 9 },
    ] as const;
  const none = textBlocks('nothing', frame.inner, { size: frame.size });
  return [
    ...headingBlocks('To buy', frame.inner, frame.size),
    ...(buy.length === 0
      ? none
      : gridBlocks(
          columns('goes to'),
          buy.map((row): Cell[] => [{ tick: true }, amount(row.toBuy, row.unit), row.name, row.usedIn.join('; ')]),
          frame.inner,
          frame.small,
        )),
    ...headingBlocks('Back into the drawer', frame.inner, frame.size),
    ...(surplus.length === 0
      ? none
      : gridBlocks(
          columns('comes from'),
          surplus.map((row): Cell[] => [{ tick: true }, amount(row.qty, row.unit), row.name, row.from.join('; ')]),
          frame.inner,
          frame.small,
        )),
  ];
}

/** Sheets that nobody is to work by any longer. */
const goneRows = (gone: readonly BookSheet[], frame: SheetFrame): Block[] =>
  gone.length === 0
    ? []
    : [
        ...headingBlocks('Take out of the binder', frame.inner, frame.size),
        ...gridBlocks(
          [
            { head: '', em: 2 },
            { head: 'sheet', em: 9, weight: 'bold' },
            { head: 'what it was', share: 1 },
          ],
          gone.map((sheet): Cell[] => [{ tick: true }, sheet.code, sheet.title]),
          frame.inner,
          frame.small,
        ),
      ];

function remarks(comparison: Comparison, frame: SheetFrame): Block[] {
  const words = [
    ...comparison.fitsElsewhere.map((fit) => `The hose of ${fit.line} does for ${fit.fits}, ${fit.how}: ${fit.why}.`),
    ...(comparison.withoutWay.length === 0
      ? []
      : [
          `No way for ${comparison.withoutWay.join(', ')}: what they need is not in these lists, what they have is set aside.`,
        ]),
    'A hose or seal that was under pressure is looked at by a qualified person before it is used again; the event’s rules come first.',
  ];
  return words.flatMap((text) => textBlocks(text, frame.inner, { size: frame.small }, { space: frame.size * 0.5 }));
}
