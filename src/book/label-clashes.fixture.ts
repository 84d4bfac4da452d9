import type { Drawing } from './drawing.ts';
import { type LabelBox, labelBoxes } from './label-boxes.ts';

const ROUNDING = 1e-6;
/** Tails and accents of one row may reach this far into the next, as shares of the row's height: the letters do not touch. */
const TOUCH = 0.12;

/** Texts that reach beyond the sheet. */
export const outside = (drawing: Drawing): string[] =>
  labelBoxes(drawing)
    .filter(
      (box) =>
        box.left < -ROUNDING ||
        box.top < -ROUNDING ||
        box.right > drawing.width + ROUNDING ||
        box.bottom > drawing.height + ROUNDING,
    )
    .map((box) => box.text);

/** Pairs of texts that lie on each other. */
export function overlapping(drawing: Drawing): string[] {
  const boxes = labelBoxes(drawing);
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => share(a.left, a.right, b.left, b.right) > ROUNDING && lapped(a, b))
      .map((b) => `${a.text} | ${b.text}`),
  );
}

const share = (a1: number, a2: number, b1: number, b2: number): number => Math.min(a2, b2) - Math.max(a1, b1);
const lapped = (a: LabelBox, b: LabelBox): boolean =>
  share(a.top, a.bottom, b.top, b.bottom) > TOUCH * Math.min(a.bottom - a.top, b.bottom - b.top);
