import { gapsByMargin } from '#book';
import type { WayGap } from '#lines';
import { gapRuler } from './gap-ruler.ts';
import type { Lengths } from '#units';
import type { Style } from './style.ts';

const SCALE_MM = 150;
const CELLS = 31;
const MOST_ROWS = 6;

/** The gaps of a way, tightest against its keep-off first: a ruler, the number with its spread, what is wanted and who says so. */
export function gapRows(gaps: readonly WayGap[], style: Style, lengths: Lengths): string[] {
  const rows = gapsByMargin(gaps);
  if (rows.length === 0) return [lengths.text('nothing within 150 mm')];
  const shown = rows.slice(0, MOST_ROWS);
  const width = Math.max(...shown.map((row) => row.part.length));
  const out = shown.map((row) => {
    const ruler = gapRuler({ ...row, valueMm: row.gapMm, limitMm: row.keepOffMm }, SCALE_MM, CELLS).padEnd(CELLS);
    const text = `${row.part.padEnd(width)}  ${ruler}  ${lengths.gap(row)}, ${lengths.text(row.about)}`;
    if (row.gapMm < row.keepOffMm) return style.stop(text);
    return row.worstMm < row.keepOffMm ? style.fix(text) : text;
  });
  return rows.length > MOST_ROWS ? [...out, style.soft(`and ${rows.length - MOST_ROWS} more with more room`)] : out;
}
