import {
  box,
  cylinder,
  meshSolid,
  placing,
  shifted,
  type Solid,
  type SolidForm,
  sub,
  triangleMesh,
  unit,
  type Vec,
} from '#geometry';
import { describe, expect, it } from 'vitest';
import { chance } from '../../../test/geometry/seeded-meshes.ts';
import { expectedOf, named, published, type PublishedValue } from '../../../test/published/published.ts';
import { exchangeFactors } from '../exchange/exchange-factors.ts';
import { linePatches } from '../exchange/line-patches.ts';
import { partPatch } from '../exchange/part-patch.ts';
import { flatPiece, type HeatSurface, type Patch, patchOf, roundPiece } from '../exchange/patch.ts';
import { patchPoint, POINT_WORDS } from '../exchange/patch-point.kernel.ts';
import { sheet } from '../exchange/view-forms.fixture.ts';
import { plateFacing, platePatches, plateShape, plateSurface } from './plate.ts';
import { radiationTaken, shieldTemperature } from './shield-balance.ts';
import { type ShieldPlace, type ShieldPlaceAsk, shieldPlaces } from './shield-place.ts';

const surface = (
  id: string,
  solids: readonly Solid[],
  emissivity: number,
  backEmissivity = emissivity,
): HeatSurface => ({
  id,
  kind: 'part',
  solids,
  emissivity,
  backEmissivity,
});

const rowsNamed = (start: string) =>
  published('heat.radiation')
    .filter(({ id }) => id.startsWith(start))
    .map((item) => [named(item), item, item.inputs] as const);

/**
 * By rays: temperature of the shield, surface 2 of three, and what the watched patch takes up.
 *
 * @param kelvin - of surface 0 and surface 1
 */
function byRays(
  surfaces: readonly HeatSurface[],
  faces: readonly Patch[],
  watched: Patch,
  kelvin: readonly [number, number],
): { shieldK: number; watts: number } {
  const rows = exchangeFactors({ surfaces, patches: [watched, ...faces], raysPerPatch: 8192, seed: 3 });
  const temperatures = [...kelvin, 0, 0];
  const shieldK = shieldTemperature({ faces, rows, first: 1, surface: 2, temperatures, airK: 300, airWPerM2K: 0 });
  temperatures[2] = shieldK;
  return { shieldK, watts: radiationTaken([watched], rows, 0, () => kelvin[watched.surface as 0 | 1], temperatures) };
}

/** Rays know a share of a tenth to a per cent or two; a temperature goes by its fourth root. */
const near = (value: number, item: PublishedValue, name: string, share: number): void =>
  expect(Math.abs(value / expectedOf(item, name) - 1)).toBeLessThan(share);

describe('a shield by rays', () => {
  it.each(rowsNamed('rad-shield-'))('%s', (_, item, n) => {
    const far = 1e5;
    const plate = (z: number) => sheet([-far, -far, z], [far, -far, z], [far, far, z], [-far, far, z]);
    const [toHot, toCold] = [n['es_hot_side']!, n['es_cold_side']!];
    const surfaces = [
      surface('hot', plate(0), n['e1']!),
      surface('cold', plate(20), n['e2']!),
      surface('shield', plate(10), toCold, toHot),
    ];
    const [u, v]: [Vec, Vec] = [
      [10, 0, 0],
      [0, 10, 0],
    ];
    const faces = [patchOf(2, toHot, [flatPiece([0, 0, 10], v, u)]), patchOf(2, toCold, [flatPiece([0, 0, 10], u, v)])];
    const cold = patchOf(1, n['e2']!, [flatPiece([0, 0, 20], v, u)]);
    const { shieldK, watts } = byRays(surfaces, faces, cold, [n['T1']!, n['T2']!]);
    near(shieldK, item, 'T_shield', 0.005);
    near(watts / 1e-4, item, 'q_shield', 0.04);
  });

  it.each(rowsNamed('rad-cylshield-'))('%s', (_, item, n) => {
    const [r1, rs, r2] = (
      n['r1'] === undefined ? [n['D1']! / 2, n['Ds']! / 2, n['D2']! / 2] : [n['r1'], n['rs']!, n['r2']!]
    ).map((metres) => metres * 1000) as [number, number, number];
    const surfaces = [
      surface('inner', [cylinder([0, 0, -3000], [0, 0, 3000], r1)], n['e1']!),
      surface('outer', tube(r2), n['e2']!),
      surface('shield', tube(rs), n['es']!),
    ];
    const sides = tubeSides(rs, 0, 10);
    const faces = [
      patchOf(
        2,
        n['es']!,
        sides.map(([at, round, up]) => flatPiece(at, round, up)),
      ),
      patchOf(
        2,
        n['es']!,
        sides.map(([at, round, up]) => flatPiece(at, up, round)),
      ),
    ];
    const inner = patchOf(0, n['e1']!, [roundPiece([0, 0, 0], [0, 0, 1], [1, 0, 0], r1, 10, 2 * Math.PI)]);
    const { shieldK, watts } = byRays(surfaces, faces, inner, [n['T1']!, n['T2']!]);
    near(shieldK, item, 'T_shield', 0.005);
    near(-watts / 0.01, item, 'q_shield_W_m', 0.04);
  });
});

