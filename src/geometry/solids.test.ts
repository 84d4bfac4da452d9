import { describe, expect, it } from 'vitest';
import {
  ballMesh,
  boxMesh,
  chance,
  shiftedMesh,
  sliverMesh,
  soupDistance,
  type SoupMesh,
} from '../../test/geometry/seeded-meshes.ts';
import { box } from './box.ts';
import { distanceToBounds } from './bounds.ts';
import { capsule } from './capsule.ts';
import { cylinder } from './cylinder.ts';
import type { HittableSolid } from './hit.ts';
import { meshSolid } from './mesh-solid.ts';
import { composed, inverseOf, motionAbout, movedPoint, rotationFromDeg, shifted } from './motion.ts';
import { triangleMesh } from './triangle-mesh.ts';
import { add, dot, norm, scale, sub, type Vec } from './vec.ts';

/** Every solid, with its signed distance found by a road that shares nothing with it. */
interface Row {
  name: string;
  size: number;
  centre: Vec;
  solid: HittableSolid;
  oracle: (p: Vec) => number;
}

/** hand: least distance to the axis by golden-section search along it, less the radius. */
function capsuleOracle(a: Vec, b: Vec, r: number): (p: Vec) => number {
  return (p) => {
    const at = (t: number): number => norm(sub(p, add(a, scale(sub(b, a), t))));
    let [low, high] = [0, 1];
    for (let i = 0; i < 200; i++) {
      const [m, n] = [low + (high - low) * 0.382, low + (high - low) * 0.618];
      if (at(m) < at(n)) high = n;
      else low = m;
    }
    return Math.min(at((low + high) / 2), at(0), at(1)) - r;
  };
}

/** hand: in the plane through axis and point, the least distance to the outline's three straight pieces. */
function cylinderOracle(a: Vec, b: Vec, r: number): (p: Vec) => number {
  return (p) => {
    const axis = sub(b, a);
    const length = norm(axis);
    const along = dot(sub(p, a), axis) / length;
    const off = norm(sub(sub(p, a), scale(axis, along / length)));
    const outline = [
      [0, 0, 0, r],
      [0, r, length, r],
      [length, r, length, 0],
    ] as const;
    const least = Math.min(
      ...outline.map(([x0, y0, x1, y1]) => {
        const [dx, dy] = [x1 - x0, y1 - y0];
        const s = Math.max(0, Math.min(1, ((along - x0) * dx + (off - y0) * dy) / (dx * dx + dy * dy)));
        return Math.hypot(along - x0 - s * dx, off - y0 - s * dy);
      }),
    );
    return along > 0 && along < length && off < r ? -least : least;
  };
}

/** second: brute force over all triangles; the sign is given in closed form. */
function soupOracle(mesh: SoupMesh, inside: (p: Vec) => boolean): (p: Vec) => number {
  return (p) => (inside(p) ? -1 : 1) * soupDistance(mesh, p);
}

