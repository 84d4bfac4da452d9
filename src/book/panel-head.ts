import type { FlatPattern } from '#panels';
import type { Shape } from './drawing.ts';
import { flatLabel } from './flat-label.ts';
import { areaWords } from './panel-lengths.ts';
import { flatBounds } from './panel-frame.ts';
import { sheetWords } from './panel-lists.ts';
import { Stack } from './stack.ts';
import { row } from './text-block.ts';
import { textWidth } from './text-width.ts';

export interface PanelWish {
  readonly inches?: boolean;
  /** Name of the car. */
  readonly car?: string;
}

const ID_MM = 13;

/** Id, name, sheet, size, how to read it: the head of a panel's sheet. `right` says what this sheet is. */
export function panelHead(pattern: FlatPattern, wish: PanelWish, width: number, right: readonly string[]): Stack {
  const inches = wish.inches === true;
  const bounds = flatBounds(pattern);
  const grain = pattern.grainDeg === undefined ? 'grain either way' : 'grain as the arrow shows';
  const idWidth = textWidth(flatLabel(pattern), ID_MM, 'bold');
  const rightWidth = Math.min(62, width * 0.3);
  const side = new Stack(rightWidth);
  for (const text of [...(wish.car === undefined ? [] : [wish.car]), ...right])
    side.put([row([rightWidth, 3.2], text, { size: 3.4, role: 'soft', anchor: 'end' })], 4.3);
  const isBeside = idWidth < width * 0.3;
  const left = isBeside ? idWidth + 5 : 0;
  const words = new Stack(width - left - rightWidth - 5)
    .text(
      pattern.piece === undefined
        ? pattern.name
        : `${pattern.name}, piece ${pattern.piece.number} of ${pattern.piece.of}`,
      { size: 5, weight: 'bold' },
    )
    .text(
      `${sheetWords(pattern, inches)} · ${areaWords(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY, inches)} flat`,
      {
        size: 4,
      },
    )
    .text(`seen on the OUTSIDE FACE · ${grain}`, { size: 3.6 });
  const id: Shape = row([0, ID_MM * 0.72], flatLabel(pattern), { size: ID_MM, weight: 'bold' });
  const top = isBeside ? 0 : ID_MM;
  const height = Math.max(ID_MM, top + words.height, side.height) + 2;
  return new Stack(width).put(
    [
      id,
      { kind: 'group', offset: [left, top], shapes: words.shapes },
      { kind: 'group', offset: [width - rightWidth, 0], shapes: side.shapes },
      { kind: 'line', from: [0, height], to: [width, height], pen: { role: 'ink', width: 0.9 } },
    ],
    height + 1,
  );
}

/** Cautions in a frame. */
export function framed(sentences: readonly string[], width: number, size: number): Stack {
  const pad = 2.4;
  const inner = new Stack(width - 2 * pad).text(sentences.join(' '), { size });
  const height = inner.height + 2 * pad;
  return new Stack(width).put(
    [
      { kind: 'rect', at: [0, 0], width, height, pen: { role: 'ink', width: 0.4 } },
      { kind: 'group', offset: [pad, pad], shapes: inner.shapes },
    ],
    height,
  );
}
