import { describe, expect, it } from 'vitest';
import { hashOf, placeFrom } from './place.ts';

describe('an address', () => {
  it('comes back as it was written, whatever letters an id has', () => {
    for (const id of ['O8', 'Ölrücklauf-1', 'O1-keep-off-a/b', '100%', 'a%2Fb'])
      expect(placeFrom(hashOf({ car: 'fellside', paper: { kind: 'snag', id } }))).toEqual({
        car: 'fellside',
        paper: { kind: 'snag', id },
      });
  });

  it('that names nothing known opens the list of lines', () => {
    expect(placeFrom('#/fellside/cockpit/7')).toEqual({ car: 'fellside', paper: { kind: 'lines' } });
    expect(placeFrom('#/fellside/line')).toEqual({ car: 'fellside', paper: { kind: 'lines' } });
    expect(placeFrom('')).toEqual({ car: null, paper: { kind: 'lines' } });
  });
});
