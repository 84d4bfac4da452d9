import type { Point2 } from '#geometry';
import { type FlatPattern, movedPattern, type PanelNest, type PanelSheetCut, EDGE_MM, SPACING_MM } from '#panels';
import { formatNumber } from '#units';
import { checkMm, checkSquare } from './check-square.ts';
import type { Drawing, Shape, Spot } from './drawing.ts';
import { flatShapes, WORD_MM } from './panel-flat.ts';
import { flatDatum } from './flat-datum.ts';
import { flatLabel } from './flat-label.ts';
import { topOnMap, topWords } from './flat-marks.ts';
import { type FlatFrame, flatBounds, frameAt } from './panel-frame.ts';
import { framed, type PanelWish } from './panel-head.ts';
import { areaWords, lengthWords, placeWords } from './panel-lengths.ts';
import { table, tableHeight } from './panel-table.ts';
import { PAGE_MARGIN_MM, PAPER_MM, type PagePaper } from './paper-sizes.ts';
import { Stack } from './stack.ts';
import { row } from './text-block.ts';

export interface NestPagesWish extends PanelWish {
  readonly paper: PagePaper;
}

const SCALES = [1, 2, 2.5, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100] as const;
const CAUTION =
  'Clamp the sheet, gloves on, eyes protected. Mark the outside face and the grain before the first cut: a panel turned over is scrap. Leave the blade’s width between the panels; deburr before the next one is handled.';

/** Sheets with the panels on them, one page each: where each lies, how it is turned, what is lost and what is kept. */
export function nestPages(nest: PanelNest, wish: NestPagesWish): Drawing[] {
  return nest.sheets.map((sheet, i) => sheetPage(nest, sheet, i, wish));
}

function sheetPage(nest: PanelNest, sheet: PanelSheetCut, index: number, wish: NestPagesWish): Drawing {
  const [height, width] = PAPER_MM[wish.paper];
  const inches = wish.inches === true;
  const inner = width - 2 * PAGE_MARGIN_MM;
  const listWide = 98;
  const stack = head(nest, sheet, index, wish, inner);
  const cautions = framed([CAUTION], inner, 3.4);
  const room: Spot = [inner - listWide - 8, height - 2 * PAGE_MARGIN_MM - stack.height - cautions.height - 22];
  const over = Math.max(sheet.sizeMm[0] / room[0], sheet.sizeMm[1] / room[1]);
  const scale = 1 / (SCALES.find((n) => n >= over) ?? Math.ceil(over));
  const high = sheet.sizeMm[1] * scale;
  const list = placeList(sheet, listWide, inches);
  stack.space(5).put(
    [
      ...sheetShapes(sheet, [0, 0], scale, inches),
      row(
        [0, high + 9],
        `1:${formatNumber(1 / scale, Number.isInteger(1 / scale) ? 0 : 1)} · the grain runs along the sheet`,
        {
          size: WORD_MM,
          role: 'soft',
        },
      ),
      { kind: 'group', offset: [inner - listWide, 0], shapes: list.shapes },
    ],
    Math.max(high + 12, list.height),
  );
  const isTall = stack.height + cautions.height + 6 > height - 2 * PAGE_MARGIN_MM;
  const page = isTall ? stack.height + cautions.height + 6 + 2 * PAGE_MARGIN_MM : height;
  return {
    title: `Sheet ${index + 1}: ${sheet.material}`,
    description: `${sheet.patterns.map((pattern) => pattern.panel).join(', ')} on ${sheet.sizeMm[0]} by ${sheet.sizeMm[1]} mm.`,
    unit: 'mm',
    width,
    height: page,
    shapes: [
      { kind: 'group', offset: [PAGE_MARGIN_MM, PAGE_MARGIN_MM], shapes: stack.shapes },
      { kind: 'group', offset: [PAGE_MARGIN_MM, page - PAGE_MARGIN_MM - cautions.height], shapes: cautions.shapes },
    ],
  };
}

