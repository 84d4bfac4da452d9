import type { Part } from '#car';
import type { Vec } from '#geometry';
import { Box3, Vector3 } from 'three';
import { shapeGeometry } from './shape-geometry.ts';

/** Room round a port of a part without a shape [mm]. */
const ROUND_PORT_MM = 150;

/** The box that holds everything but scans, whose size is not known before they come, and what is being measured in [mm]. */
export function boundsOf(parts: readonly Part[], marks: readonly { readonly atMm: Vec }[] = []): Box3 {
  const all = new Box3();
  for (const part of parts)
    for (const shape of part.shapes) {
      const geometry = shapeGeometry(shape, null);
      geometry?.computeBoundingBox();
      if (geometry?.boundingBox) all.union(geometry.boundingBox);
    }
  const bare = parts.filter((part) => part.shapes.length === 0).flatMap((part) => part.ports);
  const hasSolid = !all.isEmpty();
  for (const { atMm } of [...bare, ...marks])
    all.union(new Box3(new Vector3(...atMm), new Vector3(...atMm)).expandByScalar(ROUND_PORT_MM));
  if (!hasSolid && !all.isEmpty()) all.expandByPoint(new Vector3(-ROUND_PORT_MM, 0, 0));
  if (all.isEmpty()) all.set(all.min.set(0, -900, 0), all.max.set(2600, 900, 1100));
  return all;
}
