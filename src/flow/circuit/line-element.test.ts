import type { Vec } from '#geometry';
import { expect, it } from 'vitest';
import { bendsOfWay } from '../losses/bends-of-way.ts';
import { linePieces } from './line-element.ts';
import type { Stretch } from './line-run.ts';

/** Straight, a quarter round of a radius, straight on [mm]. */
const bent = (radius: number): Vec[] => [
  [-80, 0, 0],
  ...Array.from({ length: 31 }, (_, i): Vec => {
    const a = (i * Math.PI) / 60;
    return [radius * Math.sin(a), radius * (1 - Math.cos(a)), 0];
  }),
  [radius, radius + 80, 0],
];

it('a hose is turned as its own path and bore say, whatever was asked of the same path before (hand: 90 degrees, then 180)', () => {
  const first = bent(60);
  const end = first.at(-1)!;
  const on: Vec[] = bent(45).map(([x, y]): Vec => [end[0] - y, end[1] + x + 80, 0]);
  /** A kink of 3 mm turns what runs in 6 mm, hardly what runs in 34. */
  const kinked: Vec[] = [
    [0, 0, 0],
    [100, 0, 0],
    [104, 3, 0],
    [108, 0, 0],
    [200, 0, 0],
  ];
  const turnOf = (stretches: readonly (readonly Vec[])[], boreMm: number): number => {
    const rows = stretches.map((pathMm): Stretch => ({ what: 'hose', boreMm, lengthMm: 200, pathMm }));
    const run = { line: 'O1', from: 'a.out', to: 'b.in', stretches: rows, boreMm, lengthMm: 200, assumed: [] };
    const pieces = linePieces(run, { fromVessel: false, toVessel: false }, () => {
      throw new Error('nothing was measured');
    });
    expect(pieces).toHaveLength(1);
    return pieces[0]!.turnDeg;
  };
  const plain = (path: readonly Vec[], boreMm: number): number =>
    bendsOfWay('hose', path, boreMm / 1000).bends.reduce((sum, { angleRad }) => sum + (angleRad * 180) / Math.PI, 0);
  const joined = [...first, ...on.slice(1)];
  for (let round = 0; round < 2; round++) {
    expect(turnOf([first], 10)).toBe(plain(first, 10));
    for (const bore of [6, 34]) expect(turnOf([kinked], bore)).toBe(plain(kinked, bore));
    expect(turnOf([first, on], 10)).toBe(plain(joined, 10));
    expect(turnOf([first], 10)).toBeCloseTo(90, 0);
    expect(turnOf([first, on], 10)).toBeCloseTo(180, 0);
  }
  expect(plain(kinked, 34)).toBeLessThan(plain(kinked, 6) - 5);
});
