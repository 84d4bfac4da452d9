import { describe, expect, it } from 'vitest';
import type { Way } from '#lines';
import { partsToBuy } from './parts-to-buy.ts';

const part = (id: string, kind: string, qty = 1) => ({ id, name: id, kind, qty });
const way = {
  ends: [
    { parts: [part('o-ring', 'seal'), part('boss', 'adapter'), part('end-45', 'hose-end')] },
    { parts: [part('boss', 'adapter'), part('end-45', 'hose-end')] },
  ],
  joints: [],
} as unknown as Pick<Way, 'ends' | 'joints'>;

describe('what a way needs to be bought (hand: 2 ends and 2 bosses, less the box)', () => {
  it('takes each thing out of the box once', () => {
    expect(partsToBuy(way, [])).toBe('2 hose ends, 2 adapters to buy');
    expect(
      partsToBuy(way, [
        { id: 'boss', qty: 1 },
        { id: 'end-45', qty: 5 },
      ]),
    ).toBe('1 adapter to buy');
    expect(
      partsToBuy(way, [
        { id: 'boss', qty: 2 },
        { id: 'end-45', qty: 2 },
      ]),
    ).toBe('ends and adapters are in the box');
  });
});
