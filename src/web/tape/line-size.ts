import type { Line, PortEnd } from '#car';
import { dashSizes } from '#standards';
import type { Parsed } from '#units';
import { tapeMm, type TapeUnit } from './tape-text.ts';

/** The size of a line as it is picked: a dash size, or a bore to be typed. */
export interface SizeDraft {
  /** "" = not picked, "12" = -12, "bore". */
  readonly pick: string;
  readonly bore: string;
}

export const lineDashes: readonly number[] = dashSizes.map(({ dash }) => dash);

/** Walls of a spigot for a clamped hose: the hose's bore is the spigot's outside. */
const bySpigot = new Set<PortEnd['type']>(['bead', 'barb', 'plain-tube']);

/** The size that the ports ask for: the dash size of either, or the bore that goes over a spigot; the first port counts. */
export function sizeOfEnds(ends: readonly (PortEnd | undefined)[]): SizeDraft {
  for (const end of ends) {
    if (end === undefined) continue;
    if (end.dash !== undefined && lineDashes.includes(end.dash)) return { pick: `${end.dash}`, bore: '' };
    if (bySpigot.has(end.type) && end.odMm !== undefined) return { pick: 'bore', bore: `${end.odMm} mm` };
  }
  return { pick: '', bore: '' };
}

/** What a line is made to, or what is missing. */
export function lineSize({ pick, bore }: SizeDraft, unit: TapeUnit): Parsed<Pick<Line, 'dash' | 'boreMm'>> {
  if (pick === '') return { ok: false, fault: 'a size is wanted: the ports do not say one', ways: [] };
  if (pick !== 'bore') return { ok: true, value: { dash: Number(pick) } };
  const read = tapeMm(bore, unit);
  if (!read.ok) return read;
  if (read.value <= 0 || read.value > 500)
    return { ok: false, fault: `"${bore}" is no bore; above 0, at most 500 mm is allowed`, ways: [] };
  return { ok: true, value: { boreMm: Math.round(read.value * 100) / 100 } };
}
export const sizeDraft = (line: Line): SizeDraft =>
  line.dash !== undefined
    ? { pick: `${line.dash}`, bore: '' }
    : line.boreMm !== undefined
      ? { pick: 'bore', bore: `${line.boreMm} mm` }
      : { pick: '', bore: '' };
