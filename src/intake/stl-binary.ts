import type { TriangleMesh } from '#geometry';

/** The mesh as a binary STL in its own unit (millimetres here); normals by the right-hand rule, zero for slivers. */
export function stlBinary(mesh: TriangleMesh): Uint8Array {
  const triangles = mesh.indices.length / 3;
  const bytes = new Uint8Array(84 + 50 * triangles);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, triangles, true);
  const p = mesh.positions;
  const corner = (i: number, axis: number): number => p[(mesh.indices[i] ?? 0) * 3 + axis] ?? 0;
  for (let t = 0; t < triangles; t++) {
    const at = 84 + 50 * t;
    const [a, b, c] = [3 * t, 3 * t + 1, 3 * t + 2].map((i) => [corner(i, 0), corner(i, 1), corner(i, 2)] as const);
    if (a === undefined || b === undefined || c === undefined) continue;
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
    const normal = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    const length = Math.hypot(...normal) || 1;
    normal.forEach((value, axis) => view.setFloat32(at + 4 * axis, value / length, true));
    [...a, ...b, ...c].forEach((value, i) => view.setFloat32(at + 12 + 4 * i, value, true));
  }
  return bytes;
}
