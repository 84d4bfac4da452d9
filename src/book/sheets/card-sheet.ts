import { lineCautions } from '#snags';
import { formatNumber, lengthsIn } from '#units';
import { cardBoxes, dutyFigures } from '../card-boxes.ts';
import { faceRows, heldPhrases, portName } from '../card-ends.ts';
import type { Drawing, Shape } from '../drawing.ts';
import { type Level, levelWord } from '../level-mark.ts';
import { sourceWords } from '../line-card.ts';
import { makeUpStrip } from '../make-up-strip.ts';
import { framed } from '../panel-head.ts';
import { Stack } from '../stack.ts';
import { row } from '../text-block.ts';
import { textWidth } from '../text-width.ts';
import { hasHoseNut, tighteningWords } from '../tightening-words.ts';
import { bendBlock } from './bend-block.ts';
import { besideBlocks } from './beside-blocks.ts';
import { type Block, drawingBlock, headingBlocks, stackBlock, textBlocks, together } from './block.ts';
import type { BookInput, BookLine } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { tickBox } from './grid.ts';
import { levelBlocks } from './level-blocks.ts';
import type { SheetFrame } from './sheet-frame.ts';
import { told } from './us-input.ts';
import { unplannedBlocks } from './unplanned-card.ts';

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
    ['carries', line.duty.replace('-', ', '), ...dutyFigures(line, frame.inches)].join(' · ').replace(' · ', ' '),
  ];
  const last = together([cautionBlock(input, own, frame), statesBlock(own, frame)]);
  const head = { code: line.id, title, about, car: car.name ?? 'Car', fillsFirst: true } as const;
  const set = (blocks: readonly Block[]) => filledPages(frame, head, blocks, last);
  const pages =
    way === null
      ? set(unplannedBlocks(input, line, frame))
      : fewestPages(LAYOUTS.map((as) => set(wayBlocks(input, own, frame, as))));
  return { code: line.id, title, group: 'cards', pages, lines: [line.id] };
}

/** Ways to set a card; one whose rows go on overleaf leaves no half page bare. */
const LAYOUTS = ['beside', 'tubes beside', 'open beside', 'row by row', 'run on'] as const;

/** The first of those that take one page; where none does, the last, which fills the first page. */
const fewestPages = (ways: readonly Drawing[][]): Drawing[] => {
  const least = Math.min(...ways.map((pages) => pages.length));
  return least === 1 ? ways.find((pages) => pages.length === 1)! : ways.findLast((pages) => pages.length === least)!;
};

