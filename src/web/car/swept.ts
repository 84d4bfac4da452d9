import type { Vec } from '#geometry';
import { BufferAttribute, BufferGeometry, Vector3 } from 'three';

/** A round body along a centreline. */
export interface Sweep {
  readonly pathMm: readonly Vec[];
  readonly odMm: number;
}

/** The colour of a point of a centreline, by its place, the radius there and which body it is of. */
export type ColourAt = (pointMm: Vec, radiusMm: number, body: number) => readonly [number, number, number];

/** Sides of a drawn tube: at 12 the flats are under 4 % of the radius, and outlines hide them. */
const SIDES = 12;
/** Sides of the one that is looked at closely. */
const FINE_SIDES = 24;
/** How far a drawn centreline may leave the true one [mm]. */
const OFF_MM = 0.4;

/** All bodies of a line as one surface: rings square to the path, flat ends. A colour for each point of the path where asked for. */
export function sweptGeometry(sweeps: readonly Sweep[], moreRadiusMm = 0, colourAt?: ColourAt): BufferGeometry {
  const sides = colourAt === undefined ? SIDES : FINE_SIDES;
  const points: number[] = [];
  const normals: number[] = [];
  const colours: number[] = [];
  const index: number[] = [];
  for (const [body, { pathMm, odMm }] of sweeps.entries()) {
    const path = colourAt === undefined ? thinned(pathMm) : pathMm;
    if (path.length < 2) continue;
    const radius = odMm / 2 + moreRadiusMm;
    const rings = ringFrames(path);
    const first = points.length / 3;
    for (const { at, u, v } of rings) {
      const colour = colourAt?.([at.x, at.y, at.z], odMm / 2, body);
      for (let s = 0; s < sides; s++) {
        const turn = (2 * Math.PI * s) / sides;
        const [c, d] = [Math.cos(turn), Math.sin(turn)];
        const n = [u.x * c + v.x * d, u.y * c + v.y * d, u.z * c + v.z * d] as const;
        points.push(at.x + radius * n[0], at.y + radius * n[1], at.z + radius * n[2]);
        normals.push(...n);
        if (colour !== undefined) colours.push(...colour);
      }
    }
    for (let r = 0; r + 1 < rings.length; r++) joinRings(index, sides, first + r * sides, first + (r + 1) * sides);
    const into = { points, normals, colours, index, sides, isColoured: colourAt !== undefined };
    cap(into, first, rings[0]!, -1);
    cap(into, first + (rings.length - 1) * sides, rings.at(-1)!, 1);
  }
  const out = new BufferGeometry();
  out.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  out.setAttribute('normal', new BufferAttribute(new Float32Array(normals), 3));
  if (colourAt !== undefined) out.setAttribute('color', new BufferAttribute(new Float32Array(colours), 3));
  out.setIndex(index);
  return out;
}

interface Ring {
  readonly at: Vector3;
  readonly t: Vector3;
  readonly u: Vector3;
  readonly v: Vector3;
}

function joinRings(index: number[], sides: number, a: number, b: number): void {
  for (let s = 0; s < sides; s++) {
    const next = (s + 1) % sides;
    index.push(a + s, b + next, b + s, a + s, a + next, b + next);
  }
}

interface Growing {
  readonly points: number[];
  readonly normals: number[];
  readonly colours: number[];
  readonly index: number[];
  readonly sides: number;
  readonly isColoured: boolean;
}

/** A flat end: its own ring of points, so that its normals are its own. */
function cap(
  { points, normals, colours, index, sides, isColoured }: Growing,
  ring: number,
  { at, t }: Ring,
  side: 1 | -1,
): void {
  const first = points.length / 3;
  points.push(at.x, at.y, at.z);
  for (let s = 0; s < sides; s++) points.push(...points.slice(3 * (ring + s), 3 * (ring + s) + 3));
  for (let s = 0; s <= sides; s++) {
    normals.push(side * t.x, side * t.y, side * t.z);
    if (isColoured) colours.push(...colours.slice(3 * ring, 3 * ring + 3));
  }
  for (let s = 0; s < sides; s++) {
    const [a, b] = [first + 1 + s, first + 1 + ((s + 1) % sides)];
    index.push(first, side === 1 ? a : b, side === 1 ? b : a);
  }
}

/** Rings along a path, each frame carried on from the one before without twist. */
function ringFrames(path: readonly Vec[]): Ring[] {
  const at = path.map((p) => new Vector3(...p));
  const steps = at.slice(1).map((p, i) => p.clone().sub(at[i]!).normalize());
  let u = new Vector3(0, 0, 1).cross(steps[0]!);
  if (u.lengthSq() < 1e-6) u = new Vector3(1, 0, 0).cross(steps[0]!);
  u.normalize();
  return at.map((p, i) => {
    const t = (steps[i - 1] ?? steps[0]!).clone().add(steps[i] ?? steps.at(-1)!);
    if (t.lengthSq() < 1e-9) t.copy(steps[i] ?? steps.at(-1)!);
    t.normalize();
    u = u.clone().addScaledVector(t, -u.dot(t)).normalize();
    return { at: p, t, u, v: t.clone().cross(u) };
  });
}

/** The points needed to stay within a fraction of a millimetre of the path, by the farthest point from each chord. */
function thinned(path: readonly Vec[]): readonly Vec[] {
  if (path.length < 3) return path;
  const keepAt = new Set([0, path.length - 1]);
  const open: [number, number][] = [[0, path.length - 1]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    const [far, off] = farthest(path, from, to);
    if (off <= OFF_MM) continue;
    keepAt.add(far);
    open.push([from, far], [far, to]);
  }
  return [...keepAt].sort((a, b) => a - b).map((i) => path[i]!);
}

function farthest(path: readonly Vec[], from: number, to: number): [number, number] {
  const a = new Vector3(...path[from]!);
  const chord = new Vector3(...path[to]!).sub(a);
  const square = chord.lengthSq();
  let best: [number, number] = [from, 0];
  for (let i = from + 1; i < to; i++) {
    const p = new Vector3(...path[i]!).sub(a);
    const share = square < 1e-12 ? 0 : Math.min(1, Math.max(0, p.dot(chord) / square));
    const off = p.addScaledVector(chord, -share).length();
    if (off > best[1]) best = [i, off];
  }
  return best;
}
