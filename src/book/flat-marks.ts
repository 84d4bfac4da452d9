import type { FlatPattern } from '#panels';
import type { Shape, Spot } from './drawing.ts';
import { flatDatum } from './flat-datum.ts';
import type { FlatFrame } from './panel-frame.ts';
import { row } from './text-block.ts';
import { CAPITAL, textWidth } from './text-width.ts';

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

const TOP_ARROW_MM = 11;
/** Room beside something for the arrow to TOP [mm]. */
export const TOP_ROOM_MM = 16;

/** The way of the edge marked TOP, as drawn (y down), and whether it says so anywhere. */
export function topWay(pattern: FlatPattern): Spot | undefined {
  const word = pattern.words.find(({ text }) => text === 'TOP');
  if (word === undefined) return undefined;
  const turn = (word.turnDeg * Math.PI) / 180;
  return [-Math.sin(turn), -Math.cos(turn)];
}

/** Which way TOP is, on a piece of the flat that need not show the word: an arrow about `at`, the word under it. */
export function topMark(pattern: FlatPattern, [x, y]: Spot, size: number): Shape[] {
  const way = topWay(pattern);
  if (way === undefined) return [];
  const half = TOP_ARROW_MM / 2;
  return [
    ...arrow([x - way[0] * half, y - way[1] * half], way, TOP_ARROW_MM),
    row([x, y + half + size * 1.1], 'TOP', { size, role: 'blue', anchor: 'middle', weight: 'bold' }),
  ];
}

/** From the edge to the foot of the word: on a map at least, and on the flat [mm]. */
const ON_MAP_INSIDE_MM = 5.5;
const ON_FLAT_INSIDE_MM = 26;

/** The word where the flat has it, small on a map; its middle stays. */
export function topOnMap(pattern: FlatPattern, frame: FlatFrame, size: number): Shape[] {
  const word = pattern.words.find(({ text }) => text === 'TOP');
  if (word === undefined) return [];
  const turn = (word.turnDeg * Math.PI) / 180;
  const half = textWidth(word.text, word.heightMm / CAPITAL, 'bold') / 2;
  const middle = frame.spot([word.at[0] + half * Math.cos(turn), word.at[1] + half * Math.sin(turn)]);
  // Off the edge, which a small scale brings near.
  const inside = Math.max(0, ON_MAP_INSIDE_MM - ON_FLAT_INSIDE_MM * frame.scale);
  const [x, y] = [middle[0] + Math.sin(turn) * inside, middle[1] + Math.cos(turn) * inside];
  return [
    {
      ...row([x, y], 'TOP', { size, role: 'soft', weight: 'bold', anchor: 'middle', halo: 'card' }),
      turnDeg: word.turnDeg,
    },
  ];
}

const WAYS = ['right', 'down', 'left', 'up'] as const;

/** The way of TOP in a word; "-" where the panel has none. */
export function topWords(pattern: FlatPattern): string {
  const way = topWay(pattern);
  if (way === undefined) return '-';
  return WAYS[(Math.round(Math.atan2(way[1], way[0]) / (Math.PI / 2)) + 4) % 4]!;
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