/** Where each panel lies on its sheet, and how it is turned. */
function placeList(sheet: PanelSheetCut, listWide: number, inches: boolean): Stack {
  const unit = inches ? 'in' : 'mm';
  const list = new Stack(listWide)
    .text('Where each lies', { size: 4, weight: 'bold' })
    .text(
      `lower left of the room each takes, from the sheet's lower left corner (${unit}); turned to the left from how its own sheet shows it, so that its TOP is that way. A blue dot is a panel's own datum.`,
      { size: WORD_MM, role: 'soft' },
    );
  const rows = sheet.patterns.map((pattern, k) => {
    const box = flatBounds(pattern);
    return [
      flatLabel(pattern),
      placeWords(box.minX, inches),
      placeWords(box.minY, inches),
      `${formatNumber(sheet.parts[k]!.turnDeg, Number.isInteger(sheet.parts[k]!.turnDeg) ? 0 : 1)}°`,
      topWords(pattern),
      areaWords(box.maxX - box.minX, box.maxY - box.minY, inches).replace(/ (mm|in)$/u, ''),
    ];
  });
  list.put(
    table(
      [
        { head: 'panel', width: 22 },
        { head: `x ${unit}`, width: 15, anchor: 'end' },
        { head: `y ${unit}`, width: 15, anchor: 'end' },
        { head: 'turned', width: 13, anchor: 'end' },
        { head: 'TOP', width: 11, anchor: 'end' },
        { head: `room ${unit}`, width: listWide - 76, anchor: 'end' },
      ],
      rows,
      WORD_MM,
    ),
    tableHeight(rows.length, WORD_MM),
  );
  return list;
}

const percent = (share: number): string => `${formatNumber(100 * share, 1)} %`;

/** What is lost and what is kept of a sheet, in words. */
export function lossWords(sheet: PanelSheetCut, inches: boolean): string {
  const rest =
    sheet.restMm === undefined
      ? 'no rest worth keeping'
      : `a rest of ${areaWords(sheet.restMm[0], sheet.restMm[1], inches)} is kept`;
  return `${percent(sheet.wasteShare)} is lost, ${rest}`;
}

function head(nest: PanelNest, sheet: PanelSheetCut, index: number, wish: NestPagesWish, width: number): Stack {
  const inches = wish.inches === true;
  const stack = new Stack(width);
  const side = [...(wish.car === undefined ? [] : [wish.car]), `sheet ${index + 1} of ${nest.sheets.length}`];
  stack.put(
    [
      row([0, 8], `Sheet ${index + 1}`, { size: 9, weight: 'bold' }),
      row(
        [46, 4.4],
        `${sheet.material}, ${lengthWords(sheet.thicknessMm, inches)} · ${areaWords(...sheet.sizeMm, inches)}`,
        {
          size: 4.6,
          weight: 'bold',
        },
      ),
      row(
        [46, 10],
        `${sheet.parts.length} ${sheet.parts.length === 1 ? 'panel' : 'panels'} · ${lossWords(sheet, inches)} · seen on the OUTSIDE FACE`,
        { size: 3.6 },
      ),
      ...side.map((text, i) => row([width, 4.4 + i * 4.6], text, { size: 3.4, role: 'soft', anchor: 'end' })),
      { kind: 'line', from: [0, 13], to: [width, 13], pen: { role: 'ink', width: 0.9 } },
    ],
    14,
  );
  if (nest.left.length > 0)
    stack.text(`No sheet had room for ${nest.left.join(', ')}.`, { size: 4, weight: 'bold', role: 'stop' });
  return stack;
}

