import { describe, expect, it } from 'vitest';
import { editWords, toldWords } from './edit-words.ts';

describe('a change in words', () => {
  it('says each thing once and counts what is too much to read', () => {
    const made = { do: 'set-state', line: 'O8', state: 'made' } as const;
    expect(editWords([made, made])).toBe('O8 is made');
    expect(editWords([made, { do: 'set-line', line: 'O8', field: 'signed', value: [] }])).toBe('O8 is made');
    expect(
      editWords([
        {
          do: 'several',
          edits: [
            { do: 'move-part', part: 'tank', byMm: [10, 0, -0.04] },
            { do: 'remove-line', line: 'O1' },
          ],
        },
      ]),
    ).toBe('tank moved by 10, 0, 0 mm; line O1 taken off');
    const many = Array.from({ length: 31 }, (_, i) => ({
      do: 'set-state' as const,
      line: `O${i}`,
      state: 'made' as const,
    }));
    expect(editWords(many)).toBe('O0 is made; O1 is made; O2 is made; O3 is made; and 27 more');
  });

  it('names each thing by what it is, put on, changed or taken off', () => {
    expect(
      editWords([
        { do: 'set-panel', panel: 'PN1', field: 'thicknessMm', value: 1.2 },
        { do: 'remove-heat-reading', reading: 'H1' },
        { do: 'remove-port', port: 'tank.out' },
        { do: 'remove-case', case: 'idle' },
      ]),
    ).toBe('panel PN1: thickness mm; temperature H1 taken out; port tank.out taken off; case idle taken out');
    expect(editWords([{ do: 'set-line', line: 'O1', field: 'signed', value: [] }])).toBe('O1: signed');
  });

  it('tells what a thing was set to, where that is read at a glance', () => {
    expect(toldWords([{ do: 'set-part', part: 'tank', field: 'name', value: 'Oil tank' }])).toBe(
      'tank: name is now Oil tank',
    );
    expect(toldWords([{ do: 'set-port', port: 'tank.out', field: 'atMm', value: [10, 0, 5.25] }])).toBe(
      'tank.out: at mm is now 10, 0, 5.3',
    );
    expect(toldWords([{ do: 'set-part', part: 'tank', field: 'note' }])).toBe('tank: note taken out');
    expect(toldWords([{ do: 'set-part', part: 'tank', field: 'note', value: 'x'.repeat(61) }])).toBe(
      'tank: note changed',
    );
    expect(toldWords([{ do: 'set-state', line: 'O8', state: 'proved' }])).toBe('O8 is proved');
  });
});
