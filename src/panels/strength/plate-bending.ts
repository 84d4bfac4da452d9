import { lowestMode } from './lowest-modes.kernel.ts';
import type { PlateMesh } from './plate-mesh.ts';
import {
  bendingStiffness,
  curvatureRows,
  pressedStiffness,
  triangleShape,
  type TriangleShape,
} from './plate-triangle.kernel.ts';
import { addTo, emptySkyline, factorInPlace, nearOrder, type Skyline, solveInPlace } from './skyline.kernel.ts';

/** How an outside edge is held; openings are always free. */
export type EdgeHold = 'simply' | 'clamped' | 'free';

/** A sheet as plates need it. */
export interface PlateSheet {
  readonly thicknessMm: number;
  readonly stiffnessMpa: number;
  readonly poisson: number;
  readonly densityKgM3: number;
}

/** A plate's equations, factored: ready for loads and shapes. */
export interface BendingPlate {
  readonly mesh: PlateMesh;
  readonly sheet: PlateSheet;
  readonly shapes: readonly TriangleShape[];
  /** Unknown of (node, 0 = w, 1 = wx, 2 = wy); -1 where held. */
  readonly unknown: Int32Array;
  readonly factored: Skyline;
}

/** Bending stiffness of a plate D = E t^3 / (12 (1 - nu^2)) [N mm]. */
const plateD = ({ stiffnessMpa, thicknessMm, poisson }: PlateSheet): number =>
  (stiffnessMpa * thicknessMm ** 3) / (12 * (1 - poisson ** 2));

/** Sets up a plate held along its outline, by side or all round alike; why not where it would float. */
export function bendingPlate(
  mesh: PlateMesh,
  sheet: PlateSheet,
  held: EdgeHold | readonly EdgeHold[],
): BendingPlate | { readonly why: string } {
  const n = mesh.xs.length;
  const isHeld = new Uint8Array(3 * n);
  for (const { a, b, loop, side } of mesh.rim) {
    if (loop !== 0) continue;
    const hold = typeof held === 'string' ? held : (held[side] ?? 'simply');
    if (hold === 'free') continue;
    for (const node of [a, b]) {
      isHeld[3 * node] = 1;
      if (hold === 'clamped') isHeld.fill(1, 3 * node, 3 * node + 3);
    }
  }
  const v = mesh.triangles;
  const around = neighboursOf(mesh);
  const place = nearOrder(around);
  const byPlace = Int32Array.from(place.keys()).sort((i, j) => place[i]! - place[j]!);
  const unknown = new Int32Array(3 * n).fill(-1);
  let count = 0;
  for (const node of byPlace)
    if (around[node]!.length > 0)
      for (let d = 0; d < 3; d++) if (!isHeld[3 * node + d]) unknown[3 * node + d] = count++;
  const first = Int32Array.from({ length: count }, (_, i) => i);
  for (let t = 0; t < v.length; t += 3) forUnknowns(v, t, unknown, (i, j) => (first[i] = Math.min(first[i]!, j)));
  const factored = emptySkyline(first);
  const shapes: TriangleShape[] = [];
  const own = new Float64Array(81);
  const d = plateD(sheet);
  for (let t = 0; t < v.length; t += 3) {
    const shape = shapeOf(mesh, t);
    shapes.push(shape);
    bendingStiffness(shape, d, sheet.poisson, own);
    forUnknowns(v, t, unknown, (i, j, a, b) => addTo(factored, i, j, own[9 * a + b]!));
  }
  if (factorInPlace(factored) !== undefined) return { why: 'the plate is not held: too few of its edges are' };
  return { mesh, sheet, shapes, unknown, factored };
}

export function neighboursOf({ xs, triangles }: Pick<PlateMesh, 'xs' | 'triangles'>): number[][] {
  const around = Array.from({ length: xs.length }, () => new Set<number>());
  for (let t = 0; t < triangles.length; t += 3)
    for (let a = 0; a < 3; a++)
      for (let b = 0; b < 3; b++) if (a !== b) around[triangles[t + a]!]!.add(triangles[t + b]!);
  return around.map((set) => [...set]);
}

function shapeOf({ xs, ys, triangles }: PlateMesh, t: number): TriangleShape {
  const nodes = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
  return triangleShape(
    nodes.map((i) => xs[i]!),
    nodes.map((i) => ys[i]!),
  );
}

/** Each pair of a triangle's unknowns, row not above column, with their places among its nine. */
function forUnknowns(
  v: Int32Array,
  t: number,
  unknown: Int32Array,
  visit: (i: number, j: number, a: number, b: number) => void,
): void {
  for (let a = 0; a < 9; a++) {
    const i = unknown[3 * v[t + Math.floor(a / 3)]! + (a % 3)]!;
    if (i < 0) continue;
    for (let b = 0; b < 9; b++) {
      const j = unknown[3 * v[t + Math.floor(b / 3)]! + (b % 3)]!;
      if (j >= 0 && j <= i) visit(i, j, a, b);
    }
  }
}

/** What a pressure does: deflection and the stress of bending at the sheet's faces. */
export interface PressedPlate {
  readonly deflectionMm: number;
  readonly stressMpa: number;
  /** Where the most stress is [mm]. */
  readonly stressAt: readonly [number, number];
  /** Deflection by node [mm]. */
  readonly deflections: Float64Array;
}

