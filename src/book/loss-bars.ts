import type { LineFlow, PieceLoss } from '#flow';
import { formatNumber, inchesFromMm } from '#units';
import type { Drawing, Shape, Spot } from './drawing.ts';
import { type FlowUnits, lossWords } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { cutText, row } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

/**
 * What each piece of a line loses, largest first: a bar to what is reckoned, a whisker from the least to the most it may be, hatched
 * where nobody knows it to better than a factor two. Pieces that lose next to nothing are told together.
 */
export function lossBars(line: LineFlow, units: FlowUnits, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const isNarrow = width < size * NARROW;
  const all = line.pieces.map((piece) => ({ piece, pa: Math.abs(piece.dropPa) })).toSorted((a, b) => b.pa - a.pa);
  const total = all.reduce((sum, { pa }) => sum + pa, 0);
  const shown = all.filter(({ pa }, i) => i < MOST && pa > total * LEAST_SHARE);
  const most = Math.max(1e-9, ...shown.map(({ piece, pa }) => pa * piece.times[1]));
  const title = `${line.line}: ${lossWords(total, units)} lost`;
  const numbers = shown.map(({ piece, pa }) => numberWords(piece, pa, units));
  const numberWide = Math.max(0, ...numbers.map((words) => textWidth(words, size)));
  const nameWide = Math.min(
    width * 0.36,
    Math.max(0, ...shown.map(({ piece }) => textWidth(pieceWords(piece, units, isNarrow), size))) + size * 0.6,
  );
  const room = Math.max(size * 4, width - nameWide - numberWide - size * 0.8);
  const step = size * 1.75;
  const top = size * (ROW + 0.5);
  const shapes: Shape[] = [row([0, size * ABOVE], title, { size, weight: 'bold' })];
  shown.forEach(({ piece, pa }, i) => {
    const y = top + i * step;
    const to = (value: number): number => nameWide + (value / most) * room;
    const middle = y + step / 2;
    const isVague = piece.times[1] / piece.times[0] > VAGUE;
    const words = cutText(pieceWords(piece, units, isNarrow), nameWide - size * 0.4, size);
    shapes.push(
      row([0, middle + size * 0.32], words, { size }),
      bar([nameWide, middle], Math.max(size * 0.08, to(pa) - nameWide), isVague, size),
      ...whisker(to(pa * piece.times[0]), to(pa * piece.times[1]), middle, size),
      row([width, middle + size * 0.32], numbers[i]!, { size, anchor: 'end' }),
    );
  });
  const below = top + shown.length * step + size * 0.3;
  const rest = all.slice(shown.length).map(({ pa }) => pa);
  const small = size * 0.85;
  const foot =
    rest.length === 0 ? [] : [row([0, below + small * ABOVE], restWords(rest, units), { size: small, role: 'soft' })];
  return {
    title,
    description: shown
      .map(
        ({ piece, pa }, i) =>
          `${pieceWords(piece, units, isNarrow)}: ${numbers[i]}${pa === 0 ? '' : `, ${formatNumber((100 * pa) / total)} %`}`,
      )
      .join('; '),
    unit: sheet.unit,
    width,
    height: below + foot.length * small * (ABOVE + BELOW),
    shapes: [...shapes, ...foot],
  };
}

const bar = ([x, middle]: Spot, width: number, isVague: boolean, size: number): Shape => ({
  kind: 'rect',
  at: [x, middle - size * 0.42],
  width,
  height: size * 0.84,
  fill: 'steel',
  ...(isVague ? { hatch: { role: 'ink', pitch: size * 0.4 } } : {}),
  pen: { role: 'ink', width: size * 0.08 },
});

const MOST = 8;
/** Narrower pictures leave the bores out [em]. */
const NARROW = 32;
const LEAST_SHARE = 0.005;
/** Most over least beyond which a loss is marked as hardly known. */
const VAGUE = 2;

const names: Readonly<Record<string, string>> = {
  'hose-end': 'hose end',
  entrance: 'out of the vessel',
  exit: 'into the vessel',
};

/** "hose end 90°, bore 19.1" or, in inches, "hose end 90°, bore 0.75". */
function pieceWords({ what, turnDeg, boreMm }: PieceLoss, units: FlowUnits, isShort = false): string {
  const turn = turnDeg >= 1 ? ` ${formatNumber(turnDeg)}°` : '';
  if (isShort) return `${names[what] ?? what}${turn}`;
  const bore = units === 'inch' ? formatNumber(inchesFromMm(boreMm), 2) : formatNumber(boreMm, 1);
  return `${names[what] ?? what}${turn}, bore ${bore}`;
}

function numberWords({ times }: PieceLoss, pa: number, units: FlowUnits): string {
  const [least, most] = times;
  if (most / least < 1.02) return lossWords(pa, units);
  const [low, high] = [lossWords(pa * least, units), lossWords(pa * most, units)];
  return `${lossWords(pa, units)} (${low.split(' ')[0]} to ${high.split(' ')[0]})`;
}

const restWords = (rest: readonly number[], units: FlowUnits): string =>
  rest.length === 0
    ? ''
    : `and ${rest.length} more, together ${lossWords(
        rest.reduce((sum, pa) => sum + pa, 0),
        units,
      )}`;

function whisker(from: number, to: number, y: number, size: number): Shape[] {
  if (to - from < size * 0.1) return [];
  const pen = { role: 'ink', width: size * 0.12 } as const;
  const cap = size * 0.26;
  return [
    { kind: 'line', from: [from, y], to: [to, y], pen },
    { kind: 'line', from: [from, y - cap], to: [from, y + cap], pen },
    { kind: 'line', from: [to, y - cap], to: [to, y + cap], pen },
  ];
}