function rowsOf(size: number, centre: Vec): Row[] {
  const at = (x: number, y: number, z: number): Vec => add(centre, [x * size, y * size, z * size]);
  const turn = composed(shifted(centre), rotationFromDeg([20, -35, 70]));
  const half: Vec = [0.7 * size, 0.4 * size, 0.2 * size];
  const inBox = (p: Vec): boolean => p.every((v, i) => Math.abs(v) < half[i]!);
  const boxSoup = boxMesh(scale(half, -1), half);
  const ball = shiftedMesh(ballMesh(3, 1, 0.05, 7), centre, size);
  // Star-shaped about its centre: inside where the ray from the centre has not yet left the faceted ball.
  const inBall = (p: Vec): boolean => starInside(ball, centre, p);
  const slivers = shiftedMesh(sliverMesh(300, 1, 5), centre, size);
  const back = inverseOf(turn);
  return [
    {
      name: 'capsule',
      size,
      centre,
      solid: capsule(at(-0.6, 0.1, 0), at(0.5, 0.3, 0.4), 0.3 * size),
      oracle: capsuleOracle(at(-0.6, 0.1, 0), at(0.5, 0.3, 0.4), 0.3 * size),
    },
    {
      name: 'ball',
      size,
      centre,
      solid: capsule(at(0.1, 0, 0), at(0.1, 0, 0), 0.5 * size),
      oracle: (p) => norm(sub(p, at(0.1, 0, 0))) - 0.5 * size,
    },
    {
      name: 'cylinder',
      size,
      centre,
      solid: cylinder(at(-0.6, 0.1, 0), at(0.5, 0.3, 0.4), 0.4 * size),
      oracle: cylinderOracle(at(-0.6, 0.1, 0), at(0.5, 0.3, 0.4), 0.4 * size),
    },
    {
      name: 'box',
      size,
      centre,
      solid: box(at(-0.7, -0.4, -0.2), at(0.7, 0.4, 0.2)),
      oracle: (p) => soupOracle(boxSoup, inBox)(sub(p, centre)),
    },
    {
      name: 'turned box',
      size,
      centre,
      solid: box(scale(half, -1), half, turn),
      oracle: (p) => soupOracle(boxSoup, inBox)(movedPoint(back, p)),
    },
    {
      name: 'closed mesh',
      size,
      centre,
      solid: meshSolid(triangleMesh(ball.positions, ball.indices)),
      oracle: soupOracle(ball, inBall),
    },
    {
      name: 'moved mesh',
      size,
      centre,
      solid: meshSolid(triangleMesh(boxSoup.positions, boxSoup.indices)).moved(turn),
      oracle: (p) => soupOracle(boxSoup, inBox)(movedPoint(back, p)),
    },
    {
      name: 'open slivers',
      size,
      centre,
      solid: meshSolid(triangleMesh(slivers.positions, slivers.indices)),
      oracle: soupOracle(slivers, () => false),
    },
  ];
}

function starInside(mesh: SoupMesh, centre: Vec, p: Vec): boolean {
  const d = sub(p, centre);
  const corner = (k: number): Vec =>
    sub([0, 1, 2].map((i) => mesh.positions[mesh.indices[k]! * 3 + i]!) as unknown as Vec, centre);
  const triple = (a: Vec, b: Vec, c: Vec): number =>
    a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  for (let k = 0; k < mesh.indices.length; k += 3) {
    const [a, b, c] = [corner(k), corner(k + 1), corner(k + 2)];
    const [u, v, w] = [triple(d, b, c), triple(a, d, c), triple(a, b, d)];
    if (u >= 0 && v >= 0 && w >= 0) return u + v + w < triple(a, b, c);
  }
  return false;
}

const sizes: [number, Vec][] = [
  [1e-3, [0, 0, 0]],
  [1, [1780, -600, 90]],
  [100, [1e4, -1e4, 5e3]],
  [1e4, [0, 0, 0]],
];