/** Deflection and greatest stress (von Mises) under an even pressure [MPa = N/mm2]. */
export function pressedPlate(plate: BendingPlate, pressureMpa: number): PressedPlate {
  const { mesh, unknown, shapes } = plate;
  const load = new Float64Array(plate.factored.first.length);
  const v = mesh.triangles;
  for (let t = 0; t < v.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const i = unknown[3 * v[t + k]!]!;
      if (i >= 0) load[i]! += (pressureMpa * shapes[t / 3]!.twice) / 6;
    }
  solveInPlace(plate.factored, load);
  const all = Float64Array.from(unknown, (i) => (i < 0 ? 0 : load[i]!));
  const deflections = Float64Array.from({ length: mesh.xs.length }, (_, i) => all[3 * i]!);
  let deflectionMm = 0;
  for (const w of deflections) deflectionMm = Math.max(deflectionMm, Math.abs(w));
  return { deflectionMm, ...greatestStress(plate, all), deflections };
}

const CORNERS = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;

/** Curvatures at corners are averaged over the triangles that meet there; the greatest stress is taken from the averages. */
function greatestStress(
  { mesh, shapes, sheet }: BendingPlate,
  all: Float64Array,
): Pick<PressedPlate, 'stressMpa' | 'stressAt'> {
  const v = mesh.triangles;
  const sums = new Float64Array(4 * mesh.xs.length);
  const rows = new Float64Array(27);
  for (let t = 0; t < v.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const [node, shape] = [v[t + k]!, shapes[t / 3]!];
      curvatureRows(shape, CORNERS[k]!, rows);
      for (let c = 0; c < 3; c++)
        for (let a = 0; a < 9; a++)
          sums[4 * node + c]! += shape.twice * rows[9 * c + a]! * all[3 * v[t + Math.floor(a / 3)]! + (a % 3)]!;
      sums[4 * node + 3]! += shape.twice;
    }
  // Stress at the faces: E t / (2 (1 - nu^2)) times the curvature.
  const by = (sheet.stiffnessMpa * sheet.thicknessMm) / (2 * (1 - sheet.poisson ** 2));
  let [stressMpa, at] = [0, 0];
  for (let i = 0; i < mesh.xs.length; i++) {
    if (sums[4 * i + 3] === 0) continue;
    const [xx, yy, xy] = [0, 1, 2].map((c) => sums[4 * i + c]! / sums[4 * i + 3]!) as [number, number, number];
    const sx = by * (xx + sheet.poisson * yy);
    const sy = by * (yy + sheet.poisson * xx);
    const sxy = (by * (1 - sheet.poisson) * xy) / 2;
    const mises = Math.sqrt(sx * sx - sx * sy + sy * sy + 3 * sxy * sxy);
    if (mises > stressMpa) [stressMpa, at] = [mises, i];
  }
  return { stressMpa, stressAt: [mesh.xs[at]!, mesh.ys[at]!] };
}

/** kg/m3 in tonnes per mm3, which go with N, mm and s. */
const TONNES_PER_MM3 = 1e-12;

/** The plate's first own frequency [Hz]; its mass stands at the nodes. */
export function plateFrequency(plate: BendingPlate): number {
  const { mesh, unknown, shapes, sheet } = plate;
  const mass = new Float64Array(plate.factored.first.length);
  const v = mesh.triangles;
  const perArea = sheet.densityKgM3 * TONNES_PER_MM3 * sheet.thicknessMm;
  for (let t = 0; t < v.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const i = unknown[3 * v[t + k]!]!;
      if (i >= 0) mass[i]! += (perArea * shapes[t / 3]!.twice) / 6;
    }
  const mode = lowestMode(plate.factored, (x, into) => {
    for (let i = 0; i < x.length; i++) into[i] = mass[i]! * x[i]!;
  });
  return mode === undefined ? 0 : Math.sqrt(mode.factor) / (2 * Math.PI);
}

/** By how much in-plane forces may grow until the plate buckles; forces at the middles of each triangle's sides [N/mm], tension positive. */
export function bucklingFactor(plate: BendingPlate, forces: Float64Array): number {
  const { mesh, unknown, shapes } = plate;
  const v = mesh.triangles;
  const own = new Float64Array(81 * shapes.length);
  const one = new Float64Array(81);
  for (const [t, shape] of shapes.entries()) {
    pressedStiffness(shape, forces, 9 * t, one);
    own.set(one, 81 * t);
  }
  const mode = lowestMode(plate.factored, (x, into) => {
    into.fill(0);
    for (let t = 0; t < shapes.length; t++)
      for (let a = 0; a < 9; a++) {
        const i = unknown[3 * v[3 * t + Math.floor(a / 3)]! + (a % 3)]!;
        if (i < 0) continue;
        for (let b = 0; b < 9; b++) {
          const j = unknown[3 * v[3 * t + Math.floor(b / 3)]! + (b % 3)]!;
          if (j >= 0) into[i]! -= own[81 * t + 9 * a + b]! * x[j]!;
        }
      }
  });
  return mode === undefined ? Infinity : Math.abs(mode.factor);
}
