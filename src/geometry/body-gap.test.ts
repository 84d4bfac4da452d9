import { describe, expect, it } from 'vitest';
import { DenseBody } from '../../test/geometry/dense-body.ts';
import { seededBody, seededSolid } from '../../test/geometry/seeded-bodies.ts';
import { boxMesh, chance, sheetMesh } from '../../test/geometry/seeded-meshes.ts';
import type { Body } from './body.ts';
import { bodyGap } from './body-gap.ts';
import { box } from './box.ts';
import { capsule } from './capsule.ts';
import { cylinder } from './cylinder.ts';
import { meshSolid } from './mesh-solid.ts';
import type { Solid } from './solid.ts';
import { triangleMesh } from './triangle-mesh.ts';
import type { Vec } from './vec.ts';

const KINDS = ['capsule', 'cylinder', 'turned box', 'noisy ball mesh', 'box mesh'];

const straight = (from: Vec, to: Vec, radiusMm: number, pieces = 1): Body => ({
  part: 'hose',
  path: Float64Array.from(
    Array.from({ length: pieces + 1 }, (_, i) => from.map((a, k) => a + ((to[k]! - a) * i) / pieces)).flat(),
  ),
  radiusMm,
});
const asMesh = (min: Vec, max: Vec): Solid => {
  const m = boxMesh(min, max);
  return meshSolid(triangleMesh(m.positions, m.indices));
};

describe('against dense sampling of the discs (second method)', () => {
  for (const solidKind of [0, 1, 2, 3, 4])
    for (const bodyKind of [0, 1, 2, 3, 4])
      it(`${KINDS[solidKind]}, body kind ${bodyKind}, seeds 1 to 10`, () => {
        for (let seed = 1; seed <= 10; seed++) {
          const draw = chance(1000 * solidKind + 100 * bodyKind + seed);
          const body = seededBody(bodyKind, draw);
          const solid = seededSolid(solidKind, draw, [draw(-120, 120), draw(-120, 120), draw(-120, 120)]);
          const gap = bodyGap(body, solid);
          const dense = new DenseBody(body);
          const label = `seed ${seed}, gap ${gap.gapMm}`;
          // Attained: the place is on the body and stands that far from the solid.
          expect(dense.holds(gap.at, 1e-6), label).toBe(true);
          expect(solid.distance(...gap.at), label).toBeCloseTo(gap.gapMm, 6);
          // Least: creeping down from many places finds nothing lower.
          const oracle = dense.least((x, y, z) => solid.distance(x, y, z), bodyKind === 3 ? 9 : 6, 8);
          expect(gap.gapMm, label).toBeLessThanOrEqual(oracle + (oracle < 0 ? 0.1 : 0.05));
          // Deep down creeping gets stuck on ridges; that ours is attained is then the proof.
          if (oracle > 0) expect(gap.gapMm, label).toBeGreaterThan(oracle - 0.1);
        }
      });
});

