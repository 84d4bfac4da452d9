import type { FlatPattern } from '#panels';

/** A closing panel with all that a drawing can hold: arcs, an opening with drilled corners, a slot, two folds, marks, words. */
export const lid: FlatPattern = {
  panel: 'PN2R',
  name: 'Right upper closing panel over the turbo side',
  sheet: '5052-H32',
  thicknessMm: 1.2,
  grainDeg: 0,
  outline: [
    { at: [0, 0] },
    { at: [610, 0] },
    { at: [610, 338], bulge: Math.tan(Math.PI / 8) },
    { at: [590, 358] },
    { at: [240, 372], bulge: 0.08 },
    { at: [0, 341] },
  ],
  cutOuts: [
    {
      name: 'V1',
      outline: [{ at: [150, 110] }, { at: [182, 250] }, { at: [398, 250] }, { at: [430, 110] }],
    },
  ],
  holes: [
    ...[20, 134, 248, 362, 476, 590].map((x) => ({ at: [x, 12] as const, diameterMm: 7.1, for: 'rivnut M5' })),
    { at: [20, 320], diameterMm: 7.1, for: 'rivnut M5' },
    { at: [560, 320], diameterMm: 7.1, for: 'rivnut M5' },
    { at: [520, 190], diameterMm: 38, for: 'O1' },
    { at: [162, 122], diameterMm: 24, for: 'corner of V1', corner: true },
    { at: [418, 122], diameterMm: 24, for: 'corner of V1', corner: true },
  ],
  slots: [{ at: [300, 330], wideMm: 5.5, longMm: 11, turnDeg: 30, for: 'slides over the scoop' }],
  folds: [
    { from: [0, 30], to: [610, 30], way: 'up', turnDeg: 90, radiusMm: 1.6, allowanceMm: 3.32, name: 'A to B' },
    { from: [60, 30], to: [60, 340], way: 'down', turnDeg: 45, radiusMm: 3, allowanceMm: 2.73, name: 'C1' },
  ],
  slits: [{ from: [455, 330], to: [470, 367], name: 'relief D-B' }],
  meshes: [],
  seals: [{ at: 'O1', words: 'grommet for 26 mm, close fitting' }],
  marks: [{ from: [100, 30], to: [100, 345], name: 'edge of PN3' }],
  words: [
    { at: [200, 290], text: 'TOP', heightMm: 6, turnDeg: 0 },
    { at: [480, 60], text: 'OUTSIDE FACE', heightMm: 6, turnDeg: 90 },
  ],
  corners: [
    { id: 'A', at: [0, 0] },
    { id: 'B', at: [610, 0] },
    { id: 'C', at: [610, 358] },
    { id: 'D', at: [0, 341] },
  ],
};

/** Numbers from a seed, 0 to 1: the same ones each time. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
