import type { SourceId } from '#sources';

/** Flats of the nut to turn after the seats touch, by seat and dash. */
export interface FlatsRow {
  readonly joint: 'flare37-hose' | 'flare37-tube' | 'flare45';
  readonly dash: number;
  readonly flats: readonly [least: number, most: number];
  readonly source: SourceId;
}

const source = 'army-tm-9-2320-364';

/** As the military vehicle manual prints them; it lists no other sizes. */
export const flatsRows = [
  { joint: 'flare37-hose', dash: 4, flats: [1.5, 1.75], source },
  { joint: 'flare37-hose', dash: 5, flats: [1, 1.5], source },
  { joint: 'flare37-hose', dash: 6, flats: [1, 1.5], source },
  { joint: 'flare37-hose', dash: 8, flats: [1.25, 1.75], source },
  { joint: 'flare37-hose', dash: 10, flats: [1.25, 1.75], source },
  { joint: 'flare37-hose', dash: 12, flats: [1, 1.5], source },
  { joint: 'flare37-hose', dash: 16, flats: [0.75, 1], source },
  { joint: 'flare37-hose', dash: 20, flats: [0.5, 0.75], source },
  { joint: 'flare37-hose', dash: 24, flats: [0.5, 0.75], source },
  { joint: 'flare37-hose', dash: 32, flats: [0.75, 0.75], source },
  { joint: 'flare37-tube', dash: 4, flats: [2.25, 2.75], source },
  { joint: 'flare37-tube', dash: 5, flats: [2.25, 2.75], source },
  { joint: 'flare37-tube', dash: 6, flats: [2.25, 2.75], source },
  { joint: 'flare37-tube', dash: 8, flats: [2.25, 2.75], source },
  { joint: 'flare37-tube', dash: 10, flats: [2, 2.5], source },
  { joint: 'flare37-tube', dash: 12, flats: [2, 2.5], source },
  { joint: 'flare37-tube', dash: 16, flats: [2.25, 2.75], source },
  { joint: 'flare37-tube', dash: 20, flats: [1.25, 1.75], source },
  { joint: 'flare37-tube', dash: 24, flats: [0.75, 1.25], source },
  { joint: 'flare37-tube', dash: 32, flats: [1, 1.25], source },
  { joint: 'flare45', dash: 4, flats: [1, 1.25], source },
  { joint: 'flare45', dash: 5, flats: [1, 1.25], source },
  { joint: 'flare45', dash: 6, flats: [0.75, 1], source },
  { joint: 'flare45', dash: 8, flats: [1, 1.25], source },
  { joint: 'flare45', dash: 10, flats: [1, 1.25], source },
  { joint: 'flare45', dash: 12, flats: [1, 1.25], source },
] as const satisfies readonly FlatsRow[];

/** Lowest and highest torque that four public equipment manuals print for an O-ring boss [lb-ft]: a band, never one figure. */
export interface BossTorqueRow {
  readonly dash: number;
  readonly torqueLbFt: readonly [least: number, most: number];
  readonly source: SourceId;
}

const manuals = 'equipment-manuals';

export const bossTorqueRows = [
  { dash: 3, torqueLbFt: [6, 9], source: manuals },
  { dash: 4, torqueLbFt: [9, 16], source: manuals },
  { dash: 5, torqueLbFt: [12, 24], source: manuals },
  { dash: 6, torqueLbFt: [18, 35], source: manuals },
  { dash: 8, torqueLbFt: [34, 60], source: manuals },
  { dash: 10, torqueLbFt: [46, 105], source: manuals },
  { dash: 12, torqueLbFt: [75, 140], source: manuals },
  { dash: 14, torqueLbFt: [90, 185], source: manuals },
  { dash: 16, torqueLbFt: [105, 220], source: manuals },
  { dash: 20, torqueLbFt: [140, 260], source: manuals },
  { dash: 24, torqueLbFt: [160, 320], source: manuals },
] as const satisfies readonly BossTorqueRow[];

/** Turns past finger-tight of taper pipe threads, as a public manual prints them. */
export const taperTurns = {
  small: { upTo: ['1/8', '1/4', '3/8'], turns: [0.75, 1.75] },
  large: { turns: [0.5, 1.5] },
  source: 'npt-manual',
} as const satisfies {
  small: { upTo: readonly string[]; turns: readonly [number, number] };
  large: { turns: readonly [number, number] };
  source: SourceId;
};
