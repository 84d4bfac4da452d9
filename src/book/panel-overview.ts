import type { FlatPattern } from '#panels';
import type { Drawing, Pen, Shape, Spot } from './drawing.ts';
import { datumMark, grainMark, grainRoom, topOnMap } from './flat-marks.ts';
import { freePlace } from './free-place.ts';
import { cornerShapes, flatShapes, WORD_MM } from './panel-flat.ts';
import { frameAt } from './panel-frame.ts';
import { row } from './text-block.ts';
import type { Tiling } from './tiles.ts';

const SCALES = [1, 2, 2.5, 4, 5, 8, 10, 15, 20, 25, 50, 100] as const;
const TILE: Pen = { role: 'blue', width: 0.2, dash: [3, 2] };

/** The whole panel in small: how its tiles lie, its corners, datum, grain and folds. */
export function panelOverview(pattern: FlatPattern, tiling: Tiling, width: number, height: number): Drawing {
  const { covered } = tiling;
  const [stepX, stepY] = tiling.stepMm;
  const room: Spot = [width - 20, height - 20];
  const over = Math.max((covered.maxX - covered.minX) / room[0], (covered.maxY - covered.minY) / room[1]);
  const scale = 1 / (SCALES.find((n) => n >= over) ?? Math.ceil(over));
  const [wide, high] = [(covered.maxX - covered.minX) * scale, (covered.maxY - covered.minY) * scale];
  const at: Spot = [(width - wide) / 2, 8];
  const frame = frameAt(covered, at, scale);
  const tiles = tiling.tiles.flatMap((tile): Shape[] => {
    const corner: Spot = [at[0] + tile.column * stepX * scale, at[1] + tile.row * stepY * scale];
    return [
      { kind: 'rect', at: corner, width: stepX * scale, height: stepY * scale, pen: TILE },
      row([corner[0] + stepX * scale - 1.2, corner[1] + 4.2], tile.name, {
        size: 4,
        role: 'blue',
        anchor: 'end',
        weight: 'bold',
      }),
    ];
  });
  const grain = pattern.grainDeg === undefined ? undefined : freePlace(pattern, grainRoom / scale, grainRoom / scale);
  return {
    title: `${pattern.panel} with its tiles`,
    description: `${tiling.tiles.length} pages make the panel.`,
    unit: 'mm',
    width,
    height: high + 18,
    shapes: [
      ...tiles,
      ...flatShapes(pattern, frame, { hasWords: false }),
      ...cornerShapes(pattern, frame),
      ...datumMark(pattern, frame, WORD_MM),
      ...topOnMap(pattern, frame, WORD_MM),
      ...(grain === undefined ? [] : grainMark(pattern, frame.spot(grain), WORD_MM)),
      row([width / 2, high + 15.5], `map at 1:${1 / scale} · a broken rectangle is a page at full size`, {
        size: WORD_MM,
        role: 'soft',
        anchor: 'middle',
      }),
    ],
  };
}
