import type { TriangleMesh } from '#geometry';
import { decimated } from './decimated.ts';

/** A mesh as it is drawn from so far away; it is never measured on. */
export interface PictureLevel {
  readonly mesh: TriangleMesh;
  /** The drawn surface lies no farther off the mesh than this [mm]. */
  readonly errorMm: number;
}

/** Triangles of a picture: of a car seen whole, of a part seen whole, and from close by, where a tablet still turns it without stutter. */
export const PICTURE_TRIANGLES = [5_000, 20_000, 120_000] as const;

/** One step to fewer triangles parts the surfaces by no more than this [mm]; where more would be needed, the triangles stay. */
const STEP_ERROR_MM = 8;

/** The mesh at each of the levels of a picture, the lightest first; each is made of the next finer one, and their errors add up. */
export async function pictureLevels(mesh: TriangleMesh): Promise<readonly PictureLevel[]> {
  const levels: PictureLevel[] = [];
  let [at, errorMm] = [mesh, 0];
  for (const triangles of PICTURE_TRIANGLES.toReversed()) {
    const light = await decimated(at, { triangles, errorMm: STEP_ERROR_MM });
    at = light.mesh;
    errorMm += light.error.worstMm;
    levels.unshift({ mesh: at, errorMm });
  }
  return levels;
}
