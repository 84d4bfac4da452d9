import type { Vec } from '#geometry';
import type { Way } from '#lines';

/** A gap with its limit, as a row shows it. */
export interface TightGap {
  readonly part: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly keepOffMm: number;
  readonly atMm: Vec;
  readonly isNear: boolean;
}

/** Where a line leaves its own port it touches the part: that is no gap to tell of. */
const TOUCHES_MM = 0.05;

/** The gaps of a way, the one with the least room beyond its limit first. */
export function gapsTightestFirst(way: Pick<Way, 'gaps'>): readonly TightGap[] {
  return way.gaps
    .flatMap(({ part, gapMm, worstMm, bestMm, keepOffMm, atMm, near, beyond }): TightGap[] => [
      ...(near && keepOffMm === 0 && Math.abs(gapMm) <= TOUCHES_MM
        ? []
        : [{ part, gapMm, worstMm, bestMm, keepOffMm, atMm, isNear: near }]),
      ...(beyond === undefined ? [] : [{ part, ...beyond, bestMm: 2 * beyond.gapMm - beyond.worstMm, isNear: false }]),
    ])
    .sort((a, b) => a.gapMm - a.keepOffMm - (b.gapMm - b.keepOffMm));
}

/** How a gap stands against its limit: broken as drawn, broken at worst, or neither. */
export function gapLevel(gap: Pick<TightGap, 'gapMm' | 'worstMm' | 'keepOffMm'>): 'stop' | 'fix' | 'clear' {
  if (gap.gapMm < gap.keepOffMm - TOUCHES_MM) return 'stop';
  return gap.worstMm < gap.keepOffMm - TOUCHES_MM ? 'fix' : 'clear';
}
