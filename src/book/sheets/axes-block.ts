import type { Shape, Spot } from '../drawing.ts';
import { row } from '../text-block.ts';
import type { Block } from './block.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** A car in outline from its left and from above with the axes on it. */
export function axesBlock(frame: SheetFrame): Block {
  const { inner, size } = frame;
  const half = (inner - size * 3) / 2;
  const height = size * 10;
  const left = carFromLeft(half, height, size);
  const above = carFromAbove(half, height, size);
  return {
    shapes: [
      { kind: 'group', offset: [0, 0], shapes: left },
      { kind: 'group', offset: [half + size * 3, 0], shapes: above },
    ],
    height,
    space: size * 0.4,
  };
}

const PEN = { role: 'soft', width: 0.3 } as const;

function arrow(from: Spot, to: Spot, word: string, size: number): Shape[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [dx / length, dy / length];
  const head = size * 0.7;
  const side = (k: number): Spot => [to[0] - ux * head - uy * k * head * 0.4, to[1] - uy * head + ux * k * head * 0.4];
  return [
    { kind: 'line', from, to: [to[0] - ux * head * 0.8, to[1] - uy * head * 0.8], pen: { role: 'blue', width: 0.5 } },
    { kind: 'polyline', points: [to, side(1), side(-1)], isClosed: true, fill: 'blue' },
    row([to[0] + ux * size * 0.8, to[1] + uy * size * 0.8 + size * 0.33], word, {
      size,
      weight: 'bold',
      role: 'blue',
      anchor: 'middle',
    }),
  ];
}

function carFromLeft(width: number, height: number, size: number): Shape[] {
  const ground = height - size * 1.6;
  const wheel = size * 1.3;
  const [front, rear] = [width * 0.2, width * 0.78];
  const body: Spot[] = [
    [width * 0.04, ground - wheel],
    [width * 0.06, ground - wheel * 1.9],
    [width * 0.3, ground - wheel * 2.4],
    [width * 0.42, ground - wheel * 3.7],
    [width * 0.62, ground - wheel * 3.8],
    [width * 0.9, ground - wheel * 2.7],
    [width * 0.95, ground - wheel],
  ];
  const centre: Spot = [front, ground - wheel];
  return [
    { kind: 'polyline', points: body, isClosed: true, pen: PEN },
    ...[front, rear].map(
      (x): Shape => ({ kind: 'circle', centre: [x, ground - wheel], radius: wheel, pen: PEN, fill: 'card' }),
    ),
    { kind: 'line', from: [0, ground], to: [width, ground], pen: PEN },
    { kind: 'circle', centre, radius: size * 0.25, fill: 'blue' },
    ...arrow(centre, [front + size * 7, ground - wheel], 'X', size),
    ...arrow(centre, [front, size * 2.2], 'Z', size),
    row([0, height - size * 0.3], 'from the left: front at the left', { size }),
  ];
}

function carFromAbove(width: number, height: number, size: number): Shape[] {
  const [top, bottom] = [size * 0.6, height - size * 2.2];
  const middle = (top + bottom) / 2;
  const body: Spot[] = [
    [width * 0.04, middle - size * 2],
    [width * 0.2, top],
    [width * 0.95, top],
    [width * 0.95, bottom],
    [width * 0.2, bottom],
    [width * 0.04, middle + size * 2],
  ];
  const centre: Spot = [width * 0.2, middle];
  return [
    { kind: 'polyline', points: body, isClosed: true, pen: PEN },
    { kind: 'line', from: [width * 0.2, top], to: [width * 0.2, bottom], pen: { ...PEN, dash: [2, 1.2] } },
    { kind: 'circle', centre, radius: size * 0.25, fill: 'blue' },
    ...arrow(centre, [width * 0.2 + size * 7, middle], 'X', size),
    ...arrow(centre, [width * 0.2, bottom - size * 1.2], 'Y', size),
    row([width * 0.2 + size * 0.6, top + size * 1.3], 'front axle line', { size, role: 'soft' }),
    row([0, height - size * 0.3], "from above: the car's right is below", { size }),
  ];
}
