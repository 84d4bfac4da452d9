import type { Car, Line } from '#car';
import type { Way } from '#lines';
import { lineCautions } from '#snags';
import { findSource } from '#sources';
import type { Catalogue } from '#standards';
import { formatNumber, lengthsIn } from '#units';
import { bendTable } from './bend-table.ts';
import { cardBoxes } from './card-boxes.ts';
import { cardEnds, portName } from './card-ends.ts';
import type { Drawing, Shape } from './drawing.ts';
import { type Level, levelMark, levelRole, levelWord } from './level-mark.ts';
import { makeUpStrip } from './make-up-strip.ts';
import { Stack } from './stack.ts';
import { block, brokenText, fewRows, row } from './text-block.ts';
import { ABOVE, ROW, textWidth } from './text-width.ts';
import { hasHoseNut, tighteningWords } from './tightening-words.ts';

export interface CardWish {
  /** False: the plan refused the line; the way is the least bad one and is not to be made. */
  readonly isTaken: boolean;
  /** Which sheet of how many. */
  readonly sheet?: { readonly number: number; readonly of: number };
  /** Lengths in inches: cuts to 1/16, bend marks to 1/32. */
  readonly inches?: boolean;
}

/** A4 landscape; printed at half its area (A5) the words are still 5 points and more. */
const SHEET_MM = { width: 297, height: 210, margin: 9 } as const;
/** Sizes of text tried, the largest that fits is taken [mm]. */
const SIZES_MM = [3.6, 3.4, 3.2, 3, 2.8, 2.6, 2.4] as const;

export const conventionWords = (inches: boolean): string =>
  `X rearward of the front axle, Y to the car's right, Z up, ${inches ? 'in' : 'mm'} · clocks: looking into the port, 12 = up; forward if facing up or down within 30°`;

/**
 * The card of one line for the bench: what to cut, the make-up, how the ends are turned, how to tighten, what is open, what can hurt,
 * boxes to tick. What has no room at the smallest text is counted, never dropped without a word; a sheet too short grows.
 */
export function lineCard(car: Car, line: Line, way: Way, catalogue: Catalogue, wish: CardWish): Drawing {
  const room = SHEET_MM.height - 2 * SHEET_MM.margin;
  const smallest = SIZES_MM.at(-1)!;
  let card = { body: new Stack(0), foot: new Stack(0) };
  const tries = [
    ...SIZES_MM.map((size) => ({ size, notes: Number.POSITIVE_INFINITY })),
    ...[6, 4, 3, 2, 1].map((notes) => ({ size: smallest, notes })),
  ];
  for (const { size, notes } of tries) {
    card = cardAt(car, line, way, catalogue, wish, size, notes);
    if (card.body.height + card.foot.height <= room) break;
  }
  const height = Math.max(SHEET_MM.height, card.body.height + card.foot.height + 2 * SHEET_MM.margin);
  const { margin } = SHEET_MM;
  return {
    title: `${line.id} ${line.name ?? ''}`.trim(),
    description: cardWords(car, line, way, wish),
    unit: 'mm',
    width: SHEET_MM.width,
    height,
    shapes: [
      { kind: 'group', offset: [margin, margin], shapes: card.body.shapes },
      { kind: 'group', offset: [margin, height - margin - card.foot.height], shapes: card.foot.shapes },
    ],
  };
}

function cardWords(car: Car, line: Line, way: Way, wish: CardWish): string {
  const route = `from ${portName(car, line.from)} to ${portName(car, line.to)}`;
  if (!wish.isTaken) return `${line.id}, ${route}: refused. ${way.fails.map((fail) => fail.text).join('; ')}.`;
  const cuts = way.pieces.map((piece) => lengthsIn(wish.inches === true).one(piece.cutLengthMm));
  return `${line.id}, ${route}: cut ${cuts.join(' and ')}.`;
}

function cardAt(
  car: Car,
  line: Line,
  way: Way,
  catalogue: Catalogue,
  wish: CardWish,
  size: number,
  notes: number,
): { body: Stack; foot: Stack } {
  const width = SHEET_MM.width - 2 * SHEET_MM.margin;
  const inches = wish.inches === true;
  const grommets = line.through.filter((through) => through.kind === 'grommet').map((through) => through.part);
  const gap = size * 0.9;
  const body = new Stack(width).put(...header(car, line, wish, width, size)).space(gap);
  if (!wish.isTaken) body.put(...refusal(way, width, size)).space(gap);
  body.put(...asGroup(cardBoxes(line, way, catalogue, { width, size, inches, isTaken: wish.isTaken }))).space(gap);
  body.drawing(makeUpStrip(way, catalogue, { width, size: size * 0.92, unit: 'mm', inches, grommets })).space(gap);
  body.put(...asGroup(cardEnds(car, line, way, width, size, inches))).space(gap * 0.6);
  body.put([{ kind: 'line', from: [0, 0], to: [width, 0], pen: { role: 'rule', width: size * 0.1 } }], gap * 0.6);
  const column = (width - size * 2) / 2;
  body.beside(
    [workColumn(car, line, way, catalogue, column, size, inches), openColumn(way, column, size, notes, inches)],
    size * 2,
  );
  const foot = new Stack(width).space(gap).put(...cautions(car, line, way, width, size));
  foot.space(gap).put(...states(line, wish, width, size));
  return { body, foot };
}

