import { describe, expect, it } from 'vitest';
import { type End } from '#standards';
import { tightening } from './tightening.ts';
import { bossTorqueRows } from './tightening-table.ts';

const flare = (dash: number) => ({
  open: { type: 'flare37-male', dash } as End,
  entry: { type: 'flare37-female', dash } as End,
});
const boss = (dash: number) => ({ open: { type: 'orb', dash } as End, entry: { type: 'orb-stud', dash } as End });

describe('tightening', () => {
  // published: US Army TM 9-2320-364-20-4 table 2-67, flats after seat contact.
  it.each([
    [4, '1 1/2 to 1 3/4'],
    [8, '1 1/4 to 1 3/4'],
    [12, '1 to 1 1/2'],
    [16, '3/4 to 1'],
    [20, '1/2 to 3/4'],
    [32, '3/4'],
  ])('a -%i hose nut: %s flats', (dash, flats) => {
    expect(tightening(flare(dash)).words).toContain(`then ${flats} flats`);
    expect(tightening(flare(dash)).source).toBe('army-tm-9-2320-364');
  });

  it("turns a flared tube's nut further than a hose nut, and a 45-degree nut by its own row", () => {
    // published: same table: -6 flared tube 2 1/4 to 2 3/4; 45 degrees 3/4 to 1.
    expect(tightening(flare(6), { onTube: true }).words).toContain('2 1/4 to 2 3/4 flats');
    expect(
      tightening({ open: { type: 'flare45-male', dash: 6 }, entry: { type: 'flare45-female', dash: 6 } }).words,
    ).toContain('3/4 to 1 flats');
  });

  it('does not guess flats for a size that the table leaves out', () => {
    expect(tightening(flare(3)).words).toMatch(/no published flats/u);
  });

  it('prints a band for an O-ring boss, never one figure, until the builder enters his own', () => {
    // published: -10 from 46 to 105 lb-ft over four manuals; 1 lb-ft = 1.3558 Nm: 62 and 142.
    expect(tightening(boss(10)).words).toContain('62 to 142 Nm');
    for (const { dash } of bossTorqueRows) expect(tightening(boss(dash)).words).toMatch(/ \d+ to \d+ Nm /u);
    expect(tightening(boss(10), { ownNm: 70 })).toEqual({ words: '70 Nm (your own figure)', source: 'builder' });
  });

  it('turns a taper thread past finger-tight and never back', () => {
    // published (npt-manual): 1/8 to 3/8: 3/4 to 1 3/4 turns; 1/2 to 2: 1/2 to 1 1/2.
    const taper = (pipe: string) =>
      tightening({ open: { type: 'npt-female', pipe }, entry: { type: 'npt-male', pipe } }).words;
    expect(taper('1/8')).toContain('3/4 to 1 3/4 turns past finger-tight, never backed off');
    expect(taper('1/2')).toContain('1/2 to 1 1/2 turns');
  });

  it('has words for every other joint', () => {
    for (const [open, entry] of [
      [
        { type: 'metric-washer', thread: 'M14x1.5' },
        { type: 'metric-washer-stud', thread: 'M14x1.5' },
      ],
      [
        { type: 'bead', odMm: 38 },
        { type: 'hose-bore', odMm: 38 },
      ],
      [
        { type: 'flange2', dash: 12 },
        { type: 'flange2-foot', dash: 12 },
      ],
      [
        { type: 'inverted-flare', thread: 'M10x1' },
        { type: 'inverted-flare-nut', thread: 'M10x1' },
      ],
      [
        { type: 'tube-socket', odMm: 9.53 },
        { type: 'plain-tube', odMm: 9.53 },
      ],
    ] as [End, End][])
      expect(tightening({ open, entry }).words.length).toBeGreaterThan(10);
  });
});
