import { movedDirection, rotationFromDeg, unit, type Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { ballMesh, chance } from '../../../test/geometry/seeded-meshes.ts';
import { humpedPan } from './humped-pan.fixture.ts';
import { Levels, oilSurface, volumeUnderPlane } from './level.ts';
import { type Tank, tankOfBox, tankOfCylinder, tankOfMesh, tankOfTube } from './tank.ts';
import { cylinderMesh } from './tank-shapes.ts';

/**
 * The same volume another way: each triangle cut by the plane corner for corner, and a signed tetrahedron from each piece to a
 * point of the plane, so that the lid counts nothing. No heights sorted, no cubic.
 */
function cutVolume({ mesh }: Tank, up: Vec, height: number): number {
  const at = (i: number): Vec => [0, 1, 2].map((k) => mesh.positions[i * 3 + k]! + mesh.centre[k]!) as unknown as Vec;
  const over = (p: Vec) => p[0] * up[0] + p[1] * up[1] + p[2] * up[2] - height;
  const apex = up.map((v) => v * height);
  let six = 0;
  for (let i = 0; i < mesh.indices.length; i += 3) {
    const triangle = [0, 1, 2].map((k) => at(mesh.indices[i + k]!));
    const piece: Vec[] = [];
    triangle.forEach((p, k) => {
      const q = triangle[(k + 1) % 3]!;
      if (over(p) <= 0) piece.push(p);
      if (over(p) <= 0 !== over(q) <= 0) {
        const t = over(p) / (over(p) - over(q));
        piece.push([0, 1, 2].map((a) => p[a]! + (q[a]! - p[a]!) * t) as unknown as Vec);
      }
    });
    for (let k = 1; k + 1 < piece.length; k++) {
      const [a, b, c] = [piece[0]!, piece[k]!, piece[k + 1]!].map((p) => p.map((v, n) => v - apex[n]!));
      six +=
        a![0]! * (b![1]! * c![2]! - b![2]! * c![1]!) +
        a![1]! * (b![2]! * c![0]! - b![0]! * c![2]!) +
        a![2]! * (b![0]! * c![1]! - b![1]! * c![0]!);
    }
  }
  return six / 6 / 1e9;
}

/** The same volume by brute force: upright columns on a grid, the stretches inside found by where each pierces the skin. */
function columnVolume({ mesh }: Tank, up: Vec, height: number, n: number): number {
  const p = mesh.positions.map((v, i) => v + mesh.centre[i % 3]!);
  const range = (axis: number) => {
    const of = p.filter((_, i) => i % 3 === axis);
    return [Math.min(...of), Math.max(...of)] as const;
  };
  const [[x0, x1], [y0, y1]] = [range(0), range(1)];
  // Unlike counts, so that no column runs down a diagonal of the mesh.
  const m = n - 7;
  const [dx, dy] = [(x1 - x0) / n, (y1 - y0) / m];
  const hits: number[][] = Array.from({ length: n * m }, () => []);
  const cells = (low: number, step: number, count: number, values: readonly number[]) =>
    [
      Math.max(0, Math.floor((Math.min(...values) - low) / step)),
      Math.min(count - 1, Math.floor((Math.max(...values) - low) / step)),
    ] as const;
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => mesh.indices[t + k]! * 3) as [number, number, number];
    const [fromX, toX] = cells(x0, dx, n, [p[a]!, p[b]!, p[c]!]);
    const [fromY, toY] = cells(y0, dy, m, [p[a + 1]!, p[b + 1]!, p[c + 1]!]);
    for (let i = fromX; i <= toX; i++)
      for (let j = fromY; j <= toY; j++) {
        const [x, y] = [x0 + (i + 0.5) * dx, y0 + (j + 0.5) * dy];
        const w = (q: number, r: number) => (p[q]! - x) * (p[r + 1]! - y) - (p[r]! - x) * (p[q + 1]! - y);
        const [wa, wb, wc] = [w(b, c), w(c, a), w(a, b)];
        if (!((wa > 0 && wb > 0 && wc > 0) || (wa < 0 && wb < 0 && wc < 0))) continue;
        hits[i * m + j]!.push((wa * p[a + 2]! + wb * p[b + 2]! + wc * p[c + 2]!) / (wa + wb + wc));
      }
  }
  let sum = 0;
  hits.forEach((column, cell) => {
    column.sort((a, b) => a - b);
    const [x, y] = [x0 + (Math.floor(cell / m) + 0.5) * dx, y0 + ((cell % m) + 0.5) * dy];
    const surface = (height - up[0] * x - up[1] * y) / up[2];
    const below = (z: number) => (up[2] > 0 ? Math.min(z, surface) : Math.max(z, surface));
    for (let k = 0; k + 1 < column.length; k += 2) sum += Math.abs(below(column[k + 1]!) - below(column[k]!)) * dx * dy;
  });
  return sum / 1e9;
}

