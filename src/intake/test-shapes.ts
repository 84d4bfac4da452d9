import type { TriangleMesh } from '#geometry';
import { MeshBuilder } from './mesh-builder.kernel.ts';

/** Shapes whose every measure is known by construction, for this room's tests. */

/** A pipe along Z, open through the middle: `around` x `along` squares outside and in, ring-shaped ends. */
export function pipeMesh(
  outerMm: number,
  innerMm: number,
  lengthMm: number,
  around: number,
  along: number,
): TriangleMesh {
  const positions: number[] = [];
  const indices: number[] = [];
  for (const radius of [outerMm, innerMm]) {
    for (let j = 0; j <= along; j++) {
      for (let i = 0; i < around; i++) {
        const angle = (2 * Math.PI * i) / around;
        positions.push(radius * Math.cos(angle), radius * Math.sin(angle), (lengthMm * j) / along);
      }
    }
  }
  const at = (wall: number, i: number, j: number): number => (wall * (along + 1) + j) * around + (i % around);
  const square = (a: number, b: number, c: number, d: number): unknown => indices.push(a, b, c, a, c, d);
  for (let i = 0; i < around; i++) {
    for (let j = 0; j < along; j++) {
      square(at(0, i, j), at(0, i + 1, j), at(0, i + 1, j + 1), at(0, i, j + 1));
      square(at(1, i, j + 1), at(1, i + 1, j + 1), at(1, i + 1, j), at(1, i, j));
    }
    square(at(0, i + 1, 0), at(0, i, 0), at(1, i, 0), at(1, i + 1, 0));
    square(at(0, i, along), at(0, i + 1, along), at(1, i + 1, along), at(1, i, along));
  }
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(indices) };
}

/**
 * A plate of square cells side by side along X, each with a round hole drilled through its middle; top at Z = thickness,
 * underside at 0. Without thickness: the top alone, an open sheet.
 */
export function drilledPlate(cells: number, cellMm: number, holeMm: number, thicknessMm: number): TriangleMesh {
  const into = new MeshBuilder(1);
  const vertex = ([x, y]: Flat, z: number): number => into.vertex(x, y, z);
  const square = (a: number, b: number, c: number, d: number): void => {
    into.triangle(a, b, c);
    into.triangle(a, c, d);
  };
  for (let cell = 0; cell < cells; cell++) {
    for (let i = 0; i < AROUND; i++) {
      const at = (k: number, ring: number): Flat => cellPoint((i + k) % AROUND, ring, cell, cellMm, holeMm);
      for (let ring = 0; ring < RINGS; ring++) {
        const [a, b, c, d] = [at(0, ring), at(0, ring + 1), at(1, ring + 1), at(1, ring)];
        square(vertex(a, thicknessMm), vertex(b, thicknessMm), vertex(c, thicknessMm), vertex(d, thicknessMm));
        if (thicknessMm > 0) square(vertex(d, 0), vertex(c, 0), vertex(b, 0), vertex(a, 0));
      }
      if (thicknessMm === 0) continue;
      const [hole, nextHole, rim, nextRim] = [at(0, 0), at(1, 0), at(0, RINGS), at(1, RINGS)];
      square(vertex(hole, 0), vertex(hole, thicknessMm), vertex(nextHole, thicknessMm), vertex(nextHole, 0));
      // an edge shared with the next cell is inside the plate and gets no wall
      const shared =
        rim[0] === nextRim[0] && ((rim[0] > cell * cellMm && cell < cells - 1) || (rim[0] < cell * cellMm && cell > 0));
      if (!shared) square(vertex(rim, 0), vertex(nextRim, 0), vertex(nextRim, thicknessMm), vertex(rim, thicknessMm));
    }
  }
  return into.finish().mesh;
}

type Flat = readonly [x: number, y: number];
const AROUND = 64;
const RINGS = 6;

/** A point of one cell: ring 0 lies on the hole, the last on the cell's square outline. */
function cellPoint(i: number, ring: number, cell: number, cellMm: number, holeMm: number): Flat {
  const angle = (2 * Math.PI * i) / AROUND;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const out = cellMm / 2 / Math.max(Math.abs(c), Math.abs(s));
  const radius = holeMm + ((out - holeMm) * ring) / RINGS;
  // to a millionth, so that neighbouring cells agree to the last bit
  const round = (value: number): number => Math.round(value * 1e6) / 1e6;
  return [round(radius * c + cell * cellMm), round(radius * s)];
}
