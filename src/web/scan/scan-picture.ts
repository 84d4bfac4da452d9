import type { TriangleMesh } from '#geometry';

/** A scan as it is drawn: lighter than it is, and by how much. */
export interface ScanPicture {
  readonly mesh: TriangleMesh;
  /** Triangles of the scan itself, on which everything is measured. */
  readonly ofTriangles: number;
  /** The picture lies no farther off the scan than this [mm]. */
  readonly errorMm: number;
}

/** Levels that the server has a scan in, from the lightest to the finest. */
export const PICTURE_LEVELS = 3;

/** What the server sends of a scan: counts, how far off it is, then points in millimetres of the file's axes, then triangles. */
export function scanPicture(bytes: ArrayBuffer): ScanPicture {
  const [points = 0, triangles = 0, ofTriangles = 0] = new Uint32Array(bytes, 0, 3);
  const [errorMm = 0] = new Float32Array(bytes, 12, 1);
  const mesh = {
    positions: new Float32Array(bytes, 16, 3 * points),
    indices: new Uint32Array(bytes, 16 + 12 * points, 3 * triangles),
  };
  return { mesh, ofTriangles, errorMm };
}
