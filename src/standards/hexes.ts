import type { SourceId } from '#sources';
import { mmFromInches } from '#units';

/** Hex across flats [in] by dash. A hex belongs to the part: these are the usual ones, never derived. */
export interface HexRow {
  readonly on: 'flare37-nut' | 'boss-fitting';
  readonly dash: number;
  readonly acrossFlatsIn: number;
  readonly source: SourceId;
}

export const hexes = [
  { on: 'flare37-nut', dash: 3, acrossFlatsIn: 0.4375, source: 'equipment-manuals' },
  { on: 'flare37-nut', dash: 4, acrossFlatsIn: 0.5625, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 5, acrossFlatsIn: 0.625, source: 'equipment-manuals' },
  { on: 'flare37-nut', dash: 6, acrossFlatsIn: 0.6875, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 8, acrossFlatsIn: 0.875, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 10, acrossFlatsIn: 1, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 12, acrossFlatsIn: 1.25, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 14, acrossFlatsIn: 1.375, source: 'equipment-manuals' },
  { on: 'flare37-nut', dash: 16, acrossFlatsIn: 1.5, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 20, acrossFlatsIn: 2, source: 'army-tm-55-1520' },
  { on: 'flare37-nut', dash: 24, acrossFlatsIn: 2.25, source: 'from-memory' },
  { on: 'flare37-nut', dash: 32, acrossFlatsIn: 2.875, source: 'from-memory' },
  { on: 'boss-fitting', dash: 3, acrossFlatsIn: 0.5, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 4, acrossFlatsIn: 0.5625, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 5, acrossFlatsIn: 0.625, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 6, acrossFlatsIn: 0.6875, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 8, acrossFlatsIn: 0.875, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 10, acrossFlatsIn: 1, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 12, acrossFlatsIn: 1.25, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 14, acrossFlatsIn: 1.375, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 16, acrossFlatsIn: 1.5, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 20, acrossFlatsIn: 1.875, source: 'equipment-manuals' },
  { on: 'boss-fitting', dash: 24, acrossFlatsIn: 2.125, source: 'equipment-manuals' },
] as const satisfies readonly HexRow[];

const acrossFlatsMm = (on: HexRow['on'], dash: number): number => {
  const row = hexes.find((r) => r.on === on && r.dash === dash);
  if (row === undefined) throw new RangeError(`standards: no usual ${on} hex for -${dash}; the table has -3 to -24`);
  return Number(mmFromInches(row.acrossFlatsIn).toFixed(2));
};

/** Usual hex of a 37-degree swivel nut across flats [mm]. */
export const nutHexMm = (dash: number): number => acrossFlatsMm('flare37-nut', dash);
/** Usual hex of an O-ring-boss fitting across flats [mm]. */
export const bossHexMm = (dash: number): number => acrossFlatsMm('boss-fitting', dash);
/** Across corners of a sharp hexagon: 2/sqrt(3) of across flats; the greatest it can be. */
export const acrossCornersMm = (acrossFlats: number): number => Number(((acrossFlats * 2) / Math.sqrt(3)).toFixed(2));
