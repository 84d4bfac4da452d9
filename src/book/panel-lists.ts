import { outlinePoints } from '#geometry';
import { type FlatPattern, slotCentres } from '#panels';
import { formatNumber } from '#units';
import { flatDatum } from './flat-datum.ts';
import { lengthWords, placeWords, sizeWords } from './panel-lengths.ts';
import type { TableColumn } from './panel-table.ts';

export interface PanelList {
  readonly title: string;
  /** What the numbers are measured from, or how to use them. */
  readonly about: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly string[])[];
}

/** Width of one column of lists, so that two stand side by side on A4 and on Letter [mm]. */
export const LIST_MM = 91;

/** A slot is sawn and filed: tenths do. */
const drilled = (mm: number, inches: boolean): string => sizeWords(Number(mm.toFixed(1)), inches);

/** Every hole and slot by the number at it on the drawing, for scriber and centre punch. */
export function holeList(pattern: FlatPattern, inches: boolean): PanelList {
  const unit = inches ? 'in' : 'mm';
  const place = (mm: number): string => placeWords(mm, inches);
  const [x0, y0] = flatDatum(pattern);
  const holes = pattern.holes.map((hole) => [
    place(hole.at[0] - x0),
    place(hole.at[1] - y0),
    sizeWords(hole.diameterMm, inches),
    hole.for,
  ]);
  const slots = pattern.slots.map((slot) => {
    const [from, to] = slotCentres(slot).map(([x, y]) => [place(x - x0), place(y - y0)]);
    return to === undefined
      ? [[...from!, `${drilled(slot.wideMm, inches)}×${drilled(slot.longMm, inches)}`, `${slot.for}, slotted`]]
      : [
          [...from!, drilled(slot.wideMm, inches), `${slot.for}, one end`],
          [...to, drilled(slot.wideMm, inches), 'other end: saw between'],
        ];
  });
  return {
    title: 'Holes',
    about: `x and y (${unit}) from the blue dot, along the edge that it lies on and square to it. Scribe both, punch the crossing.`,
    columns: [
      { head: 'no.', width: 7 },
      { head: `x ${unit}`, width: 14, anchor: 'end' },
      { head: `y ${unit}`, width: 14, anchor: 'end' },
      // A slot's two sizes stand in it: in inches they are longer.
      { head: `Ø ${unit}`, width: inches ? 24 : 18, anchor: 'end' },
      { head: 'for', width: LIST_MM - 35 - (inches ? 24 : 18), indent: 2 },
    ],
    rows: [...holes.map((cells) => [cells]), ...slots].flatMap((rows, i) =>
      rows.map((cells, k) => [k === 0 ? String(i + 1) : '', ...cells]),
    ),
  };
}

/** Every fold: how far, how tight, which way, and the flat length that goes into it. */
export function foldList(pattern: FlatPattern, inches: boolean): PanelList {
  return {
    title: 'Folds',
    about: 'up is towards you, looking at the outside face. Half the allowance lies to either side of the line.',
    columns: [
      { head: 'fold', width: 27 },
      { head: 'way', width: 13 },
      { head: 'angle', width: 13, anchor: 'end' },
      { head: inches ? 'radius in' : 'radius mm', width: 18, anchor: 'end' },
      { head: inches ? 'allow. in' : 'allow. mm', width: LIST_MM - 71, anchor: 'end' },
    ],
    rows: pattern.folds.map((fold) => [
      fold.name,
      fold.way,
      `${formatNumber(fold.turnDeg, Number.isInteger(fold.turnDeg) ? 0 : 1)}°`,
      sizeWords(fold.radiusMm, inches),
      sizeWords(fold.allowanceMm, inches),
    ]),
  };
}

/** Every opening with the room it takes. */
export function openingList(pattern: FlatPattern, inches: boolean): PanelList {
  const unit = inches ? 'in' : 'mm';
  return {
    title: 'Openings',
    about: 'drill their corners first (see the holes), then saw from hole to hole, and deburr.',
    columns: [
      { head: 'opening', width: 22 },
      { head: `x from to ${unit}`, width: 34, anchor: 'end' },
      { head: `y from to ${unit}`, width: LIST_MM - 56, anchor: 'end' },
    ],
    rows: pattern.cutOuts.map(({ name, outline }) => {
      const [x0, y0] = flatDatum(pattern);
      const points = outlinePoints(outline, 0.01);
      const xs = points.map((point) => point[0] - x0);
      const ys = points.map((point) => point[1] - y0);
      const range = (values: readonly number[]): string =>
        `${placeWords(Math.min(...values), inches)} to ${placeWords(Math.max(...values), inches)}`;
      return [name, range(xs), range(ys)];
    }),
  };
}

/** Mesh behind the windows: what to cut, its frame and what holds it. */
export function meshList(pattern: FlatPattern, inches: boolean): PanelList {
  const unit = inches ? 'in' : 'mm';
  return {
    title: 'Mesh',
    about:
      'cut it, lay the strip round it, drill through strip, mesh and sheet in the middle of the strip. Glue alone lets go.',
    columns: [
      { head: 'behind', width: 18 },
      { head: `cut ${unit}`, width: 26, anchor: 'end' },
      { head: `strip ${unit}`, width: 25, anchor: 'end' },
      { head: 'held by', width: LIST_MM - 69, indent: 2 },
    ],
    rows: pattern.meshes.map(({ window, cutMm, frameMm, frameLongMm, fixings }) => [
      window,
      cutMm.map((mm) => placeWords(mm, inches)).join(' × '),
      `${placeWords(frameMm, inches)} × ${placeWords(frameLongMm, inches)}`,
      `${fixings.count} ${fixings.kind} ${fixings.size}`.trim(),
    ]),
  };
}

/** What closes holes and edges round what goes through. */
export function sealList(pattern: FlatPattern, inches: boolean): PanelList {
  return {
    title: 'Seals',
    about: 'what closes each hole round what goes through it, and each sealed edge.',
    columns: [
      { head: 'at', width: 16 },
      { head: 'seal', width: LIST_MM - 16, indent: 2 },
    ],
    rows: pattern.seals.map(({ at, words, longMm }) => [
      at,
      longMm === undefined ? words : `${words}: ${placeWords(longMm, inches)} ${inches ? 'in' : 'mm'}`,
    ]),
  };
}

export const panelLists = (pattern: FlatPattern, inches: boolean): PanelList[] =>
  [
    holeList(pattern, inches),
    foldList(pattern, inches),
    openingList(pattern, inches),
    meshList(pattern, inches),
    sealList(pattern, inches),
  ].filter((list) => list.rows.length > 0);

/** "5052-H32, 1.2 mm". */
export const sheetWords = (pattern: Pick<FlatPattern, 'sheet' | 'thicknessMm'>, inches: boolean): string =>
  `${pattern.sheet}, ${lengthWords(pattern.thicknessMm, inches)}`;
