import { movedPoint, type RigidMotion, type TriangleMesh, type Vec } from '#geometry';
import { closedMesh } from './closed-mesh.ts';
import { insetMesh } from './inset-mesh.ts';
import type { LevelMesh } from './mesh-level.kernel.ts';
import { needPositive, FlowError } from '../flow-error.ts';
import { boxMesh, cylinderMesh, SIDES, tubeMesh } from './tank-shapes.ts';

/** The inside of a tank or a pan: what oil can fill. Places in mm, volumes in m3. */
export interface Tank {
  readonly name: string;
  /** What it holds to the brim. */
  readonly volumeM3: number;
  /** What its shape would hold had it no wall. */
  readonly outsideM3: number;
  /** How far the facets stand off a round wall at most; 0 where the shape has none or is a mesh. */
  readonly facetMm: number;
  readonly mesh: LevelMesh;
}

/** How the inside follows from the outside. */
export interface TankWish {
  readonly name?: string;
  /** Thickness of the wall, where the shape is the outside. */
  readonly wallMm?: number;
  /** What it really holds: the inside is drawn together evenly until it does. */
  readonly volumeM3?: number;
  /** Where the shape stands, once made. */
  readonly motion?: RigidMotion;
}

/** Cubic millimetres in a cubic metre: where the lengths of this folder meet the SI of the room. */
export const mm3PerM3 = 1e9;

/**
 * The inside of a tank given as a closed mesh.
 *
 * @throws FlowError for an open mesh, a wall that leaves no inside, a stated volume above what the shape holds
 */
export function tankOfMesh(mesh: TriangleMesh, wish: TankWish = {}): Tank {
  const name = nameOf(wish);
  const outside = closedMesh(name, placed(mesh, wish.motion));
  const wallMm = wallOf(name, wish);
  return tankOf(wish, outside.volumeMm3, wallMm > 0 ? insetMesh(name, outside, wallMm) : outside, 0);
}

/** The inside of a box between two corners. */
export function tankOfBox(minMm: Vec, maxMm: Vec, wish: TankWish = {}): Tank {
  const name = nameOf(wish);
  const wallMm = wallOf(name, wish);
  const outside = closedMesh(name, placed(boxMesh(minMm, maxMm), wish.motion));
  const least = Math.min(maxMm[0] - minMm[0], maxMm[1] - minMm[1], maxMm[2] - minMm[2]);
  checkWall(name, wallMm, least / 2);
  const inMin: Vec = [minMm[0] + wallMm, minMm[1] + wallMm, minMm[2] + wallMm];
  const inMax: Vec = [maxMm[0] - wallMm, maxMm[1] - wallMm, maxMm[2] - wallMm];
  return tankOf(wish, outside.volumeMm3, closedMesh(name, placed(boxMesh(inMin, inMax), wish.motion)), 0);
}

/** The inside of a round tank with flat ends, its axis any way. The prism of 96 sides has exactly its volume. */
export function tankOfCylinder(fromMm: Vec, toMm: Vec, radiusMm: number, wish: TankWish = {}): Tank {
  const name = nameOf(wish);
  const wallMm = wallOf(name, wish);
  const outside = closedMesh(name, placed(cylinderMesh(fromMm, toMm, radiusMm), wish.motion));
  const length = Math.hypot(toMm[0] - fromMm[0], toMm[1] - fromMm[1], toMm[2] - fromMm[2]);
  checkWall(name, wallMm, Math.min(radiusMm, length / 2));
  const toward = (a: Vec, b: Vec): Vec =>
    [0, 1, 2].map((i) => a[i]! + ((b[i]! - a[i]!) * wallMm) / length) as unknown as Vec;
  const inside = cylinderMesh(toward(fromMm, toMm), toward(toMm, fromMm), radiusMm - wallMm);
  return tankOf(wish, outside.volumeMm3, closedMesh(name, placed(inside, wish.motion)), facetOf(radiusMm - wallMm));
}

/** The inside of a chain of capsules: a tube with round ends. */
export function tankOfTube(pointsMm: readonly Vec[], radiusMm: number, wish: TankWish = {}): Tank {
  const name = nameOf(wish);
  const wallMm = wallOf(name, wish);
  const outside = closedMesh(name, placed(tubeMesh(pointsMm, radiusMm), wish.motion));
  checkWall(name, wallMm, radiusMm);
  const inside = closedMesh(name, placed(tubeMesh(pointsMm, radiusMm - wallMm), wish.motion));
  return tankOf(wish, outside.volumeMm3, inside, facetOf(radiusMm - wallMm));
}

/** Corners stand out by x^2/12, the middles of facets in by x^2/24, x being the angle of a facet. */
const facetOf = (radiusMm: number): number => (radiusMm * ((2 * Math.PI) / SIDES) ** 2) / 12;

const nameOf = (wish: TankWish): string => wish.name ?? 'tank';

function wallOf(name: string, wish: TankWish): number {
  const wallMm = wish.wallMm ?? 0;
  if (!(Number.isFinite(wallMm) && wallMm >= 0)) throw new FlowError(`${name} wallMm`, wallMm, '0 mm or more');
  return wallMm;
}

function checkWall(name: string, wallMm: number, belowMm: number): void {
  if (wallMm >= belowMm) throw new FlowError(`${name} wallMm`, wallMm, `below ${belowMm} mm, half the shape across`);
}

function placed(mesh: TriangleMesh, motion: RigidMotion | undefined): TriangleMesh {
  if (motion === undefined) return mesh;
  const p = mesh.positions;
  const positions = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) positions.set(movedPoint(motion, [p[i]!, p[i + 1]!, p[i + 2]!]), i);
  return { positions, indices: mesh.indices };
}

/** Volumes above the shape's by less than this share are the builder's rounding. */
const STATED_SHARE = 1e-3;

function tankOf(wish: TankWish, outsideMm3: number, mesh: LevelMesh, facetMm: number): Tank {
  const name = nameOf(wish);
  const outsideM3 = outsideMm3 / mm3PerM3;
  const stated = wish.volumeM3;
  if (stated === undefined) return { name, volumeM3: mesh.volumeMm3 / mm3PerM3, outsideM3, facetMm, mesh };
  needPositive(`${name} volumeM3`, stated, 'm3');
  const holdsM3 = mesh.volumeMm3 / mm3PerM3;
  if (stated > holdsM3 * (1 + STATED_SHARE))
    throw new FlowError(`${name} volumeM3`, stated, `at most the ${holdsM3.toPrecision(4)} m3 that its shape holds`);
  const factor = Math.cbrt(Math.min(1, stated / holdsM3));
  const drawn = drawnTogether(name, mesh, factor);
  return { name, volumeM3: drawn.volumeMm3 / mm3PerM3, outsideM3, facetMm: facetMm * factor, mesh: drawn };
}

/** The mesh made smaller about the middle of its bounds. */
function drawnTogether(name: string, mesh: LevelMesh, factor: number): LevelMesh {
  const positions = mesh.positions.map((v, i) => v * factor + mesh.centre[i % 3]!);
  return closedMesh(name, { positions, indices: mesh.indices });
}
