/** What one ruler shows [mm]. */
export interface Gauge {
  readonly valueMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly limitMm: number;
}

const DEAD = '░';
const POST = '┃';
const WHISKER = '─';
const NOMINAL = '●';
const BROKEN = '▲';
const BEYOND = '→';

/**
 * How close, in one row: the dead ground before the limit shaded, the limit as a post, the value as a dot with its whisker from
 * worst to best. Short of the limit the dot is a triangle, so that it reads without colour. `scaleMm` is the whole width.
 */
export function gapRuler(gauge: Gauge, scaleMm: number, cells: number): string {
  const at = (mm: number): number => Math.min(cells, Math.max(0, Math.round((mm / scaleMm) * (cells - 1))));
  const post = at(gauge.limitMm);
  const row: string[] = Array.from({ length: cells }, (_, i) => (i < post && gauge.limitMm > 0 ? DEAD : ' '));
  if (gauge.limitMm > 0 && post < cells) row[post] = POST;
  for (let i = at(gauge.worstMm); i <= at(gauge.bestMm) && i < cells; i++) if (row[i] !== POST) row[i] = WHISKER;
  const dot = at(gauge.valueMm);
  const isBroken = gauge.valueMm < gauge.limitMm;
  if (gauge.valueMm > scaleMm) row[cells - 1] = BEYOND;
  else row[beside(dot, post, isBroken, gauge.limitMm, cells)] = isBroken ? BROKEN : NOMINAL;
  return row.join('').trimEnd();
}

/** The dot never hides the post: it stands on the side it belongs to. */
function beside(dot: number, post: number, isBroken: boolean, limitMm: number, cells: number): number {
  if (limitMm <= 0) return Math.min(dot, cells - 1);
  if (isBroken) return Math.max(0, Math.min(dot, post - 1));
  return Math.min(cells - 1, Math.max(dot, post + 1));
}
