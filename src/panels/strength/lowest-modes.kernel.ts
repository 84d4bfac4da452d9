import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { type Skyline, solveInPlace } from './skyline.kernel.ts';

/** How many shapes are followed at once, so that near neighbours don't slow the lowest one down. */
const FOLLOWED = 5;
const MOST_ROUNDS = 60;
/** The lowest factor is done when it moves by less than this share. */
const DONE = 1e-7;

/** Least factor (by size) at which K x = factor B x, and its shape; K factored, B by its product with a shape. Undefined where B does nothing. */
export function lowestMode(
  factored: Skyline,
  product: (x: Float64Array, into: Float64Array) => void,
): { readonly factor: number; readonly shape: Float64Array } | undefined {
  const n = factored.first.length;
  const followed = Math.min(FOLLOWED, n);
  let shapes: Float64Array[] = Array.from({ length: followed }, (_, k) =>
    Float64Array.from({ length: n }, (_unused, i) => 1 + Math.sin(1 + (k + 1) * 0.37 * i + k * k)),
  );
  const pushed = shapes.map(() => new Float64Array(n));
  const again = shapes.map(() => new Float64Array(n));
  let last = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    for (const [k, shape] of shapes.entries()) {
      product(shape, pushed[k]!);
      shape.set(pushed[k]!);
      solveInPlace(factored, shape);
      product(shape, again[k]!);
    }
    const dots = (a: readonly Float64Array[], b: readonly Float64Array[]): Matrix =>
      new Matrix(a.map((x) => b.map((y) => dot(x, y))));
    // K x is what the shape was solved from.
    const stiff = dots(shapes, pushed);
    const pressed = dots(shapes, again);
    const reduced = reducedMode(stiff, pressed);
    if (reduced === undefined) return undefined;
    shapes = reduced.mix.map((weights) => mixed(shapes, weights));
    if (Math.abs(reduced.factor - last) < DONE * Math.abs(reduced.factor))
      return { factor: reduced.factor, shape: shapes[0]! };
    last = reduced.factor;
  }
  return { factor: last, shape: shapes[0]! };
}

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!;
  return sum;
}

function mixed(shapes: readonly Float64Array[], weights: readonly number[]): Float64Array {
  const out = new Float64Array(shapes[0]!.length);
  for (const [k, shape] of shapes.entries()) for (let i = 0; i < out.length; i++) out[i]! += weights[k]! * shape[i]!;
  return out;
}

/** The small problem among the followed shapes; weights of the mixes, the lowest factor's first. */
function reducedMode(stiff: Matrix, pressed: Matrix): { factor: number; mix: number[][] } | undefined {
  // Scaled so that each shape's own energy is 1, then spread by the energy's own axes: near copies fall away.
  const scale = Array.from({ length: stiff.rows }, (_, i) => 1 / Math.sqrt(Math.max(stiff.get(i, i), 1e-300)));
  const even = (m: Matrix): Matrix =>
    new Matrix(m.to2DArray().map((row, i) => row.map((x, j) => ((x + m.get(j, i)) / 2) * scale[i]! * scale[j]!)));
  const energy = new EigenvalueDecomposition(even(stiff), { assumeSymmetric: true });
  const keep = energy.realEigenvalues.map((value, k) => ({ value, k })).filter(({ value }) => value > 1e-10);
  if (keep.length === 0) return undefined;
  const axes = new Matrix(
    Array.from({ length: stiff.rows }, (_, i) =>
      keep.map(({ value, k }) => energy.eigenvectorMatrix.get(i, k) / Math.sqrt(value)),
    ),
  );
  const inner = axes.transpose().mmul(even(pressed)).mmul(axes);
  const modes = new EigenvalueDecomposition(inner, { assumeSymmetric: true });
  const order = modes.realEigenvalues
    .map((value, k) => ({ value, k }))
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value));
  if (Math.abs(order[0]!.value) < 1e-300) return undefined;
  const mixes = axes.mmul(modes.eigenvectorMatrix);
  return {
    factor: 1 / order[0]!.value,
    mix: order.map(({ k }) => Array.from({ length: stiff.rows }, (_, i) => mixes.get(i, k) * scale[i]!)),
  };
}