describe.each(sizes.flatMap(([size, centre]) => rowsOf(size, centre)))('$name of $size mm about $centre', (row) => {
  const { solid, size, centre, oracle } = row;
  // Coordinates of magnitude M carry rounding of M * 2^-52; a few operations on them lose a few digits more.
  const rounding = 1e-13 * (norm(centre) + size);
  const draw = chance(11);
  const points = Array.from({ length: 150 }, (_, i): Vec => {
    const reach = size * [0.3, 1, 3][i % 3]!;
    return add(centre, [draw(-reach, reach), draw(-reach, reach), draw(-reach, reach)]);
  });

  it('measures what the oracle measures, seed 11', () => {
    for (const p of points) {
      // Slivers of one part in 10^9 have no normal to speak of: their height counts as rounding.
      const allowed = rounding + 1e-9 * Math.abs(oracle(p)) + (row.name === 'open slivers' ? 1e-8 * size : 0);
      expect(Math.abs(solid.distance(...p) - oracle(p)), `${p}`).toBeLessThanOrEqual(allowed);
    }
  });

  it('puts the closest point at that distance, on the surface', () => {
    for (const p of points) {
      const { point, distance } = solid.closest(...p);
      expect(distance).toBeCloseTo(solid.distance(...p), 9);
      expect(Math.abs(norm(sub(p, point)) - Math.abs(distance))).toBeLessThanOrEqual(rounding + 1e-7 * size);
      expect(Math.abs(solid.distance(...point))).toBeLessThanOrEqual(rounding + 1e-7 * size);
    }
  });

  it('never changes faster than the point moves', () => {
    for (let i = 1; i < points.length; i++) {
      const change = Math.abs(solid.distance(...points[i]!) - solid.distance(...points[i - 1]!));
      expect(change).toBeLessThanOrEqual(norm(sub(points[i]!, points[i - 1]!)) * (1 + 1e-9) + rounding);
    }
  });

  it('moves rigidly', () => {
    const motion = composed(motionAbout(centre, [1, 2, -1], 0.8), shifted([size, -size, 0]));
    const moved = solid.moved(motion);
    for (const p of points) {
      expect(Math.abs(moved.distance(...movedPoint(motion, p)) - solid.distance(...p))).toBeLessThanOrEqual(
        rounding * 10,
      );
    }
  });

  it('fits its bounds, and stays past a limit only where it is past it', () => {
    for (const p of points) {
      const d = solid.distance(...p);
      if (d <= 0) expect(distanceToBounds(solid.bounds, ...p)).toBeLessThanOrEqual(rounding);
      else expect(distanceToBounds(solid.bounds, ...p)).toBeLessThanOrEqual(d + rounding);
      for (const limit of [-0.1 * size, 0, 0.2 * size, size]) {
        const within = solid.distanceWithin(...p, limit);
        if (d < limit) expect(within).toBe(d);
        else expect(within).toBeGreaterThanOrEqual(limit);
      }
    }
  });

  it('is hit where a walk along the ray first meets the surface', () => {
    for (let i = 0; i < 40; i++) {
      const from = points[i]!;
      const way = scale(sub(points[149 - i]!, from), 1 / norm(sub(points[149 - i]!, from)));
      const hit = solid.firstHit(from, way, 4 * size);
      // hand: sphere tracing, each step as long as the distance allows; what is left of it is the tolerance.
      let t = 0;
      for (let step = 0; step < 20000 && t < 4 * size; step++) {
        const d = Math.abs(oracle(add(from, scale(way, t))));
        if (d < 1e-6 * size) break;
        t += d;
        if (row.solid.kind === 'mesh' && step > 60) break;
      }
      const met = Math.abs(oracle(add(from, scale(way, t)))) < 1e-6 * size;
      if (hit !== null) {
        expect(Math.abs(solid.distance(...hit.point))).toBeLessThanOrEqual(rounding + 1e-8 * size);
        expect(hit.alongMm).toBeGreaterThanOrEqual(t - rounding - 1e-5 * size);
      } else if (met) {
        // Grazing: the walk came within its tolerance but the ray passes by.
        expect(Math.abs(oracle(add(from, scale(way, t))))).toBeGreaterThan(0);
      }
    }
  });
});

const tetrahedron = (): HittableSolid =>
  meshSolid(
    triangleMesh(
      new Float64Array([0, 0, 0, 9, 0, 0, 0, 9, 0, 0, 0, 9]),
      new Uint32Array([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]),
    ),
  );

describe('refusals', () => {
  it.each([
    ['capsule radius', () => capsule([0, 0, 0], [1, 0, 0], 0)],
    ['capsule from', () => capsule([0, Number.NaN, 0], [1, 0, 0], 1)],
    ['cylinder length', () => cylinder([1, 1, 1], [1, 1, 1], 5)],
    ['box max', () => box([0, 0, 0], [1, -1, 1])],
    ['no distance at NaN', () => tetrahedron().distance(Number.NaN, 0, 0)],
    ['mesh indices', () => triangleMesh(new Float64Array(9), new Uint32Array([0, 1, 3]))],
    ['mesh positions', () => triangleMesh(new Float32Array([0, 0, Infinity]), new Uint32Array())],
    ['mesh: 1 triangles, none with area', () => triangleMesh(new Float64Array(9), new Uint32Array([0, 1, 2]))],
  ])('%s', (words, make) => {
    expect(make).toThrow(words);
  });
});
