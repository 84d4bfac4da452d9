import type { HeatShare } from '#heat';
import { formatNumber } from '#units';
import type { Drawing, Shape } from './drawing.ts';
import type { Sheet } from './gap-ruler.ts';
import { differenceWords } from './heat-curves.ts';
import { cutText, row } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

/** Shares shown; the rest are told together. */
const MOST = 7;
/** A share smaller than this is not drawn [K]. */
const LEAST_K = 0.5;
/** Names take no more than this of the width. */
const MOST_NAME = 0.4;

/** What makes the hottest place hot: a bar to the right for what heats it, hatched to the left for what cools it; degrees and watts. */
export function heatShareBars(title: string, shares: readonly HeatShare[], inDegF: boolean, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const sorted = shares.toSorted((a, b) => Math.abs(b.kelvin) - Math.abs(a.kelvin));
  const shown = sorted.filter(({ kelvin }, i) => i < MOST && Math.abs(kelvin) >= LEAST_K);
  const words = shown.map(
    ({ kelvin, watts }) => `${signed(kelvin, inDegF)}, ${formatNumber(watts, wattDigits(watts))} W`,
  );
  const numberWide = Math.max(0, ...words.map((text) => textWidth(text, size)));
  const names = shown.map(({ name }) => name);
  const nameWide = Math.min(width * MOST_NAME, Math.max(0, ...names.map((text) => textWidth(text, size))) + size * 0.6);
  const room = Math.max(size * 3, width - nameWide - numberWide - size * 0.8);
  const [least, most] = [
    Math.min(0, ...shown.map(({ kelvin }) => kelvin)),
    Math.max(1e-9, ...shown.map(({ kelvin }) => kelvin)),
  ];
  const at = (kelvin: number): number => nameWide + ((kelvin - least) / (most - least)) * room;
  const step = size * 1.75;
  const top = size * (ROW + 0.5);
  const bars = shown.flatMap(({ name, kelvin }, i): Shape[] => {
    const middle = top + (i + 0.5) * step;
    const [from, to] = [Math.min(at(0), at(kelvin)), Math.max(at(0), at(kelvin))];
    return [
      row([0, middle + size * 0.32], cutText(name, nameWide - size * 0.4, size), { size }),
      {
        kind: 'rect',
        at: [from, middle - size * 0.42],
        width: Math.max(size * 0.08, to - from),
        height: size * 0.84,
        fill: kelvin > 0 ? 'hot' : 'card',
        ...(kelvin > 0 ? {} : { hatch: { role: 'blue', pitch: size * 0.4 } as const }),
        pen: { role: 'ink', width: size * 0.08 },
      },
      row([width, middle + size * 0.32], words[i]!, { size, anchor: 'end' }),
    ];
  });
  const foot = top + shown.length * step + size * 0.3;
  const rest = sorted.length - shown.length;
  const small = size * 0.85;
  return {
    title,
    description: shown.map(({ name }, i) => `${name} ${words[i]}`).join('; '),
    unit: sheet.unit,
    width,
    height: foot + (rest === 0 ? 0 : small * (ABOVE + BELOW)),
    shapes: [
      row([0, size * ABOVE], title, { size, weight: 'bold' }),
      ...bars,
      { kind: 'line', from: [at(0), top], to: [at(0), foot - size * 0.3], pen: { role: 'ink', width: size * 0.1 } },
      ...(rest === 0
        ? []
        : [row([0, foot + small * ABOVE], `and ${rest} more, each less`, { size: small, role: 'soft' })]),
    ],
  };
}

const signed = (kelvin: number, inDegF: boolean): string =>
  `${kelvin > 0 ? '+' : ''}${differenceWords(kelvin, inDegF)}`;

const wattDigits = (watts: number): number => (Math.abs(watts) < 1 ? 2 : Math.abs(watts) < 10 ? 1 : 0);
