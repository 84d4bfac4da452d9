import type { Order, OrderRow } from '#stock';
import { formatInches, formatNumber, lengthsIn } from '#units';
import { allowanceWords } from '../strip-wish.ts';
import { besideBlocks } from './beside-blocks.ts';
import { type Block, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** What to buy with where each goes, spares, what is cut from what. */
export function orderSheet({ car, order }: BookInput, frame: SheetFrame): BookSheet {
  const built = order.rows.filter((row) => row.spare !== true);
  const spares = order.rows.filter((row) => row.spare === true);
  const blocks = [
    ...headingBlocks('To buy', frame.inner, frame.size, 0),
    ...rowsOf(built, frame),
    ...(spares.length === 0
      ? []
      : [
          ...headingBlocks('To carry as spares (common practice, no source)', frame.inner, frame.size),
          ...spareRows(spares, frame),
        ]),
    ...remarkBlocks(order, frame),
  ];
  const about = ['what is bought for every planned line, less what lies in the box'];
  const head = { code: 'order', title: 'Order', about, car: car.name ?? 'Car' };
  return {
    code: 'order',
    title: 'Order',
    group: 'buy',
    pages: filledPages(frame, head, blocks),
    lines: [],
    rows: [
      ['toBuy', 'unit', 'inBox', 'id', 'name', 'usedIn', 'spare'],
      ...order.rows.map((row) => [
        String(row.toBuy),
        row.unit,
        String(row.inBox),
        row.id,
        row.name,
        row.usedIn.join('; '),
        row.spare === true ? 'yes' : '',
      ]),
    ],
  };
}

function rowsOf(rows: readonly OrderRow[], frame: SheetFrame): Block[] {
  if (rows.length === 0) return textBlocks('nothing', frame.inner, { size: frame.size });
  return gridBlocks(
    [
      { head: '', em: 2 },
      { head: 'buy', em: 4.2, anchor: 'end', weight: 'bold' },
      { head: 'box', em: 3.2, anchor: 'end' },
      { head: 'what', share: 11 },
      { head: 'where it goes', share: 9 },
    ],
    rows.map((row): Cell[] => [
      { tick: true, isDone: row.toBuy === 0 },
      countOf(row.toBuy, row, frame),
      row.inBox === 0 ? '' : countOf(row.inBox, row, frame),
      whatOf(row, frame),
      lengthsIn(frame.inches).cutText(row.usedIn.join('; ')),
    ]),
    frame.inner,
    frame.small,
  );
}

/** So many, or by the metre or foot. */
const countOf = (count: number, { unit }: OrderRow, { inches }: SheetFrame): string =>
  unit === 'm' ? lengthsIn(inches).metres(count, 1) : String(count);

/** Its name, thread, number and who has it; a dagger where its dimensions are a usual part's. */
const whatOf = (row: OrderRow, { inches }: SheetFrame): string =>
  `${[lengthsIn(inches).soldAs(row.name), row.thread, row.partNumber, row.supplier]
    .filter((words) => words !== undefined && words !== '')
    .join(' · ')}${row.measure ? ' †' : ''}`;

function spareRows(rows: readonly OrderRow[], frame: SheetFrame): Block[] {
  const gap = frame.size * 2;
  const half = (frame.inner - gap) / 2;
  const cut = Math.ceil(rows.length / 2);
  const [left, right] = [rows.slice(0, cut), rows.slice(cut)].map((own) =>
    gridBlocks(
      [
        { head: '', em: 2 },
        { head: 'buy', em: 3.6, anchor: 'end', weight: 'bold' },
        { head: 'what', share: 1 },
      ],
      own.map((row): Cell[] => [
        { tick: true, isDone: row.toBuy === 0 },
        countOf(row.toBuy, row, frame),
        whatOf(row, frame),
      ]),
      half,
      frame.small,
      0,
      0.15,
    ),
  );
  return besideBlocks(left!, right!, half + gap);
}

/** "C1 at 196, 447 and 1228 mm", for all lines. */
function bracketWords({ brackets }: Order, inches: boolean): string[] {
  if (brackets.length === 0) return [];
  const lines = [...new Set(brackets.map((row) => row.line))];
  const places = lines.map(
    (line) =>
      `${line} at ${brackets
        .filter((row) => row.line === line)
        .map((row) => (inches ? formatInches(row.alongMm) : formatNumber(row.alongMm)))
        .join(', ')}`,
  );
  return [`${brackets.length} brackets to make, ${inches ? '' : 'mm '}from A: ${places.join('; ')}.`];
}

function remarkBlocks(order: Order, frame: SheetFrame): Block[] {
  const sums = order.cost.map(({ currency, sum }) => `${formatNumber(sum, 2)} ${currency}`.trim());
  const words = [
    ...(sums.length === 0 ? [] : [`${sums.join(' and ')} for what has a price; ${order.unpriced} rows have none.`]),
    ...(order.withoutWay.length === 0
      ? []
      : [`Refused, nothing of them is in this order: ${order.withoutWay.join(', ')}.`]),
    ...bracketWords(order, frame.inches),
    ...(order.rows.some((row) => row.measure)
      ? ['† has the dimensions of a usual part: measure the part in your hand.']
      : []),
    ...order.remarks,
  ];
  return words.flatMap((text) => textBlocks(text, frame.inner, { size: frame.small }, { space: frame.size * 0.5 }));
}

/** Every length to cut, by line; and which of them come out of which length. */
export function cutsSheet(input: BookInput, frame: SheetFrame): BookSheet[] {
  const { car, order } = input;
  // Where no line has a way there is nothing to cut.
  if (order.cuts.length === 0) return [];
  const lengths = lengthRows(input, frame);
  const blocks = [
    ...textBlocks(
      'Trial-fit before the ends go on: cut to the longer end of the allowance, offer up, trim. Square cuts, no swarf left inside.',
      frame.inner,
      { size: frame.size },
    ),
    ...headingBlocks('By line', frame.inner, frame.size),
    ...cutRows(input, frame),
    ...(lengths.length > 1 ? [...headingBlocks('Out of which length', frame.inner, frame.size), ...lengths] : []),
  ];
  return [
    {
      code: 'cuts',
      title: 'Cut list',
      group: 'buy',
      pages: filledPages(frame, { code: 'cuts', title: 'Cut list', car: car.name ?? 'Car' }, blocks),
      lines: [...new Set(order.cuts.map((cut) => cut.line))],
      rows: [
        ['line', 'piece', 'cutMm', 'shorterMm', 'longerMm', 'from'],
        ...order.cuts.map((cut) => [
          cut.line,
          String(cut.number),
          String(cut.lengthMm),
          String(cut.allowanceMm[0]),
          String(cut.allowanceMm[1]),
          cut.hose,
        ]),
      ],
    },
  ];
}

function cutRows({ order, shelf }: BookInput, frame: SheetFrame): Block[] {
  const lengthWords = lengthsIn(frame.inches).one;
  const range = (allowanceMm: readonly [number, number]): string => allowanceWords(allowanceMm, frame.inches);
  return gridBlocks(
    [
      { head: '', em: 2 },
      { head: 'line', em: 5, weight: 'bold' },
      { head: 'piece', em: 3.4 },
      { head: 'cut', em: 6, anchor: 'end', weight: 'bold' },
      { head: frame.inches ? 'allow in' : 'allow mm', em: frame.inches ? 7.5 : 6, anchor: 'end' },
      { head: 'from', share: 1 },
    ],
    order.cuts.map((cut): Cell[] => [
      { tick: true },
      cut.line,
      String(cut.number),
      lengthWords(cut.lengthMm),
      range(cut.allowanceMm),
      shelf.findHose(cut.hose)?.name ?? cut.hose,
    ]),
    frame.inner,
    frame.size,
  );
}

function lengthRows({ order, shelf }: BookInput, frame: SheetFrame): Block[] {
  return gridBlocks(
    [
      { head: 'length', share: 6, weight: 'bold' },
      { head: 'of', em: 6, anchor: 'end' },
      { head: 'cut out of it, in this order', share: 9 },
      { head: 'left', em: 6, anchor: 'end' },
    ],
    [...order.hoseByTheMetre, ...order.tubes].flatMap((sheet) =>
      sheet.lengths.map((length): Cell[] => [
        `${shelf.findHose(sheet.id)?.name ?? sheet.id}${length.from === 'box' ? ', from the box' : ''}`,
        lengthsIn(frame.inches).metres(length.lengthMm / 1000, 1),
        length.cuts.map((cut) => cut.id.replace(' piece ', '/')).join(', '),
        lengthsIn(frame.inches).one(length.leftMm),
      ]),
    ),
    frame.inner,
    frame.small,
  );
}
