import type { SourceId } from '#sources';

/** What a kind of fixing asks of the panel that it holds. */
export interface PanelFixingRow {
  readonly kind: 'rivet' | 'rivnut' | 'screw' | 'quarter-turn' | 'bond' | 'weld';
  readonly size: string;
  /** Shank or stud [mm]. */
  readonly shankMm: number;
  /** Hole in the panel [mm]; 0 where none is drilled. */
  readonly holeMm: number;
  /** Most distance between two where the car does not say, and the most that is usual [mm]. */
  readonly pitchMm: number;
  readonly mostPitchMm: number;
  readonly source: SourceId;
}

/** Holes of screws after ISO 273, medium; rivets with a tenth to drop in; quarter-turns differ by make: measure the one in your hand. */
export const panelFixings = [
  { kind: 'rivet', size: '2.4', shankMm: 2.4, holeMm: 2.5, pitchMm: 40, mostPitchMm: 50, source: 'common-practice' },
  { kind: 'rivet', size: '3.2', shankMm: 3.2, holeMm: 3.3, pitchMm: 40, mostPitchMm: 50, source: 'common-practice' },
  { kind: 'rivet', size: '4', shankMm: 4, holeMm: 4.1, pitchMm: 50, mostPitchMm: 50, source: 'common-practice' },
  { kind: 'rivet', size: '4.8', shankMm: 4.8, holeMm: 4.9, pitchMm: 50, mostPitchMm: 50, source: 'common-practice' },
  { kind: 'rivnut', size: 'M5', shankMm: 5, holeMm: 5.5, pitchMm: 100, mostPitchMm: 120, source: 'iso-273-medium' },
  { kind: 'rivnut', size: 'M4', shankMm: 4, holeMm: 4.5, pitchMm: 100, mostPitchMm: 120, source: 'iso-273-medium' },
  { kind: 'rivnut', size: 'M6', shankMm: 6, holeMm: 6.6, pitchMm: 120, mostPitchMm: 120, source: 'iso-273-medium' },
  { kind: 'screw', size: 'M5', shankMm: 5, holeMm: 5.5, pitchMm: 100, mostPitchMm: 120, source: 'iso-273-medium' },
  { kind: 'screw', size: 'M4', shankMm: 4, holeMm: 4.5, pitchMm: 100, mostPitchMm: 120, source: 'iso-273-medium' },
  { kind: 'screw', size: 'M6', shankMm: 6, holeMm: 6.6, pitchMm: 120, mostPitchMm: 120, source: 'iso-273-medium' },
  {
    kind: 'quarter-turn',
    size: '6',
    shankMm: 6,
    holeMm: 7,
    pitchMm: 150,
    mostPitchMm: 200,
    source: 'generic-dimensions',
  },
  { kind: 'bond', size: '', shankMm: 0, holeMm: 0, pitchMm: 0, mostPitchMm: 0, source: 'common-practice' },
  { kind: 'weld', size: '', shankMm: 0, holeMm: 0, pitchMm: 0, mostPitchMm: 0, source: 'common-practice' },
] as const satisfies readonly PanelFixingRow[];

/** The row of a kind and size, or the kind's usual one where the size is not said or not in the table. */
export function panelFixing(kind: PanelFixingRow['kind'], size?: string): PanelFixingRow {
  const rows: readonly PanelFixingRow[] = panelFixings.filter((row) => row.kind === kind);
  const usual = kind === 'rivet' ? rows[1]! : rows[0]!;
  if (size === undefined) return usual;
  const asked = size
    .trim()
    .toUpperCase()
    .replace(/\s*MM$/, '')
    .replace(/\.0$/, '');
  return rows.find((row) => row.size.toUpperCase() === asked) ?? usual;
}