const asGroup = (stack: Stack): [Shape[], number] => [stack.shapes, stack.height];

/** Id, what it is, from where to where; the car, the sheet, how to read it. */
function header(car: Car, line: Line, wish: CardWish, width: number, size: number): [Shape[], number] {
  const idSize = size * 4.2;
  const idWidth = textWidth(line.id, idSize, 'bold');
  const rightWidth = width * 0.3;
  const left = idWidth + size * 1.4;
  const middle = width - rightWidth - left - size;
  const dash = line.dash === undefined ? '' : ` · -${line.dash}`;
  const what = `${line.name ?? line.duty.replace('-', ' ')}${dash}`;
  const routes = [`A · ${portName(car, line.from)}`, `B · ${portName(car, line.to)}`];
  const sheet = wish.sheet === undefined ? '' : ` · sheet ${wish.sheet.number} of ${wish.sheet.of}`;
  const rightRows = [
    ...brokenText(`${car.name ?? 'Car'}${sheet}`, rightWidth, size * 0.85),
    ...brokenText(conventionWords(wish.inches === true), rightWidth, size * 0.72),
  ];
  const right = new Stack(rightWidth);
  for (const [i, text] of rightRows.entries()) {
    const own = i === 0 ? size * 0.85 : size * 0.72;
    right.put(block([rightWidth, 0], [text], { size: own, role: 'soft', anchor: 'end' }).shapes, own * ROW);
  }
  const words = new Stack(middle);
  for (const [text, own, weight] of [
    [what, size * 1.5, 'bold'],
    ...routes.map((route) => [route, size * 1.1, 'regular'] as const),
  ] as const)
    words.put(block([0, 0], fewRows(text, middle, 1, own, weight), { size: own, weight }).shapes, own * ROW);
  const height = Math.max(idSize * 0.95, words.height, right.height) + size * 0.5;
  return [
    [
      row([0, idSize * 0.78], line.id, { size: idSize, weight: 'bold' }),
      { kind: 'group', offset: [left, 0], shapes: words.shapes },
      { kind: 'group', offset: [width - rightWidth, 0], shapes: right.shapes },
      { kind: 'line', from: [0, height], to: [width, height], pen: { role: 'ink', width: size * 0.28 } },
    ],
    height,
  ];
}

const MOST_FAILS = 4;

/** What a refused line says before anything else. */
function refusal(way: Way, width: number, size: number): [Shape[], number] {
  const pad = size * 0.8;
  const stack = new Stack(width - 2 * pad - size * 2);
  stack.text('Refused: the least bad way is shown. Do not cut or make it.', {
    size: size * 1.3,
    weight: 'bold',
    role: 'stop',
  });
  for (const fail of way.fails.slice(0, MOST_FAILS)) {
    const at =
      fail.atMm === undefined
        ? ''
        : ` (X ${formatNumber(fail.atMm[0])}, Y ${formatNumber(fail.atMm[1])}, Z ${formatNumber(fail.atMm[2])})`;
    stack.text(`${fail.text}${at}`, { size });
  }
  if (way.fails.length > MOST_FAILS) stack.text(`and ${way.fails.length - MOST_FAILS} more limits`, { size });
  const height = stack.height + 2 * pad;
  return [
    [
      { kind: 'rect', at: [0, 0], width, height, pen: { role: 'stop', width: size * 0.22 } },
      levelMark('stop', [pad, pad + size * 1.3 * ABOVE], size * 1.6),
      { kind: 'group', offset: [pad + size * 2, pad], shapes: stack.shapes },
    ],
    height,
  ];
}

