import type { Part } from '#car';
import { Box3 } from 'three';
import { shapeGeometry } from './shape-geometry.ts';

/** The box that holds everything but scans, whose size is not known before they come [mm]. */
export function boundsOf(parts: readonly Part[]): Box3 {
  const all = new Box3();
  for (const part of parts)
    for (const shape of part.shapes) {
      const geometry = shapeGeometry(shape, null);
      geometry?.computeBoundingBox();
      if (geometry?.boundingBox) all.union(geometry.boundingBox);
    }
  if (all.isEmpty()) all.set(all.min.set(0, -900, 0), all.max.set(2600, 900, 1100));
  return all;
}
