import type { TriangleMesh } from '#geometry';

/** What the server sends of a mesh: counts, then points in millimetres of the file's axes, then triangles. */
export function triangleMeshOf(bytes: ArrayBuffer): TriangleMesh {
  const [points = 0, triangles = 0] = new Uint32Array(bytes, 0, 2);
  return {
    positions: new Float32Array(bytes, 8, 3 * points),
    indices: new Uint32Array(bytes, 8 + 12 * points, 3 * triangles),
  };
}
