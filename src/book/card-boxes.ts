import type { Line } from '#car';
import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import { formatNumber, lengthsIn } from '#units';
import type { Shape } from './drawing.ts';
import { flowWords, heatWords, pressureWords } from './flow-words.ts';
import { gapRuler } from './gap-ruler.ts';
import { gapsByMargin } from './gaps-by-margin.ts';
import { lengthGauge } from './length-gauge.ts';
import { Stack } from './stack.ts';
import { allowanceWords } from './strip-wish.ts';
import { row, shrunkSize } from './text-block.ts';
import { ABOVE, textWidth } from './text-width.ts';

export interface BoxesWish {
  readonly width: number;
  readonly size: number;
  readonly inches: boolean;
  readonly isTaken: boolean;
  /** Which boxes stand in which row, by their numbers; absent: all in one. */
  readonly rows?: readonly (readonly number[])[];
}

/** Shares of the card's width: cut, hose, least gap, tightest bend, what it carries. */
const SHARES = [0.2, 0.22, 0.225, 0.195, 0.16] as const;

/** The five numbers that one looks for first, in boxes side by side. */
export function cardBoxes(line: Line, way: Way, catalogue: Catalogue, wish: BoxesWish): Stack {
  const { size } = wish;
  const rows = wish.rows ?? [SHARES.map((_, i) => i)];
  const stack = new Stack(wish.width);
  for (const [i, own] of rows.entries()) {
    if (i > 0) stack.space(size * 0.9);
    stack.beside(boxRow(own, line, way, catalogue, wish), size * 1.1);
  }
  return stack;
}

function boxRow(own: readonly number[], line: Line, way: Way, catalogue: Catalogue, wish: BoxesWish): Stack[] {
  const { size } = wish;
  const pad = size * 0.75;
  const shares = own.reduce((sum, i) => sum + SHARES[i]!, 0);
  const room = wish.width - size * 1.1 * (own.length - 1);
  const widths = own.map((i) => (room * SHARES[i]!) / shares);
  const contents = own.map((i, k) => {
    const inner = new Stack(widths[k]! - 2 * pad);
    if (i === 0) return cutBox(inner, way, wish);
    if (i === 1) return runBox(inner, way, catalogue, wish);
    if (i === 2) return gapBox(inner, way, wish);
    return i === 3 ? bendBox(inner, way, wish) : dutyBox(inner, line, wish);
  });
  const height = Math.max(...contents.map((stack) => stack.height)) + 2 * pad;
  return contents.map((stack, k) => {
    const box = new Stack(widths[k]!);
    const edge: Shape = {
      kind: 'rect',
      at: [0, 0],
      width: box.width,
      height,
      pen: { role: 'ink', width: size * 0.13 },
    };
    return box.put([edge, { kind: 'group', offset: [pad, pad], shapes: stack.shapes }], height);
  });
}

const BIG = 2.3;

function cutBox(stack: Stack, way: Way, { size, inches, isTaken }: BoxesWish): Stack {
  const isOne = way.pieces.length === 1;
  stack.text(isTaken ? (isOne ? 'cut' : 'cut, from A') : 'not to be cut: it would be', { size });
  if (way.pieces.length === 0) return stack.text('nothing to cut', { size: size * 1.3, weight: 'bold' });
  const role = isTaken ? 'ink' : 'soft';
  for (const [i, piece] of way.pieces.entries()) {
    const range = allowanceWords(piece.allowanceMm, inches);
    const cut = lengthsIn(inches).one(piece.cutLengthMm);
    const big = isOne ? cut : `${i + 1}: ${cut}`;
    const own = shrunkSize(big, stack.width, size * (isOne && isTaken ? BIG : 1.4), size, 'bold');
    const beside = textWidth(big, own, 'bold') + size * 0.5;
    const isBeside = !isOne && beside + textWidth(range, size * 0.95) <= stack.width;
    if (isBeside) stack.put([row([beside, own * ABOVE], range, { size: size * 0.95 })], 0);
    stack.text(big, { size: own, weight: 'bold', role });
    if (!isBeside) stack.text(range, { size: size * 0.95 });
  }
  const isTube = way.pieces.every((piece) => piece.tube !== undefined);
  return stack.text(isTube ? 'trial-fit before the ends are made' : 'trial-fit before the ends go on', {
    size: size * 0.9,
    role: 'soft',
  });
}

