/** Numbers a ray draws in even order: two for where it starts, two for the way it goes, two for each of two reflections. */
export const SOBOL_DIMENSIONS = 8;

/**
 * Direction numbers of dimensions 2 to 8: degree s, coefficients a of the primitive polynomial, first values m.
 *
 * Table: sobol-directions-2008 in the bibliography.
 */
const DIRECTIONS: readonly (readonly [s: number, a: number, m: readonly number[]])[] = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]],
  [5, 2, [1, 1, 5, 5, 17]],
];

const BITS = 32;
/** 2^-32, and half of it: a number never is 0 or 1. */
const STEP = 2 ** -32;
const HALF_STEP = 2 ** -33;
/** The golden ratio's share of 2^32: steps that never fall together. */
const GOLDEN = 0x9e3779b9;

/**
 * The first `count` points of the Sobol sequence, SOBOL_DIMENSIONS each, with their bits in reverse: what the scrambling works on.
 */
export function reversedSobol(count: number): Uint32Array {
  const out = new Uint32Array(count * SOBOL_DIMENSIONS);
  for (let d = 0; d < SOBOL_DIMENSIONS; d++) {
    const v = directionNumbers(d);
    for (let i = 0; i < count; i++) {
      let x = 0;
      for (let bit = 0; bit < BITS && i >>> bit !== 0; bit++) if ((i >>> bit) & 1) x ^= v[bit]!;
      out[i * SOBOL_DIMENSIONS + d] = reversedBits(x);
    }
  }
  return out;
}

function directionNumbers(dimension: number): Uint32Array {
  const v = new Uint32Array(BITS);
  if (dimension === 0) {
    for (let i = 0; i < BITS; i++) v[i] = 2 ** (BITS - 1 - i);
    return v;
  }
  const [s, a, m] = DIRECTIONS[dimension - 1]!;
  for (let i = 0; i < s; i++) v[i] = m[i]! * 2 ** (BITS - 1 - i);
  for (let i = s; i < BITS; i++) {
    let x = v[i - s]! ^ (v[i - s]! >>> s);
    for (let k = 1; k < s; k++) if ((a >>> (s - 1 - k)) & 1) x ^= v[i - k]!;
    v[i] = x;
  }
  return v;
}

function reversedBits(value: number): number {
  let x = value;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return ((x >>> 16) | (x << 16)) >>> 0;
}

/**
 * A number of the sequence, scrambled: each bit is flipped or not by a hash of the seed and of all bits above it (nested uniform
 * scrambling), so that every replicate is as even as the sequence and its numbers are uniform in (0, 1).
 *
 * @param reversed - of `reversedSobol`
 * Bibliography: owen-scrambling-1998, hash-scrambling-2020.
 */
export function scrambled(reversed: number, seed: number): number {
  let x = reversed | 0;
  x ^= Math.imul(x, 0x3d20adea);
  x = (x + seed) | 0;
  x = Math.imul(x, (seed >>> 16) | 1);
  x ^= Math.imul(x, 0x05526c56);
  x ^= Math.imul(x, 0x53a22864);
  return reversedBits(x) * STEP + HALF_STEP;
}

/** A well stirred 32-bit number out of another and a counter. */
export function stirred(seed: number, counter: number): number {
  let x = (seed ^ Math.imul(counter + 1, GOLDEN)) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
  return (x ^ (x >>> 15)) | 0;
}

/** A number in (0, 1) out of a seed and a counter: where the even sequence has no more dimensions. */
export const chanceOf = (seed: number, counter: number): number => (stirred(seed, counter) >>> 0) * STEP + HALF_STEP;

/** A seed out of a name. */
export function seedOfName(name: string, seed: number): number {
  let x = seed | 0;
  for (let i = 0; i < name.length; i++) x = stirred(x, name.charCodeAt(i));
  return x;
}
