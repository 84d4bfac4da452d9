import { LuDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { minimumDegreeOrder } from './minimum-degree.kernel.ts';
import { seeded } from './planted/seeded.ts';
import { sparseConductances } from './sparse-factor.kernel.ts';

/** Random ends, -1 for fixed nodes; every node has a way to a fixed one. */
function randomEnds(n: number, more: number, seed: number): { from: Int32Array; to: Int32Array } {
  const by = seeded(seed);
  const pairs = Array.from({ length: n }, (_, k): [number, number] => [k, by.whole(-1, k - 1)]);
  for (let k = 0; k < more; k++) {
    const i = by.whole(0, n - 1);
    const j = by.whole(-1, n - 1);
    if (i !== j) pairs.push(by.isLucky(0.5) ? [i, j] : [j, i]);
  }
  return { from: Int32Array.from(pairs, ([i]) => i), to: Int32Array.from(pairs, ([, j]) => j) };
}

function dense(n: number, from: Int32Array, to: Int32Array, w: Float64Array): Matrix {
  const s = Matrix.zeros(n, n);
  for (let b = 0; b < w.length; b++) {
    for (const [i, j] of [
      [from[b]!, to[b]!],
      [to[b]!, from[b]!],
    ] as const) {
      if (i < 0) continue;
      s.set(i, i, s.get(i, i) + w[b]!);
      if (j >= 0) s.set(i, j, s.get(i, j) - w[b]!);
    }
  }
  return s;
}

describe('the sparse factor', () => {
  it('solves as a dense solver (ml-matrix) does: seeds 1 to 80, 1 to 120 nodes, twice each', () => {
    for (let seed = 1; seed <= 80; seed++) {
      const by = seeded(seed + 500);
      const n = by.whole(1, seed % 4 === 0 ? 120 : 25);
      const { from, to } = randomEnds(n, by.whole(0, 3 * n), seed);
      const system = sparseConductances(n, from, to);
      for (let again = 0; again < 2; again++) {
        const w = Float64Array.from(from, () => by.scale(1e-2, 1e2));
        const b = Float64Array.from({ length: n }, () => by.between(-1, 1));
        const expected = new LuDecomposition(dense(n, from, to, w)).solve(Matrix.columnVector(b)).to1DArray();
        expect(system.factor(w)).toBe(true);
        system.solve(b);
        const most = Math.max(...expected.map(Math.abs));
        for (const [k, x] of expected.entries()) expect(Math.abs(b[k]! - x) / most, `seed ${seed}`).toBeLessThan(1e-11);
      }
    }
  });

  it('keeps a weak way out beside strong ones, where a dense solver loses it', () => {
    // A ring of 1e6 hung on a fixed node by 1e-14: 1 m3/s into any node raises all by 1e14.
    const from = Int32Array.from([0, 1, 2, 3, 0]);
    const to = Int32Array.from([1, 2, 3, 0, -1]);
    const w = Float64Array.from([1e6, 1e6, 1e6, 1e6, 1e-14]);
    const system = sparseConductances(4, from, to);
    expect(system.factor(w)).toBe(true);
    const b = Float64Array.from([0, 0, 1, 0]);
    system.solve(b);
    for (const x of b) expect(x / 1e14).toBeCloseTo(1, 12);
    const lost = new LuDecomposition(dense(4, from, to, w));
    const plain = lost.isSingular() ? Number.NaN : lost.solve(Matrix.columnVector([0, 0, 1, 0])).get(0, 0);
    expect(Math.abs(plain / 1e14 - 1) > 0.01 || Number.isNaN(plain)).toBe(true);
  });

  it('says when a node has no way to a fixed pressure', () => {
    const system = sparseConductances(2, Int32Array.from([0, 0]), Int32Array.from([1, -1]));
    expect(system.factor(Float64Array.from([1, 0]))).toBe(false);
    expect(system.factor(Float64Array.from([1, 1]))).toBe(true);
  });
});

/** Entries of the factor in an order, by eliminating on sets. */
function fillOf(n: number, from: Int32Array, to: Int32Array, order: ArrayLike<number>): number {
  const joined = Array.from({ length: n }, () => new Set<number>());
  for (let b = 0; b < from.length; b++) {
    if (from[b]! < 0 || to[b]! < 0) continue;
    joined[from[b]!]!.add(to[b]!);
    joined[to[b]!]!.add(from[b]!);
  }
  let entries = 0;
  for (const k of Array.from(order)) {
    const rest = [...joined[k]!];
    entries += rest.length;
    for (const i of rest) {
      joined[i]!.delete(k);
      for (const j of rest) if (i !== j) joined[i]!.add(j);
    }
  }
  return entries;
}

describe('the order of elimination', () => {
  it('is a permutation, and the factor has the entries that elimination on sets gives: seeds 1 to 40', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const by = seeded(seed);
      const n = by.whole(1, 60);
      const { from, to } = randomEnds(n, by.whole(0, 2 * n), seed);
      const sets = Array.from({ length: n }, () => new Set<number>());
      for (let b = 0; b < from.length; b++) {
        if (from[b]! < 0 || to[b]! < 0) continue;
        sets[from[b]!]!.add(to[b]!);
        sets[to[b]!]!.add(from[b]!);
      }
      const start = new Int32Array(n + 1);
      for (let i = 0; i < n; i++) start[i + 1] = start[i]! + sets[i]!.size;
      const order = minimumDegreeOrder(start, Int32Array.from(sets.flatMap((set) => [...set])));
      expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, k) => k));
      expect(sparseConductances(n, from, to).entries).toBe(fillOf(n, from, to, order));
    }
  });

  it('leaves far fewer entries on a grid of 30 x 30 than taking the nodes row by row', () => {
    const side = 30;
    const pairs: [number, number][] = [[0, -1]];
    for (let k = 0; k < side * side; k++) {
      if (k % side < side - 1) pairs.push([k, k + 1]);
      if (k + side < side * side) pairs.push([k, k + side]);
    }
    const from = Int32Array.from(pairs, ([i]) => i);
    const to = Int32Array.from(pairs, ([, j]) => j);
    const rowByRow = fillOf(
      side * side,
      from,
      to,
      Array.from({ length: side * side }, (_, k) => k),
    );
    expect(sparseConductances(side * side, from, to).entries).toBeLessThan(0.4 * rowByRow);
  });
});
