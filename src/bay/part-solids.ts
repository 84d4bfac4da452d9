import type { Part, Shape } from '#car';
import {
  box,
  capsule,
  cylinder,
  GeometryError,
  placing,
  type RigidMotion,
  type Solid,
  solidOfMesh,
  type TriangleMesh,
  type Vec,
} from '#geometry';
import type { Finding } from '#sources';

/**
 * The solids of one part, each turned and moved to where it stands. What can't be made into a solid is left out and said.
 *
 * @param meshes - by file, in millimetres
 */
export function partSolids(
  part: Part,
  meshes: ReadonlyMap<string, TriangleMesh>,
  warnings: Finding[],
): readonly Solid[] {
  return part.shapes.flatMap((shape, i) => {
    try {
      return shapeSolids(shape, meshes);
    } catch (cause) {
      if (!(cause instanceof GeometryError)) throw cause;
      warnings.push({
        code: 'shape-unusable',
        level: 'stop',
        text: `${part.name ?? part.id}: shape ${i + 1} takes up no space here: ${cause.message}`,
        source: 'the car file',
      });
      return [];
    }
  });
}

function shapeSolids(shape: Shape, meshes: ReadonlyMap<string, TriangleMesh>): readonly Solid[] {
  const outer = placing(shape.turnDeg, shape.atMm);
  if (shape.box !== undefined) return [place(box(shape.box.minMm, shape.box.maxMm), outer)];
  if (shape.cylinder !== undefined) {
    return [place(cylinder(shape.cylinder.fromMm, shape.cylinder.toMm, shape.cylinder.radiusMm), outer)];
  }
  if (shape.tube !== undefined) return tubeSolids(shape.tube.pointsMm, shape.tube.radiusMm).map((s) => place(s, outer));
  if (shape.mesh !== undefined) {
    const inner = placing(shape.mesh.turnDeg, shape.mesh.atMm);
    return [place(place(meshOf(shape.mesh.file, meshes), inner), outer)];
  }
  return [];
}

function meshOf(file: string, meshes: ReadonlyMap<string, TriangleMesh>): Solid {
  const mesh = meshes.get(file);
  if (mesh === undefined) throw new GeometryError('mesh file', file, 'a mesh file that has been read');
  return solidOfMesh(mesh);
}

/** A chain of capsules; a single point is a ball. */
function tubeSolids(points: readonly Vec[], radiusMm: number): Solid[] {
  if (points.length === 1) return [capsule(points[0]!, points[0]!, radiusMm)];
  return points.slice(1).map((to, i) => capsule(points[i]!, to, radiusMm));
}

const place = (solid: Solid, motion: RigidMotion | undefined): Solid =>
  motion === undefined ? solid : solid.moved(motion);
