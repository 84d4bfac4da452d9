import { describe, expect, it } from 'vitest';
import type { Lever } from '#car';
import { leverDraft, leverEdits, leverFrom } from './lever-draft.ts';

const lever: Lever = {
  id: 'K1',
  acts: 'hand',
  pivotMm: [600, 300, 350.125],
  axis: [0, 1, 0],
  handle: { atMm: [600, 230, 570] },
  arms: [{ id: 'shift', atMm: [600, 350, 306] }],
  turnDeg: [-22, 22.5],
};

describe('a lever moved by numbers', () => {
  it('that nothing is done to needs no edit', () => {
    const read = leverFrom(lever, leverDraft(lever), 'mm');
    expect(read.ok && leverEdits(lever, read.value, true)).toEqual([]);
  });

  it('is one step, with how it was where that is wanted', () => {
    const read = leverFrom(lever, { ...leverDraft(lever), handle: '24; 9; 20 in' }, 'mm');
    // hand: a number without a unit has that of the last; 24, 9 and 20 times 25.4.
    expect(read.ok && read.value.handle?.atMm).toEqual([609.6, 228.6, 508]);
    const metric = leverFrom(lever, { ...leverDraft(lever), handle: '600; 230; 510', low: '-20' }, 'mm');
    expect(metric.ok && leverEdits(lever, metric.value, true)).toEqual([
      {
        do: 'several',
        edits: [
          { do: 'set-lever', lever: 'K1', field: 'handle', value: { atMm: [600, 230, 510] } },
          { do: 'set-lever', lever: 'K1', field: 'turnDeg', value: [-20, 22.5] },
          {
            do: 'set-lever',
            lever: 'K1',
            field: 'was',
            value: { handle: { atMm: [600, 230, 570] }, turnDeg: [-22, 22.5] },
          },
        ],
      },
    ]);
  });

  it.each([
    [{ pivot: '600; 300' }, /^Pivot: "600; 300" is not that; three lengths/u],
    [{ arms: { shift: '' } }, /^Arm shift: nothing stands there/u],
    [{ low: '5' }, /"5" is no end of it; -350 to 0 deg/u],
  ])('says what is wrong: %j', (change, words) => {
    const read = leverFrom(lever, { ...leverDraft(lever), ...change }, 'mm');
    expect(read.ok ? 'none' : read.fault).toMatch(words);
  });
});