/** Sides of a tube of many sides about z: corner, side round it, side along it. */
function tubeSides(r: number, low: number, high: number): readonly (readonly [Vec, Vec, Vec])[] {
  const count = 120;
  return Array.from({ length: count }, (_, k) => {
    const [a, b] = [k, k + 1].map((i) => (2 * Math.PI * i) / count) as [number, number];
    const round: Vec = [r * (Math.cos(b) - Math.cos(a)), r * (Math.sin(b) - Math.sin(a)), 0];
    return [[r * Math.cos(a), r * Math.sin(a), low], round, [0, 0, high - low]] as const;
  });
}

function tube(r: number): readonly Solid[] {
  const corners = tubeSides(r, -3000, 3000).flatMap(([a, u, v]) => {
    const [b, d]: [Vec, Vec] = [
      [a[0] + u[0], a[1] + u[1], a[2]],
      [a[0], a[1], a[2] + v[2]],
    ];
    const c: Vec = [b[0], b[1], d[2]];
    return [a, b, c, a, c, d];
  });
  const mesh = triangleMesh(
    Float64Array.from(corners.flat()),
    Uint32Array.from(corners, (_, i) => i),
  );
  return [meshSolid(mesh, { inside: 'never' })];
}

/** A hot box and a line of 20 mm that passes 120 mm beside it, at a slant. */
function besideHot(others: readonly HeatSurface[] = []): ShieldPlaceAsk {
  const hot = [box([0, -100, -60], [200, 100, 60])];
  const path = Float64Array.from([-90, -150, -40, -140, 150, 60]);
  const line = linePatches(1, 0.9, [{ part: 'hose', path, radiusMm: 10 }], { segmentMm: 20, sectors: 8 });
  const surfaces = [surface('hot', hot, 0.8), surface('line', line.solids, 0.9), ...others];
  const middle = line.patches.filter(({ alongMm }) => Math.abs(alongMm - 150) < 60);
  return {
    surfaces,
    stretch: middle,
    stretchK: middle.map(() => 400),
    sources: [0],
    temperatures: [1050, 400, ...others.map(() => 330), 310],
    airK: 330,
    airWPerM2K: 8,
    kelvinPerWatt: 2,
    plate: { thicknessMm: 1, densityKgPerM3: 2700, emissivityToSource: 0.09, emissivityToLine: 0.09 },
    airGapMm: 12,
    raysPerPatch: 256,
    seed: 4,
  };
}

const standing = ({ minMm, maxMm, turnDeg, atMm }: ShieldPlace): Solid => box(minMm, maxMm, placing(turnDeg, atMm));

/** Least distance of points of some patches to the solid. */
function leastGap(patches: readonly Patch[], solid: Solid): number {
  const draw = chance(1);
  const point = new Float64Array(POINT_WORDS);
  let least = Infinity;
  for (const { pieces } of patches)
    for (let n = 0; n < 2000; n++) {
      patchPoint(pieces, draw(), draw(), point);
      least = Math.min(least, solid.distance(point[0]!, point[1]!, point[2]!));
    }
  return least;
}

describe('a plate', () => {
  it('in radiation and air stands where both cancel: worked by hand', () => {
    const plate = plateFacing([0, 0, 0], [0, 0, 1], [1, 0, 0], 100, 50);
    const surfaces = [plateSurface('plate', plate, 0.5, 0.5)];
    const faces = platePatches(0, plate, 0.5, 0.5);
    const rows = exchangeFactors({ surfaces, patches: faces, raysPerPatch: 64, seed: 1 });
    // e s (Ts^4 - 350^4) = 10 (350 - 300) on each face: Ts = (350^4 + 500 / (0.5 x 5.670374e-8))^(1/4) = 425.05 K.
    const temperatures = [0, (350 ** 4 + 500 / (0.5 * 5.670374419e-8)) ** 0.25];
    expect(temperatures[1]).toBeCloseTo(425.05, 2);
    const of = { faces, rows, first: 0, surface: 0, temperatures, airK: 300, airWPerM2K: 10 };
    expect(shieldTemperature(of)).toBeCloseTo(350, 6);
  });

  it('stands in the car file where it stood: corners of the box of the file against the plate (200 seeded, some on end)', () => {
    const draw = chance(21);
    for (let n = 0; n < 200; n++) {
      const way = (): Vec => [draw(-1, 1), draw(-1, 1), draw(-1, 1)];
      const front = n % 10 === 0 ? ([1, 0, 0] as Vec) : unit(way());
      const along = n % 10 === 0 ? ([0, 0, n % 20 === 0 ? 1 : -1] as Vec) : way();
      const plate = plateFacing([draw(-900, 900), draw(-900, 900), 300], front, along, draw(20, 200), draw(20, 200));
      const { minMm, maxMm, turnDeg, atMm } = plateShape(plate, 2);
      const { centre, axes, half } = box(minMm, maxMm, placing(turnDeg, atMm)).form as Extract<
        SolidForm,
        { kind: 'box' }
      >;
      expect(centre).toEqual(plate.middleMm);
      expect(half).toEqual([plate.longMm / 2, plate.wideMm / 2, 1]);
      for (const [axis, wanted] of [
        [axes[0], plate.along],
        [axes[1], plate.across],
      ] as const)
        expect(Math.hypot(...sub(axis, wanted))).toBeLessThan(1e-7);
    }
  });
});

