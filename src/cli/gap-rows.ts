import type { WayGap } from '#lines';
import { formatNumber } from '#units';
import { gapRuler } from './gap-ruler.ts';
import type { Style } from './style.ts';

/** A gap as one row of a card. */
export interface GapLine {
  readonly part: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly keepOffMm: number;
  readonly about: string;
}

const SCALE_MM = 150;
const CELLS = 31;
const MOST_ROWS = 6;

/** The gaps of a way, tightest against its keep-off first: a ruler, the number with its spread, what is wanted and who says so. */
export function gapRows(gaps: readonly WayGap[], style: Style): string[] {
  const rows = gapsByMargin(gaps);
  if (rows.length === 0) return ['nothing within 150 mm'];
  const shown = rows.slice(0, MOST_ROWS);
  const width = Math.max(...shown.map((row) => row.part.length));
  const out = shown.map((row) => {
    const ruler = gapRuler({ ...row, valueMm: row.gapMm, limitMm: row.keepOffMm }, SCALE_MM, CELLS).padEnd(CELLS);
    const text = `${row.part.padEnd(width)}  ${ruler}  ${gapText(row)}, ${row.about}`;
    if (row.gapMm < row.keepOffMm) return style.stop(text);
    return row.worstMm < row.keepOffMm ? style.fix(text) : text;
  });
  return rows.length > MOST_ROWS ? [...out, style.soft(`and ${rows.length - MOST_ROWS} more with more room`)] : out;
}

/** Every gap of a way that has a limit to keep, the one with the least room beyond its limit first. */
export function gapsByMargin(gaps: readonly WayGap[]): GapLine[] {
  return gaps.flatMap(rowsOf).sort((p, q) => p.gapMm - p.keepOffMm - (q.gapMm - q.keepOffMm));
}

/** "61 mm (52 to 70), wants 50". */
export const gapText = (gap: Omit<GapLine, 'about'>): string =>
  `${whole(gap.gapMm)} mm (${whole(gap.worstMm)} to ${whole(gap.bestMm)}), wants ${whole(gap.keepOffMm)}`;

const whole = (mm: number): string => formatNumber(mm);

/** A port's own part touches the line by its nature: what counts there is the gap beyond the port. */
function rowsOf(gap: WayGap): GapLine[] {
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
