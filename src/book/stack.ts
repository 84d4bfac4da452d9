import type { Drawing, Shape, Spot } from './drawing.ts';
import { block, brokenText, type TextStyle } from './text-block.ts';

/** Things one below the other in a column of one width. */
export class Stack {
  readonly shapes: Shape[] = [];
  height = 0;
  readonly width: number;

  constructor(width: number) {
    this.width = width;
  }

  space(height: number): this {
    this.height += height;
    return this;
  }

  /** A sentence, broken to the width; `indent` from its left side. */
  text(text: string, style: TextStyle, indent = 0): this {
    const made = block(
      [indent, this.height],
      brokenText(text, this.width - indent, style.size, style.weight ?? 'regular'),
      style,
    );
    this.shapes.push(...made.shapes);
    this.height += made.height;
    return this;
  }

  put(shapes: readonly Shape[], height: number): this {
    this.shapes.push({ kind: 'group', offset: [0, this.height], shapes });
    this.height += height;
    return this;
  }

  drawing(drawing: Drawing): this {
    return this.put(drawing.shapes, drawing.height);
  }

  /** Columns side by side, as high as the highest. */
  beside(stacks: readonly Stack[], gap: number): this {
    let x = 0;
    const shapes = stacks.map((stack): Shape => {
      const offset: Spot = [x, 0];
      x += stack.width + gap;
      return { kind: 'group', offset, shapes: stack.shapes };
    });
    return this.put(shapes, Math.max(0, ...stacks.map((stack) => stack.height)));
  }
}