function wayBlocks(
  input: BookInput,
  { line, way, isTaken }: BookLine,
  frame: SheetFrame,
  as: (typeof LAYOUTS)[number],
): Block[] {
  const { shelf, car } = input;
  const { inner: width, picture: size, inches } = frame;
  const grommets = line.through.filter((through) => through.kind === 'grommet').map((through) => through.part);
  return [
    ...(isTaken ? [] : refusalBlocks(way!, frame)),
    stackBlock(cardBoxes(line, way!, shelf, { width, size, inches, isTaken, rows: BOX_ROWS })),
    drawingBlock(makeUpStrip(way!, shelf, { width, size: size * 0.94, unit: 'mm', inches, grommets }), size * 0.4),
    ...faceRows(car, way!, width, size).map((stack) => stackBlock(stack, size * 0.4)),
    ...columnBlocks(input, line, way!, frame, as),
    ...(as === 'tubes beside' ? [] : tubeBlocks(way!, frame)),
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

/**
 * How it hangs and what is open beside how its joints are tightened, and how its tubes are bent; or how it hangs beside what is open,
 * tightening below; or all of it row by row, how it hangs in rows of its own or run on.
 */
function columnBlocks(
  input: BookInput,
  line: BookLine['line'],
  way: NonNullable<BookLine['way']>,
  frame: SheetFrame,
  as: (typeof LAYOUTS)[number],
): Block[] {
  const gap = frame.size * 2;
  const partOf = (share: number): SheetFrame => ({ ...frame, inner: (frame.inner - gap) * share });
  const narrow = partOf(LEFT_SHARE);
  const wide = partOf(1 - LEFT_SHARE);
  if (as === 'beside' || as === 'tubes beside') {
    const right = [
      ...tighteningBlocks(input, line, way, wide),
      ...(as === 'tubes beside' ? tubeBlocks(way, wide) : []),
    ];
    const left = together([heldBlock(line, way, narrow), ...openBlocks(input.snags, line, way, narrow)]);
    return besideBlocks(
      [{ ...left, space: frame.size * 0.4 }],
      right.length === 0 ? [] : [together(right)],
      narrow.inner + gap,
    );
  }
  const below = tighteningBlocks(input, line, way, frame);
  if (as !== 'open beside')
    return [heldBlock(line, way, frame, as === 'run on'), ...openBlocks(input.snags, line, way, frame), ...below];
  const half = partOf(0.5);
  return [
    ...besideBlocks(
      [heldBlock(line, way, half)],
      [together(openBlocks(input.snags, line, way, half))],
      half.inner + gap,
    ),
    ...below,
  ];
}

/** Where it is clamped, how it hangs, what it passes: a row each, or run on. */
function heldBlock(
  line: BookLine['line'],
  way: NonNullable<BookLine['way']>,
  frame: SheetFrame,
  isRunOn = false,
): Block {
  const size = frame.picture * 0.95;
  const phrases = heldPhrases(line, way, frame.inches);
  const tag = `tag both ends: ${line.id}`;
  const stack = new Stack(frame.inner);
  if (isRunOn) stack.text([...phrases, tag].join(' · '), { size });
  else {
    for (const phrase of phrases) stack.text(phrase, { size });
    stack.text(tag, { size, weight: 'bold' });
  }
  return stackBlock(stack, frame.size * 0.8);
}

function tighteningBlocks(
  { car, shelf }: BookInput,
  line: BookLine['line'],
  way: NonNullable<BookLine['way']>,
  frame: SheetFrame,
): Block[] {
  const sentences = tighteningWords(car, line, way, shelf, frame.inches);
  if (sentences.length === 0) return [];
  const style = { size: frame.small };
  const space = frame.size * 0.3;
  return [
    ...headingBlocks('Tightening', frame.inner, frame.size, frame.size),
    ...sentences.flatMap((sentence) => textBlocks(sentence, frame.inner, style, { space })),
    ...(hasHoseNut(line, way, shelf)
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
    return [
      ...headingBlocks(way.pieces.length > 1 ? `Tube ${i + 1}` : 'Tube', frame.inner, frame.size, frame.size),
      { ...bendBlock(piece, frame, 'ink'), space: frame.size * 0.3 },
    ];
  });
}

const ORDER: readonly Level[] = ['stop', 'fix', 'note'];

/** What is open about a way as it lies, and before it whatever else stops its line: a cable that it runs into, a pump that it starves. */
function openBlocks(
  snags: BookInput['snags'],
  line: BookLine['line'],
  way: NonNullable<BookLine['way']>,
  frame: SheetFrame,
): Block[] {
  // What the snags say is told in inches already.
  const own = way.notes.map(({ level, text, source }) => ({
    level,
    text: frame.inches ? told(text) : text,
    source: source === undefined ? undefined : lengthsIn(frame.inches).text(sourceWords(source)),
  }));
  const stops = snags
    .filter((snag) => snag.line === line.id && snag.level === 'stop' && own.every(({ text }) => text !== snag.text))
    .map(({ level, text, source }) => ({ level, text, source: sourceWords(source) }));
  const notes = [...stops, ...ORDER.flatMap((level) => own.filter((note) => note.level === level))];
  const heading = headingBlocks('Open points', frame.inner, frame.size, frame.size);
  if (notes.length === 0) return [...heading, ...textBlocks('none of its own', frame.inner, { size: frame.small })];
  return [
    ...heading,
    ...notes.flatMap((note) => {
      const source = note.source === undefined ? '' : ` (${note.source})`;
      return levelBlocks(note.level, `${levelWord[note.level]}: ${note.text}${source}`, frame);
    }),
  ];
}

function cautionBlock({ car }: BookInput, { line, way }: BookLine, frame: SheetFrame): Block {
  const words = lineCautions(
    car,
    line,
    (way?.gaps ?? []).map((gap) => gap.part),
  );
  return stackBlock(framed(words, frame.inner, frame.small));
}

const STATES = ['made', 'proved', 'fitted', 'leak-checked'] as const;
const REACHED = ['planned', 'bought', ...STATES] as const;

/** A box for each state with room for a day and initials; crossed where the car file says it is reached. */
function statesBlock({ line, way, isTaken }: BookLine, frame: SheetFrame): Block {
  const { size, inner } = frame;
  const space = size * 0.8;
  // A refused way is not to be made; one worked out by hand on the car is.
  if (!isTaken && way !== null)
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
