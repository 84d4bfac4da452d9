import type { FlatPattern } from '#panels';
import type { Shape, Spot } from './drawing.ts';
import { flatDatum } from './flat-datum.ts';
import type { FlatFrame } from './panel-frame.ts';
import { row } from './text-block.ts';

const PEN = { role: 'blue', width: 0.25 } as const;

function arrow([x, y]: Spot, [dx, dy]: Spot, length: number): Shape[] {
  const tip: Spot = [x + dx * length, y + dy * length];
  const head = (side: number): Spot => [tip[0] - dx * 3 + -dy * side * 1.1, tip[1] - dy * 3 + dx * side * 1.1];
  return [
    { kind: 'line', from: [x, y], to: [tip[0] - dx * 2, tip[1] - dy * 2], pen: PEN },
    { kind: 'polyline', points: [tip, head(1), head(-1)], isClosed: true, fill: 'blue' },
  ];
}

/** Where x and y are measured from, the edge along which x runs and square to it. */
export function datumMark(pattern: FlatPattern, frame: FlatFrame, size: number): Shape[] {
  const [x, y] = frame.spot(flatDatum(pattern));
  const off = 3;
  return [
    { kind: 'circle', centre: [x, y], radius: 1.2, fill: 'blue' },
    ...arrow([x, y + off], [1, 0], 24),
    row([x + 25, y + off + size * 0.33], 'x', { size, role: 'blue', halo: 'card' }),
    ...arrow([x - off, y], [0, -1], 24),
    row([x - off, y - 26], 'y', { size, role: 'blue', anchor: 'middle', halo: 'card' }),
  ];
}

const GRAIN_MM = 30;

/** The way of the grain, its middle at `at`. */
export function grainMark(pattern: FlatPattern, [x, y]: Spot, size: number): Shape[] {
  if (pattern.grainDeg === undefined) return [];
  const angle = (pattern.grainDeg * Math.PI) / 180;
  const way: Spot = [Math.cos(angle), -Math.sin(angle)];
  const turn = ((((pattern.grainDeg % 180) + 270) % 180) - 90) as number;
  const radians = (turn * Math.PI) / 180;
  return [
    ...arrow([x, y], way, GRAIN_MM / 2),
    ...arrow([x, y], [-way[0], -way[1]], GRAIN_MM / 2),
    {
      ...row([x - 1.4 * Math.sin(radians), y - 1.4 * Math.cos(radians)], 'grain', {
        size,
        role: 'blue',
        anchor: 'middle',
        halo: 'card',
      }),
      turnDeg: turn,
    },
  ];
}

/** Room that a grain mark takes, whatever way it points [mm]. */
export const grainRoom = GRAIN_MM + 4;
