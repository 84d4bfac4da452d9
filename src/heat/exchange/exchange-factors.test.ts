import { box, capsule, cylinder, meshSolid, type Solid, triangleMesh } from '#geometry';
import { describe, expect, it } from 'vitest';
import { ballMesh, chance } from '../../../test/geometry/seeded-meshes.ts';
import { seededSolid } from '../../../test/geometry/seeded-bodies.ts';
import { expectedOf, named, published, type PublishedValue, tolerance } from '../../../test/published/published.ts';
import { exchangeFactors } from './exchange-factors.ts';
import { partPatch } from './part-patch.ts';
import { flatPiece, type HeatSurface, patchOf } from './patch.ts';
import { viewFactor } from './view-factor.ts';
import {
  ballDisc,
  cylinders,
  discBall,
  discs,
  elementCylinder,
  elementDisc,
  elementDiscBeside,
  type FormPair,
  parallelRectangles,
  sheet,
  squareRectangles,
  stripCylinder,
  wedge,
} from './view-forms.fixture.ts';

const surface = (id: string, solids: readonly Solid[], emissivity = 1): HeatSurface => ({
  id,
  kind: 'part',
  solids,
  emissivity,
});

/** By rays: the patch's own surface is left out, so that it stands in nobody's way. */
const byRays = ({ from, to }: FormPair, rays: number, seed: number) =>
  viewFactor({ ...from, surface: 0 }, 1, [surface('from', []), surface('to', to)], { rays, seed });

const pairOf = ({ id, inputs }: PublishedValue): FormPair => {
  const equal = { r1: inputs['r']!, r2: inputs['r']!, centre_distance: 2 * inputs['r']! + inputs['gap_s']! };
  if (id.startsWith('vf-discs')) return discs(inputs);
  if (id.startsWith('vf-parrect')) return parallelRectangles(inputs);
  if (id.startsWith('vf-perprect')) return squareRectangles(inputs);
  if (id.startsWith('vf-sphere-disc')) return ballDisc(inputs);
  if (id.startsWith('vf-cylcyl-unequal')) return cylinders(inputs);
  if (id.startsWith('vf-cylcyl')) return cylinders(equal);
  if (id.startsWith('vf-strip-cyl')) return stripCylinder(inputs);
  if (id.startsWith('vf-el-cyl')) return elementCylinder(inputs);
  if (id.startsWith('vf-el-disc-offset')) return elementDiscBeside(inputs);
  if (id.startsWith('vf-el-disc')) return elementDisc(inputs);
  if (id.startsWith('vf-wedge')) return wedge(inputs);
  throw new Error(`no form for ${id}`);
};

describe('view factors', () => {
  it.each(published('heat.viewfactor').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const ways: readonly (readonly [FormPair, number])[] =
      typeof item.expected === 'number'
        ? [[pairOf(item), item.expected]]
        : [
            [ballDisc(item.inputs), expectedOf(item, 'F_sphere_disc')],
            [discBall(item.inputs), expectedOf(item, 'F_disc_sphere')],
          ];
    for (const [pair, expected] of ways) {
      // Half of the eighth digit that the rows are printed to.
      expect(Math.abs(pair.closed - expected)).toBeLessThanOrEqual(tolerance(item, expected) + 5e-9);
      const found = byRays(pair, 4096, 6);
      // One and a half times a 95 % interval: one row in several hundred falls out by chance.
      expect(Math.abs(found.share - expected)).toBeLessThanOrEqual(1.5 * found.error95);
      expect(found.error95).toBeLessThan(0.02);
    }
  });

  it('lie within their stated 95 % error in 181 to 197 of 200 seeded pairs with closed forms', () => {
    const within = seededPairs(200, 2).filter(([pair, seed]) => {
      const found = byRays(pair, 1024, seed);
      return Math.abs(found.share - pair.closed) <= found.error95;
    }).length;
    expect(within).toBeGreaterThanOrEqual(181);
    expect(within).toBeLessThanOrEqual(197);
  });

  it('have an error at no hit at all: below 3 / rays with 95 % confidence', () => {
    const from = patchOf(0, 1, [flatPiece([0, 0, 0], [1, 0, 0], [0, 1, 0])]);
    const far = surface('far', [capsule([0, 0, 1e6], [0, 0, 1e6], 1)]);
    const found = viewFactor(from, 1, [surface('from', []), far], { rays: 1024, seed: 1 });
    expect(found.share).toBe(0);
    // 0.05 = (1 - p)^n, worked by hand for n = 1024.
    expect(found.error95).toBeCloseTo(1 - 0.05 ** (1 / 1024), 5);
  });

  it('are nothing past a shield that covers all of what is seen', () => {
    const { from, to } = discs({ r1: 0.05, r2: 0.05, L: 0.1 });
    const scene = (between: readonly Solid[]) => [surface('from', []), surface('to', to), surface('between', between)];
    const bare = viewFactor(from, 1, scene([]), { rays: 4096, seed: 2 });
    const shield = cylinder([0, 0, 50], [0, 0, 51], 500);
    const behind = viewFactor(from, 1, scene([shield]), { rays: 4096, seed: 2 });
    expect(bare.share).toBeGreaterThan(0.15);
    expect(behind.share).toBe(0);
  });

  it.each([1, 2, 3, 4, 5, 6])('are reciprocal, A1 F12 = A2 F21 (seed %i)', (seed) => {
    const draw = chance(300 + seed);
    const solids = [0, 1, 2].map((i) => seededSolid(Math.floor(draw(0, 3)), draw, [i * 220 - 220, draw(-60, 60), 0]));
    const scene = solids.map((solid, i) => surface(`s${i}`, [solid]));
    const patches = solids.map((solid, i) => partPatch(i, 1, [solid]));
    const found = exchangeFactors({ surfaces: scene, patches, raysPerPatch: 8192, seed });
    const of = (i: number, j: number) =>
      rowOf(found, i, j).map((v) => v * patches[i]!.areaM2 * 1e4) as [number, number];
    for (const [i, j] of [
      [0, 1],
      [1, 2],
    ] as const) {
      const [a, ea] = of(i, j);
      const [b, eb] = of(j, i);
      expect(a).toBeGreaterThan(0.1);
      expect(Math.abs(a - b)).toBeLessThan(1.5 * Math.hypot(ea, eb));
    }
  });
});