/** How the joints are tightened, how the ends of tubes are made, how they are bent. */
function workColumn(
  car: Car,
  line: Line,
  way: Way,
  catalogue: Catalogue,
  width: number,
  size: number,
  inches: boolean,
): Stack {
  const stack = new Stack(width);
  const small = size * 0.92;
  const sentences = tighteningWords(car, line, way, catalogue, inches);
  if (sentences.length > 0) stack.text('Tightening', { size, weight: 'bold' });
  for (const sentence of sentences) stack.text(sentence, { size: small }).space(size * 0.25);
  if (hasHoseNut(line, way, catalogue))
    stack.text(
      'Hold the hose while its nut is turned: the lay line stays straight. Witness mark across nut and body.',
      { size: small },
    );
  for (const [i, piece] of way.pieces.entries()) {
    if (piece.tube === undefined) continue;
    stack.space(size * 0.3).text(way.pieces.length > 1 ? `Tube ${i + 1}` : 'Tube', { size, weight: 'bold' });
    const table = bendTable(piece, { width, size: small, unit: 'mm', inches });
    if (table.height > 0) stack.drawing(table);
    for (const sentence of piece.endPrep ?? []) stack.text(sentence, { size: small });
  }
  return stack;
}

const order: readonly Level[] = ['stop', 'fix', 'note'];

/** What is open on the way, worst first. */
function openColumn(way: Way, width: number, size: number, most: number, inches: boolean): Stack {
  const stack = new Stack(width).text('Open points', { size, weight: 'bold' });
  const notes = order.flatMap((level) => way.notes.filter((note) => note.level === level));
  if (notes.length === 0) return stack.text('none of its own', { size: size * 0.92 });
  const small = size * 0.92;
  for (const note of notes.slice(0, most)) {
    const word = levelWord[note.level];
    const indent = size * 1.2;
    stack.shapes.push(levelMark(note.level, [0, stack.height + small * ABOVE], small));
    const source = note.source === undefined ? '' : ` (${lengthsIn(inches).text(sourceWords(note.source))})`;
    stack.text(
      `${word}: ${lengthsIn(inches).text(note.text)}${source}`,
      { size: small, role: note.level === 'stop' ? levelRole.stop : 'ink' },
      indent,
    );
  }
  if (notes.length > most)
    stack.text(`and ${notes.length - most} more: see the list of snags`, { size: small, weight: 'bold' });
  return stack;
}

/** A source by its title; what holds beyond a port without brackets in brackets. */
export function sourceWords(source: string): string {
  const known = findSource(source);
  if (known !== undefined) return known.title;
  return source.includes(' (beyond: ') ? source.replace(' (beyond: ', '; beyond it ').replace(/\)$/u, '') : source;
}

function cautions(car: Car, line: Line, way: Way, width: number, size: number): [Shape[], number] {
  const words = lineCautions(
    car,
    line,
    way.gaps.map((gap) => gap.part),
  );
  const pad = size * 0.7;
  const stack = new Stack(width - 2 * pad);
  stack.text(words.join(' '), { size: size * 0.92 });
  const height = stack.height + 2 * pad;
  return [
    [
      { kind: 'rect', at: [0, 0], width, height, pen: { role: 'ink', width: size * 0.13 } },
      { kind: 'group', offset: [pad, pad], shapes: stack.shapes },
    ],
    height,
  ];
}

const STATES = ['made', 'proved', 'fitted', 'leak-checked'] as const;
const REACHED = ['planned', 'bought', ...STATES] as const;

/** Boxes to tick, with room for a date; those that the car file says are done stand crossed. */
function states(line: Line, wish: CardWish, width: number, size: number): [Shape[], number] {
  const box = size * 1.4;
  const height = box + size * 0.2;
  if (!wish.isTaken)
    return [[...block([0, 0], ['No boxes to tick: this line has no way yet.'], { size, role: 'soft' }).shapes], height];
  const cell = width / (STATES.length + 1);
  const reached = REACHED.indexOf(line.state);
  const pen = { role: 'ink', width: size * 0.13 } as const;
  const rule = (from: number, to: number): Shape => ({
    kind: 'line',
    from: [from, box],
    to: [to, box],
    pen: { role: 'soft', width: size * 0.08 },
  });
  const shapes = [...STATES, 'by'].flatMap((word, i): Shape[] => {
    const x = i * cell;
    const isBox = word !== 'by';
    const left = isBox ? x + box + size * 0.5 : x;
    const textSize = size * 1.1;
    const end = left + textWidth(word, textSize);
    const isDone = isBox && REACHED.indexOf(word as (typeof STATES)[number]) <= reached;
    return [
      ...(isBox ? [{ kind: 'rect', at: [x, 0], width: box, height: box, pen } as const] : []),
      ...(isDone
        ? [
            { kind: 'line', from: [x, 0], to: [x + box, box], pen } as const,
            { kind: 'line', from: [x, box], to: [x + box, 0], pen } as const,
          ]
        : []),
      row([left, box * 0.5 + textSize * 0.33], word, { size: textSize }),
      rule(end + size * 0.5, x + cell - size),
    ];
  });
  return [shapes, height];
}
