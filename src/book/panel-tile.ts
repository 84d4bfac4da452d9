import type { FlatPattern } from '#panels';
import { checkAngle, checkMm, checkSquare } from './check-square.ts';
import type { Drawing, Shape, Spot } from './drawing.ts';
import { flatDatum } from './flat-datum.ts';
import { flatLabel } from './flat-label.ts';
import { TOP_ROOM_MM, topMark } from './flat-marks.ts';
import { drawnPoints, holdsPoint } from './free-place.ts';
import { WORD_MM } from './panel-flat.ts';
import { type FlatFrame, frameAt, outlinePath } from './panel-frame.ts';
import type { PanelWish } from './panel-head.ts';
import { placeWords } from './panel-lengths.ts';
import { sheetWords } from './panel-lists.ts';
import { PAGE_MARGIN_MM } from './paper-sizes.ts';
import { cutText, row } from './text-block.ts';
import { OVERLAP_MM, STRIP_MM, type Tile, type Tiling } from './tiles.ts';

const JOIN = { role: 'blue', width: 0.2, dash: [4, 3] } as const;
const CROSS_MM = 5;

/** Where the flat's shapes lie that are shared by all tiles: the top left of what the tiles cover at 0, 0. */
export const tileFrame = (tiling: Tiling): FlatFrame => frameAt(tiling.covered, [0, 0]);

/** One page of a panel at full size: its piece of the flat, the joins to its neighbours, its name, its place, the check. */
export function panelTile(
  pattern: FlatPattern,
  tiling: Tiling,
  tile: Tile,
  wish: PanelWish & { readonly flat: readonly Shape[] },
): Drawing {
  const [width, height] = tiling.pageMm;
  const [stepX, stepY] = tiling.stepMm;
  const left = PAGE_MARGIN_MM - tile.column * stepX + OVERLAP_MM / 2;
  const top = PAGE_MARGIN_MM - tile.row * stepY + OVERLAP_MM / 2;
  const frame = frameAt(tiling.covered, [left, top]);
  const room = { at: [PAGE_MARGIN_MM, PAGE_MARGIN_MM], width: stepX + OVERLAP_MM, height: stepY + OVERLAP_MM } as const;
  const inches = wish.inches === true;
  const square = freeSquare(pattern, tiling, frame, room, checkMm(inches));
  return {
    title: `${pattern.panel}, tile ${tile.name}`,
    description: `Full-size piece ${tile.name} of ${pattern.panel}, to be joined along the blue broken lines.`,
    unit: 'mm',
    width,
    height,
    shapes: [
      {
        kind: 'group',
        offset: [0, 0],
        clip: room,
        shapes: [{ kind: 'group', offset: [left, top], shapes: wish.flat }],
      },
      ...joins(tiling, tile),
      ...(square === undefined ? [] : checkSquare(square, WORD_MM, inches)),
      ...strip(pattern, tiling, tile, wish, square === undefined),
    ],
  };
}

/** Broken lines along which neighbours are cut and laid together, with a cross where four of them meet. */
function joins(tiling: Tiling, { column, row: r }: Tile): Shape[] {
  const [stepX, stepY] = tiling.stepMm;
  const x = [PAGE_MARGIN_MM + OVERLAP_MM / 2, PAGE_MARGIN_MM + OVERLAP_MM / 2 + stepX] as const;
  const y = [PAGE_MARGIN_MM + OVERLAP_MM / 2, PAGE_MARGIN_MM + OVERLAP_MM / 2 + stepY] as const;
  const has = (c: number, rr: number): string | undefined =>
    tiling.tiles.find((tile) => tile.column === c && tile.row === rr)?.name;
  const beside = [
    { name: has(column - 1, r), from: [x[0], y[0]], to: [x[0], y[1]], turnDeg: 90 },
    { name: has(column + 1, r), from: [x[1], y[0]], to: [x[1], y[1]], turnDeg: 90 },
    { name: has(column, r - 1), from: [x[0], y[0]], to: [x[1], y[0]], turnDeg: 0 },
    { name: has(column, r + 1), from: [x[0], y[1]], to: [x[1], y[1]], turnDeg: 0 },
  ] as const;
  const lines = beside.flatMap(({ name, from, to, turnDeg }): Shape[] => {
    if (name === undefined) return [];
    const at: Spot = turnDeg === 0 ? [from[0] + 9, from[1] - 0.8] : [from[0] - 0.8, to[1] - 9];
    return [
      { kind: 'line', from, to, pen: JOIN },
      { ...row(at, `joins ${name}`, { size: WORD_MM, role: 'blue', halo: 'card' }), turnDeg },
    ];
  });
  const isMet = (dx: number, dy: number): boolean =>
    has(column + dx, r) !== undefined || has(column, r + dy) !== undefined || has(column + dx, r + dy) !== undefined;
  const crosses = [-1, 1].flatMap((dx) =>
    [-1, 1].flatMap((dy): Shape[] => {
      // The lower left one always: the tile's place is told by it.
      if (!isMet(dx, dy) && !(dx < 0 && dy > 0 && tiling.tiles.length > 1)) return [];
      const [cx, cy] = [x[dx < 0 ? 0 : 1], y[dy < 0 ? 0 : 1]];
      const pen = { role: 'blue', width: 0.3 } as const;
      return [
        { kind: 'line', from: [cx - CROSS_MM, cy], to: [cx + CROSS_MM, cy], pen },
        { kind: 'line', from: [cx, cy - CROSS_MM], to: [cx, cy + CROSS_MM], pen },
        { kind: 'circle', centre: [cx, cy], radius: CROSS_MM / 2, pen },
      ];
    }),
  );
  return [...lines, ...crosses];
}

