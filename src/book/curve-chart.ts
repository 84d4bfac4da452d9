import { formatNumber } from '#units';
import type { Drawing, Pen, Role, Shape, Spot } from './drawing.ts';
import type { Sheet } from './gap-ruler.ts';
import { spreadOut } from './spread-out.ts';
import { row } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

/** One line of a chart. What its colour says, its mark and its word say again. */
export interface Curve {
  /** Stands at its right end. */
  readonly words: string;
  readonly role: Role;
  readonly mark: 'dot' | 'square' | 'none';
  readonly isDashed?: boolean;
  /** Of very many points: drawn with half a pen. */
  readonly isFine?: boolean;
  readonly points: readonly Spot[];
}

/** A limit, as a line with the wrong side of it hatched a little way. */
export interface ChartLimit {
  readonly words: string;
  readonly points: readonly Spot[];
  /** Which side is wrong. */
  readonly wrong: 'below' | 'above';
}

export interface ChartWish {
  readonly title: string;
  readonly description: string;
  readonly across: string;
  readonly up: string;
  readonly curves: readonly Curve[];
  readonly limits: readonly ChartLimit[];
  /** Height of the frame as a share of its width; 0.5 if absent. */
  readonly shape?: number;
}

/** Curves over one axis, each with its name at its end, limits drawn in; ticks at round numbers. */
export function curveChart(wish: ChartWish, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const small = size * 0.85;
  const named = [...wish.curves, ...wish.limits];
  const aside = Math.min(width * 0.34, Math.max(...named.map(({ words }) => textWidth(words, small))) + size * 0.8);
  const spots = named.flatMap(({ points }) => points);
  const [x, y] = [
    axis(
      spots.map(([at]) => at),
      false,
    ),
    axis(
      spots.map(([, at]) => at),
      true,
    ),
  ];
  const left = Math.max(...y.ticks.map((tick) => textWidth(tickWords(tick, y.step), small))) + size * 0.6;
  const top = size * (ROW + ABOVE + 0.4);
  const [right, bottom] = [width - aside, top + (width - aside - left) * (wish.shape ?? 0.5)];
  const at = ([u, v]: Spot): Spot => [
    left + ((u - x.from) / (x.to - x.from)) * (right - left),
    bottom - ((v - y.from) / (y.to - y.from)) * (bottom - top),
  ];
  const frame: Frame = { left, right, top, bottom, at, size };
  return {
    title: wish.title,
    description: wish.description,
    unit: sheet.unit,
    width,
    height: bottom + small * (2 * ROW + BELOW),
    shapes: [
      row([0, size * ABOVE], wish.title, { size, weight: 'bold' }),
      row([left, top - size * 0.4], wish.up, { size: small, role: 'soft' }),
      ...grid(x, y, frame),
      ...wish.limits.flatMap((limit) => limitShapes(limit, frame)),
      ...wish.curves.flatMap((curve) => curveShapes(curve, frame)),
      ...endWords(wish, frame, width),
      row([right, bottom + small * (2 * ROW)], wish.across, { size: small, role: 'soft', anchor: 'end' }),
    ],
  };
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly at: (spot: Spot) => Spot;
  readonly size: number;
}

interface Axis {
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly ticks: readonly number[];
}

/** From round number to round number in some five steps; with 0 in it where it is asked for. */
function axis(values: readonly number[], withZero: boolean): Axis {
  const [low, high] = [Math.min(...values, ...(withZero ? [0] : [])), Math.max(...values, ...(withZero ? [0] : []))];
  const reach = high - low || 1;
  const raw = reach / 5;
  const ten = 10 ** Math.floor(Math.log10(raw));
  const step = ten * ([1, 2, 2.5, 5, 10].find((one) => one * ten >= raw * 0.999) ?? 10);
  const from = withZero ? Math.floor(low / step + 1e-9) * step : low;
  const to = withZero ? Math.ceil(high / step - 1e-9) * step : high;
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  return { from, to, step, ticks: Array.from({ length: count }, (_, i) => (first + i) * step) };
}