describe('exchange factors', () => {
  it('of a row sum to 1, whatever reflects', () => {
    const draw = chance(8);
    const solids = Array.from({ length: 12 }, () =>
      seededSolid(Math.floor(draw(0, 5)), draw, [draw(-300, 300), draw(-300, 300), draw(-300, 300)]),
    );
    const surfaces = solids.map((solid, i) => surface(`s${i}`, [solid], draw(0.05, 1)));
    const patches = surfaces.map(({ solids: own, emissivity }, i) => partPatch(i, emissivity, own));
    const found = exchangeFactors({ surfaces, patches, raysPerPatch: 512, seed: 1 });
    patches.forEach((_, p) => {
      const row = found.share.slice(found.starts[p], found.starts[p + 1]);
      expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
      expect([...found.to.slice(found.starts[p], found.starts[p + 1])]).toEqual(
        [...found.to.slice(found.starts[p], found.starts[p + 1])].sort((a, b) => a - b),
      );
    });
    expect(found.share.some((v, k) => found.to[k] === surfaces.length && v > 0.1)).toBe(true);
  });

  it('of a room closed all round leave nothing for the surroundings', () => {
    const wall = (min: [number, number, number], max: [number, number, number]) => box(min, max);
    const walls = [
      wall([-520, -520, -520], [520, 520, -500]),
      wall([-520, -520, 500], [520, 520, 520]),
      wall([-520, -520, -520], [-500, 520, 520]),
      wall([500, -520, -520], [520, 520, 520]),
      wall([-520, -520, -520], [520, -500, 520]),
      wall([-520, 500, -520], [520, 520, 520]),
    ].map((solid, i) => surface(`wall ${i}`, [solid], 0.4));
    const ball = capsule([40, 0, 0], [40, 0, 0], 100);
    const surfaces = [surface('ball', [ball], 0.6), ...walls];
    const found = exchangeFactors({ surfaces, patches: [partPatch(0, 0.6, [ball])], raysPerPatch: 4096, seed: 4 });
    expect([...found.to]).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(found.share.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  });

  it('between large grey plates are those of the closed form, 1 / (1/e1 + 1/e2 - 1)', () => {
    for (const [e1, e2] of [
      [0.7, 0.7],
      [0.8, 0.1],
      [0.3, 0.9],
    ] as const) {
      const far = 1e5;
      const lower = sheet([-far, -far, 0], [far, -far, 0], [far, far, 0], [-far, far, 0]);
      const upper = sheet([-far, -far, 10], [far, -far, 10], [far, far, 10], [-far, far, 10]);
      const surfaces = [surface('lower', lower, e1), surface('upper', upper, e2)];
      const patch = patchOf(0, e1, [flatPiece([0, 0, 0], [10, 0, 0], [0, 10, 0])]);
      const found = exchangeFactors({ surfaces, patches: [patch], raysPerPatch: 4096, seed: 6 });
      const [share, error95] = rowOf(found, 0, 1);
      expect(Math.abs(e1 * share - 1 / (1 / e1 + 1 / e2 - 1))).toBeLessThan(1.5 * e1 * error95);
    }
  });

  it('between grey balls one in the other are those of the closed form (resistances in series)', () => {
    const [r1, r2, e1, e2] = [250, 500, 0.5, 0.5];
    const inner = capsule([0, 0, 0], [0, 0, 0], r1);
    const shell = ballMesh(5, r2);
    const outer = meshSolid(triangleMesh(shell.positions, shell.indices), { inside: 'never' });
    const surfaces = [surface('inner', [inner], e1), surface('outer', [outer], e2)];
    const found = exchangeFactors({ surfaces, patches: [partPatch(0, e1, [inner])], raysPerPatch: 8192, seed: 7 });
    const [share, error95] = rowOf(found, 0, 1);
    const series = 1 / ((1 - e1) / e1 + 1 + ((1 - e2) / e2) * (r1 / r2) ** 2);
    expect(Math.abs(e1 * share - series)).toBeLessThan(1.5 * e1 * error95);
  });

  it('do not hang on what else is asked, nor on the order', () => {
    const solids = [
      box([0, 0, 0], [50, 50, 50]),
      cylinder([100, 0, 0], [100, 0, 90], 20),
      capsule([0, 120, 0], [60, 120, 0], 15),
    ];
    const surfaces = solids.map((solid, i) => surface(`s${i}`, [solid], 0.5));
    const patches = solids.map((solid, i) => partPatch(i, 0.5, [solid]));
    const all = exchangeFactors({ surfaces, patches, raysPerPatch: 512, seed: 3 });
    const last = exchangeFactors({ surfaces, patches: [patches[2]!], raysPerPatch: 512, seed: 3 });
    expect(all.share.slice(all.starts[2])).toEqual(last.share);
    expect(exchangeFactors({ surfaces, patches, raysPerPatch: 512, seed: 4 }).share).not.toEqual(all.share);
  });

  it('tell how much of a patch lies inside another solid', () => {
    const [a, b] = [box([0, 0, 0], [100, 100, 100]), box([50, -50, -50], [300, 300, 300])];
    const surfaces = [surface('a', [a]), surface('b', [b])];
    const found = exchangeFactors({ surfaces, patches: [partPatch(0, 1, [a])], raysPerPatch: 4096, seed: 1 });
    // By hand: one face whole and half of four of six.
    expect(found.covered[0]).toBeCloseTo(3 / 6, 2);
  });
});

function rowOf({ starts, to, share, error95 }: ReturnType<typeof exchangeFactors>, row: number, surfaceIndex: number) {
  for (let k = starts[row]!; k < starts[row + 1]!; k++)
    if (to[k] === surfaceIndex) return [share[k]!, error95[k]!] as const;
  return [0, 0] as const;
}

/** Pairs of every form, sizes by chance. */
function seededPairs(count: number, seed: number): readonly (readonly [FormPair, number])[] {
  const draw = chance(seed);
  const kinds: readonly (() => FormPair)[] = [
    () => discs({ r1: draw(0.03, 0.3), r2: draw(0.03, 0.3), L: draw(0.03, 0.3) }),
    () => parallelRectangles({ a: draw(0.1, 0.5), b: draw(0.1, 0.5), c: draw(0.05, 0.3) }),
    () => squareRectangles({ edge_x: draw(0.1, 0.5), A1_depth_y: draw(0.1, 0.5), A2_height_z: draw(0.1, 0.5) }),
    () => ballDisc({ h: draw(0.1, 0.2), r_disc: draw(0.06, 0.2), R_sphere: draw(0.02, 0.09) }),
    () => discBall({ h: draw(0.1, 0.2), r_disc: draw(0.06, 0.2), R_sphere: draw(0.04, 0.09) }),
    () => cylinders({ r1: draw(0.008, 0.03), r2: draw(0.008, 0.03), centre_distance: draw(0.065, 0.12) }),
    () =>
      stripCylinder({
        s1: draw(0.02, 0.1),
        s2: draw(-0.1, 0.01),
        L_axis_to_plane: draw(0.04, 0.1),
        r: draw(0.01, 0.035),
      }),
    () => elementCylinder({ l: draw(0.1, 0.6), h: draw(0.08, 0.15), r: draw(0.02, 0.06) }),
    () => elementDisc({ R: draw(0.03, 0.07), h: draw(0.08, 0.15), omega_deg: draw(0, 40) }),
    () => elementDiscBeside({ h: draw(0.05, 0.2), a: draw(0.03, 0.1), r: draw(0.03, 0.1) }),
    () => wedge({ alpha_deg: draw(20, 150) }),
  ];
  return Array.from({ length: count }, (_, i) => [kinds[i % kinds.length]!(), Math.floor(draw(0, 1e9))] as const);
}
