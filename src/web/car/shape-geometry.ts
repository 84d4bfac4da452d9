import type { Shape } from '#car';
import type { TriangleMesh } from '#geometry';
import {
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  CylinderGeometry,
  Euler,
  MathUtils,
  Matrix4,
  Quaternion,
  SphereGeometry,
  Vector3,
} from 'three';
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js';

const up = new Vector3(0, 1, 0);
const ROUND = 24;

/** A cylinder from point to point. */
function cylinderBetween(from: readonly number[], to: readonly number[], radius: number): BufferGeometry {
  const a = new Vector3(...(from as [number, number, number]));
  const b = new Vector3(...(to as [number, number, number]));
  const axis = b.clone().sub(a);
  const made = new CylinderGeometry(radius, radius, axis.length(), ROUND);
  made.applyQuaternion(new Quaternion().setFromUnitVectors(up, axis.clone().normalize()));
  const middle = a.add(b).multiplyScalar(0.5);
  return made.translate(middle.x, middle.y, middle.z);
}

/** A shape that is no mesh, where its own numbers put it, before any turn; null for a mesh. */
function bareGeometry(shape: Shape): BufferGeometry | null {
  if (shape.box !== undefined) {
    const { minMm, maxMm } = shape.box;
    const size = maxMm.map((mm, i) => mm - minMm[i]!) as [number, number, number];
    const middle = maxMm.map((mm, i) => (mm + minMm[i]!) / 2) as [number, number, number];
    return new BoxGeometry(...size).translate(...middle);
  }
  if (shape.cylinder !== undefined) {
    const { fromMm, toMm, radiusMm } = shape.cylinder;
    return cylinderBetween(fromMm, toMm, radiusMm);
  }
  if (shape.tube !== undefined) return chainGeometry(shape.tube.pointsMm, shape.tube.radiusMm);
  return null;
}

/** Capsules in a chain: a cylinder for each straight, a ball at each point. */
function chainGeometry(points: readonly (readonly number[])[], radius: number): BufferGeometry | null {
  const pieces: BufferGeometry[] = points.map((p) =>
    new SphereGeometry(radius, ROUND, ROUND / 2).translate(p[0]!, p[1]!, p[2]!),
  );
  for (let i = 1; i < points.length; i++) {
    const apart = Math.hypot(...points[i]!.map((mm, k) => mm - points[i - 1]![k]!));
    if (apart > 1e-6) pieces.push(cylinderBetween(points[i - 1]!, points[i]!, radius));
  }
  return mergeGeometries(pieces);
}

/** Where a shape's own numbers are put on the car. */
export const shapePlacing = (shape: Shape): Matrix4 => placing(shape.turnDeg, shape.atMm);

/** Turned about car X, then Y, then Z, then moved: as the car file means it. */
function placing(turnDeg: readonly number[] | undefined, atMm: readonly number[] | undefined): Matrix4 {
  const [x = 0, y = 0, z = 0] = (turnDeg ?? []).map(MathUtils.degToRad);
  const turned = new Matrix4().makeRotationFromEuler(new Euler(x, y, z, 'ZYX'));
  const [a = 0, b = 0, c = 0] = atMm ?? [];
  return turned.setPosition(a, b, c);
}

/** A shape where it stands on the car. A mesh comes with its points as the server gives them, in millimetres of the file's axes. */
export function shapeGeometry(shape: Shape, mesh: BufferGeometry | null): BufferGeometry | null {
  const bare = shape.mesh === undefined ? bareGeometry(shape) : (mesh?.clone() ?? null);
  if (bare === null) return null;
  if (shape.mesh !== undefined) bare.applyMatrix4(placing(shape.mesh.turnDeg, shape.mesh.atMm));
  return bare.applyMatrix4(shapePlacing(shape));
}

/** Triangles as they are drawn, in their own axes. */
export function meshGeometry({ positions, indices }: TriangleMesh): BufferGeometry {
  const out = new BufferGeometry();
  out.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  out.setIndex(new BufferAttribute(indices, 1));
  out.computeVertexNormals();
  return out;
}
