import type { SourceId } from '#sources';
import type { FinishId } from './finishes.ts';

/** What is laid over a hot part, where the builder does not say more. */
export interface HeatCoverRow {
  readonly kind: 'blanket' | 'wrap' | 'shield' | 'coating';
  readonly name: string;
  readonly thicknessMm: number;
  readonly conductivityWPerMK: number;
  readonly densityKgM3: number;
  readonly finish: FinishId;
  /** Of a shield: the air between it and the part [mm]. */
  readonly airGapMm?: number;
  readonly source: SourceId;
  readonly note?: string;
}

export const heatCovers = [
  {
    kind: 'blanket',
    name: 'blanket: silica felt between stainless foil or glass cloth',
    thicknessMm: 12,
    conductivityWPerMK: 0.12,
    densityKgM3: 200,
    finish: 'glass-cloth',
    source: 'from-memory',
  },
  {
    kind: 'wrap',
    name: 'wrap: glass or basalt tape, two layers',
    thicknessMm: 3,
    conductivityWPerMK: 0.15,
    densityKgM3: 900,
    finish: 'glass-cloth',
    source: 'from-memory',
    note: 'lapped a quarter of an inch; oil-soaked wrap burns',
  },
  {
    kind: 'shield',
    name: 'shield of thin sheet with air behind it',
    thicknessMm: 0.6,
    conductivityWPerMK: 15,
    densityKgM3: 7900,
    finish: 'stainless-sheet',
    airGapMm: 12,
    source: 'common-practice',
  },
  {
    kind: 'coating',
    name: 'ceramic coating',
    thicknessMm: 0.1,
    conductivityWPerMK: 1,
    densityKgM3: 4000,
    finish: 'alumina-sprayed',
    source: 'from-memory',
    note: 'so thin that it holds back little; one report: it doubled the time to melt, foil stopped it',
  },
] as const satisfies readonly HeatCoverRow[];

/** The usual cover of this kind. */
export const heatCover = (kind: HeatCoverRow['kind']): HeatCoverRow => heatCovers.find((row) => row.kind === kind)!;
