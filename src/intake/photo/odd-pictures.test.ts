import { outlineFromImage, readReference } from '#intake';
import { describe, expect, it } from 'vitest';

const [W, H] = [320, 240];
type Paint = (x: number, y: number) => readonly [number, number, number];

const picture = (paint: Paint) => ({
  widthPx: W,
  heightPx: H,
  rgba: Uint8Array.from({ length: 4 * W * H }, (_, i) => {
    const at = i >> 2;
    return i % 4 === 3 ? 255 : paint(at % W, Math.floor(at / W))[i % 4]!;
  }),
});

const box =
  (x0: number, y0: number, x1: number, y1: number, colour: readonly [number, number, number], under: Paint): Paint =>
  (x, y) =>
    x >= x0 && x < x1 && y >= y0 && y < y1 ? colour : under(x, y);
const grey: Paint = () => [90, 90, 90];
const hash = (x: number, y: number): number =>
  Math.imul(Math.imul(x + 1, 73_856_093) ^ Math.imul(y + 7, 19_349_663), 2_654_435_761) >>> 24;

const ODD: readonly (readonly [string, Paint])[] = [
  ['black', () => [0, 0, 0]],
  ['white', () => [255, 255, 255]],
  ['noise', (x, y) => [hash(x, y), hash(x + 999, y), hash(x, y + 999)]],
  ['chequers', (x, y) => (((x >> 4) + (y >> 4)) % 2 === 0 ? [20, 20, 20] : [240, 220, 40])],
  ['one box', box(60, 60, 200, 160, [220, 60, 40], grey)],
  ['a box and a thread', box(100, 20, 103, 200, [200, 160, 90], box(20, 60, 90, 130, [220, 60, 40], grey))],
  [
    'a box in a frame of the wrong size',
    box(
      100,
      80,
      200,
      150,
      [200, 160, 90],
      box(50, 40, 270, 190, [90, 90, 90], box(40, 30, 280, 200, [30, 60, 200], grey)),
    ),
  ],
];

describe('pictures that are no photo of a template', () => {
  it.each(ODD)('%s: one line, no fault of the program', (_, paint) => {
    for (const words of ['square:600x400', 'frame:800x600x25', 'sheet:420x297', 'rule:1000x30']) {
      const answer = outlineFromImage(picture(paint), { reference: readReference(words)!, thicknessMm: 4 });
      expect(answer.ok ? '' : answer.refusal).toMatch(/^photo: [^\n]+; what helps: [^\n]+$/);
    }
  });

  it('corners picked at random, or all at one place, are one line too', () => {
    const image = picture(ODD[4]![1]);
    for (let k = 0; k < 12; k++) {
      const referencePx = Array.from(
        { length: 4 },
        (_, i) => [hash(k, i) + (k === 0 ? -hash(k, i) : 0), hash(i, k) % H] as const,
      );
      const hints = { referencePx: k === 1 ? referencePx.map(() => [50, 50] as const) : referencePx };
      const answer = outlineFromImage(image, { reference: readReference('sheet:420x297')!, thicknessMm: 4, hints });
      expect(answer.ok ? '' : answer.refusal).toMatch(/^photo: /);
    }
  });
});
