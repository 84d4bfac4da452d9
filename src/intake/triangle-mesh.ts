/** Triangles in millimetres: x, y, z of each vertex, three vertex numbers a triangle. The same shape as geometry's. */
export interface TriangleMesh {
  readonly positions: Float32Array | Float64Array;
  readonly indices: Uint32Array;
}
