import { counted } from './limits.ts';
import type { BuiltMesh } from './mesh-builder.kernel.ts';
import { meshEdges } from './mesh-edges.kernel.ts';
import { MM_PER, type MeshUnit } from './mesh-unit.ts';
import type { TriangleMesh } from '#geometry';

type Point = readonly [x: number, y: number, z: number];

/** What the builder of the car should know of a mesh that was read. */
export interface MeshNotes {
  readonly triangles: number;
  readonly vertices: number;
  /** Triangles left out because two of their corners are the same point. */
  readonly droppedDegenerate: number;
  /** Edges with a triangle on one side only. */
  readonly openEdges: number;
  /** Edges that more than two triangles share. */
  readonly crowdedEdges: number;
  /** The mesh encloses a volume, so that inside and outside can be told. */
  readonly closed: boolean;
  readonly minMm: Point;
  readonly maxMm: Point;
  readonly sizeMm: Point;
  /** Names of the solids in a STEP file, in its order. */
  readonly solids: readonly string[];
  /** Plain sentences on what looks wrong but was read all the same. */
  readonly warnings: readonly string[];
}

/** Parts of a car measure between these [mm]; common practice, no source. Outside them the unit is asked about. */
const SMALLEST_PART_MM = 5;
const LARGEST_PART_MM = 6000;

/** Counts, size and warnings of a mesh just built. */
export function meshNotes(built: BuiltMesh, unit: MeshUnit, solids: readonly string[] = []): MeshNotes {
  const { mesh, droppedDegenerate } = built;
  const vertices = mesh.positions.length / 3;
  const edges = meshEdges(mesh.indices, vertices);
  const { minMm, maxMm } = extent(mesh);
  const sizeMm: Point = [maxMm[0] - minMm[0], maxMm[1] - minMm[1], maxMm[2] - minMm[2]];
  const warnings = [...built.remarks, ...sizeWarnings(Math.max(...sizeMm), unit)];
  if (droppedDegenerate > 0) warnings.push(`${counted(droppedDegenerate)} triangles without area left out`);
  if (!edges.closed) {
    const why = edges.open > 0 ? `${counted(edges.open)} open edges` : 'neighbouring triangles face opposite ways';
    warnings.push(`not closed: ${why}`);
  }
  return {
    triangles: mesh.indices.length / 3,
    vertices,
    droppedDegenerate,
    openEdges: edges.open,
    crowdedEdges: edges.crowded,
    closed: edges.closed,
    minMm,
    maxMm,
    sizeMm,
    solids,
    warnings,
  };
}

function sizeWarnings(greatestMm: number, unit: MeshUnit): string[] {
  if (greatestMm >= SMALLEST_PART_MM && greatestMm <= LARGEST_PART_MM) return [];
  const fitting = (Object.keys(MM_PER) as MeshUnit[]).filter((other) => {
    const size = (greatestMm / MM_PER[unit]) * MM_PER[other];
    return other !== unit && size >= SMALLEST_PART_MM && size <= LARGEST_PART_MM;
  });
  const digits = Number(greatestMm.toPrecision(3));
  const ask = fitting.length > 0 ? `: is the file in ${fitting.join(' or ')}?` : ': check the unit';
  return [`read in ${unit} it measures ${digits} mm at most${ask}`];
}

function extent(mesh: TriangleMesh): { minMm: Point; maxMm: Point } {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  const p = mesh.positions;
  for (let i = 0; i < p.length; i += 3) {
    for (const axis of [0, 1, 2] as const) {
      const value = p[i + axis] ?? 0;
      if (value < min[axis]) min[axis] = value;
      if (value > max[axis]) max[axis] = value;
    }
  }
  return { minMm: min, maxMm: max };
}
