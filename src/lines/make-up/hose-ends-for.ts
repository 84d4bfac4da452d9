import type { HoseEndRow, HoseRow } from '#standards';

/** Hose and end agree in bore to this much, where the end is sized by bore [mm]. */
const boreFitMm = 0.3;

/** Does this end go on this hose: its family, and its dash or bore? */
export function fitsHose(end: HoseEndRow, hose: HoseRow): boolean {
  if (!end.families.includes(hose.family)) return false;
  if (end.hoseDash !== undefined) return end.hoseDash === hose.dash;
  return end.hoseBoreMm !== undefined && Math.abs(end.hoseBoreMm - hose.boreMm) <= boreFitMm;
}

/** The rows of the catalogue that go on this hose. */
export const hoseEndsFor = (hose: HoseRow, rows: readonly HoseEndRow[]): readonly HoseEndRow[] =>
  rows.filter((row) => fitsHose(row, hose));
