import { Earcut } from 'three/src/extras/Earcut.js';
import { counted, LIMITS } from './limits.ts';
import type { MeshBuilder } from './mesh-builder.kernel.ts';

type Triple = readonly [number, number, number];

/**
 * Adds a face of three or more corners, given by the builder's vertex numbers, as triangles: a fan when it bulges
 * everywhere, else cut up by ears in its own plane (a fan would spill over the notch).
 *
 * @returns what is wrong with the face, in words; undefined when it was added
 */
export function addFace(into: MeshBuilder, corners: readonly number[]): { found: string; allowed: string } | undefined {
  const first = corners[0];
  if (first === undefined || corners.length < 3)
    return { found: `a face of ${corners.length} corners`, allowed: 'three or more' };
  if (into.triangleCount + corners.length - 2 > LIMITS.triangles) {
    return {
      found: `more than ${counted(LIMITS.triangles)} triangles`,
      allowed: `at most ${counted(LIMITS.triangles)}`,
    };
  }
  if (corners.length === 3) {
    into.triangle(first, corners[1] ?? first, corners[2] ?? first);
    return undefined;
  }
  const points = corners.map((corner) => into.position(corner));
  const normal = newellNormal(points);
  if (bulgesEverywhere(points, normal)) {
    for (let i = 2; i < corners.length; i++) into.triangle(first, corners[i - 1] ?? first, corners[i] ?? first);
    return undefined;
  }
  if (corners.length > LIMITS.hollowFaceCorners) {
    return {
      found: `a hollow face of ${counted(corners.length)} corners`,
      allowed: `at most ${LIMITS.hollowFaceCorners}`,
    };
  }
  const cut = Earcut.triangulate(flattened(points, normal), []);
  for (let i = 0; i + 2 < cut.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => corners[cut[i + k] ?? 0] ?? first);
    if (a !== undefined && b !== undefined && c !== undefined) into.triangle(a, b, c);
  }
  return undefined;
}

/** Twice the area of the face as a vector square to it; sums over the rim, so it stands for bent faces too. */
function newellNormal(points: readonly Triple[]): Triple {
  let [x, y, z] = [0, 0, 0];
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length] ?? p;
    x += (p[1] - q[1]) * (p[2] + q[2]);
    y += (p[2] - q[2]) * (p[0] + q[0]);
    z += (p[0] - q[0]) * (p[1] + q[1]);
  });
  return [x, y, z];
}

function bulgesEverywhere(points: readonly Triple[], n: Triple): boolean {
  return points.every((p, i) => {
    const q = points[(i + 1) % points.length] ?? p;
    const r = points[(i + 2) % points.length] ?? p;
    const u = [q[0] - p[0], q[1] - p[1], q[2] - p[2]] as const;
    const v = [r[0] - q[0], r[1] - q[1], r[2] - q[2]] as const;
    const turn =
      n[0] * (u[1] * v[2] - u[2] * v[1]) + n[1] * (u[2] * v[0] - u[0] * v[2]) + n[2] * (u[0] * v[1] - u[1] * v[0]);
    return turn >= 0;
  });
}

/** The points seen along the normal's longest axis, turning the same way round. */
function flattened(points: readonly Triple[], n: Triple): number[] {
  const [ax, ay, az] = n.map(Math.abs) as [number, number, number];
  if (az >= ax && az >= ay) return points.flatMap((p) => (n[2] >= 0 ? [p[0], p[1]] : [p[1], p[0]]));
  if (ay >= ax) return points.flatMap((p) => (n[1] >= 0 ? [p[2], p[0]] : [p[0], p[2]]));
  return points.flatMap((p) => (n[0] >= 0 ? [p[1], p[2]] : [p[2], p[1]]));
}
