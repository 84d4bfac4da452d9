import { describe, expect, it } from 'vitest';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { type CellGrid, cellOf, corridorCosts, corridorFrom, corridorWave } from './corridor.kernel.ts';

function randomGrid(seed: number): CellGrid {
  const rng = xoroshiro128plus(seed);
  const draw = () => (rng.next() >>> 0) / 2 ** 32;
  const [nx, ny, nz] = [7, 6, 5];
  const blocked = Uint8Array.from({ length: nx * ny * nz }, () => (draw() < 0.35 ? 1 : 0));
  const toll = Uint8Array.from({ length: nx * ny * nz }, () => Math.floor(draw() * 40));
  return { min: [0, 0, 0], cellMm: 10, nx, ny, nz, blocked, toll };
}

/** Bellman-Ford over all cell pairs: shares no code with the kernel. */
function slowCosts(grid: CellGrid, source: number): number[] {
  const n = grid.nx * grid.ny * grid.nz;
  const cost = Array.from({ length: n }, () => Number.POSITIVE_INFINITY);
  cost[source] = 0;
  const place = (c: number) => [c % grid.nx, Math.floor(c / grid.nx) % grid.ny, Math.floor(c / (grid.nx * grid.ny))];
  for (let changed = true; changed; ) {
    changed = false;
    for (let a = 0; a < n; a++)
      for (let b = 0; b < n; b++) {
        const [p, q] = [place(a), place(b)];
        const d = p.map((v, i) => Math.abs(v - q[i]!));
        if (a === b || Math.max(...d) > 1 || grid.blocked[b] === 1) continue;
        const base = [0, 10, 14, 17][d.reduce((s, v) => s + v, 0)]!;
        const reached = cost[a]! + Math.floor((base * (16 + grid.toll[b]!)) / 16);
        if (reached < cost[b]!) {
          cost[b] = reached;
          changed = true;
        }
      }
  }
  return cost;
}

describe('corridor costs against relaxation over all pairs (second method)', () => {
  for (const seed of [1, 2, 3, 4, 5])
    it(`seed ${seed}`, () => {
      const grid = randomGrid(seed);
      const fast = corridorCosts(grid, [{ cell: 0, cost: 0 }]);
      const slow = slowCosts(grid, 0);
      expect([...fast].map((c) => (c === 0x7fffffff ? Number.POSITIVE_INFINITY : c))).toEqual(slow);
    });
});

describe('a wave run only as far as is asked, against relaxation over all pairs (second method)', () => {
  for (const seed of [1, 2, 3, 4, 5])
    it(`seed ${seed}: near cells first, then far, blocked and cut-off ones`, () => {
      const grid = randomGrid(seed);
      const source = 100;
      const slow = slowCosts(grid, source);
      const wave = corridorWave(grid, [{ cell: source, cost: 0 }]);
      for (let k = 0; k < slow.length; k++) {
        const cell = (source + k * 37) % slow.length;
        expect([cell, wave.costOf(cell)]).toEqual([cell, Math.min(slow[cell]!, 0x7fffffff)]);
      }
    });
});

describe('corridor', () => {
  it('walks down to the source by neighbouring cells', () => {
    const grid = randomGrid(7);
    const cost = corridorCosts(grid, [{ cell: 0, cost: 0 }]);
    const far = cost.findLastIndex((c) => c !== 0x7fffffff);
    const cells = corridorFrom(grid, cost, far);
    expect(cells[0]).toBe(far);
    expect(cells.at(-1)).toBe(0);
  });
  it('a source may wait for its own cost', () => {
    const open = {
      min: [0, 0, 0],
      cellMm: 10,
      nx: 5,
      ny: 1,
      nz: 1,
      blocked: new Uint8Array(5),
      toll: new Uint8Array(5),
    } as const;
    const cost = corridorCosts(open, [
      { cell: 0, cost: 100 },
      { cell: 4, cost: 0 },
    ]);
    expect([...cost]).toEqual([40, 30, 20, 10, 0]);
  });
  it('outside the grid is no cell', () => {
    expect(cellOf(randomGrid(1), -1, 5, 5)).toBe(-1);
  });
});
