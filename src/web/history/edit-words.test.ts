import { describe, expect, it } from 'vitest';
import { editWords } from './edit-words.ts';

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
});