function runBox(stack: Stack, way: Way, catalogue: Catalogue, { size, inches }: BoxesWish): Stack {
  const names = way.pieces.map((piece) => {
    if (piece.hose !== undefined) return catalogue.findHose(piece.hose)?.name ?? piece.hose;
    const tube = piece.tube === undefined ? '' : ` ${piece.tube.odMm} × ${piece.tube.wallMm} mm`;
    return lengthsIn(inches).soldAs(`tube${tube}`);
  });
  const kinds = [
    ...(way.pieces.some((piece) => piece.hose !== undefined) || names.length === 0 ? ['hose'] : []),
    ...(way.pieces.some((piece) => piece.tube !== undefined) ? ['tube'] : []),
  ];
  stack.text(kinds.join(', '), { size });
  if (names.length === 0) return stack.text('not chosen', { size: size * 1.3, weight: 'bold' });
  const most = size * (names.length > 1 ? 1.1 : 1.25);
  for (const name of new Set(names)) {
    const which = names.flatMap((other, i) => (other === name ? [i + 1] : [])).join(', ');
    const words = names.length > 1 ? `${which}: ${name}` : name;
    const longest = words.split(' ').reduce((a, b) => (textWidth(b, 1, 'bold') > textWidth(a, 1, 'bold') ? b : a));
    stack.text(words, { size: shrunkSize(longest, stack.width, most, size, 'bold'), weight: 'bold' });
  }
  const outside = [
    ...new Set(
      way.pieces.map(({ odMm }) => (inches ? lengthsIn(true).fine(odMm) : formatNumber(odMm, odMm < 10 ? 1 : 0))),
    ),
  ];
  return stack.text(`outside ${outside.join(', ')}${inches ? '' : ' mm'}`, { size: size * 0.9, role: 'soft' });
}

function gapBox(stack: Stack, way: Way, { size, inches }: BoxesWish): Stack {
  const [tightest] = gapsByMargin(way.gaps);
  if (tightest === undefined)
    return stack
      .text('least gap', { size })
      .text(`nothing within ${lengthsIn(inches).one(150)}`, { size: size * 1.3, weight: 'bold' });
  const ruler = gapRuler(lengthGauge(tightest, `gap to ${tightest.part}`, inches), {
    width: stack.width,
    size: size * 1.1,
    unit: 'mm',
  });
  return stack
    .text(`least gap: ${tightest.part}`, { size })
    .space(size * 0.2)
    .drawing(ruler)
    .text(lengthsIn(inches).text(tightest.about), { size: size * 0.8, role: 'soft' });
}

/** A radius from here on stands for straight [mm]. */
const STRAIGHT_MM = 10_000;

function bendBox(stack: Stack, way: Way, { size, inches }: BoxesWish): Stack {
  stack.text('tightest bend', { size }).space(size * 0.2);
  const hoses = way.pieces
    .filter((piece) => piece.hose !== undefined)
    .sort((p, q) => p.tightestBendMm / p.minBendRadiusMm - q.tightestBendMm / q.minBendRadiusMm);
  const [worst] = hoses;
  if (worst === undefined) {
    const bender = way.pieces[0]?.tube?.bendRadiusMm;
    return stack.text(bender === undefined ? 'none' : `bender ${lengthsIn(inches).fine(bender)}`, {
      size: size * 1.3,
      weight: 'bold',
    });
  }
  if (worst.tightestBendMm >= STRAIGHT_MM)
    return stack
      .text('straight', { size: size * 1.3, weight: 'bold' })
      .text(`the hose allows ${lengthsIn(inches).fine(worst.minBendRadiusMm)}`, { size: size * 0.9, role: 'soft' });
  const bend = worst.tightestBendMm;
  return stack.drawing(
    gapRuler(
      lengthGauge(
        { gapMm: bend, worstMm: bend, bestMm: bend, keepOffMm: worst.minBendRadiusMm },
        'tightest bend',
        inches,
      ),
      { width: stack.width, size: size * 1.1, unit: 'mm' },
    ),
  );
}

/** At most two decimals, none that is not needed. */
const short = (value: number): string => String(Number(formatNumber(value, 2)));

function dutyBox(stack: Stack, line: Line, { size, inches }: BoxesWish): Stack {
  stack.text('carries', { size });
  stack.text(line.duty.replace('-', ', '), { size: size * 1.2, weight: 'bold' });
  for (const text of dutyFigures(line, inches)) stack.text(text, { size });
  return stack;
}

/** Pressure, vacuum, temperature and flow, where the car says them. */
export function dutyFigures({ pressureBar, vacuumBar, temperatureC, flowLMin }: Line, inches: boolean): string[] {
  const pressure = (bar: number): string => (inches ? pressureWords(bar * PA_PER_BAR, 'inch') : `${short(bar)} bar`);
  const rows = [
    pressureBar === undefined ? null : `to ${pressure(pressureBar)}`,
    vacuumBar === undefined ? null : `vacuum to ${pressure(vacuumBar)}`,
    temperatureC === undefined ? null : `to ${heatWords(temperatureC, inches ? 'inch' : 'metric')}`,
    flowLMin === undefined || flowLMin === 0
      ? null
      : inches
        ? flowWords(flowLMin / LITRES_A_MINUTE, 'inch')
        : `${short(flowLMin)} L/min`,
  ];
  return rows.filter((text) => text !== null);
}

const PA_PER_BAR = 1e5;
/** In a cubic metre a second. */
const LITRES_A_MINUTE = 60_000;
