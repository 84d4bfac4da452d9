import { describe, expect, it } from 'vitest';
import { cssColour, type Rgb, scaleColour, scaleFor, shareOf, ticksOf } from './heat-scale.ts';

/** Light that a screen gives for a number. */
const linear = (value: number): number => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
/** Lightness L* of CIE 1976, from the luminance of Rec. 709. */
function lightness([r, g, b]: Rgb): number {
  const y = 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  return y > 0.008856 ? 116 * Math.cbrt(y) - 16 : 903.3 * y;
}

/** How eyes without red, without green, see a colour: linear-light matrices of Vienot, Brettel, Mollon 1999, from memory. */
const seen = {
  'without red': ([r, g, b]: Rgb): Rgb => [0.11238 * r + 0.88762 * g, 0.11238 * r + 0.88762 * g, 0.00401 * (r - g) + b],
  'without green': ([r, g, b]: Rgb): Rgb => [
    0.29275 * r + 0.70725 * g,
    0.29275 * r + 0.70725 * g,
    b - 0.02234 * (r - g),
  ],
} as const;

const steps = Array.from({ length: 11 }, (_, i) => i / 10);

describe('the scale of temperatures', () => {
  it('second: is what the polynomial of the open library gives in another program at 0, 0.1, 0.5 and 1', () => {
    expect([0, 0.1, 0.5, 1].map(cssColour)).toEqual([
      'rgb(0 32 81)',
      'rgb(10 50 106)',
      'rgb(127 124 117)',
      'rgb(253 234 69)',
    ]);
  });

  it('physics: is lighter with each step, by much the same, also to eyes that miss red or green', () => {
    for (const eye of [(c: Rgb) => c, ...Object.values(seen)]) {
      const light = steps.map((share) => {
        const colour = eye(scaleColour(share).map(linear) as unknown as Rgb);
        const y = 0.2126 * colour[0] + 0.7152 * colour[1] + 0.0722 * colour[2];
        return y > 0.008856 ? 116 * Math.cbrt(y) - 16 : 903.3 * y;
      });
      const rises = light.slice(1).map((value, i) => value - light[i]!);
      expect(Math.min(...rises)).toBeGreaterThan(4);
      expect(Math.max(...rises)).toBeLessThan(12);
    }
    expect(lightness(scaleColour(1)) - lightness(scaleColour(0))).toBeGreaterThan(70);
  });

  it('hand: spans round numbers; what glows shares the last quarter and is told apart there', () => {
    const glowing = { fromC: 25, toC: 250, glowC: 800 };
    expect(scaleFor([28, 143, 790])).toEqual(glowing);
    expect([25, 250, 525, 800].map((c) => shareOf(glowing, c))).toEqual([0, 0.75, 0.875, 1]);
    expect(cssColour(shareOf(glowing, 600))).not.toBe(cssColour(shareOf(glowing, 750)));
    expect(scaleFor([28, 143])).toEqual({ fromC: 25, toC: 150 });
    expect(scaleFor([60])).toEqual({ fromC: 50, toC: 100 });
    expect(scaleFor([])).toEqual({ fromC: 0, toC: 100 });
    expect(shareOf({ fromC: 25, toC: 125 }, 75)).toBe(0.5);
    expect(ticksOf({ fromC: 25, toC: 150 })).toEqual([25, 50, 75, 100, 125, 150]);
    expect(ticksOf({ fromC: 25, toC: 250 })).toEqual([25, 75, 125, 175, 250]);
    expect(ticksOf(glowing)).toEqual([25, 75, 125, 175, 250, 800]);
  });
});
