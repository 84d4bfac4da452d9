import type { Case, Port, Shape, Vessel } from '#car';
import type { TriangleMesh, Vec } from '#geometry';
import { coverOf, type Outlet, outletIn } from '../tank/outlet.ts';
import { Levels } from '../tank/level.ts';
import { tankOfBox, tankOfCylinder, tankOfMesh, tankOfTube, type Tank, type TankWish } from '../tank/tank.ts';
import { FlowError } from '../flow-error.ts';
import type { DrawnVessel } from './drawn-circuit.ts';
import { heightMmG } from './pull.ts';

/** A vessel with its inside, or in one line why that is not known. */
export interface VesselInside {
  readonly drawn: DrawnVessel;
  readonly tank: Tank | null;
  readonly fault: string | null;
}

/** How a vessel stands in one case. */
export interface VesselState {
  readonly vessel: Vessel;
  readonly fillM3: number;
  /** Height of its free surface against the pull [mm g]; null without inside, fill or pull. */
  readonly surfaceMmG: number | null;
  /** By port: how its mouth stands to the fluid. Absent where there is no surface. */
  readonly mouths: ReadonlyMap<string, { readonly share: number; readonly headMm: number }>;
}

const wallless = (vessel: Vessel, name: string): TankWish => ({
  name,
  ...(vessel.volumeL === undefined ? {} : { volumeM3: vessel.volumeL / 1000 }),
});

/** The inside of a vessel: as stated, or the largest body of its part. */
export function vesselInside(drawn: DrawnVessel, meshes: ReadonlyMap<string, TriangleMesh>): VesselInside {
  const { vessel, part } = drawn;
  const wish = wallless(vessel, part.name ?? part.id);
  try {
    const tank =
      vessel.inside === undefined ? largestInside(part.shapes, meshes, wish) : statedInside(vessel.inside, wish);
    return tank === undefined
      ? { drawn, tank: null, fault: `${wish.name} has no shape to hold anything` }
      : { drawn, tank, fault: null };
  } catch (error) {
    if (error instanceof FlowError) return { drawn, tank: null, fault: error.message };
    throw error;
  }
}

function largestInside(
  shapes: readonly Shape[],
  meshes: ReadonlyMap<string, TriangleMesh>,
  wish: TankWish,
): Tank | undefined {
  const plain = shapes.map((shape) => shapeInside(shape, meshes, { name: wish.name ?? 'tank' }));
  let largest = -1;
  plain.forEach((tank, i) => {
    if (tank !== undefined && tank.volumeM3 > (plain[largest]?.volumeM3 ?? 0)) largest = i;
  });
  const shape = shapes[largest];
  return shape === undefined || wish.volumeM3 === undefined ? plain[largest] : shapeInside(shape, meshes, wish);
}

function statedInside(inside: NonNullable<Vessel['inside']>, wish: TankWish): Tank | undefined {
  if (inside.cylinder !== undefined)
    return tankOfCylinder(inside.cylinder.fromMm, inside.cylinder.toMm, inside.cylinder.radiusMm, wish);
  return inside.box === undefined ? undefined : tankOfBox(inside.box.minMm, inside.box.maxMm, wish);
}

/** Turned and moved shapes are left out: a builder gives such a vessel its inside. */
function shapeInside(shape: Shape, meshes: ReadonlyMap<string, TriangleMesh>, wish: TankWish): Tank | undefined {
  if (shape.turnDeg !== undefined || shape.atMm !== undefined) return undefined;
  if (shape.cylinder !== undefined) {
    const { fromMm, toMm, radiusMm } = shape.cylinder;
    return tankOfCylinder(fromMm, toMm, radiusMm, wish);
  }
  if (shape.box !== undefined) return tankOfBox(shape.box.minMm, shape.box.maxMm, wish);
  if (shape.tube !== undefined) return tankOfTube(shape.tube.pointsMm, shape.tube.radiusMm, wish);
  const mesh = shape.mesh === undefined ? undefined : meshes.get(shape.mesh.file);
  return mesh === undefined ? undefined : tankOfMesh(mesh, wish);
}

/** Its fill in a case [m3], never more than it holds. */
export function fillIn(inside: VesselInside, at: Case): number {
  const { vessel } = inside.drawn;
  const litres = at.fills?.find(({ part }) => part === vessel.part)?.fillL ?? vessel.fillL ?? 0;
  return inside.tank === null ? litres / 1000 : Math.min(litres / 1000, inside.tank.volumeM3);
}

const LEAST_PULL_G = 0.01;

/** Where its surface lies and which mouths are covered, pulled as stated. */
export function vesselState(
  inside: VesselInside,
  fillM3: number,
  pull: Vec,
  boresMm: ReadonlyMap<string, number>,
): VesselState {
  const { vessel, ports } = inside.drawn;
  const size = Math.hypot(pull[0], pull[1], pull[2]);
  const mouths = new Map<string, { share: number; headMm: number }>();
  if (inside.tank === null || size < LEAST_PULL_G) return { vessel, fillM3, surfaceMmG: null, mouths };
  const levels = new Levels(inside.tank);
  levels.lookAlong([-pull[0] / size, -pull[1] / size, -pull[2] / size]);
  const heightMm = levels.heightMm(fillM3);
  for (const port of ports) {
    const id = `${vessel.part}.${port.id}`;
    const boreMm = boresMm.get(id);
    if (boreMm === undefined) continue;
    const outlet = mouthOf(inside, id, port, boreMm);
    if (outlet === null) {
      const above = heightMm - heightMmG(pull, port.atMm) / size;
      mouths.set(id, { share: above > 0 ? 1 : 0, headMm: above });
    } else mouths.set(id, coverOf(outlet, { up: levels.up, heightMm }));
  }
  return { vessel, fillM3, surfaceMmG: heightMm * size, mouths };
}

/** Where a mouth opens into an inside hangs on neither fill nor pull; null: its port lies too far from it. */
const outlets = new WeakMap<VesselInside, Map<string, Outlet | null>>();

function mouthOf(inside: VesselInside, id: string, port: Port, boreMm: number): Outlet | null {
  const known = outlets.get(inside) ?? new Map<string, Outlet | null>();
  outlets.set(inside, known);
  const key = `${id} ${boreMm}`;
  const had = known.get(key);
  if (had !== undefined) return had;
  const made = outletOrNull(inside.tank!, { id, atMm: port.atMm, axis: port.faces, boreMm });
  known.set(key, made);
  return made;
}

function outletOrNull(tank: Tank, outlet: Outlet): Outlet | null {
  try {
    return outletIn(tank, outlet);
  } catch (error) {
    if (!(error instanceof FlowError)) throw error;
    return null;
  }
}
