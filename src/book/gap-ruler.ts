import { formatNumber } from '#units';
import type { Drawing, Role, Shape, Spot } from './drawing.ts';
import { row } from './text-block.ts';
import { ABOVE, BELOW, textWidth } from './text-width.ts';

/** What one ruler shows: a value as drawn, what it may be at worst and at best, and its limit. */
export interface Gauge {
  readonly nominal: number;
  readonly worst: number;
  readonly best: number;
  readonly limit: number;
  /** "mm", "°C", "bar"; stands behind the numbers. */
  readonly unit: string;
  /** `least`: the value wants to be at least the limit (gap, bend radius, margin). `most`: at most (temperature). */
  readonly side?: 'least' | 'most';
  /** What is measured, for the title: "gap to the turbine". */
  readonly what?: string;
}

/** How large a picture is to be, and for where. */
export interface Sheet {
  readonly width: number;
  /** The em of its text. */
  readonly size: number;
  readonly unit: 'mm' | 'px';
}

/** How a gauge stands to its limit, by its value as drawn and by its worst. */
export type Standing = 'clear' | 'close' | 'broken';

export function standing(gauge: Gauge): Standing {
  const sign = gauge.side === 'most' ? -1 : 1;
  if (sign * (gauge.nominal - gauge.limit) < 0) return 'broken';
  return sign * (gauge.worst - gauge.limit) < 0 ? 'close' : 'clear';
}

const roles = { clear: 'ink', close: 'fix', broken: 'stop' } as const satisfies Record<Standing, Role>;

/**
 * How close, as a picture: the ground on the wrong side of the limit is shaded, the limit is a post, the value a dot with its
 * whisker from worst to best. Where only the worst breaks the limit the dot is a diamond, where the value does it is a triangle,
 * so that it reads without colour. One ruler for gap, bend radius, temperature and pressure.
 */
export function gapRuler(gauge: Gauge, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const state = standing(gauge);
  const scale = scaleOf(gauge);
  const inset = size * 0.55;
  const at = (value: number): number =>
    inset + ((width - 2 * inset) * (clamped(value, scale) - scale[0])) / (scale[1] - scale[0]);
  const head = headline(gauge, state, sheet);
  const base = head.height + size * 1.1;
  const shapes: Shape[] = [
    ...head.shapes,
    ...ground(gauge, at, base, sheet),
    ...whisker(gauge, scale, at, base - size * 0.55, size, roles[state]),
    ...mark(gauge, state, scale, [besidePost(gauge, state, at, size), base - size * 0.55], size),
    ...scaleWords(gauge, scale, at, base, sheet),
  ];
  return {
    title: gauge.what ?? 'how close',
    description: gaugeWords(gauge),
    unit: sheet.unit,
    width,
    height: base + size * 1.35,
    shapes,
  };
}

/** "58 mm, 50 to 66; wants at least 50 mm" and what that comes to. */
export function gaugeWords(gauge: Gauge): string {
  const n = numbers(gauge);
  const verdict = {
    clear: 'clear of the limit at its worst too',
    close: 'beyond the limit at its worst',
    broken: 'beyond the limit',
  }[standing(gauge)];
  return `${n.nominal} ${gauge.unit}, ${n.range}; wants at ${gauge.side ?? 'least'} ${n.limit} ${gauge.unit}: ${verdict}`;
}

const MOST_DECIMALS = 3;
/** What is known better than this either way is told to a hundredth of an inch: 1.3 mm [in]. */
const KNOWN_WELL_IN = 0.05;

function leastDecimals({ unit, worst, best }: Gauge): number {
  if (unit === 'in') return Math.abs(best - worst) / 2 < KNOWN_WELL_IN ? 2 : 1;
  return unit === 'bar' ? 1 : 0;
}

