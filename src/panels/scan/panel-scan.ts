import type { Car, Panel } from '#car';
import { GeometryError, type MeshSolid, placing, solidOfMesh, type TriangleMesh, type Vec } from '#geometry';

/** The scanned surface that a panel's corners stand on, in car axes as drawn. */
export interface PanelScan {
  readonly part: string;
  readonly meshes: readonly MeshSolid[];
  /** What kept the scan, or a piece of it, from being read; empty where all is there. */
  readonly missing: readonly string[];
}

/** The scan that a panel names, out of the meshes that have been read; undefined where it names none or none are asked. */
export function scanOf(
  panel: Panel,
  around: { readonly car: Pick<Car, 'parts'>; readonly meshes?: ReadonlyMap<string, TriangleMesh> },
): PanelScan | undefined {
  const { car, meshes } = around;
  const part = car.parts.find(({ id }) => id === panel.onScan);
  if (part === undefined || meshes === undefined) return undefined;
  const found: MeshSolid[] = [];
  const missing: string[] = [];
  for (const { mesh, turnDeg, atMm } of part.shapes) {
    if (mesh === undefined) continue;
    const read = meshes.get(mesh.file);
    if (read === undefined) {
      missing.push(`${mesh.file} has not been read`);
      continue;
    }
    try {
      const inFile = placed(solidOfMesh(read), mesh.turnDeg, mesh.atMm);
      found.push(placed(inFile, turnDeg, atMm));
    } catch (cause) {
      if (!(cause instanceof GeometryError)) throw cause;
      missing.push(`${mesh.file}: ${cause.message}`);
    }
  }
  if (found.length === 0 && missing.length === 0) missing.push(`${part.id} has no mesh among its shapes`);
  return { part: part.id, meshes: found, missing };
}

function placed(solid: MeshSolid, turnDeg: Vec | undefined, atMm: Vec | undefined): MeshSolid {
  const motion = placing(turnDeg, atMm);
  return motion === undefined ? solid : solid.moved(motion);
}

/** The point of the scan nearest to a place, and how far it is [mm]. */
export function nearestOn(scan: PanelScan, at: Vec): { readonly point: Vec; readonly mm: number } | undefined {
  return scan.meshes
    .map((mesh) => {
      const { point, distance } = mesh.closest(...at);
      return { point, mm: Math.abs(distance) };
    })
    .reduce<{ point: Vec; mm: number } | undefined>((a, b) => (a === undefined || b.mm < a.mm ? b : a), undefined);
}

/** Backs a ray off by this, so that it also meets a surface on which it begins [mm]. */
const BACK_MM = 0.01;

/** How far from a place the scan is, straight out along `out` or straight back, whichever is nearer [mm, + out]; undefined beyond `withinMm`. */
export function heightOn(scan: PanelScan, at: Vec, out: Vec, withinMm: number): number | undefined {
  let best: number | undefined;
  for (const mesh of scan.meshes)
    for (const way of [1, -1]) {
      const along: Vec = [way * out[0], way * out[1], way * out[2]];
      const from: Vec = [at[0] - BACK_MM * along[0], at[1] - BACK_MM * along[1], at[2] - BACK_MM * along[2]];
      const limit = best === undefined ? withinMm : Math.abs(best);
      const hit = mesh.firstHit(from, along, limit + BACK_MM);
      if (hit !== null) best = way * (hit.alongMm - BACK_MM);
    }
  return best;
}