/** A sheet with what lies on it, its lower left corner below `at`; words keep their size whatever the scale. */
function sheetShapes(sheet: PanelSheetCut, at: Spot, scale: number, inches: boolean): Shape[] {
  const [long, wide] = sheet.sizeMm;
  const frame = frameAt({ minX: 0, minY: 0, maxX: long, maxY: wide }, at, scale);
  const rest = sheet.restMm;
  const arrowAt = frame.spot([0, 0]);
  return [
    ...(rest === undefined
      ? []
      : [
          {
            kind: 'rect',
            at: frame.spot([long - rest[0], wide]),
            width: rest[0] * scale,
            height: rest[1] * scale,
            fill: 'tape',
          } as const,
        ]),
    {
      kind: 'group',
      offset: [0, 0],
      layer: 'sheet',
      shapes: [
        {
          kind: 'rect',
          at: frame.spot([0, wide]),
          width: long * scale,
          height: wide * scale,
          pen: { role: 'ink', width: 0.5 },
        },
      ],
    },
    ...sheet.patterns.flatMap((pattern, k) => namedFlat(pattern, frame, inches, datumOn(pattern, sheet.parts[k]!))),
    ...(rest === undefined
      ? []
      : [
          row(frame.spot([long - rest[0] / 2, wide / 2]), 'rest', {
            size: 4,
            role: 'soft',
            anchor: 'middle',
            halo: 'tape',
          }),
        ]),
    { kind: 'circle', centre: arrowAt, radius: 1, fill: 'blue' },
    row([arrowAt[0] + 2, arrowAt[1] + 4], 'x, y from here', { size: WORD_MM, role: 'blue' }),
  ];
}

/** Where a panel's own datum lies on the sheet: found on the flat as its own sheet shows it, and taken along. */
function datumOn(pattern: FlatPattern, { turnDeg, by }: PanelSheetCut['parts'][number]): Point2 {
  const own = movedPattern(movedPattern(pattern, 0, [-by[0], -by[1]]), -turnDeg, [0, 0]);
  const [x, y] = flatDatum(own);
  const turn = (turnDeg * Math.PI) / 180;
  return [x * Math.cos(turn) - y * Math.sin(turn) + by[0], x * Math.sin(turn) + y * Math.cos(turn) + by[1]];
}

/** Both sides of a panel on paper at which its name and TOP have room beside each other [mm]. */
const NAMED_ROOM_MM = 14;

/** A panel on its sheet with its id in its middle and its datum; TOP too where there is room for it. */
function namedFlat(pattern: FlatPattern, frame: FlatFrame, inches: boolean, datum: Point2): Shape[] {
  const box = flatBounds(pattern);
  const middle = frame.spot([(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]);
  const hasWords = frame.scale === 1;
  const least = Math.min(box.maxX - box.minX, box.maxY - box.minY) * frame.scale;
  return [
    ...flatShapes(pattern, frame, { hasWords, inches }),
    {
      kind: 'group',
      offset: [0, 0],
      layer: 'words',
      shapes: [
        { kind: 'circle', centre: frame.spot(datum), radius: 0.8, fill: 'blue' },
        ...(hasWords || least < 2 * NAMED_ROOM_MM ? [] : topOnMap(pattern, frame, WORD_MM)),
        row([middle[0], middle[1] + 1.4], flatLabel(pattern), {
          size: 4,
          weight: 'bold',
          anchor: 'middle',
          halo: 'card',
        }),
      ],
    },
  ];
}

const BETWEEN_MM = 60;

/** Every sheet at full size, one below the other, for a plotter or a laser. */
export function nestSheets(nest: PanelNest, wish: PanelWish = {}): Drawing {
  const inches = wish.inches === true;
  const left = 20;
  let top = 20 + checkMm(inches) + 10;
  const shapes: Shape[] = [
    { kind: 'group', offset: [0, 0], layer: 'words', shapes: checkSquare([left, 20], WORD_MM, inches) },
  ];
  for (const [i, sheet] of nest.sheets.entries()) {
    const title = `Sheet ${i + 1} · ${sheet.material}, ${lengthWords(sheet.thicknessMm, inches)} · ${areaWords(...sheet.sizeMm, inches)} · ${lossWords(sheet, inches)}`;
    shapes.push({
      kind: 'group',
      offset: [0, 0],
      layer: 'words',
      shapes: [row([left, top - 4], title, { size: 8, weight: 'bold' })],
    });
    shapes.push(...sheetShapes(sheet, [left, top], 1, inches));
    top += sheet.sizeMm[1] + BETWEEN_MM;
  }
  return {
    title: 'Panels on sheets',
    description: `${nest.sheets.length} sheets at full size, ${SPACING_MM} mm between panels and ${EDGE_MM} mm to the edges unless told otherwise.`,
    unit: 'mm',
    width: 2 * left + Math.max(260, ...nest.sheets.map((sheet) => sheet.sizeMm[0])),
    height: top,
    shapes,
  };
}
