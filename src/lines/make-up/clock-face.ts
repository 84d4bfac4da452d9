import { wholeTurn } from './clock-frame.ts';

/** A clock face as lines on a plane: x to the right, y up, the rim at radius 1, seen looking into the port. */
export interface ClockFace {
  readonly rim: number;
  readonly ticks: readonly { readonly hour: number; readonly from: Point; readonly to: Point }[];
  /** From the middle to the rim; null where a straight end has no clock. */
  readonly hand: Point | null;
  /** What stands at twelve o'clock. */
  readonly twelve: 'up' | 'forward';
}

type Point = readonly [x: number, y: number];

const rim = 1;
const quarterTick = 0.8;
const hourTick = 0.9;

/** The drawing of a clock: twelve ticks and the hand. */
export function clockFace(deg: number | null, twelve: 'up' | 'forward'): ClockFace {
  const ticks = Array.from({ length: 12 }, (_, n) => {
    const inner = n % 3 === 0 ? quarterTick : hourTick;
    return { hour: n === 0 ? 12 : n, from: onFace(n * 30, inner), to: onFace(n * 30, rim) };
  });
  return { rim, ticks, hand: deg === null ? null : onFace(wholeTurn(deg), rim), twelve };
}

function onFace(deg: number, radius: number): Point {
  const rad = (deg * Math.PI) / 180;
  return [radius * Math.sin(rad), radius * Math.cos(rad)];
}
