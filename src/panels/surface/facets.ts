import { cross, dot, lerp, norm, scale, sub, unit, type Point2, type Vec } from '#geometry';
import { bendAllowance } from '../flat/bend-formulas.ts';
import { bestPlane } from './best-plane.ts';
import { carFromFlat, type FlatFrame, flatFromCar } from './flat-frame.ts';

/** A flat piece of a panel between its edges and creases. */
export interface Facet {
  /** Its corners, counter-clockwise seen from outside, as places in the ring. */
  readonly ring: readonly number[];
  /** The drawing on the car, for this facet. */
  readonly frame: FlatFrame;
  /** Its corners on the drawing. */
  readonly polygon: readonly Point2[];
}

/** A crease between two facets. */
export interface CreaseBend {
  /** Its ends as places in the ring. */
  readonly ends: readonly [number, number];
  readonly facets: readonly [near: number, far: number];
  readonly turnDeg: number;
  readonly way: 'up' | 'down';
  readonly radiusMm: number;
  /** Unit vector on the drawing from the near facet to the far one, square to the crease. */
  readonly across: Point2;
  /** From the mould line back to where the bend begins on the near facet, and the flat length that goes into it [mm]. */
  readonly setbackMm: number;
  readonly allowanceMm: number;
  /** The crease's mould line on the near facet's drawing. */
  readonly line: readonly [Point2, Point2];
}

interface Sheet {
  readonly thicknessMm: number;
  readonly kFactor: number;
  readonly radiusMm: number;
}

/** Loops of ring places that the creases cut the panel into, and the creases that really cut one. */
export function creasedLoops(count: number, creases: readonly (readonly [number, number])[]): number[][] {
  let loops: number[][] = [Array.from({ length: count }, (_, i) => i)];
  for (const [a, b] of creases)
    loops = loops.flatMap((loop) => {
      const [i, j] = [loop.indexOf(a), loop.indexOf(b)].sort((p, q) => p - q) as [number, number];
      const isSide = j - i === 1 || j - i === loop.length - 1;
      if (i < 0 || isSide) return [loop];
      return [loop.slice(i, j + 1), [...loop.slice(j), ...loop.slice(0, i + 1)]];
    });
  return loops;
}

/**
 * The facets of a ring of corners, unfolded into one drawing: the first side along x from the origin, the others turned down
 * about their creases with what each bend takes up. Two planes about one line unfold exactly.
 */
export function facets(
  ring: readonly Vec[],
  outside: Vec,
  creases: readonly (readonly [number, number])[],
  sheet: Sheet,
): { readonly facets: readonly Facet[]; readonly creases: readonly CreaseBend[] } {
  const loops = creasedLoops(ring.length, creases);
  const planes = loops.map((loop) => {
    const plane = bestPlane(loop.map((k) => ring[k]!));
    return { middle: plane.middle, out: dot(plane.normal, outside) < 0 ? scale(plane.normal, -1) : plane.normal };
  });
  const first = loops.findIndex((loop) => loop.includes(0) && loop.includes(1));
  const frames = new Map<number, FlatFrame>([[first, firstFrame(ring, planes[first]!)]]);
  const bends: CreaseBend[] = [];
  const queue = [first];
  for (let near = queue.shift(); near !== undefined; near = queue.shift())
    for (const crease of creases) {
      const [a, b] = crease;
      const far = loops.findIndex((loop, f) => !frames.has(f) && loop.includes(a) && loop.includes(b));
      if (far === -1 || !loops[near]!.includes(a) || !loops[near]!.includes(b)) continue;
      const bend = creaseBend(
        ring,
        crease,
        [near, far],
        [frames.get(near)!, planes[far]!, planes[near]!],
        loops,
        sheet,
      );
      frames.set(far, farFrame(ring, bend, planes[far]!));
      bends.push(bend);
      queue.push(far);
    }
  return {
    facets: loops.map((loop, f) => {
      const frame = frames.get(f)!;
      return {
        ring: loop,
        frame,
        polygon: loop.map((k) => flatFromCar(frame, ring[k]!)),
      };
    }),
    creases: bends,
  };
}

type Plane = { readonly middle: Vec; readonly out: Vec };

const onPlane = ({ middle, out }: Plane, at: Vec): Vec => sub(at, scale(out, dot(sub(at, middle), out)));

function firstFrame(ring: readonly Vec[], plane: Plane): FlatFrame {
  const origin = onPlane(plane, ring[0]!);
  const x = unit(sub(onPlane(plane, ring[1]!), origin));
  return { origin, x, y: cross(plane.out, x), out: plane.out };
}

function creaseBend(
  ring: readonly Vec[],
  ends: readonly [number, number],
  pair: readonly [number, number],
  [frame, far, near]: readonly [FlatFrame, Plane, Plane],
  loops: readonly (readonly number[])[],
  sheet: Sheet,
): CreaseBend {
  const [a, b] = ends.map((k) => flatFromCar(frame, ring[k]!)) as [Point2, Point2];
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const square: Point2 = [-(b[1] - a[1]) / long, (b[0] - a[0]) / long];
  const nearMiddle = flatFromCar(frame, middle(loops[pair[0]]!.map((k) => ring[k]!)));
  const side = square[0] * (nearMiddle[0] - a[0]) + square[1] * (nearMiddle[1] - a[1]);
  const across: Point2 = side > 0 ? [-square[0], -square[1]] : square;
  const awayInCar = sub(carFromFlat(frame, across), frame.origin);
  const sine = norm(cross(near.out, far.out));
  const turn = Math.atan2(sine, dot(near.out, far.out));
  // Where the far face tips away from whoever looks at the outside, its normal leans the way one walks over the crease.
  const way = dot(far.out, awayInCar) >= 0 ? 'down' : 'up';
  const turnDeg = (turn * 180) / Math.PI;
  return {
    ends,
    facets: pair,
    turnDeg,
    way,
    radiusMm: sheet.radiusMm,
    across,
    setbackMm: Math.tan(turn / 2) * (sheet.radiusMm + (way === 'down' ? sheet.thicknessMm : 0)),
    allowanceMm: bendAllowance(turnDeg, sheet.radiusMm, sheet.thicknessMm, sheet.kFactor),
    line: [a, b],
  };
}

function farFrame(ring: readonly Vec[], bend: CreaseBend, plane: Plane): FlatFrame {
  const [a, b] = bend.ends.map((k) => onPlane(plane, ring[k]!)) as [Vec, Vec];
  const along = unit(sub(b, a));
  const square = cross(plane.out, along);
  const [p, q] = bend.line;
  const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const [c, s] = [(q[0] - p[0]) / long, (q[1] - p[1]) / long];
  const x = sub(scale(along, c), scale(square, s));
  const y = cross(plane.out, x);
  const taken = 2 * bend.setbackMm - bend.allowanceMm;
  const middleFlat: Point2 = [(p[0] + q[0]) / 2 - bend.across[0] * taken, (p[1] + q[1]) / 2 - bend.across[1] * taken];
  const origin = sub(
    lerp(a, b, 0.5),
    sub(carFromFlat({ origin: [0, 0, 0], x, y, out: plane.out }, middleFlat), [0, 0, 0]),
  );
  return { origin, x, y, out: plane.out };
}

function middle(points: readonly Vec[]): Vec {
  const sum = points.reduce<[number, number, number]>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  return scale(sum, 1 / points.length);
}
