import { clockFace as faceLines, clockTime, type WayEnd } from '#lines';
import { formatNumber } from '#units';
import type { Drawing, Shape, Spot } from './drawing.ts';
import type { Sheet } from './gap-ruler.ts';
import { block, brokenText, type TextStyle } from './text-block.ts';
import { ROW, textWidth } from './text-width.ts';

/** What of an end the clock shows. */
export type ClockedEnd = Pick<WayEnd, 'port' | 'angleDeg' | 'clockDeg' | 'clockFrom' | 'adapterClockDeg' | 'words'>;

export interface ClockWish extends Sheet {
  /** What the end is called: "A, at tank.out"; the port where it is not given. */
  readonly name?: string;
  /** What stands at 12 of the port itself, where an elbow adapter turns in it. */
  readonly portTwelve?: 'up' | 'forward';
  /** Across the dial. */
  readonly dial?: number;
}

/** One hand: where it points, what turns, and how the face is looked at. */
interface Turn {
  readonly deg: number;
  readonly twelve: 'up' | 'forward' | null;
  readonly what: string;
  readonly looking: string;
  readonly tail: string | null;
}

/**
 * The clock face of an end, seen looking into the port: 12 marked with what it is, the tail drawn where it points, the same in words
 * beside. An elbow adapter with a bent end behind it has two: the adapter's, and the end's seen looking into the adapter.
 */
export function clockFace(end: ClockedEnd, wish: ClockWish): Drawing {
  const turns = turnsOf(end, wish.portTwelve ?? null);
  const name = wish.name ?? end.port;
  const faces = turns.length === 0 ? [null] : turns;
  const half = (wish.width - wish.size) / 2;
  const isStacked = faces.length === 1 || half < wish.size * LEAST_CELL;
  const width = isStacked ? wish.width : half;
  let [x, y, height] = [0, 0, 0];
  const shapes = faces.map((turn, i): Shape => {
    const face = oneFace(i === 0 || turn === null ? name : turn.looking, turn, end, { ...wish, width });
    const offset: Spot = [x, y];
    height = Math.max(height, y + face.height);
    if (isStacked) y += face.height + wish.size * 0.6;
    else x += width + wish.size;
    return { kind: 'group', offset, shapes: face.shapes };
  });
  return {
    title: `Clock of ${name}`,
    description: [
      `${name}, seen looking into the port.`,
      ...(turns.length === 0 ? [straightWords(end)] : turns.map(turnSentence)),
    ].join(' '),
    unit: wish.unit,
    width: wish.width,
    height,
    shapes,
  };
}

/** A dial and its words side by side take this much [em]; two in less stand one below the other. */
const LEAST_CELL = 17;

const straightWords = (end: ClockedEnd): string =>
  end.angleDeg === 0 ? 'straight: nothing to turn' : 'any clock: nothing to aim';

function turnSentence(turn: Turn): string {
  return `${turn.what} at ${clockTime(turn.deg)}, ${formatNumber(turn.deg)} degrees${turn.tail === null ? '' : `; tail points ${turn.tail}`}; 12 is ${turn.twelve ?? 'up, or forward where the port faces up or down'}.`;
}

