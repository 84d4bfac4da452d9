import type { WayGap } from '#lines';

/** A gap of a way that has a limit to keep. */
export interface GapLine {
  readonly part: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly keepOffMm: number;
  /** Who says so, and whether near a port or away from it. */
  readonly about: string;
}

/** Every gap of a way that has a limit to keep, the one with the least room beyond its limit first. */
export function gapsByMargin(gaps: readonly WayGap[]): GapLine[] {
  return gaps.flatMap(linesOf).sort((p, q) => p.gapMm - p.keepOffMm - (q.gapMm - q.keepOffMm));
}

/** A port's own part touches the line by its nature: what counts there is the gap beyond the port. */
function linesOf(gap: WayGap): GapLine[] {
  const source = gap.source ?? 'the car file';
  const here: GapLine = {
    part: gap.part,
    gapMm: gap.gapMm,
    worstMm: gap.worstMm,
    bestMm: gap.bestMm,
    keepOffMm: gap.keepOffMm,
    about: source,
  };
  if (!gap.near) return [here];
  const isOwn = gap.keepOffMm <= 0;
  const nearRow = isOwn ? [] : [{ ...here, about: `${source}: relaxed there` }];
  if (gap.beyond === undefined) return nearRow;
  const { gapMm, worstMm, keepOffMm } = gap.beyond;
  return [
    ...nearRow,
    { part: gap.part, gapMm, worstMm, bestMm: 2 * gapMm - worstMm, keepOffMm, about: beyondSource(source) },
  ];
}

/** "near a port (beyond: 6 mm, common practice, fixed structure)" -> what holds beyond. */
function beyondSource(source: string): string {
  const found = /\(beyond: [\d.]+ mm, (?<why>.*)\)$/u.exec(source)?.groups?.['why'];
  return found === undefined ? 'away from the port' : `${found}, away from the port`;
}
