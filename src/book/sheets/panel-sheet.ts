import type { FlatPattern } from '#panels';
import { formatNumber } from '#units';
import type { Shape, Spot } from '../drawing.ts';
import { datumMark, grainMark, grainRoom } from '../flat-marks.ts';
import { freePlace } from '../free-place.ts';
import { type LabelBox, labelBox } from '../label-boxes.ts';
import { areaWords } from '../panel-lengths.ts';
import { panelCautions } from '../panel-cautions.ts';
import { cornerShapes, flatShapes } from '../panel-flat.ts';
import { flatBounds, type FlatFrame, frameAt } from '../panel-frame.ts';
import { framed } from '../panel-head.ts';
import { type PanelList, panelLists, sheetWords } from '../panel-lists.ts';
import { panelPages } from '../panel-pages.ts';
import { row } from '../text-block.ts';
import { besideBlocks } from './beside-blocks.ts';
import { type Block, headingBlocks, stackBlock, textBlocks, together } from './block.ts';
import type { BookInput, BookWish } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { gridBlocks } from './grid.ts';
import { levelBlocks } from './level-blocks.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** A sheet for each panel: its flat to scale, every hole and fold in lists; at full size too, where that is wished. */
export function panelSheets(input: BookInput, frame: SheetFrame, wish: BookWish): BookSheet[] {
  return input.panels.map(({ panel, flats, findings }): BookSheet => {
    const open = findings
      .filter(({ level }) => level !== 'note')
      .flatMap(({ level, text }) => levelBlocks(level, text, frame));
    const [first] = flats;
    const about =
      first === undefined ? [] : [`${sheetWords(first, frame.inches)}; seen on the OUTSIDE FACE; TOP as on the car`];
    const head = { code: panel.id, title: panel.name ?? panel.id, about, car: input.car.name ?? 'Car' };
    const cautions =
      first === undefined ? undefined : stackBlock(framed(panelCautions(first), frame.inner, frame.small));
    const tries = MOST_HIGH.map((share) =>
      filledPages(frame, head, [...open, ...patternBlocks(flats, frame, share)], cautions),
    );
    const least = Math.min(...tries.map(({ length }) => length));
    const pages = tries.find(({ length }) => length === least)!;
    const tiles = wish.fullSize === true ? flats.flatMap((flat) => tilesOf(flat, input, wish)) : [];
    return {
      code: panel.id,
      title: `Panel: ${panel.name ?? panel.id}`,
      group: 'cut',
      pages: [...pages, ...tiles],
      lines: throughs(input, panel.id),
      rows: listedRows(flats.flatMap((flat) => panelLists(flat, frame.inches))),
    };
  });
}

/** Each list under its own heads, which have the units; all rows as wide as the widest. */
function listedRows(lists: readonly PanelList[]): string[][] {
  const rows = lists
    .filter((list) => list.rows.length > 0)
    .flatMap((list) => [
      ['list', ...list.columns.map(({ head }) => head)],
      ...list.rows.map((cells) => [list.title, ...cells]),
    ]);
  const widest = Math.max(1, ...rows.map(({ length }) => length));
  return rows.map((cells) => [...cells, ...Array.from({ length: widest - cells.length }, () => '')]);
}

const throughs = ({ car }: BookInput, panel: string): string[] =>
  car.lines.filter((line) => line.through.some(({ part }) => part === panel)).map((line) => line.id);

const tilesOf = (flat: FlatPattern, { car }: BookInput, { paper, inches }: BookWish) =>
  panelPages(flat, {
    paper,
    ...(inches === undefined ? {} : { inches }),
    ...(car.name === undefined ? {} : { car: car.name }),
  });

const SCALES = [1, 2, 2.5, 4, 5, 8, 10, 15, 20, 25, 50, 100] as const;
/** Round the flat, for its corners' letters and the datum [mm]. */
const ROUND_MM = 9;
/** Shares of the sheet's height that the picture takes at most: the first whose lists take the fewest pages. */
const MOST_HIGH = [0.37, 0.28] as const;

function patternBlocks(flats: readonly FlatPattern[], frame: SheetFrame, mostHigh: number): Block[] {
  if (flats.length === 0)
    return textBlocks('Cannot be laid flat yet.', frame.inner, {
      size: frame.size * 1.2,
      weight: 'bold',
      role: 'stop',
    });
  return flats.flatMap((flat, i) => [
    ...(flats.length > 1 ? headingBlocks(`Piece ${i + 1} of ${flats.length}`, frame.inner, frame.size) : []),
    ...flatBlocks(flat, frame, mostHigh),
  ]);
}

function flatBlocks(pattern: FlatPattern, frame: SheetFrame, mostHigh: number): Block[] {
  // Short lists before the long one of the holes.
  const lists = panelLists(pattern, frame.inches).toSorted((a, b) => a.rows.length - b.rows.length);
  return [
    picture(pattern, frame, mostHigh),
    ...pairedLists(
      lists.filter(({ rows }) => rows.length > 0),
      frame,
    ),
  ];
}

/** A list no higher than this stands beside another [mm]. */
const SHORT_LIST_MM = 60;

/** Short lists two by two beside each other, the others one below the other. */
function pairedLists(lists: readonly PanelList[], frame: SheetFrame): Block[] {
  const gap = frame.size * 2;
  const half = { ...frame, inner: (frame.inner - gap) / 2 };
  const [list, next] = lists;
  if (list === undefined) return [];
  const isShort = (one: PanelList | undefined): one is PanelList => one !== undefined && one.rows.length < TWO_COLUMNS;
  if (isShort(list) && isShort(next)) {
    const pair = [list, next].map((one) => together(listBlocks(one, half, half.inner)));
    if (pair.every(({ height }) => height <= SHORT_LIST_MM))
      return [...besideBlocks([pair[0]!], [pair[1]!], half.inner + gap), ...pairedLists(lists.slice(2), frame)];
  }
  return [...listBlocks(list, frame, half.inner), ...pairedLists(lists.slice(1), frame)];
}