/** Where on the page a check square stands clear of every line; undefined where there is no room. */
function freeSquare(
  pattern: FlatPattern,
  tiling: Tiling,
  frame: FlatFrame,
  room: { readonly at: Spot; readonly width: number; readonly height: number },
  side: number,
): Spot | undefined {
  const clear = 4;
  const edge = OVERLAP_MM + 3;
  const points = drawnPoints(pattern).map((point) => frame.spot(point));
  const datum = frame.spot(flatDatum(pattern));
  // Where the arrows at the datum and the letters of the corners lie.
  for (let k = 0; k <= 50; k += 5) points.push([datum[0] + k, datum[1] + 4], [datum[0] - 4, datum[1] - k * 0.6]);
  let inside: Spot | undefined;
  for (let y = room.at[1] + room.height - edge - side; y >= room.at[1] + edge; y -= 6)
    for (let x = room.at[0] + edge; x <= room.at[0] + room.width - edge - side; x += 6) {
      const isHit = points.some(
        (p) => p[0] > x - clear && p[0] < x + side + clear && p[1] > y - clear && p[1] < y + side + clear,
      );
      if (isHit) continue;
      // Bare paper beside the panel is better than bare sheet on it.
      const { minX, maxY } = tiling.covered;
      const [left, top] = frame.spot([minX, maxY]);
      if (!holdsPoint(pattern, [minX + x - left, maxY - (y - top)])) return [x, y];
      inside ??= [x, y];
    }
  return inside;
}

/** The foot of a tile: what it is, where it belongs and lies from the datum, which way TOP is, and the check where no square had room. */
function strip(pattern: FlatPattern, tiling: Tiling, tile: Tile, wish: PanelWish, hasAngle: boolean): Shape[] {
  const [width, height] = tiling.pageMm;
  const top = height - PAGE_MARGIN_MM - STRIP_MM + 3;
  const map = mapShapes(pattern, tiling, tile, [30, STRIP_MM - 4]);
  const inches = wish.inches === true;
  const beside = hasAngle ? checkMm(inches) + 8 : 0;
  const words = width - 2 * PAGE_MARGIN_MM - 34 - TOP_ROOM_MM - beside;
  const left = PAGE_MARGIN_MM + beside;
  const place = `tile ${tile.name} of ${tiling.columns} × ${tiling.rows}`;
  const rows = [
    { text: `${pattern.name} · ${sheetWords(pattern, inches)}`, size: 3.4 },
    {
      text: `full size, 1:1 · OUTSIDE FACE${tiling.tiles.length === 1 ? '' : ' · join at the blue lines'}`,
      size: WORD_MM,
    },
    { text: datumWords(pattern, tiling, tile, inches), size: WORD_MM },
  ];
  return [
    row([left, top + 6], cutText(`${flatLabel(pattern)} · ${place}`, words, 6, 'bold'), { size: 6, weight: 'bold' }),
    ...rows.map(
      ({ text, size }, i): Shape => row([left, top + 11 + i * 4.3], cutText(text, words, size), { size, role: 'soft' }),
    ),
    { kind: 'group', offset: [width - PAGE_MARGIN_MM - 30, top], shapes: map },
    ...topMark(pattern, [width - PAGE_MARGIN_MM - 30 - TOP_ROOM_MM / 2, top + 8], WORD_MM),
    ...(hasAngle ? checkAngle([PAGE_MARGIN_MM + 2, height - PAGE_MARGIN_MM - 5], WORD_MM, inches) : []),
  ];
}

/** Where a tile lies from the datum: its lower left cross, as x and y of the hole list. */
function datumWords(pattern: FlatPattern, tiling: Tiling, { column, row: r }: Tile, inches: boolean): string {
  const [stepX, stepY] = tiling.stepMm;
  const [x, y] = [tiling.covered.minX + column * stepX, tiling.covered.maxY - (r + 1) * stepY];
  const datum = flatDatum(pattern);
  if (datum[0] >= x && datum[0] <= x + stepX && datum[1] >= y && datum[1] <= y + stepY)
    return 'datum: the blue dot on this tile';
  const [alongMm, upMm] = [x - datum[0], y - datum[1]];
  return `its lower left cross: x ${placeWords(alongMm, inches)}, y ${placeWords(upMm, inches)} ${inches ? 'in' : 'mm'} from the datum`;
}

/** The panel in small with its tiles; the one named is filled. */
function mapShapes(pattern: FlatPattern, tiling: Tiling, own: Tile, [width, height]: Spot): Shape[] {
  const [stepX, stepY] = tiling.stepMm;
  const scale = Math.min(width / (tiling.columns * stepX), height / (tiling.rows * stepY));
  const left = width - tiling.columns * stepX * scale;
  const frame = frameAt(tiling.covered, [left, 0], scale);
  const cells = tiling.tiles.map(
    (tile): Shape => ({
      kind: 'rect',
      at: [left + tile.column * stepX * scale, tile.row * stepY * scale],
      width: stepX * scale,
      height: stepY * scale,
      pen: { role: 'soft', width: 0.15 },
      ...(tile === own ? { fill: 'tape' } : {}),
    }),
  );
  return [...cells, { ...outlinePath(pattern.outline, frame), pen: { role: 'ink', width: 0.25 } }];
}
