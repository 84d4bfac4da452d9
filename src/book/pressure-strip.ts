import type { WayStep } from '#flow';
import type { Drawing, Shape, Spot } from './drawing.ts';
import { type FlowUnits, lossWords, pressureNumber, pressureUnit, pressureWords } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { block, fewRows, row } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

/**
 * A circuit from end to end as one strip: pressure stands up, each line, pump and part is a field of the same width in which it rises or
 * falls; what it loses stands below it. Below the air outside the ground is hatched.
 */
export function pressureStrip(steps: readonly WayStep[], title: string, units: FlowUnits, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const head = fewRows(title, width, 3, size, 'bold');
  const frame = frameOf(steps, units, sheet, head.length);
  const { y, edge, bottom } = frame;
  const line = steps.flatMap((step, i): Spot[] => [
    [edge(i), y(step.fromPa)],
    [edge(i + 1), y(step.toPa)],
  ]);
  const words = steps.map((step, i) => fieldWords(step, [edge(i), edge(i + 1)], bottom, units, size));
  const rows = Math.max(0, ...words.map(({ length }) => length));
  return {
    title,
    description: `${steps.map(({ words: what, fromPa, toPa }) => `${what} from ${pressureWords(fromPa, units)} to ${pressureWords(toPa, units)}`).join('; ')}.`,
    unit: sheet.unit,
    width,
    height: bottom + size * 0.4 + size * SMALL * (rows * ROW + BELOW),
    shapes: [
      ...block([0, 0], head, { size, weight: 'bold' }).shapes,
      ...ground(frame, steps.length, units, sheet),
      { kind: 'polyline', points: line, pen: { role: 'oil', width: size * 0.24 } },
      ...steps.flatMap((step, i) => (step.kind === 'pump' ? pumpMark(middleOf(line, i), size) : [])),
      ...words.flat(),
    ],
  };
}

const SMALL = 0.85;

interface Frame {
  readonly low: number;
  readonly high: number;
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
  readonly y: (pa: number) => number;
  /** Where a field begins. */
  readonly edge: (index: number) => number;
}

function frameOf(steps: readonly WayStep[], units: FlowUnits, { size, width }: Sheet, headRows: number): Frame {
  const values = steps.flatMap(({ fromPa, toPa }) => [fromPa, toPa]);
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  const numbers = [low, high, 0].map((pa) => textWidth(pressureNumber(pa, units), size * SMALL));
  const left = Math.max(...numbers) + size * 0.5;
  const top = size * (headRows * ROW + 1.6);
  const bottom = top + Math.min(width * 0.34, size * 16);
  return {
    low,
    high,
    left,
    top,
    bottom,
    y: (pa) => bottom - ((pa - low) / (high - low || 1)) * (bottom - top),
    edge: (index) => left + (index * (width - left - size * 0.2)) / Math.max(1, steps.length),
  };
}

/** Hatched below the air outside; its pressure, the greatest and the least marked; fields told apart. */
function ground(
  { low, high, left, top, bottom, y, edge }: Frame,
  count: number,
  units: FlowUnits,
  sheet: Sheet,
): Shape[] {
  const { size, width } = sheet;
  const small = size * SMALL;
  const zero = y(0);
  const marks = [high, 0, ...(bottom - zero > small * 1.2 ? [low] : [])];
  return [
    row([left, top - size * 0.5], `${pressureUnit(units)} above the air outside`, { size: small, role: 'soft' }),
    {
      kind: 'rect',
      at: [left, zero],
      width: width - left,
      height: bottom - zero,
      hatch: { role: 'rule', pitch: size * 0.4 },
    },
    ...marks.flatMap((pa): Shape[] => [
      {
        kind: 'line',
        from: [left, y(pa)],
        to: [width, y(pa)],
        pen: { role: pa === 0 ? 'ink' : 'rule', width: size * 0.08 },
      },
      row([left - size * 0.3, y(pa) + small * 0.32], pressureNumber(pa, units), {
        size: small,
        role: 'soft',
        anchor: 'end',
      }),
    ]),
    ...Array.from(
      { length: Math.max(0, count - 1) },
      (_, i): Shape => ({
        kind: 'line',
        from: [edge(i + 1), top],
        to: [edge(i + 1), bottom],
        pen: { role: 'rule', width: size * 0.06, dash: [size * 0.25, size * 0.25] },
      }),
    ),
  ];
}

/** What it is, and how the pressure changes in it. */
function fieldWords(
  step: WayStep,
  [from, to]: readonly [number, number],
  bottom: number,
  units: FlowUnits,
  size: number,
): Shape[] {
  const small = size * SMALL;
  const room = to - from - size * 0.3;
  const weight = step.kind === 'line' ? 'bold' : 'regular';
  const change = `${step.toPa > step.fromPa ? '+' : '−'}${lossWords(Math.abs(step.toPa - step.fromPa), units)}`;
  const rows = [
    ...fewRows(step.words, room, 3, small, weight).map((text) => ({ text, weight, role: 'ink' }) as const),
    ...fewRows(change, room, 2, small).map((text) => ({ text, weight: 'regular', role: 'soft' }) as const),
  ];
  return rows.map(({ text, weight: how, role }, k) =>
    row([(from + to) / 2, bottom + size * 0.4 + small * (ABOVE + k * ROW)], text, {
      size: small,
      weight: how,
      role,
      anchor: 'middle',
    }),
  );
}

const middleOf = (line: readonly Spot[], index: number): Spot => {
  const [a, b] = [line[2 * index]!, line[2 * index + 1]!];
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
};

const pumpMark = (at: Spot, size: number): Shape[] => [
  { kind: 'circle', centre: at, radius: size * 0.7, fill: 'card', pen: { role: 'ink', width: size * 0.12 } },
  row([at[0], at[1] + size * 0.33], 'P', { size, weight: 'bold', anchor: 'middle' }),
];
