import type { SourceId } from '#sources';

/** Total emissivity of a surface, with what tables and samples of it spread over. */
export interface FinishRow {
  readonly id: string;
  readonly name: string;
  readonly emissivity: number;
  readonly spread: readonly [least: number, most: number];
  readonly source: SourceId;
  readonly note?: string;
}

/** How surfaces shine. Printed ranges take their middle as the value. */
export const finishes = [
  {
    id: 'stainless-used',
    name: 'stainless after repeated heating, such as used exhaust tube',
    emissivity: 0.6,
    spread: [0.5, 0.7],
    source: 'emissivity-tables',
  },
  {
    id: 'aluminium-polished',
    name: 'aluminium, polished',
    emissivity: 0.05,
    spread: [0.04, 0.06],
    source: 'emissivity-tables',
  },
  {
    id: 'aluminium-sheet',
    name: 'aluminium sheet as it comes',
    emissivity: 0.09,
    spread: [0.06, 0.2],
    source: 'emissivity-tables',
    note: 'printed 0.09 at 90 to 100 degC; the spread is ours: handling dulls it',
  },
  {
    id: 'aluminium-oxidised',
    name: 'aluminium, heavily oxidised',
    emissivity: 0.27,
    spread: [0.2, 0.33],
    source: 'emissivity-tables',
  },
  {
    id: 'steel-polished',
    name: 'steel, polished',
    emissivity: 0.085,
    spread: [0.07, 0.1],
    source: 'emissivity-tables',
  },
  {
    id: 'alumina-sprayed',
    name: 'alumina, flame-sprayed, as of a ceramic coating',
    emissivity: 0.8,
    spread: [0.5, 0.85],
    source: 'emissivity-tables',
    note: 'printed 0.8 cold; the lower end is recalled for hot coatings',
  },
  {
    id: 'stainless-sheet',
    name: 'stainless sheet, clean',
    emissivity: 0.2,
    spread: [0.1, 0.35],
    source: 'from-memory',
  },
  {
    id: 'cast-iron',
    name: 'cast iron, oxidised',
    emissivity: 0.75,
    spread: [0.6, 0.9],
    source: 'from-memory',
  },
  { id: 'cast-aluminium', name: 'cast aluminium, used', emissivity: 0.3, spread: [0.15, 0.5], source: 'from-memory' },
  { id: 'steel-rusty', name: 'steel, rusty', emissivity: 0.8, spread: [0.6, 0.9], source: 'from-memory' },
  { id: 'galvanised', name: 'galvanised steel, dull', emissivity: 0.28, spread: [0.2, 0.4], source: 'from-memory' },
  { id: 'anodised', name: 'anodised aluminium', emissivity: 0.8, spread: [0.6, 0.9], source: 'from-memory' },
  {
    id: 'paint',
    name: 'paint of any colour but metallic',
    emissivity: 0.92,
    spread: [0.85, 0.97],
    source: 'from-memory',
  },
  { id: 'aluminium-paint', name: 'aluminium paint', emissivity: 0.4, spread: [0.27, 0.55], source: 'from-memory' },
  { id: 'rubber', name: 'rubber, silicone, plastic', emissivity: 0.92, spread: [0.86, 0.95], source: 'from-memory' },
  { id: 'textile', name: 'textile or aramid braid', emissivity: 0.88, spread: [0.75, 0.95], source: 'from-memory' },
  {
    id: 'steel-braid',
    name: 'stainless wire braid',
    emissivity: 0.4,
    spread: [0.25, 0.6],
    source: 'from-memory',
    note: 'the wires hide dark gaps between them: more than the plain metal',
  },
  { id: 'glass-cloth', name: 'glass or silica cloth', emissivity: 0.85, spread: [0.75, 0.95], source: 'from-memory' },
  {
    id: 'foil-cloth',
    name: 'foil bonded to cloth, clean',
    emissivity: 0.1,
    spread: [0.04, 0.25],
    source: 'from-memory',
    note: 'dirt and oil take the shine away: wipe it, and count with the upper end',
  },
  { id: 'gold-foil', name: 'gold foil tape, clean', emissivity: 0.05, spread: [0.03, 0.15], source: 'from-memory' },
  { id: 'composite', name: 'carbon or glass laminate', emissivity: 0.9, spread: [0.8, 0.95], source: 'from-memory' },
  {
    id: 'machinery',
    name: 'engine and gearbox metal as found: cast, oily, part painted',
    emissivity: 0.6,
    spread: [0.3, 0.9],
    source: 'common-practice',
  },
] as const satisfies readonly FinishRow[];

export type FinishId = (typeof finishes)[number]['id'];

/** The finish with this id; undefined where there is none. */
export const findFinish = (id: string): FinishRow | undefined => finishes.find((row) => row.id === id);

/** The finish with this id, which is in the table. */
export const finishOf = (id: FinishId): FinishRow => finishes.find((row) => row.id === id)!;