/** The numbers with as few decimals as still tell each of them from the limit. */
function numbers(gauge: Gauge): Record<'nominal' | 'range' | 'limit', string> {
  const start = leastDecimals(gauge);
  const tells = (value: number, decimals: number) =>
    Math.abs(value - gauge.limit) < 1e-9 || formatNumber(value, decimals) !== formatNumber(gauge.limit, decimals);
  let decimals = Number.isInteger(gauge.limit) ? start : Math.max(1, start);
  while (decimals < MOST_DECIMALS && ![gauge.nominal, gauge.worst].every((value) => tells(value, decimals))) decimals++;
  const text = (value: number) => formatNumber(value, decimals).replace('-', '−');
  return {
    nominal: text(gauge.nominal),
    range: [gauge.worst, gauge.best]
      .sort((p, q) => p - q)
      .map(text)
      .join(' to '),
    limit: formatNumber(gauge.limit, Number.isInteger(gauge.limit) ? 0 : decimals).replace('-', '−'),
  };
}

type Scale = readonly [from: number, to: number];
const clamped = (value: number, scale: Scale): number => Math.min(scale[1], Math.max(scale[0], value));

/** A value this many limits away is shown as an arrow at the end: nearer ones would shrink to nothing. */
const LIMITS_SHOWN = 8;
const ROOM = 1.12;

/** From 0, or from below the least value, to a round number beyond what matters. */
function scaleOf({ nominal, worst, best, limit }: Gauge): Scale {
  const values = [nominal, worst, best].filter(Number.isFinite);
  const most = Math.max(...values, 0);
  const reach = limit > 0 ? Math.max(limit * 1.5, Math.min(most, limit * LIMITS_SHOWN)) : most;
  const least = Math.max(Math.min(...values, 0), -reach || Number.NEGATIVE_INFINITY);
  const top = roundUp(Math.max(reach, Math.abs(least) / 2) * ROOM);
  return [least < 0 ? -roundUp(-least) : 0, top];
}

/** The next of 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10 and their tens. */
function roundUp(value: number): number {
  if (!(value > 0)) return 1;
  const ten = 10 ** Math.floor(Math.log10(value));
  const step = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10].find((s) => s * ten >= value * (1 - 1e-9)) ?? 10;
  return step * ten;
}

function headline(gauge: Gauge, state: Standing, sheet: Sheet): { shapes: Shape[]; height: number } {
  const { size, width } = sheet;
  const n = numbers(gauge);
  const big = `${n.nominal} ${gauge.unit}`;
  const bigSize = size * 1.15;
  const wants = `wants ${n.limit}`;
  const rest = gauge.worst === gauge.best ? wants : `${n.range} · ${wants}`;
  const baseline = bigSize * ABOVE;
  const shapes: Shape[] = [row([0, baseline], big, { size: bigSize, weight: 'bold', role: roles[state] })];
  const left = textWidth(big, bigSize, 'bold') + size * 0.5;
  if (left + textWidth(rest, size) <= width) {
    shapes.push(row([left, baseline], rest, { size, role: 'soft' }));
    return { shapes, height: bigSize * (ABOVE + BELOW) };
  }
  const small = Math.min(size, (size * width) / textWidth(rest, size));
  shapes.push(row([0, baseline + size * 1.2], rest, { size: small, role: 'soft' }));
  return { shapes, height: bigSize * (ABOVE + BELOW) + size * 1.2 };
}

/** Base line with ticks, the dead ground, the post. */
function ground(gauge: Gauge, at: (value: number) => number, base: number, { size, width }: Sheet): Shape[] {
  const inset = size * 0.55;
  const thin = { role: 'soft', width: size * 0.07 } as const;
  const post = at(gauge.limit);
  const [left, right] = gauge.side === 'most' ? [post, width - inset] : [inset, post];
  const shapes: Shape[] = [];
  if (right - left > 1e-9)
    shapes.push({
      kind: 'rect',
      at: [left, base - size * 0.2],
      width: right - left,
      height: size * 0.4,
      fill: 'rule',
      hatch: { role: 'soft', pitch: size * 0.32 },
    });
  shapes.push({ kind: 'line', from: [inset, base], to: [width - inset, base], pen: thin });
  shapes.push({
    kind: 'line',
    from: [post, base - size * 1.05],
    to: [post, base + size * 0.3],
    pen: { role: 'ink', width: size * 0.18 },
  });
  return shapes;
}