const draw = chance(11);
const direction = (): Vec => unit([draw(-1, 1), draw(-1, 1), draw(-1, 1)]);
const tanks: readonly (readonly [string, Tank])[] = [
  ['a box', tankOfBox([0, 0, 0], [300, 200, 150])],
  ['a leaning cylinder', tankOfCylinder([100, 50, 0], [180, 90, 400], 90)],
  [
    'a bent tube',
    tankOfTube(
      [
        [0, 0, 0],
        [0, 0, 300],
        [0, 200, 420],
        [150, 300, 420],
      ],
      60,
    ),
  ],
  ['a noisy ball', tankOfMesh(ballMesh(3, 120, 30, 5))],
  ['a humped pan', tankOfMesh(humpedPan(240))],
  [
    'a ball far from the origin',
    tankOfMesh({ ...ballMesh(2, 80, 10, 7), positions: ballMesh(2, 80, 10, 7).positions.map((v) => v + 4000) }),
  ],
];

describe.each(tanks)('%s (seed 11)', (_, tank) => {
  it('has the volume below a plane that cutting triangle by triangle gives (second: own oracle), to 1e-11 of the tank', () => {
    for (let k = 0; k < 40; k++) {
      const up = direction();
      const levels = new Levels(tank);
      levels.lookAlong(up);
      const [least, most] = [levels.heightMm(0), levels.heightMm(tank.volumeM3)];
      const height = draw(least, most);
      const ours = levels.below(height).volumeM3;
      expect(Math.abs(ours - cutVolume(tank, up, height))).toBeLessThan(
        1e-11 * tank.volumeM3 * (1 + Math.hypot(...tank.mesh.centre) / 10),
      );
      expect(volumeUnderPlane(tank, [up[0] * 3, up[1] * 3, up[2] * 3], height * 3).volumeM3).toBeCloseTo(ours, 15);
    }
  });

  it('agrees with columns counted on a grid (second: brute force), to the grid', () => {
    for (let k = 0; k < 4; k++) {
      const up = direction();
      const levels = new Levels(tank);
      levels.lookAlong(up);
      const height = levels.heightMm(tank.volumeM3 * draw(0.1, 0.9));
      const counted = columnVolume(tank, up, height, 90);
      expect(Math.abs(levels.below(height).volumeM3 - counted)).toBeLessThan(0.006 * tank.volumeM3);
    }
  });

  it('keeps its oil at every g and fill, to 1e-12 of the tank; more oil never stands lower', () => {
    const levels = new Levels(tank);
    for (let k = 0; k < 60; k++) {
      expect(levels.look({ longitudinalG: draw(-3, 3), lateralG: draw(-3, 3), verticalG: draw(-1, 2) })).toBe(true);
      let last = -Infinity;
      for (const share of [0, 1e-6, 0.01, 0.2, 0.5, 0.9, 0.999999, 1]) {
        const height = levels.heightMm(share * tank.volumeM3);
        expect(height).toBeGreaterThanOrEqual(last);
        last = height;
        expect(Math.abs(levels.below(height).volumeM3 - share * tank.volumeM3)).toBeLessThan(1e-12 * tank.volumeM3);
      }
    }
  });

  it('has the free surface as the slope of its volume (second: difference quotient)', () => {
    for (let k = 0; k < 20; k++) {
      const levels = new Levels(tank);
      levels.lookAlong(direction());
      const height = levels.heightMm(tank.volumeM3 * draw(0.05, 0.95));
      const slope = (levels.below(height + 0.01).volumeM3 - levels.below(height - 0.01).volumeM3) / 0.02e-3;
      expect(slope / levels.below(height).areaM2).toBeCloseTo(1, 2);
    }
  });
});

it('is the same tank however it is turned: heights turn with it, to 1e-9 mm', () => {
  const mesh = ballMesh(3, 120, 30, 5);
  const still = new Levels(tankOfMesh(mesh));
  for (let k = 0; k < 20; k++) {
    const motion = rotationFromDeg([draw(-180, 180), draw(-180, 180), draw(-180, 180)]);
    const turned = new Levels(tankOfMesh(mesh, { motion }));
    const up = direction();
    still.lookAlong(up);
    turned.lookAlong(movedDirection(motion, up));
    const oil = still.tank.volumeM3 * draw(0.05, 0.95);
    expect(turned.heightMm(oil)).toBeCloseTo(still.heightMm(oil), 8);
  }
});