describe('worked by hand', () => {
  for (const [name, solid] of [
    ['box', box([-100, -100, -50], [100, 100, 0])],
    ['mesh of a box', asMesh([-100, -100, -50], [100, 100, 0])],
    ['cylinder end', cylinder([0, 0, -50], [0, 0, 0], 90)],
  ] as const)
    describe(`a face at z = 0: ${name}`, () => {
      it('hand: flush on it 0, not less the radius', () => {
        expect(bodyGap(straight([10, 5, 0], [10, 5, 60], 15, 20), solid).gapMm).toBeCloseTo(0, 2);
        expect(bodyGap(straight([10, 5, 60], [10, 5, 0], 15, 20), solid).gapMm).toBeCloseTo(0, 2);
      });
      it('hand: 0.4 mm proud 0.4, sunk 8 mm deep -8', () => {
        expect(bodyGap(straight([10, 5, 0.4], [10, 5, 60], 15, 20), solid).gapMm).toBeCloseTo(0.4, 2);
        expect(bodyGap(straight([10, 5, -8], [10, 5, 60], 15, 20), solid).gapMm).toBeCloseTo(-8, 1);
      });
      it('hand: lying 40 mm above at radius 15: 25', () => {
        const gap = bodyGap(straight([-40, 0, 40], [40, 0, 40], 15, 30), solid);
        expect(gap.gapMm).toBeCloseTo(25, 2);
        expect(gap.at[2]).toBeCloseTo(25, 2);
        expect(gap.on[2]).toBeCloseTo(0, 6);
      });
      it('hand: leaned by 30 degrees on its rim: height of the end less r sin 30', () => {
        const gap = bodyGap(
          straight([0, 0, 20], [50 * Math.sin(Math.PI / 6), 0, 20 + 50 * Math.cos(Math.PI / 6)], 15),
          solid,
        );
        expect(gap.gapMm).toBeCloseTo(20 - 15 * 0.5, 1);
      });
    });

  it('hand: beside a capsule: centrelines 30 apart, radii 15 and 8: 7', () => {
    expect(bodyGap(straight([0, 0, 0], [100, 0, 0], 15), capsule([50, 30, -40], [50, 30, 40], 8)).gapMm).toBeCloseTo(
      7,
      2,
    );
  });
  it('hand: a capsule off the flat end is measured to the disc, not to a ball: 12 - 4', () => {
    expect(bodyGap(straight([0, 0, 0], [100, 0, 0], 15), capsule([-12, -40, 0], [-12, 40, 0], 4)).gapMm).toBeCloseTo(
      8,
      2,
    );
  });
  it('hand: off the rim: sqrt(3^2 + 4^2) - 1 from the edge of the disc', () => {
    expect(bodyGap(straight([0, 0, 0], [100, 0, 0], 15), capsule([-3, 19, 0], [-3, 19, 0], 1)).gapMm).toBeCloseTo(4, 2);
  });
  it('hand: a square corner is filled by a ball: sqrt(2) * 40 - 10 - 15 out on the diagonal', () => {
    const body: Body = { part: 'hose', path: Float64Array.of(-80, 0, 0, 0, 0, 0, 0, 80, 0), radiusMm: 15 };
    expect(bodyGap(body, capsule([40, -40, 0], [40, -40, 0], 10)).gapMm).toBeCloseTo(Math.SQRT2 * 40 - 25, 2);
  });
  it('hand: the ball at a corner 3 mm from a flat end does not stand out of that end', () => {
    const body: Body = {
      part: 'hose',
      path: Float64Array.of(0, 0, 0, 0, 0, 3, 0.3, 0, 6, 1, 0, 9, 4, 0, 30),
      radiusMm: 15,
    };
    expect(bodyGap(body, box([-100, -100, -50], [100, 100, 0])).gapMm).toBeCloseTo(0, 2);
  });
  it('hand: through a panel 1.2 mm thick: its middle is 0.6 deep', () => {
    expect(
      bodyGap(straight([0, 0, -30], [0, 0, 60], 15, 30), box([-100, -100, -1.2], [100, 100, 0])).gapMm,
    ).toBeCloseTo(-0.6, 1);
  });
  it('hand: through an open sheet, which has no inside: as deep as the radius', () => {
    const sheet = sheetMesh(12, 200, 0);
    const solid = meshSolid(triangleMesh(sheet.positions, sheet.indices));
    const c = solid.bounds;
    const mid: Vec = [(c.min[0] + c.max[0]) / 2, (c.min[1] + c.max[1]) / 2, (c.min[2] + c.max[2]) / 2];
    const gap = bodyGap(straight([mid[0], mid[1], mid[2] - 40], [mid[0], mid[1], mid[2] + 40], 15, 30), solid);
    expect(gap.gapMm).toBeCloseTo(-15, 0);
  });
  it('gives Infinity from the asked distance on, and the gap below it', () => {
    const [body, solid] = [straight([0, 0, 40], [50, 0, 40], 15), box([-100, -100, -50], [100, 100, 0])];
    expect(bodyGap(body, solid, 25).gapMm).toBe(Infinity);
    expect(bodyGap(body, solid, 25.1).gapMm).toBeCloseTo(25, 2);
  });
});

it('second method: a slice whose middle is not deep enough may still hold the deepest place', () => {
  const draw = chance(6044);
  const body = seededBody(4, draw);
  const solid = seededSolid(1, draw, [draw(-150, 150), draw(-150, 150), draw(-150, 150)]);
  const oracle = new DenseBody(body).least((x, y, z) => solid.distance(x, y, z), 3, 8);
  expect(bodyGap(body, solid).gapMm).toBeCloseTo(oracle, 1);
});

describe('properties', () => {
  it('frozen count: a flush port face on a mesh takes fewer than 3000 looks in all', () => {
    let looks = 0;
    const solid = asMesh([-100, -100, -50], [100, 100, 0]);
    const counted: Solid = { ...solid, distanceWithin: (x, y, z, l) => (looks++, solid.distanceWithin(x, y, z, l)) };
    bodyGap(straight([10, 5, 0], [10, 5, 60], 15, 20), counted);
    expect(looks).toBeLessThan(3000);
  });
  it('moving both together changes nothing', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const draw = chance(seed);
      const body = seededBody(2, draw);
      const solid = seededSolid(2, draw, [draw(-90, 90), draw(-90, 90), draw(-90, 90)]);
      const by: Vec = [draw(-500, 500), draw(-500, 500), draw(-500, 500)];
      const moved: Body = { ...body, path: body.path.map((v, i) => v + by[i % 3]!) };
      const there = solid.moved({
        rows: [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ],
        shift: by,
      });
      expect(bodyGap(moved, there).gapMm).toBeCloseTo(bodyGap(body, solid).gapMm, 1);
    }
  });
});
