import type { Anchor, Shape } from './drawing.ts';
import { cutText, row } from './text-block.ts';

export interface TableColumn {
  readonly head: string;
  readonly width: number;
  readonly anchor?: Anchor;
  /** Its words begin this far in, beside a column of numbers. */
  readonly indent?: number;
}

const PITCH = 1.42;

/** Height of a table of so many rows, its head counted. */
export const tableHeight = (rows: number, size: number): number => (rows + 1) * size * PITCH;

/** How many rows have room in a height, under a head. */
export const rowsWithin = (height: number, size: number): number =>
  Math.max(0, Math.floor(height / (size * PITCH) + 1e-9) - 1);

/** Rows under a head, a thin line below each; what is too wide for its column is cut with an ellipsis. */
export function table(columns: readonly TableColumn[], rows: readonly (readonly string[])[], size: number): Shape[] {
  const pitch = size * PITCH;
  const width = columns.reduce((sum, column) => sum + column.width, 0);
  const gap = size * 0.4;
  const lineOf = (cells: readonly string[], i: number): Shape[] => {
    let left = 0;
    const base = (i + 1) * pitch - size * 0.4;
    const words = columns.map((column, c): Shape => {
      const isEnd = column.anchor === 'end';
      const indent = column.indent ?? 0;
      const x = isEnd ? left + column.width - gap : left + indent;
      left += column.width;
      const weight = i === 0 || c === 0 ? 'bold' : 'regular';
      return row([x, base], cutText(cells[c] ?? '', column.width - gap - indent, size, weight), {
        size,
        weight,
        anchor: column.anchor ?? 'start',
      });
    });
    const pen = { role: i === 0 ? 'ink' : 'rule', width: size * (i === 0 ? 0.08 : 0.05) } as const;
    return [...words, { kind: 'line', from: [0, (i + 1) * pitch], to: [width, (i + 1) * pitch], pen }];
  };
  return [columns.map((column) => column.head), ...rows].flatMap(lineOf);
}