describe('a plate placed between a line and what is hot', () => {
  const ask = besideHot();
  const places = shieldPlaces(ask);

  it('takes most of the heat off the stretch and is itself between the two in temperature', () => {
    expect(places.length).toBeGreaterThan(5);
    const most = Math.max(...places.map(({ gainK }) => gainK));
    const best = places.find(({ gainK }) => gainK === most)!;
    expect(best.afterW).toBeLessThan(0.45 * best.beforeW);
    for (const { plateK, gainK, beforeW, afterW, grams, areaMm2 } of places) {
      expect(plateK).toBeGreaterThan(330);
      expect(plateK).toBeLessThan(1050);
      expect(gainK).toBeCloseTo(2 * (beforeW - afterW), 9);
      // By hand: a square centimetre of aluminium 1 mm thick weighs 0.27 g.
      expect(grams).toBeCloseTo((areaMm2 / 100) * 0.27, 9);
    }
    // First those worth it, by degrees a gram.
    expect(places[0]!.gainK).toBeGreaterThan(0.6 * most - 1e-9);
    const worth = places.filter(({ gainK }) => gainK >= 0.6 * most).map(({ kelvinPerGram }) => kelvinPerGram);
    expect(worth).toEqual(worth.toSorted((a, b) => b - a));
    expect(places.slice(0, worth.length).map(({ kelvinPerGram }) => kelvinPerGram)).toEqual(worth);
  });

  it('leaves the air gap to both, as it stands in the car file', () => {
    const hot = partPatch(0, 1, ask.surfaces[0]!.solids);
    for (const place of places) {
      expect(leastGap([hot], standing(place))).toBeGreaterThan(ask.airGapMm - 0.01);
      expect(leastGap(ask.stretch, standing(place))).toBeGreaterThan(ask.airGapMm - 0.01);
    }
  });

  it('brings what a plate of that thickness brings when it is traced as a part like any other (second way)', () => {
    const place = places.reduce((a, b) => (a.gainK > b.gainK ? a : b));
    const surfaces = [...ask.surfaces, surface('plate', [standing(place)], 0.09)];
    const plate = partPatch(2, 0.09, [standing(place)]);
    const rows = exchangeFactors({ surfaces, patches: [...ask.stretch, plate], raysPerPatch: 2048, seed: 77 });
    const temperatures = [1050, 400, 0, 310];
    const of = { faces: [plate], rows, first: ask.stretch.length, surface: 2, temperatures, airK: 330, airWPerM2K: 8 };
    temperatures[2] = shieldTemperature(of);
    const watts = radiationTaken(ask.stretch, rows, 0, () => 400, temperatures);
    expect(Math.abs(temperatures[2] - place.plateK)).toBeLessThan(12);
    expect(Math.abs(watts - place.afterW)).toBeLessThan(0.06 * place.beforeW);
  });

  it('keeps out of where something moves and off what else stands there', () => {
    const half = { solids: [box([-60, -300, -300], [-30, 300, 300])], mm: 10 };
    const beside = shieldPlaces({ ...ask, swept: [half] });
    expect(beside.length).toBeLessThan(places.length);
    for (const place of beside) expect(leastGap([partPatch(0, 1, half.solids)], standing(place))).toBeGreaterThan(9.9);
    const wall = surface('wall', [box([-55, -20, -200], [-5, 20, 200])], 0.5);
    for (const place of shieldPlaces(besideHot([wall])))
      expect(leastGap([partPatch(0, 1, wall.solids)], standing(place))).toBeGreaterThan(2.9);
  });

  it('is none where there is no room, or nothing hot in sight', () => {
    expect(shieldPlaces({ ...ask, airGapMm: 70 })).toEqual([]);
    const away = ask.surfaces.map((s, i) =>
      i === 0 ? { ...s, solids: s.solids.map((solid) => solid.moved(shifted([0, 0, 1e5]))) } : s,
    );
    expect(shieldPlaces({ ...ask, surfaces: away })).toEqual([]);
  });
});