describe('closed forms (hand)', () => {
  const box = tankOfBox([0, 0, 0], [300, 200, 150]);
  it('box upright: depth is volume over floor; lying or upside down too', () => {
    const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };
    expect(oilSurface(box, rest, 0.003)).toMatchObject({
      heightMm: expect.closeTo(50, 9),
      areaM2: expect.closeTo(0.06, 12),
      totalG: 1,
    });
    // Upside down the oil hangs under the lid: up is (0, 0, -1), the surface at z = 100.
    expect(oilSurface(box, { ...rest, verticalG: -1 }, 0.003)).toMatchObject({ heightMm: expect.closeTo(-100, 9) });
    // All pull along the car and none down: 0.003 m3 over 200 x 150 mm is 100 mm, at the rear end since it speeds up.
    const rearward = oilSurface(box, { longitudinalG: 2, lateralG: 0, verticalG: 0 }, 0.003);
    expect(rearward).toMatchObject({ up: [-1, 0, 0], heightMm: expect.closeTo(-200, 9), totalG: 2 });
  });

  it('the oil of a round tank of 180 mm rises 135 mm at 1.5 g and falls 135 opposite', () => {
    const tank = tankOfCylinder([0, 0, 0], [0, 0, 480], 90);
    const surface = oilSurface(tank, { longitudinalG: 0, lateralG: -1.5, verticalG: 1 }, 0.0061);
    if (surface.kind === 'none') throw new Error(surface.why);
    const heightAt = (y: number) => (surface.heightMm - surface.up[1] * y) / surface.up[2];
    const rest = (0.0061 / (Math.PI * 0.09 ** 2)) * 1000;
    // A left-hand corner throws the oil to the right, which is +Y.
    expect(heightAt(90)).toBeCloseTo(rest + 135, 6);
    expect(heightAt(-90)).toBeCloseTo(rest - 135, 6);
  });

  it('a lying cylinder half full stands at its axis; a quarter of its height holds the circle segment', () => {
    const tank = tankOfCylinder([0, 0, 100], [400, 0, 100], 80);
    const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };
    expect(oilSurface(tank, rest, tank.volumeM3 / 2)).toMatchObject({ heightMm: expect.closeTo(100, 9) });
    const segment = 80 ** 2 * Math.acos(0.5) - 40 * Math.sqrt(80 ** 2 - 40 ** 2);
    expect(volumeUnderPlane(tank, [0, 0, 1], 60).volumeM3 * 1e9).toBeCloseTo(segment * 400, -3);
    expect((volumeUnderPlane(tank, [0, 0, 1], 60).volumeM3 * 1e9) / (segment * 400)).toBeCloseTo(1, 3);
  });
});