/** From worst to best; without a cap at an end that lies beyond the scale. */
function whisker(
  gauge: Gauge,
  scale: Scale,
  at: (value: number) => number,
  y: number,
  size: number,
  role: Role,
): Shape[] {
  const pen = { role, width: size * 0.12 };
  const cap = size * 0.24;
  const line = (from: Spot, to: Spot): Shape => ({ kind: 'line', from, to, pen });
  const caps = [gauge.worst, gauge.best].filter((value) => value >= scale[0] && value <= scale[1]);
  return [
    line([at(gauge.worst), y], [at(gauge.best), y]),
    ...caps.map((value) => line([at(value), y - cap], [at(value), y + cap])),
  ];
}

/** The mark never hides the post: it stands on the side it belongs to. */
function besidePost(gauge: Gauge, state: Standing, at: (value: number) => number, size: number): number {
  const [x, post] = [at(gauge.nominal), at(gauge.limit)];
  const out = (gauge.side === 'most' ? -1 : 1) * (state === 'broken' ? -1 : 1);
  return out > 0 ? Math.max(x, post + size * POST_ROOM) : Math.min(x, post - size * POST_ROOM);
}

/** From the middle of the post to the middle of a mark beside it, in ems. */
const POST_ROOM = 0.46;

/** Dot, diamond or triangle; an arrow at the end of the scale where the value lies beyond it. */
function mark(gauge: Gauge, state: Standing, scale: Scale, [x, y]: Spot, size: number): Shape[] {
  const role = roles[state];
  const r = size * 0.34;
  const closed = (points: readonly Spot[]): Shape => ({ kind: 'polyline', points, isClosed: true, fill: role });
  if (gauge.nominal > scale[1] || gauge.nominal < scale[0]) {
    const out = gauge.nominal > scale[1] ? 1 : -1;
    return [
      closed([
        [x + out * r, y],
        [x - out * r, y - r],
        [x - out * r, y + r],
      ]),
    ];
  }
  if (state === 'clear') return [{ kind: 'circle', centre: [x, y], radius: r, fill: role }];
  if (state === 'close')
    return [
      closed([
        [x - r * 1.15, y],
        [x, y - r * 1.15],
        [x + r * 1.15, y],
        [x, y + r * 1.15],
      ]),
    ];
  return [
    closed([
      [x, y - r * 1.2],
      [x + r * 1.2, y + r],
      [x - r * 1.2, y + r],
    ]),
  ];
}

/** The limit under its post, and the ends of the scale where they do not run into it. */
function scaleWords(gauge: Gauge, scale: Scale, at: (value: number) => number, base: number, sheet: Sheet): Shape[] {
  const size = sheet.size * 0.78;
  const y = base + sheet.size * 0.35 + size * ABOVE;
  const text = (value: number) => String(Number(formatNumber(value, gauge.unit === 'in' ? 2 : 1))).replace('-', '−');
  const limit = numbers(gauge).limit;
  const half = textWidth(limit, size, 'bold') / 2;
  const middle = Math.min(sheet.width - half, Math.max(half, at(gauge.limit)));
  const shapes: Shape[] = [row([middle, y], limit, { size, weight: 'bold', anchor: 'middle' })];
  const gap = size * 0.4;
  const [low, high] = [text(scale[0]), text(scale[1])];
  if (textWidth(low, size) + gap < middle - half) shapes.push(row([0, y], low, { size, role: 'soft' }));
  if (sheet.width - textWidth(high, size) - gap > middle + half)
    shapes.push(row([sheet.width, y], high, { size, role: 'soft', anchor: 'end' }));
  return shapes;
}
