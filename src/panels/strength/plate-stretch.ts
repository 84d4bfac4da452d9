import type { Point2 } from '#geometry';
import type { PlateSheet } from './plate-bending.ts';
import type { PlateMesh } from './plate-mesh.ts';
import { MIDDLES } from './plate-triangle.kernel.ts';
import { addTo, emptySkyline, factorInPlace, nearOrder, solveInPlace } from './skyline.kernel.ts';
import { INSIDE, stretchGradients, stretchStiffness, stretchStress } from './stretch-triangle.kernel.ts';

/** What pulls on a sheet in its own plane. Loops: 0 is the outline, 1 the first opening. */
export interface StretchLoad {
  /** Even forces along the outline [N/mm]: along x, along y, shear; tension positive. */
  readonly edge?: readonly [nx: number, ny: number, nxy: number];
  /** A pin in an opening [N]: presses on the half of its rim that lies ahead. */
  readonly pins?: readonly { readonly loop: number; readonly forceN: Point2 }[];
  /** Openings whose rims are held fast; none: the sheet floats and its loads must be in balance. */
  readonly heldLoops?: readonly number[];
}

/** Stress and movement of a sheet in its plane. */
export interface StretchedSheet {
  /** Greatest von Mises stress [MPa] and where; away from rims that are held fast and from pinned rims only if those are not asked for. */
  readonly stressMpa: number;
  readonly stressAt: Point2;
  /** Greatest movement on each loop [mm]. */
  readonly movedMm: readonly number[];
  /** Stress sx, sy, sxy by node, averaged over the triangles that meet there [MPa]. */
  readonly stresses: Float64Array;
  /** Forces at the middles of each triangle's sides [N/mm], as buckling wants them. */
  readonly forces: Float64Array;
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

/** The mesh with a node in the middle of each side; on the rim where the side is one. */
function withMiddles(mesh: PlateMesh): {
  xs: Float64Array;
  ys: Float64Array;
  six: Int32Array;
  middleOf: Map<number, number>;
} {
  const n = mesh.xs.length;
  const [xs, ys] = [[...mesh.xs], [...mesh.ys]];
  const key = (a: number, b: number): number => Math.min(a, b) * n + Math.max(a, b);
  const onRim = new Map(mesh.rim.map(({ a, b, middle }) => [key(a, b), middle]));
  const middleOf = new Map<number, number>();
  const v = mesh.triangles;
  const six = new Int32Array(2 * v.length);
  for (let t = 0; t < v.length; t += 3)
    for (let k = 0; k < 3; k++) {
      six[2 * t + k] = v[t + k]!;
      const [a, b] = [v[t + ((k + 1) % 3)]!, v[t + ((k + 2) % 3)]!];
      let m = middleOf.get(key(a, b));
      if (m === undefined) {
        m = xs.length;
        middleOf.set(key(a, b), m);
        const [x, y] = onRim.get(key(a, b)) ?? [(xs[a]! + xs[b]!) / 2, (ys[a]! + ys[b]!) / 2];
        xs.push(x);
        ys.push(y);
      }
      six[2 * t + 3 + k] = m;
    }
  const answer = { xs: Float64Array.from(xs), ys: Float64Array.from(ys), six, middleOf };
  straighten(answer);
  return answer;
}

/** Share of a straight triangle's area below which a bent one has folded over, or nearly. */
const FOLDED = 0.2;

/** Puts the middles of sides back on their chords where a flat triangle would fold over by bending to its rim. */
function straighten({ xs, ys, six }: { xs: Float64Array; ys: Float64Array; six: Int32Array }): void {
  const grad = new Float64Array(12);
  for (let t = 0; t < six.length; t += 6) {
    const nodes = Array.from(six.subarray(t, t + 6));
    const [x, y] = [nodes.map((i) => xs[i]!), nodes.map((i) => ys[i]!)];
    const flat = (x[1]! - x[0]!) * (y[2]! - y[0]!) - (y[1]! - y[0]!) * (x[2]! - x[0]!);
    if ([...CORNERS, ...INSIDE].every((l) => stretchGradients(x, y, l, grad) > FOLDED * flat)) continue;
    for (let k = 0; k < 3; k++) {
      const [a, b] = [(k + 1) % 3, (k + 2) % 3];
      xs[nodes[3 + k]!] = (x[a]! + x[b]!) / 2;
      ys[nodes[3 + k]!] = (y[a]! + y[b]!) / 2;
    }
  }
}

const CORNERS = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;

/** Works a sheet out in its plane. */
export function stretchedSheet(
  mesh: PlateMesh,
  sheet: PlateSheet,
  load: StretchLoad,
): StretchedSheet | { readonly why: string } {
  const { xs, ys, six, middleOf } = withMiddles(mesh);
  const n = xs.length;
  const middle = (a: number, b: number): number => middleOf.get(Math.min(a, b) * mesh.xs.length + Math.max(a, b))!;
  const isHeld = heldUnknowns(mesh, xs, ys, load, middle);
  const around = Array.from({ length: n }, () => new Set<number>());
  for (let t = 0; t < six.length; t += 6)
    for (let a = 0; a < 6; a++) for (let b = 0; b < 6; b++) if (a !== b) around[six[t + a]!]!.add(six[t + b]!);
  const place = nearOrder(around.map((set) => [...set]));
  const byPlace = Int32Array.from(place.keys()).sort((i, j) => place[i]! - place[j]!);
  const unknown = new Int32Array(2 * n).fill(-1);
  let count = 0;
  for (const node of byPlace)
    if (around[node]!.size > 0) for (let d = 0; d < 2; d++) if (!isHeld[2 * node + d]) unknown[2 * node + d] = count++;
  const first = Int32Array.from({ length: count }, (_, i) => i);
  const pairs = (t: number, visit: (i: number, j: number, a: number, b: number) => void): void => {
    for (let a = 0; a < 12; a++) {
      const i = unknown[2 * six[t + (a >> 1)]! + (a & 1)]!;
      if (i < 0) continue;
      for (let b = 0; b < 12; b++) {
        const j = unknown[2 * six[t + (b >> 1)]! + (b & 1)]!;
        if (j >= 0 && j <= i) visit(i, j, a, b);
      }
    }
  };
  for (let t = 0; t < six.length; t += 6) pairs(t, (i, j) => (first[i] = Math.min(first[i]!, j)));
  const matrix = emptySkyline(first);
  const own = new Float64Array(144);
  const { stiffnessMpa, poisson, thicknessMm } = sheet;
  for (let t = 0; t < six.length; t += 6) {
    const nodes = six.subarray(t, t + 6);
    stretchStiffness(
      Array.from(nodes, (i) => xs[i]!),
      Array.from(nodes, (i) => ys[i]!),
      stiffnessMpa,
      poisson,
      thicknessMm,
      own,
    );
    pairs(t, (i, j, a, b) => addTo(matrix, i, j, own[12 * a + b]!));
  }
  if (factorInPlace(matrix) !== undefined) return { why: 'the sheet is not held in its plane' };
  const forces = nodeForces(mesh, xs, ys, load, middle);
  const x = new Float64Array(count);
  for (const [i, k] of unknown.entries()) if (k >= 0) x[k] = forces[i]!;
  solveInPlace(matrix, x);
  const moved = Float64Array.from(unknown, (k) => (k < 0 ? 0 : x[k]!));
  return { ...stressesOf(mesh, xs, ys, six, moved, sheet), movedMm: movedLoops(mesh, moved), xs, ys };
}

/** Rims that are held; or, of a floating sheet, three movements that stop it from drifting and turning. */
function heldUnknowns(
  mesh: PlateMesh,
  xs: Float64Array,
  ys: Float64Array,
  load: StretchLoad,
  middle: (a: number, b: number) => number,
): Uint8Array {
  const isHeld = new Uint8Array(2 * xs.length);
  const held = load.heldLoops ?? [];
  for (const { a, b, loop } of mesh.rim)
    if (held.includes(loop)) for (const i of [a, b, middle(a, b)]) isHeld.fill(1, 2 * i, 2 * i + 2);
  if (held.length > 0) return isHeld;
  const from = mesh.rim[0]!.a;
  let [far, most] = [from, 0];
  for (const { a } of mesh.rim) {
    const d = Math.hypot(xs[a]! - xs[from]!, ys[a]! - ys[from]!);
    if (d > most) [far, most] = [a, d];
  }
  isHeld.fill(1, 2 * from, 2 * from + 2);
  isHeld[2 * far + (Math.abs(xs[far]! - xs[from]!) > Math.abs(ys[far]! - ys[from]!) ? 1 : 0)] = 1;
  return isHeld;
}

/** Weights of Simpson's rule, which are also how an even push on a quadratic side falls on its nodes. */
const SIMPSON = [1 / 6, 4 / 6, 1 / 6] as const;

/** Forces at nodes (x, y in turn) of all loads [N]. */
function nodeForces(
  mesh: PlateMesh,
  xs: Float64Array,
  ys: Float64Array,
  load: StretchLoad,
  middle: (a: number, b: number) => number,
): Float64Array {
  const forces = new Float64Array(2 * xs.length);
  const [nx, ny, nxy] = load.edge ?? [0, 0, 0];
  const pinned = new Map((load.pins ?? []).map((pin) => [pin.loop, pin.forceN]));
  const shares = new Map<number, [number, number, number][]>();
  for (const { a, b, loop } of mesh.rim) {
    const nodes = [a, middle(a, b), b];
    const [x, y] = [nodes.map((i) => xs[i]!), nodes.map((i) => ys[i]!)];
    const tangent = (c: readonly number[]): number[] => [
      -3 * c[0]! + 4 * c[1]! - c[2]!,
      c[2]! - c[0]!,
      c[0]! - 4 * c[1]! + 3 * c[2]!,
    ];
    const [tx, ty] = [tangent(x), tangent(y)];
    for (let k = 0; k < 3; k++) {
      // Outward of the loop, as long as the piece of rim that it stands for.
      const [ox, oy] = [SIMPSON[k]! * ty[k]!, -SIMPSON[k]! * tx[k]!];
      const i = nodes[k]!;
      if (loop === 0) {
        forces[2 * i]! += nx * ox + nxy * oy;
        forces[2 * i + 1]! += nxy * ox + ny * oy;
      }
      const pull = pinned.get(loop);
      if (pull === undefined) continue;
      const ahead = (ox * pull[0] + oy * pull[1]) / (Math.hypot(ox, oy) * Math.hypot(...pull));
      if (ahead > 0) (shares.get(loop) ?? shares.set(loop, []).get(loop)!).push([i, ahead * ox, ahead * oy]);
    }
  }
  for (const [loop, pushes] of shares) {
    const pull = pinned.get(loop)!;
    const long2 = pull[0] ** 2 + pull[1] ** 2;
    const along = pushes.reduce((sum, [, px, py]) => sum + px * pull[0] + py * pull[1], 0) / long2;
    for (const [i, px, py] of pushes) {
      forces[2 * i]! += px / along;
      forces[2 * i + 1]! += py / along;
    }
  }
  return forces;
}

function movedLoops(mesh: PlateMesh, moved: Float64Array): number[] {
  const most: number[] = [];
  for (const { a, loop } of mesh.rim)
    most[loop] = Math.max(most[loop] ?? 0, Math.hypot(moved[2 * a]!, moved[2 * a + 1]!));
  return most;
}

/** Stress at three places inside, carried linearly to the six nodes and averaged. */
function stressesOf(
  mesh: PlateMesh,
  xs: Float64Array,
  ys: Float64Array,
  six: Int32Array,
  moved: Float64Array,
  sheet: PlateSheet,
): Pick<StretchedSheet, 'stressMpa' | 'stressAt' | 'stresses' | 'forces'> {
  const n = xs.length;
  const [stresses, weights] = [new Float64Array(3 * n), new Float64Array(n)];
  const forces = new Float64Array((9 * mesh.triangles.length) / 3);
  for (let t = 0; t < six.length; t += 6) {
    const nodes = Array.from(six.subarray(t, t + 6));
    const [x, y] = [nodes.map((i) => xs[i]!), nodes.map((i) => ys[i]!)];
    const [u, v] = [nodes.map((i) => moved[2 * i]!), nodes.map((i) => moved[2 * i + 1]!)];
    const at = INSIDE.map((l) => stretchStress(x, y, u, v, l, sheet.stiffnessMpa, sheet.poisson));
    const linear = (l: readonly number[], c: number): number => {
      // At the inside places area coordinates are 1/6 and 2/3: undone, values at the corners are 2 s - mean.
      const mean = (at[0]![c]! + at[1]![c]! + at[2]![c]!) / 3;
      return l.reduce((sum, li, k) => sum + li * (2 * at[k]![c]! - mean), 0);
    };
    const area = (x[1]! - x[0]!) * (y[2]! - y[0]!) - (y[1]! - y[0]!) * (x[2]! - x[0]!);
    const places = [[1, 0, 0], [0, 1, 0], [0, 0, 1], ...MIDDLES];
    for (const [k, l] of places.entries()) {
      const i = nodes[k]!;
      weights[i]! += area;
      for (let c = 0; c < 3; c++) {
        const s = linear(l, c);
        stresses[3 * i + c]! += area * s;
        if (k >= 3) forces[(9 * t) / 6 + 3 * (k - 3) + c] = s * sheet.thicknessMm;
      }
    }
  }
  let [stressMpa, worst] = [0, 0];
  for (let i = 0; i < n; i++) {
    if (weights[i] === 0) continue;
    for (let c = 0; c < 3; c++) stresses[3 * i + c]! /= weights[i]!;
    const [sx, sy, sxy] = [stresses[3 * i]!, stresses[3 * i + 1]!, stresses[3 * i + 2]!];
    const mises = Math.sqrt(sx * sx - sx * sy + sy * sy + 3 * sxy * sxy);
    if (mises > stressMpa) [stressMpa, worst] = [mises, i];
  }
  return { stressMpa, stressAt: [xs[worst]!, ys[worst]!], stresses, forces };
}
