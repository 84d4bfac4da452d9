/**
 * What one mesh file may ask of the machine. Each count a file declares is held against these, and against the bytes
 * that are there, before anything is allocated for it.
 */
export const LIMITS = {
  /** Largest file [bytes]. */
  fileBytes: 512 * 1024 * 1024,
  /** Most triangles kept from one file. */
  triangles: 20_000_000,
  /** Most vertices kept from one file; a closed mesh has half as many vertices as triangles. */
  vertices: 20_000_000,
  /** Farthest coordinate from the file's origin [mm]: a kilometre, far beyond any car, and small enough to square. */
  coordinateMm: 1_000_000,
  /** Most corners of one face that is not convex (cutting it up takes time that grows with the square). */
  hollowFaceCorners: 256,
} as const;

/** A count with its thousands parted, for people. */
export const counted = (n: number): string => String(n).replace(/\B(?=(\d{3})+(?!\d))/g, ',');
