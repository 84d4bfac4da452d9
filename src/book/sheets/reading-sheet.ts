import { clockFace } from '../clock-face.ts';
import type { Shape } from '../drawing.ts';
import { gapRuler } from '../gap-ruler.ts';
import { lengthGauge } from '../length-gauge.ts';
import { levelMark } from '../level-mark.ts';
import { block, brokenText } from '../text-block.ts';
import { ABOVE } from '../text-width.ts';
import { axesBlock } from './axes-block.ts';
import { type Block, drawingBlock, headingBlocks, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** How the sheets are read: axes and datum, the clock, the ruler, the marks, the states. */
export function readingSheet({ car }: BookInput, frame: SheetFrame): BookSheet {
  const { inner, size } = frame;
  const face = clockFace(
    { port: 'a port', angleDeg: 90, clockDeg: 285, clockFrom: 'up', words: '90 degree end' },
    { width: inner, size: frame.picture, unit: 'mm', name: 'an end', dial: size * 8 },
  );
  const blocks: Block[] = [
    ...headingBlocks('Places', inner, size, 0),
    axesBlock(frame),
    ...textBlocks(
      `Places are X, Y, Z in ${frame.inches ? 'inches' : 'millimetres'} from where the front axle line crosses the car's middle at the datum height. X grows to the rear, Y to the car's right (the driver's right hand), Z up. Left and right are always the car's.`,
      inner,
      { size },
      { space: size * 0.5 },
    ),
    ...headingBlocks('Clocks', inner, size),
    drawingBlock(face, size * 0.4),
    ...textBlocks(
      'Seen looking into the port, as one stands before it with the spanner. 12 is up; on a port that faces within 30° of straight up or down, 12 is forward. The hand is where the tail of the hose end points.',
      inner,
      { size },
      { space: size * 0.5 },
    ),
    ...closeBlocks(frame),
    ...headingBlocks('Marks and boxes', inner, size),
    marksBlock(frame),
    ...textBlocks(
      'Boxes of a card: made; proved (pressure-tested on the bench); fitted; leak-checked. A box that is crossed was so in the car file when this was printed. Views: from the left the front is at the left; from above the car’s right is below.',
      inner,
      { size },
      { space: size * 0.6 },
    ),
    ...textBlocks(
      'Cut lengths come with an allowance: cut long, offer up, trim. What is marked "common practice, no source" or "from memory" is a starting point, not a limit; measure the part in your hand.',
      inner,
      { size },
      { space: size * 0.6 },
    ),
  ];
  const head = { code: 'read', title: 'How to read these sheets', car: car.name ?? 'Car' };
  return { code: 'read', title: head.title, group: 'front', pages: filledPages(frame, head, blocks), lines: [] };
}

/** The ruler in its three states, with what each says. */
function closeBlocks(frame: SheetFrame): Block[] {
  const { inner, size } = frame;
  const half = (inner - size * 2) / 2;
  const ruler = (nominal: number, worst: number, best: number) =>
    gapRuler(lengthGauge({ gapMm: nominal, worstMm: worst, bestMm: best, keepOffMm: 50 }, 'gap', frame.inches), {
      width: half,
      size: frame.picture * 1.05,
      unit: 'mm',
    });
  const rulers = [ruler(72, 61, 83), ruler(58, 47, 69), ruler(36, 27, 45)];
  const words = [
    'Clear: even the worst case keeps the limit.',
    'Close, a fix: as drawn it keeps the limit, at worst it does not.',
    'Broken, a stop: as drawn it does not keep the limit.',
  ];
  return [
    ...headingBlocks('How close', inner, size),
    ...rulers.flatMap((one, i): Block[] => [
      {
        shapes: [...one.shapes, ...block([half + size * 2, size], brokenText(words[i]!, half, size), { size }).shapes],
        height: one.height,
        space: size * 0.8,
      },
    ]),
    ...textBlocks(
      'The dot is the value as drawn, the whisker what it may be with everything measured as badly as it was measured, the post the limit. Gaps are from surface to surface.',
      inner,
      { size },
      { space: size * 0.6 },
    ),
  ];
}

function marksBlock(frame: SheetFrame): Block {
  const { size, inner } = frame;
  const words = [
    ['stop', 'Stop: a limit is broken as drawn, a joint does not mate, or hot or moving is touched at worst'],
    ['fix', 'Fix: broken only at worst, or relaxed near a port'],
    ['note', 'Note: the rest'],
  ] as const;
  const shapes: Shape[] = [];
  let height = 0;
  for (const [level, text] of words) {
    const rows = brokenText(text, inner - size * 1.6, size);
    shapes.push(levelMark(level, [0, height + size * ABOVE], size * 1.2));
    const made = block([size * 1.6, height], rows, { size });
    shapes.push(...made.shapes);
    height += made.height + size * 0.3;
  }
  return { shapes, height, space: size * 0.4 };
}
