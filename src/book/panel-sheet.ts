import type { FlatPattern } from '#panels';
import { checkMm, checkSquare } from './check-square.ts';
import type { Drawing, Shape } from './drawing.ts';
import { datumMark, grainMark, grainRoom } from './flat-marks.ts';
import { freePlace } from './free-place.ts';
import { panelCautions } from './panel-cautions.ts';
import { flatShapes, WORD_MM } from './panel-flat.ts';
import { type FlatFrame, flatBounds, frameAt } from './panel-frame.ts';
import { framed, panelHead, type PanelWish } from './panel-head.ts';
import { LIST_MM, type PanelList, panelLists } from './panel-lists.ts';
import { table, tableHeight } from './panel-table.ts';
import { Stack } from './stack.ts';

const MARGIN_MM = 12;
/** Round the flat, for its corners' letters and the datum [mm]. */
const ROUND_MM = 14;

/** A list with its title and what it is measured from. */
export function listStack(list: PanelList, size: number): Stack {
  return new Stack(LIST_MM)
    .text(list.title, { size: size * 1.25, weight: 'bold' })
    .text(list.about, { size, role: 'soft' })
    .put(table(list.columns, list.rows, size), tableHeight(list.rows.length, size));
}

/** The flat at full size with its datum and, where there is bare sheet for it, the grain. */
export function flatWithMarks(pattern: FlatPattern, frame: FlatFrame, wish: PanelWish): Shape[] {
  const grain = pattern.grainDeg === undefined ? undefined : freePlace(pattern, grainRoom, grainRoom);
  return [
    ...flatShapes(pattern, frame, { hasWords: true, inches: wish.inches === true }),
    {
      kind: 'group',
      offset: [0, 0],
      layer: 'words',
      shapes: [
        ...datumMark(pattern, frame, WORD_MM),
        ...(grain === undefined ? [] : grainMark(pattern, frame.spot(grain), WORD_MM)),
      ],
    },
  ];
}

/** A panel's whole sheet at full size, for a plotter or a laser: the flat, beside it its lists, square and cautions. */
export function panelSheet(pattern: FlatPattern, wish: PanelWish = {}): Drawing {
  const inches = wish.inches === true;
  const bounds = flatBounds(pattern);
  const [wide, high] = [bounds.maxX - bounds.minX, bounds.maxY - bounds.minY];
  const side = new Stack(LIST_MM);
  side.put(checkSquare([0, 0], WORD_MM, inches), checkMm(inches)).space(6);
  for (const list of panelLists(pattern, inches)) {
    const made = listStack(list, WORD_MM);
    side.put(made.shapes, made.height).space(5);
  }
  const cautions = framed(panelCautions(pattern), LIST_MM, WORD_MM);
  side.put(cautions.shapes, cautions.height);
  const inner = Math.max(wide + 2 * ROUND_MM + 8 + LIST_MM, 190);
  const head = panelHead(pattern, wish, inner, ['full size, 1:1', inches ? 'inches' : 'millimetres']);
  const top = MARGIN_MM + head.height;
  const body = Math.max(high + 2 * ROUND_MM, side.height + 6);
  const frame = frameAt(bounds, [MARGIN_MM + ROUND_MM, top + ROUND_MM]);
  return {
    title: `${pattern.panel} ${pattern.name}`,
    description: `Flat pattern of ${pattern.panel}, full size: ${pattern.holes.length} holes, ${pattern.slots.length} slots, ${pattern.cutOuts.length} openings, ${pattern.folds.length} folds.`,
    unit: 'mm',
    width: inner + 2 * MARGIN_MM,
    height: top + body + MARGIN_MM,
    shapes: [
      { kind: 'group', offset: [MARGIN_MM, MARGIN_MM], layer: 'words', shapes: head.shapes },
      ...flatWithMarks(pattern, frame, wish),
      { kind: 'group', offset: [MARGIN_MM + inner - LIST_MM, top + 6], layer: 'words', shapes: side.shapes },
    ],
  };
}
