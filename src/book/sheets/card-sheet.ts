import { lineCautions } from '#snags';
import { formatNumber } from '#units';
import { bendTable } from '../bend-table.ts';
import { cardBoxes, dutyFigures } from '../card-boxes.ts';
import { faceRows, heldWords, portName } from '../card-ends.ts';
import type { Shape } from '../drawing.ts';
import { type Level, levelWord } from '../level-mark.ts';
import { sourceWords } from '../line-card.ts';
import { makeUpStrip } from '../make-up-strip.ts';
import { framed } from '../panel-head.ts';
import { Stack } from '../stack.ts';
import { row } from '../text-block.ts';
import { textWidth } from '../text-width.ts';
import { tighteningWords } from '../tightening-words.ts';
import { besideBlocks } from './beside-blocks.ts';
import { type Block, drawingBlock, headingBlocks, stackBlock, textBlocks, together } from './block.ts';
import type { BookInput, BookLine } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { tickBox } from './grid.ts';
import { levelBlocks } from './level-blocks.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Cut, hose, least gap and tightest bend; what it carries stands in the head. */
const BOX_ROWS = [[0, 1, 2, 3]] as const;

/** The card of one line as a sheet of the book: what to cut, the make-up, how the ends are turned, how to tighten, what is open, boxes to tick. */
export function cardSheet(input: BookInput, own: BookLine, frame: SheetFrame): BookSheet {
  const { line, way } = own;
  const { car } = input;
  const dash = line.dash === undefined ? '' : ` · -${line.dash}`;
  const title = `${line.name ?? line.duty.replace('-', ' ')}${dash}`;
  const about = [
    `A · ${portName(car, line.from)}`,
    `B · ${portName(car, line.to)}`,
    ['carries', line.duty.replace('-', ', '), ...dutyFigures(line)].join(' · ').replace(' · ', ' '),
  ];
  const blocks = way === null ? withoutWay(frame) : wayBlocks(input, own, frame);
  const last = way === null ? undefined : together([cautionBlock(input, own, frame), statesBlock(own, frame)]);
  const head = { code: line.id, title, about, car: car.name ?? 'Car' };
  return { code: line.id, title, group: 'cards', pages: filledPages(frame, head, blocks, last), lines: [line.id] };
}

const withoutWay = (frame: SheetFrame): Block[] =>
  textBlocks('No way is taken yet: nothing to cut or to make.', frame.inner, {
    size: frame.size * 1.3,
    weight: 'bold',
    role: 'stop',
  });

function wayBlocks(input: BookInput, { line, way, isTaken }: BookLine, frame: SheetFrame): Block[] {
  const { shelf, car } = input;
  const { inner: width, picture: size, inches } = frame;
  const grommets = line.through.filter((through) => through.kind === 'grommet').map((through) => through.part);
  return [
    ...(isTaken ? [] : refusalBlocks(way!, frame)),
    stackBlock(cardBoxes(line, way!, shelf, { width, size, inches, isTaken, rows: BOX_ROWS })),
    drawingBlock(makeUpStrip(way!, shelf, { width, size: size * 0.94, unit: 'mm', inches, grommets }), size * 0.4),
    ...faceRows(car, way!, width, size).map((stack) => stackBlock(stack, size * 0.4)),
    ...columnBlocks(input, line, way!, frame),
    ...tubeBlocks(way!, frame),
  ];
}

function refusalBlocks(way: NonNullable<BookLine['way']>, frame: SheetFrame): Block[] {
  const words = textBlocks('Refused: the least bad way is shown. Do not cut or make it.', frame.inner, {
    size: frame.size * 1.25,
    weight: 'bold',
    role: 'stop',
  });
  const fails = way.fails.flatMap((fail) => {
    const at =
      fail.atMm === undefined
        ? ''
        : ` (X ${formatNumber(fail.atMm[0])}, Y ${formatNumber(fail.atMm[1])}, Z ${formatNumber(fail.atMm[2])})`;
    return levelBlocks('stop', `${fail.text}${at}`, frame);
  });
  return [...words, ...fails, { shapes: [], height: frame.size * 0.6 }];
}

/** Of the width, for how it hangs: how it is tightened takes more words. */
const LEFT_SHARE = 0.36;