describe('the inside', () => {
  it('of the outside cylinder of 180 x 480 mm holds 12.2 L, with a wall of 2 mm 11.6 L, or what is stated', () => {
    const [from, to] = [
      [0, 0, 0],
      [0, 0, 480],
    ] as const;
    expect(tankOfCylinder(from, to, 90).volumeM3 * 1000).toBeCloseTo(Math.PI * 0.9 ** 2 * 4.8, 9);
    expect(tankOfCylinder(from, to, 90, { wallMm: 2 }).volumeM3 * 1000).toBeCloseTo(Math.PI * 0.88 ** 2 * 4.76, 9);
    const stated = tankOfCylinder(from, to, 90, { volumeM3: 0.0105 });
    expect(stated.volumeM3).toBeCloseTo(0.0105, 12);
    expect(stated.outsideM3 * 1000).toBeCloseTo(12.2145, 3);
    expect(tankOfCylinder(from, to, 90).facetMm).toBeLessThan(0.04);
  });

  it('of a mesh with a wall is exact for flat sides (hand) and near for round ones', () => {
    const pan = tankOfMesh(humpedPan(240), { wallMm: 2 });
    // Side view: area less 2 mm of rim, corner by corner exact; upright ends 236 mm apart.
    const box = tankOfMesh(
      {
        positions: Float64Array.from(
          [...Array(8).keys()].flatMap((i) => [(i & 1) * 300, ((i >> 1) & 1) * 200, (i >> 2) * 150]),
        ),
        indices: Uint32Array.from([
          0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5,
        ]),
      },
      { wallMm: 3 },
    );
    expect(box.volumeM3).toBeCloseTo(0.294 * 0.194 * 0.144, 9);
    expect(pan.volumeM3).toBeLessThan(pan.outsideM3);
    const round = tankOfMesh(cylinderMesh([0, 0, 0], [0, 0, 480], 90), { wallMm: 2 });
    expect(round.volumeM3 / (Math.PI * 0.088 ** 2 * 0.476)).toBeCloseTo(1, 4);
  });

  it('of a bent tube holds straights, ends and corner (hand)', () => {
    // Two straights of 300 and 200 mm at a right angle, radius 50: each straight less the mitre's overlap, a ball of ends, a
    // quarter of a ball less nothing outside the corner: pi r^2 (L1 + L2) - overlap + wedge + ball. The overlap of two straights
    // at 90 degrees inside the corner is that of two half cylinders cut by the mitre: (4/3) r^3 tan(45) / 2 each = (2/3) r^3.
    const r = 50;
    const byHand = Math.PI * r * r * 500 + (4 / 3) * Math.PI * r ** 3 + (Math.PI / 3) * r ** 3 - 2 * (2 / 3) * r ** 3;
    const tank = tankOfTube(
      [
        [0, 0, 0],
        [300, 0, 0],
        [300, 200, 0],
      ],
      r,
    );
    expect((tank.volumeM3 * 1e9) / byHand).toBeCloseTo(1, 3);
    const straight = tankOfTube(
      [
        [0, 0, 0],
        [300, 0, 0],
      ],
      r,
    );
    expect((straight.volumeM3 * 1e9) / (Math.PI * r * r * 300 + (4 / 3) * Math.PI * r ** 3)).toBeCloseTo(1, 3);
  });
});

describe('what cannot be is said in one line', () => {
  const tank = tankOfBox([0, 0, 0], [300, 200, 150], { name: 'oil tank' });
  const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };
  const box = ballMesh(1, 100);
  it.each<[string, () => unknown, RegExp]>([
    [
      'too full',
      () => oilSurface(tank, rest, 0.0091),
      /^flow: oil tank oilM3: 0.0091; allowed: 0 to the 0.009000 m3 that it holds$/,
    ],
    ['no number', () => oilSurface(tank, rest, Number.NaN), /oilM3: NaN/],
    [
      'g that is no number',
      () => oilSurface(tank, { ...rest, lateralG: Number.NaN }, 0.001),
      /^flow: lateralG: NaN; allowed: a finite number \[g\]$/,
    ],
    [
      'a hole',
      () => tankOfMesh({ ...box, indices: box.indices.slice(3) }),
      /^flow: tank mesh: an open edge at \(.*\) mm; allowed: a closed surface$/,
    ],
    [
      'a flat box',
      () => tankOfBox([0, 0, 0], [300, 0, 150]),
      /^flow: tank box maxMm\[1\]: 0; allowed: above minMm\[1\] = 0$/,
    ],
    [
      'a cylinder without length',
      () => tankOfCylinder([1, 2, 3], [1, 2, 3], 50),
      /length: 0; allowed: a number above 0 mm/,
    ],
    ['no radius', () => tankOfCylinder([0, 0, 0], [0, 0, 9], 0), /radiusMm: 0/],
    ['all wall', () => tankOfCylinder([0, 0, 0], [0, 0, 400], 90, { wallMm: 90 }), /wallMm: 90; allowed: below 90 mm/],
    [
      'more wall than a mesh has room for',
      () => tankOfMesh(box, { wallMm: 90 }),
      /wallMm: 90; allowed: a wall that leaves an inside/,
    ],
    [
      'more oil stated than the shape holds',
      () => tankOfBox([0, 0, 0], [300, 200, 150], { volumeM3: 0.01 }),
      /volumeM3: 0.01; allowed: at most the 0.009000 m3/,
    ],
    [
      'a tube too sharp',
      () =>
        tankOfTube(
          [
            [0, 0, 0],
            [100, 0, 0],
            [60, 80, 0],
          ],
          70,
        ),
      /tube length 1: 100 mm; allowed: at least/,
    ],
  ])('%s', (_, make, words) => {
    expect(make).toThrow(words);
  });

  it('no g, no surface', () => {
    expect(oilSurface(tank, { longitudinalG: 0, lateralG: 0, verticalG: 0 }, 0.001)).toEqual({
      kind: 'none',
      why: expect.stringMatching(/no g acts on the oil/),
    });
  });
});
