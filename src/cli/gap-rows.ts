import { type GapLine, gapsByMargin } from '#book';
import type { WayGap } from '#lines';
import { formatNumber } from '#units';
import { gapRuler } from './gap-ruler.ts';
import type { Style } from './style.ts';

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

/** "61 mm (52 to 70), wants 50". */
export const gapText = (gap: Omit<GapLine, 'about'>): string =>
  `${whole(gap.gapMm)} mm (${whole(gap.worstMm)} to ${whole(gap.bestMm)}), wants ${whole(gap.keepOffMm)}`;

const whole = (mm: number): string => formatNumber(mm);
