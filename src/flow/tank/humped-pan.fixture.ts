import type { TriangleMesh } from '#geometry';

/** A pan with two sumps and a hump between, as an outline of the side pulled across: neither convex nor star-shaped. */
export function humpedPan(widthMm: number): TriangleMesh {
  const side = [
    [0, 0],
    [150, 0],
    [170, 90],
    [260, 90],
    [290, 20],
    [420, 20],
    [420, 140],
    [0, 140],
  ] as const;
  const lid = [7, 0, 1, 7, 1, 2, 7, 2, 3, 7, 3, 6, 6, 3, 4, 6, 4, 5];
  const n = side.length;
  const positions = Float64Array.from([0, widthMm].flatMap((y) => side.flatMap(([x, z]) => [x, y, z])));
  const indices: number[] = [];
  for (let i = 0; i < lid.length; i += 3) {
    indices.push(lid[i]!, lid[i + 1]!, lid[i + 2]!, lid[i]! + n, lid[i + 2]! + n, lid[i + 1]! + n);
  }
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    indices.push(i, i + n, j + n, i, j + n, j);
  }
  return { positions, indices: Uint32Array.from(indices) };
}
