import { describe, expect, it } from 'vitest';
import type { Body } from '#geometry';
import { chance } from '../planted/chance.ts';
import { BrickShelf, COARSE_MM } from './bricks.ts';
import { PlacedLines } from './far-reading.ts';

const draw = chance(41);

/** A crooked line across a bay of a metre. */
function crooked(): Body[] {
  const at = [draw.between(0, 1000), draw.between(0, 1000), draw.between(0, 600)];
  const path = Array.from({ length: 12 }, () => {
    const step = draw.direction();
    for (let k = 0; k < 3; k++) at[k] = at[k]! + 70 * step[k]!;
    return [...at];
  });
  return [{ part: 'hose', path: Float64Array.from(path.flat()), radiusMm: draw.between(6, 16) }];
}

describe('slack to lines that stand (hand: the least of each line by itself)', () => {
  it('is that of the nearest of 20 lines, wherever it is asked (seed 41)', () => {
    const shelf = new BrickShelf();
    const lines = Array.from({ length: 20 }, () => shelf.line(crooked(), 10));
    const placed = new PlacedLines(lines);
    const one = new Float64Array(4);
    const out = new Float64Array(4);
    let near = 0;
    for (let n = 0; n < 1500; n++) {
      const at = [draw.between(-50, 1050), draw.between(-50, 1050), draw.between(-50, 650)] as const;
      const least = Math.min(
        120,
        ...lines.map((line) => {
          line.slackAndGradient(...at, one);
          return one[0]!;
        }),
      );
      out.fill(0);
      out[0] = 120;
      placed.workIn(...at, out);
      expect(out[0]).toBe(least);
      const middle = at.map((v) => (Math.floor(v / COARSE_MM) + 0.5) * COARSE_MM) as unknown as typeof at;
      expect(placed.coarse(...middle, 120)).toBe(Math.min(120, ...lines.map((line) => line.coarse(...middle))));
      if (least < 60) near++;
    }
    expect(near).toBeGreaterThan(300);
  });

  it('is read once of lines that are the same, handed over anew or in the car after a change, and anew at another keep-off', () => {
    const bodies = crooked();
    const copy = structuredClone(bodies);
    const shelf = new BrickShelf();
    const first = shelf.line(bodies, 10);
    expect(shelf.line(copy, 10)).toBe(first);
    expect(new BrickShelf({ shelf, changed: new Set() }).line(structuredClone(bodies), 10)).toBe(first);
    expect(new BrickShelf({ shelf, changed: new Set() }).line(structuredClone(bodies), 12)).not.toBe(first);
    expect(new BrickShelf().line(bodies, 10)).not.toBe(first);
  });
});
