import { addScaled, dot, meshSolid, norm, scale, type Solid, triangleMesh, type Vec } from '#geometry';
import type { FreeSurface } from './level.ts';
import type { LevelMesh } from './mesh-level.kernel.ts';
import type { Tank } from './tank.ts';
import { needPositive, needNumber, FlowError } from '../flow-error.ts';

/** Where oil is drawn from: a disc in the tank, the mouth of a port or of a pick-up. */
export interface Outlet {
  readonly id: string;
  readonly atMm: Vec;
  /** Square to the disc; its sign does not matter. */
  readonly axis: Vec;
  readonly boreMm: number;
}

/** How an outlet stands to the oil. `partly`: some of its bore draws air. */
export type Covering = 'covered' | 'partly' | 'uncovered';

export interface Cover {
  readonly outlet: string;
  readonly covering: Covering;
  /** Of the bore's area that is under oil [-], 0 to 1. */
  readonly share: number;
  /** From the bore's highest point up to the surface along the pull; below 0 where it stands out of the oil. */
  readonly headMm: number;
}

/**
 * A port's face may stand on the outside of a wall or on a boss: it is drawn onto the inside from so far. A usual boss and
 * wall together are below it (our choice).
 */
const BOSS_MM = 30;

/**
 * The outlet with its mouth inside the tank and its axis of length one.
 *
 * @throws FlowError for an outlet further from the inside than a boss, or without bore or axis
 */
export function outletIn(tank: Tank, outlet: Outlet): Outlet {
  const what = `${tank.name} outlet "${outlet.id}"`;
  needPositive(`${what} boreMm`, outlet.boreMm, 'mm');
  for (const i of [0, 1, 2] as const) needNumber(`${what} atMm[${i}]`, outlet.atMm[i], 'mm');
  const size = norm(outlet.axis);
  if (!(size > 0 && Number.isFinite(size))) throw new FlowError(`${what} axis`, outlet.axis.join(', '), 'a direction');
  const nearest = solidOf(tank.mesh).closest(...outlet.atMm);
  if (nearest.distance > BOSS_MM)
    throw new FlowError(
      what,
      `(${outlet.atMm.map((v) => Math.round(v * 10) / 10).join(', ')}) mm, ${nearest.distance.toFixed(0)} mm outside the tank`,
      `inside it, or at most ${BOSS_MM} mm outside its wall`,
    );
  return { ...outlet, atMm: nearest.distance > 0 ? nearest.point : outlet.atMm, axis: scale(outlet.axis, 1 / size) };
}

/** One tree for each mesh, however many outlets are asked for. */
const solids = new WeakMap<LevelMesh, Solid>();

function solidOf(mesh: LevelMesh): Solid {
  const known = solids.get(mesh);
  if (known !== undefined) return known;
  const inCar = mesh.positions.map((v, i) => v + mesh.centre[i % 3]!);
  const solid = meshSolid(triangleMesh(inCar, mesh.indices));
  solids.set(mesh, solid);
  return solid;
}

/** How deep a point lies inside a tank, to the nearest wall; below 0 outside [mm]. */
export const depthInside = (tank: Tank, atMm: Vec): number => -solidOf(tank.mesh).closest(...atMm).distance;

/** How far the disc reaches above its middle along `up`, its axis having length one [mm]. */
export function reachMm(outlet: Outlet, up: Vec): number {
  const across = addScaled(up, outlet.axis, -dot(up, outlet.axis));
  return (outlet.boreMm / 2) * Math.min(1, norm(across));
}

/** Height of the highest point of the bore along `up` [mm]. */
export const topMm = (outlet: Outlet, up: Vec): number => dot(up, outlet.atMm) + reachMm(outlet, up);

/** How an outlet that has passed `outletIn` stands to a surface. */
export function coverOf(outlet: Outlet, surface: Pick<FreeSurface, 'up' | 'heightMm'>): Cover {
  const above = surface.heightMm - dot(surface.up, outlet.atMm);
  const reach = reachMm(outlet, surface.up);
  const headMm = above - reach;
  if (headMm >= 0) return { outlet: outlet.id, covering: 'covered', share: 1, headMm };
  if (above <= -reach) return { outlet: outlet.id, covering: 'uncovered', share: 0, headMm };
  return { outlet: outlet.id, covering: 'partly', share: discShare(above / reach), headMm };
}

/** Share of a disc that lies below a chord: `t` from -1 (none) to 1 (all) radii above its middle. */
export const discShare = (t: number): number => 1 - (Math.acos(t) - t * Math.sqrt(1 - t * t)) / Math.PI;