/** How it hangs and what is open at the left, how its joints are tightened at the right; what does not fit goes overleaf, row by row. */
function columnBlocks(
  input: BookInput,
  line: BookLine['line'],
  way: NonNullable<BookLine['way']>,
  frame: SheetFrame,
): Block[] {
  const gap = frame.size * 2;
  const narrow = { ...frame, inner: (frame.inner - gap) * LEFT_SHARE };
  const wide = { ...frame, inner: frame.inner - gap - narrow.inner };
  const left = [
    stackBlock(heldWords(new Stack(narrow.inner), line, way, frame.picture * 0.95), frame.size),
    ...openBlocks(way, narrow),
  ];
  const right = tighteningBlocks(input, line, way, wide);
  const heights = [left, right].map((blocks) => together(blocks).height);
  // Two columns that are no higher than a third of a page stay together.
  if (Math.max(...heights) < frame.height / 3)
    return [
      ...besideBlocks(
        [together(left, frame.size * 0.4)],
        right.length === 0 ? [] : [together(right)],
        narrow.inner + gap,
      ),
    ];
  return [
    stackBlock(heldWords(new Stack(frame.inner), line, way, frame.picture * 0.95), frame.size * 0.6),
    ...tighteningBlocks(input, line, way, frame),
    ...openBlocks(way, frame),
  ];
}

function tighteningBlocks(
  { car, shelf }: BookInput,
  line: BookLine['line'],
  way: NonNullable<BookLine['way']>,
  frame: SheetFrame,
): Block[] {
  const sentences = tighteningWords(car, line, way, shelf);
  if (sentences.length === 0) return [];
  const style = { size: frame.small };
  const space = frame.size * 0.3;
  return [
    ...headingBlocks('Tightening', frame.inner, frame.size, frame.size),
    ...sentences.flatMap((sentence) => textBlocks(sentence, frame.inner, style, { space })),
    ...(way.pieces.some((piece) => piece.hose !== undefined)
      ? textBlocks(
          'Hold the hose while its nut is turned: the lay line stays straight. Witness mark across nut and body.',
          frame.inner,
          style,
          { space },
        )
      : []),
  ];
}

function tubeBlocks(way: NonNullable<BookLine['way']>, frame: SheetFrame): Block[] {
  return way.pieces.flatMap((piece, i): Block[] => {
    if (piece.tube === undefined) return [];
    const table = bendTable(piece, {
      width: frame.inner,
      size: frame.size,
      unit: 'mm',
      inches: frame.inches,
    });
    return [
      ...headingBlocks(way.pieces.length > 1 ? `Tube ${i + 1}` : 'Tube', frame.inner, frame.size, frame.size),
      ...(table.height > 0 ? [drawingBlock(table, frame.size * 0.3)] : []),
      ...(piece.endPrep ?? []).flatMap((words) =>
        textBlocks(words, frame.inner, { size: frame.small }, { space: frame.size * 0.3 }),
      ),
    ];
  });
}

const ORDER: readonly Level[] = ['stop', 'fix', 'note'];

function openBlocks(way: NonNullable<BookLine['way']>, frame: SheetFrame): Block[] {
  const notes = ORDER.flatMap((level) => way.notes.filter((note) => note.level === level));
  const heading = headingBlocks('Open points', frame.inner, frame.size, frame.size);
  if (notes.length === 0) return [...heading, ...textBlocks('none of its own', frame.inner, { size: frame.small })];
  return [
    ...heading,
    ...notes.flatMap((note) => {
      const source = note.source === undefined ? '' : ` (${sourceWords(note.source)})`;
      return levelBlocks(note.level, `${levelWord[note.level]}: ${note.text}${source}`, frame);
    }),
  ];
}

function cautionBlock({ car }: BookInput, { line, way }: BookLine, frame: SheetFrame): Block {
  const words = lineCautions(
    car,
    line,
    way!.gaps.map((gap) => gap.part),
  );
  return stackBlock(framed(words, frame.inner, frame.small));
}

const STATES = ['made', 'proved', 'fitted', 'leak-checked'] as const;
const REACHED = ['planned', 'bought', ...STATES] as const;

/** A box for each state with room for a day and initials; crossed where the car file says it is reached. */
function statesBlock({ line, isTaken }: BookLine, frame: SheetFrame): Block {
  const { size, inner } = frame;
  const space = size * 0.8;
  if (!isTaken)
    return {
      ...textBlocks('No boxes to tick: this line has no way yet.', inner, { size, role: 'soft' })[0]!,
      space,
    };
  const box = size * 1.4;
  const cell = inner / STATES.length;
  const reached = REACHED.indexOf(line.state);
  const shapes = STATES.flatMap((word, i): Shape[] => {
    const x = i * cell;
    const left = x + box + size * 0.5;
    const end = left + textWidth(word, size) + size * 0.4;
    return [
      ...tickBox([x, 0], box, REACHED.indexOf(word) <= reached),
      row([left, box * 0.72], word, { size }),
      { kind: 'line', from: [end, box], to: [x + cell - size, box], pen: { role: 'soft', width: 0.2 } },
    ];
  });
  return { shapes, height: box + size * 0.3, space };
}
