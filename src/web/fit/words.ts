import type { Car, Line } from '#car';
import { allowanceWords } from '#book';
import { clockTime, type Way, type WayEnd } from '#lines';
import { formatMm, formatNumber, type Lengths } from '#units';
import type { TightGap } from './tightest.ts';

/** "pump.feed" as "Oil pump, feed". */
export function portWords(car: Car, ref: string): string {
  const [partId = '', portId = ''] = ref.split('.');
  const part = car.parts.find((candidate) => candidate.id === partId);
  const port = part?.ports.find((candidate) => candidate.id === portId);
  const partName = part?.name?.split(',')[0] ?? partId;
  return `${partName}, ${port?.name === undefined ? portId : lowerFirst(port.name)}`;
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** "oil suction, -16". */
export function dutyWords(line: Line, lengths: Lengths): string {
  const size =
    line.dash === undefined
      ? line.boreMm === undefined
        ? ''
        : `, ${lengths.fine(line.boreMm)} bore`
      : `, -${line.dash}`;
  return `${line.duty.replace('-', ' ')}${size}`;
}

/** "150° at half past nine", "straight". */
export function endWords(end: WayEnd): string {
  const elbow = end.adapterClockDeg === undefined ? '' : `elbow at ${clockTime(end.adapterClockDeg)}, `;
  if (end.angleDeg === 0) return `${elbow}straight`;
  return end.clockDeg === null ? `${elbow}${end.angleDeg}°` : `${elbow}${end.angleDeg}° at ${clockTime(end.clockDeg)}`;
}

/** "150° and 60°", what a way is called by. */
export function wayName(way: Way): string {
  const [a, b] = way.ends.map((end) => (end.angleDeg === 0 ? 'straight' : `${end.angleDeg}°`));
  return a === b ? `both ${a}` : `${a} and ${b}`;
}

/** "1260 mm (−10 +20)", "49 5/8 in (−3/8 +13/16)". */
export const cutWords = (piece: Way['pieces'][number], lengths: Lengths): string =>
  `${lengths.one(piece.cutLengthMm)} (${allowanceWords(piece.allowanceMm, lengths.unit === 'in')})`;

/** "58 mm (50 to 66), wants 50". */
export function gapWords(gap: TightGap, lengths: Lengths): string {
  return lengths.unit === 'in' ? lengths.gap(gap) : `${gapNumber(gap)}, wants ${formatNumber(gap.keepOffMm)}`;
}

/** A gap just short of its limit is not rounded up to it. */
function gapNumber({ gapMm, worstMm, bestMm, keepOffMm }: TightGap): string {
  const isClose = gapMm.toFixed(0) === keepOffMm.toFixed(0) && gapMm < keepOffMm;
  return `${formatMm(gapMm, isClose ? 1 : 0)} (${formatNumber(worstMm)} to ${formatNumber(bestMm)})`;
}
