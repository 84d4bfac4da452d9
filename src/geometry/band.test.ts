import { Matrix, solve } from 'ml-matrix';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { expect, it } from 'vitest';
import { BAND, factorBand, REACH, solveBand } from './band.kernel.ts';

const random = xoroshiro128plus(5);
const uniform = (): number => (random.next() >>> 0) / 4294967296 - 0.5;

/** A symmetric banded matrix, banded and dense. */
function matrices(n: number, diagonal: number): { band: Float64Array; dense: number[][] } {
  const band = new Float64Array(n * BAND);
  const dense = Array.from({ length: n }, () => Array.from({ length: n }, () => 0));
  for (let i = 0; i < n; i++) {
    for (let j = Math.max(0, i - REACH); j <= i; j++) {
      const v = i === j ? diagonal + uniform() : uniform();
      band[i * BAND + REACH - i + j] = v;
      dense[i]![j] = v;
      dense[j]![i] = v;
    }
  }
  return { band, dense };
}

it('banded solving agrees with a dense solver (second: ml-matrix), one and four right-hand sides', () => {
  for (const n of [1, 3, 8, 9, 40]) {
    for (const columns of [1, 4]) {
      const { band, dense } = matrices(n, 6);
      const b = Float64Array.from({ length: n * columns }, uniform);
      const expected = solve(
        new Matrix(dense),
        new Matrix(Array.from({ length: n }, (_, i) => [...b.subarray(i * columns, (i + 1) * columns)])),
      );
      expect(factorBand(band, n)).toBe(0);
      solveBand(band, n, b, columns);
      for (let i = 0; i < n; i++)
        for (let c = 0; c < columns; c++) expect(b[i * columns + c]).toBeCloseTo(expected.get(i, c), 10);
    }
  }
});

it('a matrix that is not positive is found out, without NaN', () => {
  const { band } = matrices(12, -1);
  expect(factorBand(band, 12)).toBeGreaterThan(0);
  const b = new Float64Array(12).fill(1);
  solveBand(band, 12, b, 1);
  for (const v of b) expect(Number.isFinite(v)).toBe(true);
});
