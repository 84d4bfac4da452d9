import {
  add,
  addScaled,
  cross,
  dot,
  norm,
  perpendicular,
  scale,
  sub,
  turned,
  type TriangleMesh,
  unit,
  type Vec,
} from '#geometry';
import { needPositive, needNumber, FlowError } from '../flow-error.ts';

/** Facets of a round wall: its facets and corners then lie within 0.0004 radii of the circle, 0.03 mm on 180 mm across. */
export const SIDES = 96;
/** Rings of a round end, from its equator to its pole. */
const END_RINGS = 24;

/**
 * A box as twelve triangles.
 *
 * @throws FlowError unless max is above min on each axis
 */
export function boxMesh(minMm: Vec, maxMm: Vec): TriangleMesh {
  for (const i of [0, 1, 2] as const) {
    needNumber(`tank box minMm[${i}]`, minMm[i], 'mm');
    needNumber(`tank box maxMm[${i}]`, maxMm[i], 'mm');
    if (!(maxMm[i] > minMm[i]))
      throw new FlowError(`tank box maxMm[${i}]`, maxMm[i], `above minMm[${i}] = ${minMm[i]}`);
  }
  const positions: number[] = [];
  for (let i = 0; i < 8; i++)
    positions.push(i & 1 ? maxMm[0] : minMm[0], i & 2 ? maxMm[1] : minMm[1], i & 4 ? maxMm[2] : minMm[2]);
  const faces = [
    0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5,
  ];
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(faces) };
}

/** The radius of the corners of a regular polygon that has the area of the circle. */
export const sameAreaRadius = (radiusMm: number, sides: number): number =>
  radiusMm * Math.sqrt((2 * Math.PI) / sides / Math.sin((2 * Math.PI) / sides));

/**
 * A round bar with flat ends as a prism of the same volume.
 *
 * @throws FlowError unless the ends are apart and the radius is above 0
 */
export function cylinderMesh(fromMm: Vec, toMm: Vec, radiusMm: number, sides = SIDES): TriangleMesh {
  needPositive('tank cylinder radiusMm', radiusMm, 'mm');
  const along = sub(toMm, fromMm);
  needPositive('tank cylinder length', norm(along), 'mm');
  const axis = unit(along);
  const r = sameAreaRadius(radiusMm, sides);
  const ring = (at: Vec): Vec[] => ringOf(at, axis, perpendicular(axis), r, sides);
  return ringsMesh([ring(fromMm), ring(toMm)], fromMm, toMm);
}

const ringOf = (at: Vec, axis: Vec, start: Vec, radiusMm: number, sides: number): Vec[] =>
  Array.from({ length: sides }, (_, i) => addScaled(at, turned(start, axis, (2 * Math.PI * i) / sides), radiusMm));

/**
 * A chain of capsules as one skin: round ends, and at each corner the wedge of a sphere outside and a mitre inside.
 *
 * @throws FlowError unless the points are apart, the radius is above 0, and every straight is long enough for its mitres
 */
export function tubeMesh(pointsMm: readonly Vec[], radiusMm: number, sides = SIDES): TriangleMesh {
  needPositive('tank tube radiusMm', radiusMm, 'mm');
  if (pointsMm.length < 2) throw new FlowError('tank tube pointsMm', `${pointsMm.length} points`, '2 or more');
  const steps = pointsMm.slice(1).map((p, i) => sub(p, pointsMm[i]!));
  steps.forEach((step, i) => needPositive(`tank tube length ${i + 1}`, norm(step), 'mm'));
  const axes = steps.map(unit);
  checkMitres(axes, steps.map(norm), radiusMm);
  const r = sameAreaRadius(radiusMm, sides);
  let start = perpendicular(axes[0]!);
  const first = pointsMm[0]!;
  const last = pointsMm.at(-1)!;
  const rings: Vec[][] = [];
  for (let k = END_RINGS - 1; k >= 0; k--) rings.push(domeRing(first, axes[0]!, start, -1, k, r, sides));
  axes.slice(1).forEach((axis, i) => {
    const bent = cornerRings(pointsMm[i + 1]!, axes[i]!, axis, start, r, sides);
    rings.push(...bent.rings);
    start = bent.start;
  });
  const end = axes.at(-1)!;
  for (let k = 0; k < END_RINGS; k++) rings.push(domeRing(last, end, start, 1, k, r, sides));
  return ringsMesh(rings, addScaled(first, axes[0]!, -r), addScaled(last, end, r));
}

function checkMitres(axes: readonly Vec[], lengths: readonly number[], radiusMm: number): void {
  const mitre = axes.slice(1).map((axis, i) => {
    const cosine = dot(axis, axes[i]!);
    return cosine > -1 ? radiusMm * Math.sqrt((1 - cosine) / (1 + cosine)) : Infinity;
  });
  lengths.forEach((length, i) => {
    const needs = (mitre[i - 1] ?? 0) + (mitre[i] ?? 0);
    if (needs > length)
      throw new FlowError(
        `tank tube length ${i + 1}`,
        `${length} mm`,
        `at least the ${needs.toFixed(1)} mm of its mitres; else give a mesh`,
      );
  });
}

function domeRing(at: Vec, axis: Vec, start: Vec, side: 1 | -1, k: number, r: number, sides: number): Vec[] {
  const lift = (Math.PI / 2) * (k / END_RINGS);
  return ringOf(addScaled(at, axis, side * r * Math.sin(lift)), axis, start, r * Math.cos(lift), sides);
}

/** One ring a step of the wedge; on the inside of the bend all rings share the points of the mitre. */
function cornerRings(
  at: Vec,
  into: Vec,
  out: Vec,
  start: Vec,
  r: number,
  sides: number,
): { rings: Vec[][]; start: Vec } {
  const turn = cross(into, out);
  const sine = norm(turn);
  if (sine < STRAIGHT) return { rings: [], start };
  const hinge = scale(turn, 1 / sine);
  const angle = Math.atan2(sine, dot(into, out));
  const steps = Math.max(1, Math.ceil(angle / ((2 * Math.PI) / sides)));
  const outward = unit(sub(into, out));
  const bisector = unit(add(into, out));
  const round = ringOf([0, 0, 0], into, start, r, sides);
  const rings = Array.from({ length: steps + 1 }, (_, k) =>
    round.map((spoke) => {
      if (dot(spoke, outward) > STRAIGHT * r) return add(at, turned(spoke, hinge, (angle * k) / steps));
      return add(at, addScaled(spoke, into, -dot(spoke, bisector) / dot(into, bisector)));
    }),
  );
  return { rings, start: turned(start, hinge, angle) };
}

/** Sine of an angle below which it is none [-]. */
const STRAIGHT = 1e-9;

/** Rings of equal count, each joined to the next, closed by a fan to a point at either end. */
function ringsMesh(rings: readonly (readonly Vec[])[], firstPole: Vec, lastPole: Vec): TriangleMesh {
  const sides = rings[0]!.length;
  const points = [...rings.flat(), firstPole, lastPole];
  const pole = rings.length * sides;
  const indices: number[] = [];
  for (let i = 0; i < sides; i++) {
    const j = (i + 1) % sides;
    const top = (rings.length - 1) * sides;
    indices.push(pole, j, i, pole + 1, top + i, top + j);
    for (let k = 0; k + 1 < rings.length; k++) {
      const [a, b] = [k * sides, (k + 1) * sides];
      indices.push(a + i, a + j, b + j, a + i, b + j, b + i);
    }
  }
  return { positions: Float64Array.from(points.flat()), indices: Uint32Array.from(indices) };
}
