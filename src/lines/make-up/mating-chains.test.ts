import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AdapterRow, type End, builtInAdapters, endKey, mates } from '#standards';
import { widestBore } from './bore-limit.ts';
import { type Link, entryOf, exitOf, matingChains } from './mating-chains.ts';

const anyLink = (): boolean => true;

/** Adapters between few seats and sizes, so that chains of every length turn up. */
const inner: fc.Arbitrary<End> = fc.constantFrom<End>(
  { type: 'orb-stud', dash: 6 },
  { type: 'npt-male', pipe: '1/4' },
  { type: 'flare37-female', dash: 6 },
  { type: 'flare37-female', dash: 8 },
  { type: 'flare45-female', dash: 8 },
);
const outer: fc.Arbitrary<End> = fc.constantFrom<End>(
  { type: 'flare37-male', dash: 6 },
  { type: 'flare37-male', dash: 8 },
  { type: 'flare45-male', dash: 8 },
  { type: 'npt-female', pipe: '1/4' },
);
const tableArb = fc
  .array(
    fc.record({
      a: inner,
      b: outer,
      bend: fc.constantFrom(0, 0, 90) as fc.Arbitrary<0 | 90>,
      boreMm: fc.integer({ min: 4, max: 12 }),
    }),
    { minLength: 4, maxLength: 8 },
  )
  .map((made) =>
    made
      .map((m, n): typeof m => (n % 3 === 2 ? { ...m, a: m.b, b: m.a } : m))
      .map(
        (m, n): AdapterRow => ({
          id: `row-${n}`,
          name: `row ${n}`,
          a: m.a,
          b: m.b,
          lengthMm: 30,
          aLegMm: 20,
          bLegMm: 20,
          angleDeg: m.bend,
          bodyOdMm: 20,
          hexMm: 20,
          boreMm: m.boreMm,
          clock: 'swivel',
          seals: [],
          source: 'builder',
          measure: false,
        }),
      ),
  );
const portArb = fc.constantFrom<End>(
  { type: 'orb', dash: 6 },
  { type: 'npt-female', pipe: '1/4' },
  { type: 'flare37-male', dash: 6 },
  { type: 'flare45-male', dash: 8 },
);

/** Every ordered choice of up to three rows, each either way round, tried one by one: no search, no memory. */
function everyChain(from: End, rows: readonly AdapterRow[], isGoal: (end: End) => boolean, elbows: number): Link[][] {
  const sides = rows.flatMap((row) => [
    { row, flipped: false },
    ...(endKey(row.a) === endKey(row.b) ? [] : [{ row, flipped: true }]),
  ]);
  const all: Link[][] = [
    [],
    ...sides.map((s) => [s]),
    ...sides.flatMap((s) => sides.map((t) => [s, t])),
    ...sides.flatMap((s) => sides.flatMap((t) => sides.map((u) => [s, t, u]))),
  ];
  return all.filter((links) => {
    const opens = [from, ...links.map(exitOf)];
    const bent = links.filter((l) => l.row.angleDeg !== 0).length;
    return bent === elbows && links.every((link, n) => mates(opens[n]!, entryOf(link)).ok) && isGoal(opens.at(-1)!);
  });
}

const shown = (chains: readonly (readonly Link[])[]): string[] =>
  chains.map((links) => links.map((l) => `${l.row.id}${l.flipped ? '<' : '>'}`).join(' ')).sort();

const goal = (end: End): boolean => mates(end, { type: 'flare37-female', dash: 8 }).ok;

describe('matingChains', () => {
  it('finds exactly the shortest chains that trying every order of three parts finds (seed 3)', () => {
    const lengths: number[] = [];
    fc.assert(
      fc.property(portArb, tableArb, fc.constantFrom(0, 1) as fc.Arbitrary<0 | 1>, (port, rows, elbows) => {
        const every = everyChain(port, rows, goal, elbows);
        const shortest = Math.min(...every.map((links) => links.length));
        const chains = matingChains(port, rows, { isGoal: goal, allowed: anyLink, elbows });
        expect(shown(chains)).toEqual(shown(every.filter((links) => links.length === shortest)));
        if (chains[0] !== undefined) lengths.push(chains[0].length);
      }),
      { seed: 3, numRuns: 200 },
    );
    // The tables must have tried the search: chains of every length, not only tables without an answer.
    for (const count of [1, 2, 3]) expect(lengths.filter((n) => n === count).length).toBeGreaterThan(2);
  });

  it('keeps the seat in the key: a 45-degree -8 has the 37-degree thread and does not seal on it', () => {
    // published: 3/4-16 for both at -8 (flare-45-tables, dash-thread-tables).
    const rows = builtInAdapters.filter((row) => row.id.startsWith('boss-8'));
    const on45 = matingChains({ type: 'orb', dash: 8 }, rows, {
      isGoal: (e) => mates(e, { type: 'flare45-female', dash: 8 }).ok,
      allowed: anyLink,
      elbows: 0,
    });
    const on37 = matingChains({ type: 'orb', dash: 8 }, rows, { isGoal: goal, allowed: anyLink, elbows: 0 });
    expect(on45).toEqual([]);
    expect(on37.map((links) => links[0]?.row.id)).toEqual(['boss-8-flare-8']);
  });

  it('keeps a -4 face seal from a -6 flare though both are 9/16-18', () => {
    // published: the -4 face-seal thread is the -6 flare thread (SAE J1453 public tables).
    expect(
      matingChains({ type: 'face-seal', dash: 4 }, [], {
        isGoal: (e) => mates(e, { type: 'flare37-female', dash: 6 }).ok,
        allowed: anyLink,
        elbows: 0,
      }),
    ).toEqual([]);
  });
});

it('widestBore is the widest least bore of every chain that exists (seed 13)', () => {
  fc.assert(
    fc.property(portArb, tableArb, (port, rows) => {
      const every = [
        ...everyChain(port, rows, goal, 0),
        ...everyChain(port, rows, goal, 1),
        ...everyChain(port, rows, goal, 2),
        ...everyChain(port, rows, goal, 3),
      ];
      const bores = every.map((links) => Math.min(Number.POSITIVE_INFINITY, ...links.map((l) => l.row.boreMm)));
      expect(widestBore(port, rows, goal, anyLink)).toBe(Math.max(0, ...bores));
    }),
    { seed: 13, numRuns: 60 },
  );
});
