import { describe, expect, it } from 'vitest';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { CellCosts, HEADING_BINS, headingBin, placeKey } from './pose-store.ts';

describe("costs by cell, against the language's own map (second method)", () => {
  it('keeps the last cost of each key and what is closed, past several enlargements', () => {
    const rng = xoroshiro128plus(5);
    const draw = (from: number, to: number) => from + ((rng.next() >>> 0) / 2 ** 32) * (to - from);
    const [mine, costs, closed] = [new CellCosts(), new Map<number, number>(), new Set<number>()];
    let wrong = 0;
    for (let n = 0; n < 60_000; n++) {
      const at = [draw(-400, 400), draw(-400, 400), draw(-400, 400)] as const;
      const key = placeKey(...at, 20) * HEADING_BINS + headingBin(draw(-1, 1), draw(-1, 1), draw(-1, 1));
      if (mine.costOf(key) !== (costs.get(key) ?? Infinity)) wrong++;
      mine.set(key, n);
      costs.set(key, n);
      if (n % 3 > 0) continue;
      if (mine.close(key) === closed.has(key)) wrong++;
      closed.add(key);
    }
    for (const [key, cost] of costs) if (mine.costOf(key) !== cost || mine.close(key) === closed.has(key)) wrong++;
    expect(wrong).toBe(0);
  });
});
