import type { Part, Shape } from '#car';
import type { Vec } from '#geometry';
import { Box3, Vector3 } from 'three';
import { signal } from '../bench/signal.ts';
import type { OnTable } from '../scan/pointing.ts';
import { shapeGeometry, shapePlacing } from './shape-geometry.ts';

/** Boxes round the scans that were fetched, in the axes of the file, by car and file. */
export const scanBoxes = signal<ReadonlyMap<string, Box3>>(new Map());

/** Room round a port of a part without a shape [mm]. */
const ROUND_PORT_MM = 150;

/** The box that holds everything: scans once they have come, what is being measured in, or a scan that lies on the table [mm]. */
export function boundsOf(
  parts: readonly Part[],
  marks: readonly { readonly atMm: Vec }[] = [],
  scan: OnTable | null = null,
  boxOf: (file: string) => Box3 | undefined = () => undefined,
): Box3 {
  if (scan !== null && scan.placed === null) return new Box3(new Vector3(...scan.minMm), new Vector3(...scan.maxMm));
  const all = new Box3();
  for (const part of parts) for (const shape of part.shapes) all.union(shapeBox(shape, boxOf));
  if (scan?.placed) all.union(placedBox(new Box3(new Vector3(...scan.minMm), new Vector3(...scan.maxMm)), scan.placed));
  const bare = parts.filter((part) => part.shapes.length === 0).flatMap((part) => part.ports);
  const hasSolid = !all.isEmpty();
  for (const { atMm } of [...bare, ...marks])
    all.union(new Box3(new Vector3(...atMm), new Vector3(...atMm)).expandByScalar(ROUND_PORT_MM));
  if (!hasSolid && !all.isEmpty()) all.expandByPoint(new Vector3(-ROUND_PORT_MM, 0, 0));
  if (all.isEmpty()) all.set(all.min.set(0, -900, 0), all.max.set(2600, 900, 1100));
  return all;
}

const placedBox = (box: Box3, { turnDeg, atMm }: { readonly turnDeg: Vec; readonly atMm: Vec }): Box3 =>
  box.clone().applyMatrix4(shapePlacing({ turnDeg: [...turnDeg], atMm: [...atMm] }));

/** The box that holds a shape where it stands; empty for a scan that has not come. */
export function shapeBox(shape: Shape, boxOf: (file: string) => Box3 | undefined): Box3 {
  if (shape.mesh !== undefined) {
    const { turnDeg = [0, 0, 0], atMm = [0, 0, 0] } = shape.mesh;
    const box = boxOf(shape.mesh.file);
    return box === undefined ? new Box3() : placedBox(box, { turnDeg, atMm }).applyMatrix4(shapePlacing(shape));
  }
  const geometry = shapeGeometry(shape, null);
  geometry?.computeBoundingBox();
  return geometry?.boundingBox ?? new Box3();
}
