import type { SourceId } from '#sources';
import type { FinishId } from './finishes.ts';

/** What is pulled over a hose. */
export interface SleeveRow {
  readonly id: string;
  readonly name: string;
  readonly kind: 'fire' | 'reflecting' | 'insulating' | 'chafe';
  readonly wallMm: number;
  readonly conductivityWPerMK: number;
  readonly densityKgM3: number;
  readonly finish: FinishId;
  /** Stands for good, and for a short time in a flame [degC]. */
  readonly continuousC: number;
  readonly flameC?: number;
  /** Words of the car file's `sleeve` that mean it. */
  readonly words: RegExp;
  readonly source: SourceId;
  readonly note?: string;
}

export const sleeves = [
  {
    id: 'fire-sleeve',
    name: 'fire sleeve: glass braid under silicone rubber',
    kind: 'fire',
    wallMm: 3.5,
    conductivityWPerMK: 0.15,
    densityKgM3: 800,
    finish: 'rubber',
    continuousC: 260,
    flameC: 1093,
    words: /fire/i,
    source: 'sleeve-crew-report',
    note: 'wall, conductivity and weight recalled; it buys time in a flame and does not raise what the hose stands',
  },
  {
    id: 'reflecting-sleeve',
    name: 'heat-reflecting sleeve: foil on glass cloth',
    kind: 'reflecting',
    wallMm: 1,
    conductivityWPerMK: 0.06,
    densityKgM3: 900,
    finish: 'foil-cloth',
    continuousC: 260,
    words: /reflect|foil|heat[- ]?shield|alumini[sz]ed|gold/i,
    source: 'from-memory',
  },
  {
    id: 'glass-sleeve',
    name: 'glass or silica braid sleeve',
    kind: 'insulating',
    wallMm: 2,
    conductivityWPerMK: 0.08,
    densityKgM3: 900,
    finish: 'glass-cloth',
    continuousC: 450,
    words: /glass|silica|basalt|ceramic/i,
    source: 'from-memory',
  },
  {
    id: 'chafe-sleeve',
    name: 'chafe sleeve: nylon or polyester braid',
    kind: 'chafe',
    wallMm: 0.8,
    conductivityWPerMK: 0.1,
    densityKgM3: 600,
    finish: 'textile',
    continuousC: 125,
    words: /chafe|nylon|polyester|spiral|wrap/i,
    source: 'from-memory',
  },
] as const satisfies readonly SleeveRow[];

/** The sleeve that a line's own words mean: by id, else by word; undefined where none is known. */
export const findSleeve = (text: string): SleeveRow | undefined =>
  sleeves.find(({ id }) => id === text) ?? sleeves.find(({ words }) => words.test(text));