const tickWords = (value: number, step: number): string =>
  formatNumber(value, step >= 1 && Number.isInteger(step) ? 0 : step >= 0.1 ? 1 : 2).replace('-', '−');

function grid(x: Axis, y: Axis, { left, right, top, bottom, at, size }: Frame): Shape[] {
  const small = size * 0.85;
  const thin: Pen = { role: 'rule', width: size * 0.07 };
  const base: Pen = { role: 'ink', width: size * 0.1 };
  return [
    ...y.ticks.flatMap((tick): Shape[] => {
      const [, v] = at([x.from, tick]);
      const isZero = Math.abs(tick) < 1e-9;
      return [
        { kind: 'line', from: [left, v], to: [right, v], pen: isZero ? base : thin },
        row([left - size * 0.4, v + small * 0.32], tickWords(tick, y.step), {
          size: small,
          role: 'soft',
          anchor: 'end',
        }),
      ];
    }),
    ...x.ticks.flatMap((tick): Shape[] => {
      const [u] = at([tick, y.from]);
      return [
        { kind: 'line', from: [u, bottom], to: [u, bottom + size * 0.25], pen: base },
        row([u, bottom + size * 0.25 + small * ABOVE], tickWords(tick, x.step), {
          size: small,
          role: 'soft',
          anchor: 'middle',
        }),
      ];
    }),
    { kind: 'line', from: [left, top], to: [left, bottom], pen: base },
    { kind: 'line', from: [left, bottom], to: [right, bottom], pen: base },
  ];
}

/** The wrong side is hatched as deep as this [em]. */
const BAND = 0.55;

function limitShapes({ points, wrong }: ChartLimit, { at, size }: Frame): Shape[] {
  const line = points.map(at);
  const by = (wrong === 'below' ? 1 : -1) * size * BAND;
  const band = [...line, ...line.toReversed().map(([u, v]): Spot => [u, v + by])];
  return [
    { kind: 'polyline', points: band, isClosed: true, hatch: { role: 'stop', pitch: size * 0.34 } },
    { kind: 'polyline', points: line, pen: { role: 'stop', width: size * 0.14 } },
  ];
}

function curveShapes({ points, role, mark, isDashed, isFine }: Curve, { at, size }: Frame): Shape[] {
  const pen: Pen = {
    role,
    width: size * (isFine === true ? 0.09 : 0.18),
    ...(isDashed === true ? { dash: [size * 0.6, size * 0.4] } : {}),
  };
  const r = size * 0.26;
  const spots = points.map(at);
  const marks = spots
    .filter((_, i) => i % 2 === 0)
    .flatMap((spot): Shape[] => {
      if (mark === 'none') return [];
      if (mark === 'dot')
        return [{ kind: 'circle', centre: spot, radius: r, fill: 'card', pen: { role, width: size * 0.14 } }];
      return [{ kind: 'rect', at: [spot[0] - r, spot[1] - r], width: 2 * r, height: 2 * r, fill: role }];
    });
  return [{ kind: 'polyline', points: spots, pen }, ...marks];
}

/** Names at the ends of their lines, pushed apart where they would lie on each other. */
function endWords({ curves, limits }: ChartWish, { at, right, size, top, bottom }: Frame, width: number): Shape[] {
  const small = size * 0.85;
  const named = [
    ...curves.map(({ words, role, points }) => ({ words, role, points })),
    ...limits.map(({ words, points }) => ({ words, role: 'stop' as const, points })),
  ].filter(({ points }) => points.length > 0);
  const ends = named.map(({ points }) => at(points.at(-1)!));
  const places = spreadOut(
    ends.map(([, down]) => ({ at: down, width: small * ROW })),
    top,
    bottom,
    0,
  );
  return named.flatMap(({ words, role }, i): Shape[] => [
    { kind: 'line', from: ends[i]!, to: [right + size * 0.5, places[i]!], pen: { role, width: size * 0.06 } },
    row([Math.min(right + size * 0.6, width - textWidth(words, small)), places[i]! + small * 0.32], words, {
      size: small,
      role,
    }),
  ]);
}
