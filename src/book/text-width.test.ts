import { describe, expect, it } from 'vitest';
import { brokenText, cutText, fewRows } from './text-block.ts';
import { textWidth } from './text-width.ts';

describe('the width of a text', () => {
  // second: canvas measureText of Chromium 147 with the bundled font at 1000 px, weights 400 and 700, kerning on.
  it.each([
    ['0123456789', 4970, 5280],
    ['385 mm', 3349, 3498],
    ['-4 PTFE', 3107, 3270],
    ['turbo oil feed', 5596, 5934],
    ['Nut onto 37° seat, -4: by hand until the seats touch', 20875, 22060],
    ['half past nine', 5613, 5958],
    ['±½¾×·–', 3327, 3500],
    ['Öl und Straße', 5713, 6041],
    ['least gap', 3725, 3941],
  ] as const)('of "%s" is what a browser measures, two in a hundred more at most', (text, regular, bold) => {
    // The table has no kerning, which only ever draws letters together here.
    for (const [weight, told] of [['regular', regular] as const, ['bold', bold] as const]) {
      const width = textWidth(text, 1000, weight);
      expect(width).toBeGreaterThan(told * 0.995);
      expect(width).toBeLessThan(told * 1.02);
    }
  });

  it('counts a whole size for a letter that the font does not have', () => {
    expect(textWidth('漢', 10)).toBe(10);
    expect(textWidth('𝄞', 10)).toBe(10);
  });
});

describe('a text in a width', () => {
  const width = 60;
  it('is broken between words, and within a word that is too long by itself', () => {
    const text = 'a clamp every 300 mm and onewordthatislongerthanthewholerow at the end';
    const rows = brokenText(text, width, 4);
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) expect(textWidth(row, 4)).toBeLessThanOrEqual(width);
    expect(rows.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
  });

  it.each([
    'fill it slowly up to 80 % of what it holds',
    'runs out of it, all of 0.06 L from O4',
    'open-end for it 1 1/2 in): one bent for it',
    'H1 and B2 are at 1891 mm on a bracket',
    'an end with a flare (1 5/16-12) †',
    'as high as it will go: 1.59 US gal; not below',
  ])('keeps a number with its unit, its fraction and its mark: %s', (text) => {
    // At every width at which a row may end between the two.
    for (let wide = 30; wide < textWidth(text, 4); wide += 1)
      for (const row of brokenText(text, wide, 4).slice(1))
        expect(row, String(wide)).not.toMatch(/^(?:%|L\b|mm|in\)|1\/2|5\/16|†|US|gal)/u);
    // Where not even both have room, they part.
    expect(brokenText('1234 mm', textWidth('1234', 4), 4)).toEqual(['1234', 'mm']);
  });

  it('is cut with an ellipsis where it must stay in few rows', () => {
    const rows = fewRows('one two three four five six seven eight nine ten eleven twelve', 40, 2, 4);
    expect(rows).toHaveLength(2);
    expect(rows[1]).toMatch(/…$/);
    for (const row of rows) expect(textWidth(row, 4)).toBeLessThanOrEqual(40);
    expect(cutText('short', 40, 4)).toBe('short');
  });

  it('has no ends of line in it', () => {
    expect(brokenText('a\n\tb\u0000c', 100, 4)).toEqual(['a b c']);
  });
});
