import { type TriangleMesh, triangleMesh, type Vec } from '#geometry';
import type { LevelMesh } from './mesh-level.kernel.ts';
import { FlowError } from '../flow-error.ts';

/**
 * The mesh with corners at one place made one, seen from the middle of its bounds, turned outside out.
 *
 * @throws FlowError for a mesh with an open edge or without volume; GeometryError for one that is no mesh
 */
export function closedMesh(what: string, given: TriangleMesh): LevelMesh {
  triangleMesh(given.positions, given.indices);
  const { positions, indices, centre } = welded(given);
  const open = openEdge(indices);
  if (open !== undefined) {
    const at = [0, 1, 2].map((i) => Math.round((positions[open * 3 + i]! + centre[i]!) * 10) / 10);
    throw new FlowError(`${what} mesh`, `an open edge at (${at.join(', ')}) mm`, 'a closed surface');
  }
  const areas = areaVectors(positions, indices);
  const volume = signedVolume(positions, indices, areas);
  const size = Math.max(...positions.map(Math.abs));
  if (!(Math.abs(volume) > size ** 3 * LEAST_VOLUME_SHARE))
    throw new FlowError(`${what} mesh volume`, `${volume} mm3`, 'a closed surface round a volume above 0');
  if (volume > 0) return { positions, indices, areas, centre, volumeMm3: volume };
  for (let i = 0; i < indices.length; i += 3) [indices[i], indices[i + 1]] = [indices[i + 1]!, indices[i]!];
  for (let i = 0; i < areas.length; i++) areas[i] = -areas[i]!;
  return { positions, indices, areas, centre, volumeMm3: -volume };
}

/** Below this share of the cube round it a volume is rounding, not a tank. */
const LEAST_VOLUME_SHARE = 1e-9;

/** Triangles with two corners at one place are left out; those with three on one line stay, or the surface would open. */
function welded(mesh: TriangleMesh): { positions: Float64Array; indices: Uint32Array; centre: Vec } {
  const { positions: p } = mesh;
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  const indices = new Uint32Array(mesh.indices.length);
  const known = new Map<string, number>();
  const places: number[] = [];
  mesh.indices.forEach((corner, i) => {
    const place = [p[corner * 3]!, p[corner * 3 + 1]!, p[corner * 3 + 2]!];
    const key = place.join(' ');
    let at = known.get(key);
    if (at === undefined) {
      at = places.length / 3;
      known.set(key, at);
      places.push(...place);
      for (const axis of [0, 1, 2] as const) {
        low[axis] = Math.min(low[axis]!, place[axis]!);
        high[axis] = Math.max(high[axis]!, place[axis]!);
      }
    }
    indices[i] = at;
  });
  const kept = indices.filter((_, i) => {
    const [a, b, c] = [0, 1, 2].map((k) => indices[i - (i % 3) + k]!);
    return a !== b && b !== c && c !== a;
  });
  const centre: Vec = [(low[0]! + high[0]!) / 2, (low[1]! + high[1]!) / 2, (low[2]! + high[2]!) / 2];
  return { positions: Float64Array.from(places, (v, i) => v - centre[i % 3]!), indices: kept, centre };
}

/** A corner of an edge that is not run along as often one way as the other. */
function openEdge(indices: Uint32Array): number | undefined {
  const balance = new Map<string, number>();
  for (let i = 0; i < indices.length; i++) {
    const a = indices[i]!;
    const b = indices[i % 3 === 2 ? i - 2 : i + 1]!;
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    balance.set(key, (balance.get(key) ?? 0) + (a < b ? 1 : -1));
  }
  for (const [key, count] of balance) if (count !== 0) return Number(key.split(' ')[0]);
  return undefined;
}

function areaVectors(p: Float64Array, indices: Uint32Array): Float64Array {
  const areas = new Float64Array(indices.length);
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [indices[i]! * 3, indices[i + 1]! * 3, indices[i + 2]! * 3];
    const u = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!] as const;
    const v = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!] as const;
    areas[i] = (u[1] * v[2] - u[2] * v[1]) / 2;
    areas[i + 1] = (u[2] * v[0] - u[0] * v[2]) / 2;
    areas[i + 2] = (u[0] * v[1] - u[1] * v[0]) / 2;
  }
  return areas;
}

/** Signed tetrahedra from the middle of the bounds: a third of corner times area vector. */
function signedVolume(p: Float64Array, indices: Uint32Array, areas: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const a = indices[i]! * 3;
    sum += p[a]! * areas[i]! + p[a + 1]! * areas[i + 1]! + p[a + 2]! * areas[i + 2]!;
  }
  return sum / 3;
}
