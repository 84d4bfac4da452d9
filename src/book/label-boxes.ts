import type { Drawing, Shape, TextShape } from './drawing.ts';
import { ABOVE, BELOW, textWidth } from './text-width.ts';

/** A row of text and the room that it takes on the sheet. */
export interface LabelBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Every row of text of a drawing with the room it takes, groups worked in. */
export function labelBoxes(drawing: Drawing): LabelBox[] {
  const boxes: LabelBox[] = [];
  const visit = (shapes: readonly Shape[], x: number, y: number): void => {
    for (const shape of shapes) {
      if (shape.kind === 'group') visit(shape.shapes, x + shape.offset[0], y + shape.offset[1]);
      if (shape.kind === 'text') boxes.push(labelBox(shape, x, y));
    }
  };
  visit(drawing.shapes, 0, 0);
  return boxes;
}

const share = { start: 0, middle: 0.5, end: 1 } as const;

/** The room that one row of text takes, shifted. */
export function labelBox(text: TextShape, x = 0, y = 0): LabelBox {
  const width = textWidth(text.text, text.size, text.weight);
  const left = x + text.at[0] - width * share[text.anchor];
  const baseline = y + text.at[1];
  return {
    text: text.text,
    left,
    right: left + width,
    top: baseline - ABOVE * text.size,
    bottom: baseline + BELOW * text.size,
  };
}