/** Where the words of an end say its tails point, in their order. */
export const tailWords = (words: string): string[] =>
  [...words.matchAll(/tail points ([a-z, ]+) \(/g)].map((found) => found[1]!);

function turnsOf(end: ClockedEnd, portTwelve: 'up' | 'forward' | null): Turn[] {
  const tails = tailWords(end.words);
  const turns: Turn[] = [];
  if (end.adapterClockDeg !== undefined)
    turns.push({
      deg: end.adapterClockDeg,
      twelve: portTwelve,
      what: 'elbow adapter',
      looking: 'looking into the port',
      tail: tails[0] ?? null,
    });
  if (end.clockDeg !== null)
    turns.push({
      deg: end.clockDeg,
      twelve: end.clockFrom ?? null,
      what: `${end.angleDeg}° end`,
      looking: turns.length === 0 ? 'looking into the port' : 'looking into the adapter',
      tail: tails[turns.length] ?? null,
    });
  return turns;
}

function oneFace(name: string, turn: Turn | null, end: ClockedEnd, wish: ClockWish) {
  const { size } = wish;
  const small = size * 0.8;
  const dial = Math.min(wish.dial ?? size * 6.6, wish.width * 0.48);
  const radius = dial / 2;
  const centre: Spot = [radius, small * ROW + radius];
  const left = dial + size * 0.9;
  const words = faceWords(name, turn, end, wish.width - left, size);
  const wordsTop = Math.max(0, centre[1] - words.height / 2);
  const twelve = turn === null ? '12' : twelveMark(turn.twelve, dial, small);
  return {
    shapes: [
      ...block([centre[0], 0], [twelve], { size: small, role: 'soft', anchor: 'middle' }).shapes,
      ...dialShapes(centre, radius, turn, size),
      ...words.at([left, wordsTop]),
    ],
    height: Math.max(centre[1] + radius + size * 0.1, wordsTop + words.height),
  };
}

function twelveMark(twelve: Turn['twelve'], dial: number, size: number): string {
  const long = twelve === null ? '12' : `12 = ${twelve}`;
  return textWidth(long, size) <= dial ? long : '12';
}

interface Words {
  readonly height: number;
  readonly at: (spot: Spot) => Shape[];
}

/** The same in words: what, when, where the tail leans. */
function faceWords(name: string, turn: Turn | null, end: ClockedEnd, width: number, size: number): Words {
  const parts: [string, TextStyle][] = [[name, { size }]];
  if (turn === null) parts.push([straightWords(end), { size, weight: 'bold' }]);
  else {
    parts.push([`${clockTime(turn.deg)} · ${formatNumber(turn.deg)}°`, { size, weight: 'bold' }]);
    const small = { size: size * 0.85, role: 'soft' } as const;
    parts.push([`${turn.what}${turn.tail === null ? '' : `, tail points ${turn.tail}`}`, small]);
    if (turn.twelve === null) parts.push(['12 = up; forward where the port faces up or down', small]);
  }
  const rows = parts
    .filter(([text]) => text !== '')
    .map(([text, style]) => ({ rows: brokenText(text, width, style.size, style.weight ?? 'regular'), style }));
  return {
    height: rows.reduce((sum, r) => sum + r.rows.length * r.style.size * ROW, 0),
    at: ([x, y]) => {
      let top = y;
      return rows.flatMap((r) => {
        const made = block([x, top], r.rows, r.style);
        top += made.height;
        return made.shapes;
      });
    },
  };
}

/** Rim, ticks, the nut in the middle, and the tail with a round end. */
function dialShapes([cx, cy]: Spot, radius: number, turn: Turn | null, size: number): Shape[] {
  const lines = faceLines(turn?.deg ?? null, turn?.twelve ?? 'up');
  const on = ([x, y]: readonly [number, number], share = 1): Spot => [cx + x * radius * share, cy - y * radius * share];
  const pen = { role: 'ink', width: size * 0.11 } as const;
  const nut = Array.from({ length: 6 }, (_, i): Spot => {
    const rad = (i * Math.PI) / 3;
    return [cx + radius * 0.3 * Math.cos(rad), cy + radius * 0.3 * Math.sin(rad)];
  });
  const shapes: Shape[] = [
    { kind: 'circle', centre: [cx, cy], radius, pen, fill: 'card' },
    ...lines.ticks.map((tick): Shape => ({ kind: 'line', from: on(tick.from), to: on(tick.to), pen })),
    { kind: 'polyline', points: nut, isClosed: true, pen, fill: turn === null ? 'steel' : 'card' },
  ];
  if (lines.hand === null) {
    shapes.push({ kind: 'circle', centre: [cx, cy], radius: radius * 0.15, pen, fill: 'card' });
    return shapes;
  }
  const tip = on(lines.hand, TAIL_REACH);
  shapes.push(
    { kind: 'line', from: [cx, cy], to: tip, pen: { role: 'ink', width: radius * 0.3 } },
    { kind: 'line', from: [cx, cy], to: tip, pen: { role: 'steel', width: radius * 0.3 - size * 0.2 } },
    { kind: 'circle', centre: [cx, cy], radius: radius * 0.15, fill: 'steel', pen },
    { kind: 'circle', centre: tip, radius: radius * 0.19, fill: 'card', pen },
  );
  return shapes;
}

/** How far out the tail's end is drawn, of the rim. */
export const TAIL_REACH = 0.8;