/** The flat at a scale that fits, with corners, datum, grain, and the numbers of its holes where they have room. */
function picture(pattern: FlatPattern, frame: SheetFrame, mostHigh: number): Block {
  const bounds = flatBounds(pattern);
  const [wide, high] = [bounds.maxX - bounds.minX, bounds.maxY - bounds.minY];
  const most = frame.height * mostHigh;
  const over = Math.max(wide / (frame.inner - 2 * ROUND_MM), high / (most - 2 * ROUND_MM));
  const reduced = SCALES.find((n) => n >= over) ?? Math.ceil(over);
  const left = (frame.inner - wide / reduced) / 2;
  const drawn = frameAt(bounds, [left, ROUND_MM], 1 / reduced);
  const grain =
    pattern.grainDeg === undefined ? undefined : freePlace(pattern, grainRoom * reduced, grainRoom * reduced);
  const words: Shape[] = [
    ...cornerShapes(pattern, drawn),
    ...datumMark(pattern, drawn, frame.small),
    ...(grain === undefined ? [] : grainMark(pattern, drawn.spot(grain), frame.small)),
  ];
  const height = high / reduced + 2 * ROUND_MM;
  return {
    shapes: [
      ...flatShapes(pattern, drawn, { hasWords: false }),
      ...words,
      ...holeNumbers(pattern, drawn, words, frame.small),
      row(
        [frame.inner / 2, height + frame.size],
        `1 : ${formatNumber(reduced, Number.isInteger(reduced) ? 0 : 1)} · ${areaWords(wide, high, frame.inches)} flat · mark out from the lists, or print it at full size (--full-size)`,
        { size: frame.small, role: 'soft', anchor: 'middle' },
      ),
    ],
    height: height + frame.size * 1.4,
    space: frame.size * 0.5,
  };
}

/** Numbers beside the holes; one that would lie on another word is left to the list. */
function holeNumbers(pattern: FlatPattern, drawn: FlatFrame, words: readonly Shape[], size: number): Shape[] {
  const taken: LabelBox[] = words.flatMap((shape) => (shape.kind === 'text' ? [labelBox(shape)] : []));
  const rims = [
    ...pattern.holes.map((hole) => ({ at: hole.at, rim: hole.diameterMm / 2 })),
    ...pattern.slots.map((slot) => ({ at: slot.at, rim: slot.wideMm / 2 })),
  ];
  return rims.flatMap(({ at, rim }, i): Shape[] => {
    const [x, y] = drawn.spot(at);
    const off = rim * drawn.scale * Math.SQRT1_2 + 0.6;
    const places: readonly { readonly at: Spot; readonly anchor: 'start' | 'end' }[] = [
      { at: [x + off, y - off], anchor: 'start' },
      { at: [x - off, y - off], anchor: 'end' },
      { at: [x + off, y + off + size * 0.66], anchor: 'start' },
      { at: [x - off, y + off + size * 0.66], anchor: 'end' },
    ];
    for (const place of places) {
      const label = row(place.at, String(i + 1), { size, anchor: place.anchor, halo: 'card' });
      const own = labelBox(label);
      if (taken.some((other) => doLap(own, other))) continue;
      taken.push(own);
      return [label];
    }
    return [];
  });
}

const doLap = (a: LabelBox, b: LabelBox): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** From so many rows on a list stands in two columns. */
const TWO_COLUMNS = 8;

/** A list under its heading; its table is `half` wide, or twice that where it is long. */
function listBlocks(list: PanelList, frame: SheetFrame, half: number): Block[] {
  const gap = frame.size * 2;
  const columns = list.columns.map((column) => ({
    head: column.head.replace(/\.$/u, ''),
    share: column.width,
    ...(column.anchor === undefined ? {} : { anchor: column.anchor }),
  }));
  const [first] = columns;
  const own = first === undefined ? columns : [{ ...first, weight: 'bold' as const }, ...columns.slice(1)];
  const tables = (list.rows.length >= TWO_COLUMNS ? besideEachOther(list.rows) : [list.rows, []]).map((rows) =>
    rows.length === 0 ? [] : gridBlocks(own, rows, half, frame.small, frame.size * 0.4, 0.05),
  );
  return [
    ...headingBlocks(list.title, frame.inner, frame.size),
    ...textBlocks(list.about, frame.inner, { size: frame.small, role: 'soft' }, { isHead: true }),
    ...besideBlocks(tables[0]!, tables[1]!, half + gap),
  ];
}

/** One beside the next, so that numbers go on where a page ends; a row without a number stays below the one that it belongs to. */
function besideEachOther(rows: PanelList['rows']): [left: string[][], right: string[][]] {
  const groups: string[][][] = [];
  for (const cells of rows) {
    const last = groups.at(-1);
    if (last !== undefined && cells[0] === '') last.push([...cells]);
    else groups.push([[...cells]]);
  }
  const columns: [string[][], string[][]] = [[], []];
  const blank = (rows[0] ?? []).map(() => '');
  for (let i = 0; i < groups.length; i += 2) {
    const pair = [groups[i]!, groups[i + 1] ?? []];
    const high = Math.max(pair[0]!.length, pair[1]!.length);
    pair.forEach((group, side) => {
      const filled = groups[i + side] === undefined ? [] : Array.from({ length: high }, (_, k) => group[k] ?? blank);
      columns[side as 0 | 1].push(...filled);
    });
  }
  return columns;
}
