import { describe, expect, it } from 'vitest';
import { isInOutline, movedOutline, outlineArea, roundOutline } from '#geometry';
import { expectedNumber, expectedOf, named, published, tolerance } from '../../../test/published/published.ts';
import { openShareHexagon, openShareRound, openShareSquare, openShareWoven } from '../mesh/open-share.ts';
import { rectangle, seededPanel } from '../windows/seeded-panels.fixture.ts';
import { windowField } from '../windows/window-field.ts';
import {
  bucklingStress,
  deflectionNumber,
  flatPlateFrequency,
  frequencyNumber,
  momentNumber,
  type PairHold,
  plateStiffness,
  pressedNumber,
  shearNumber,
} from './closed-plates.ts';
import { twistPull, twistShear } from '../flat/bend-formulas.ts';
import { armDeflection, holeConcentration, windowConcentration } from './holes-and-lugs.ts';
import { panelStrength } from './panel-strength.ts';
import {
  type BendingPlate,
  bendingPlate,
  bucklingFactor,
  type EdgeHold,
  plateFrequency,
  pressedPlate,
} from './plate-bending.ts';
import { plateMesh } from './plate-mesh.ts';
import { bendingStiffness } from './plate-triangle.kernel.ts';
import { stretchedSheet } from './plate-stretch.ts';

const sheet = { thicknessMm: 1, stiffnessMpa: 70_000, poisson: 0.3, densityKgM3: 2700 } as const;
const D = plateStiffness(70_000, 1, 0.3);
const SHORT = 200;
const plain = { quarter: 6, across: 2 } as const;
/** A rectangle 200 mm the short way as triangles. */
const plate = (slender: number, held: EdgeHold | readonly EdgeHold[], sizeMm = 12): BendingPlate => {
  const made = bendingPlate(plateMesh(rectangle(slender * SHORT, SHORT), [], { sizeMm, ...plain }), sheet, held);
  if ('why' in made) throw new Error(made.why);
  return made;
};
const holds = ['simply', 'clamped', 'free'] as const;
const pairOf = (a: EdgeHold, b: EdgeHold): PairHold | undefined =>
  a === b
    ? a === 'free'
      ? undefined
      : a
    : ((a < b ? `${a}-${b}` : `${b}-${a}`).replace('free-simply', 'simply-free') as PairHold);

describe('first frequencies', () => {
  it.each(published('panel.frequency').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const { slender, bottom, right, top, left } = item.inputs as Record<string, number>;
    const edges = [bottom!, right!, top!, left!].map((k) => holds[k]!);
    const expected = expectedNumber(item);
    const f = plateFrequency(plate(slender!, edges));
    const lambda = (2 * Math.PI * f * SHORT ** 2) / Math.sqrt(D / 2700e-12);
    // The triangles' own: mass at nodes, 300 to 600 of them; most of it moves at a free edge.
    expect(Math.abs(lambda / expected - 1)).toBeLessThan(edges.includes('free') ? 0.009 : 0.006);
    const [along, across] = [pairOf(edges[3]!, edges[1]!), pairOf(edges[0]!, edges[2]!)];
    if (along === undefined || across === undefined) return;
    const closed = frequencyNumber(1 / slender!, 0.3, along, across);
    // One beam shape each way is exact simply held, up to 0.6 % high else, 2 % with a free edge.
    const isSimple = edges.every((edge) => edge === 'simply');
    expect(closed / expected).toBeGreaterThan(1 - (tolerance(item, 1) || 0) / 10);
    expect(closed / expected).toBeLessThan(isSimple ? 1.0001 : edges.includes('free') ? 1.02 : 1.007);
    expect(flatPlateFrequency(closed, SHORT, D, 2700, 1) / f).toBeGreaterThan(0.99);
  });

  it('come nearer with a finer mesh, from below (a lumped mass)', () => {
    const off = [30, 12].map((size) =>
      Math.abs(plateFrequency(plate(1, 'clamped', size)) - flatPlateFrequency(35.9852, SHORT, D, 2700, 1)),
    );
    expect(off[1]).toBeLessThan(off[0]! / 2);
  });
});

describe('even pressure', () => {
  it.each(published('panel.pressure').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const { slender, isClamped } = item.inputs as { slender: number; isClamped: number };
    const [alpha, beta] = [expectedOf(item, 'alpha'), expectedOf(item, 'beta')];
    expect(Math.abs(deflectionNumber(slender, isClamped) - alpha)).toBeLessThan(tolerance(item, alpha));
    expect(Math.abs(momentNumber(slender, isClamped, 0.3) - beta)).toBeLessThan(tolerance(item, beta));
    const q = 1e-4;
    const pressed = pressedPlate(plate(slender, isClamped ? 'clamped' : 'simply'), q);
    expect(Math.abs((pressed.deflectionMm * D) / (q * SHORT ** 4) / alpha - 1)).toBeLessThan(0.012);
    // Stress at a clamped edge climbs steeply: nodes' averages lie 15 % under it at this size. Along a clamped edge the moment
    // beta and nu beta along it: von Mises sqrt(1 - nu + nu^2).
    if (!isClamped) return;
    const mises = 6 * beta * q * SHORT ** 2 * Math.sqrt(1 - 0.3 + 0.09);
    expect(pressed.stressMpa / mises).toBeGreaterThan(0.88);
    expect(pressed.stressMpa / mises).toBeLessThan(1.02);
  });
});

describe('buckling', () => {
  it.each(published('panel.buckling').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const { slender, isClamped, isShear } = item.inputs as { slender: number; isClamped: number; isShear: number };
    const expected = expectedNumber(item);
    const closed = isShear ? shearNumber(1 / slender, isClamped) : pressedNumber(slender, isClamped);
    // The simple shear laws are fits: within 1 %.
    expect(Math.abs(closed / expected - 1)).toBeLessThan(isShear ? 0.01 : 0.001);
    const held = plate(slender, isClamped ? 'clamped' : 'simply', 16);
    const stretched = stretchedSheet(held.mesh, sheet, { edge: isShear ? [0, 0, 1] : [-1, 0, 0] });
    if ('why' in stretched) throw new Error(stretched.why);
    const k = bucklingFactor(held, stretched.forces) / (bucklingStress(1, 70_000, 0.3, 1, SHORT) * 1);
    expect(Math.abs(k / expected - 1)).toBeLessThan(0.012);
  });
});

describe('a sheet pulled in its plane', () => {
  it.each(published('panel.kt').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const { share } = item.inputs as { share: number };
    expect(Math.abs(holeConcentration(share) - expectedNumber(item))).toBeLessThan(
      tolerance(item, expectedNumber(item)),
    );
    const d = 100 * share;
    const at = (quarter: number): number => {
      const mesh = plateMesh(rectangle(300, 100), [roundOutline([150, 50], d / 2)], { sizeMm: 20, quarter, across: 2 });
      const answer = stretchedSheet(mesh, sheet, { edge: [1, 0, 0] });
      if ('why' in answer) throw new Error(answer.why);
      return answer.stressMpa * (1 - share);
    };
    const [coarse, fine] = [at(4), at(10)];
    expect(Math.abs(fine / expectedNumber(item) - 1)).toBeLessThan(0.02);
    // What two meshes differ by is no less than what the finer one is off.
    expect(Math.abs(fine - coarse)).toBeGreaterThan(Math.abs(fine - expectedNumber(item)));
  });

  it('pulled evenly without a hole has that stress everywhere, at any turn (hand)', () => {
    const mesh = plateMesh(movedOutline(rectangle(120, 80), [5, 7], 0.4), [], { sizeMm: 20, ...plain });
    const answer = stretchedSheet(mesh, sheet, { edge: [3, 1, 0.5] });
    if ('why' in answer) throw new Error(answer.why);
    for (let i = 0; i < answer.stresses.length; i += 3) {
      expect(answer.stresses[i]).toBeCloseTo(3, 6);
      expect(answer.stresses[i + 1]).toBeCloseTo(1, 6);
      expect(answer.stresses[i + 2]).toBeCloseTo(0.5, 6);
    }
  });

  it('an arm held by one hole and pulled at another moves as the beam does (second: bending and shear)', () => {
    // Held all round a slot across its root, so the arm is free from 30 mm on.
    const arm = rectangle(200, 20);
    const root = movedOutline(rectangle(10, 19.8), [5, 0.1]);
    const mesh = plateMesh(arm, [root, roundOutline([185, 10], 4)], { sizeMm: 6, quarter: 3, across: 1 });
    const answer = stretchedSheet(mesh, sheet, { pins: [{ loop: 2, forceN: [0, 50] }], heldLoops: [1] });
    if ('why' in answer) throw new Error(answer.why);
    const beam = armDeflection(50, 170, 20, 1, 70_000, 0.3);
    expect(answer.movedMm[2]! / beam).toBeGreaterThan(0.95);
    expect(answer.movedMm[2]! / beam).toBeLessThan(1.12);
  });

  it('a window with round corners is below the ellipse of its width and corner', () => {
    const field = windowField(rectangle(500, 500), [], {
      id: 'W',
      shape: 'trapezoid',
      thicknessMm: 1,
      count: 1,
      along: { from: [0, 0], to: [500, 0] },
      sizeMm: [80, 80],
      cornerDrillMm: 20,
    });
    if (!field.ok) throw new Error(field.why);
    const mesh = plateMesh(rectangle(500, 500), [field.field.openings[0]!.outline], {
      sizeMm: 50,
      quarter: 6,
      across: 2,
    });
    const answer = stretchedSheet(mesh, sheet, { edge: [1, 0, 0] });
    if ('why' in answer) throw new Error(answer.why);
    expect(answer.stressMpa).toBeGreaterThan(3);
    expect(answer.stressMpa).toBeLessThan(windowConcentration(40, 10));
  });
});

describe('meshes of sheets with windows', () => {
  it('hold the sheet less its openings, whole triangles all to the left, the same twice', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { outline, along } = seededPanel(seed);
      const answer = windowField(outline, [], {
        id: 'W',
        shape: seed % 2 ? 'trapezoid' : 'hexagon',
        thicknessMm: 1,
        along,
        count: 4,
        webMm: 12,
        edgeMm: 20,
      });
      if (!answer.ok) continue;
      const openings = answer.field.openings.map((opening) => opening.outline);
      const fine = { sizeMm: 30, quarter: 4, across: 2 };
      const mesh = plateMesh(outline, openings, fine);
      const area = outlineArea(outline) - answer.field.openMm2;
      expect(Math.abs(mesh.areaMm2 / area - 1), `seed ${seed}`).toBeLessThan(0.004);
      for (let t = 0; t < mesh.triangles.length; t += 3) {
        const [a, b, c] = [0, 1, 2].map((k) => mesh.triangles[t + k]!) as [number, number, number];
        const twice =
          (mesh.xs[b]! - mesh.xs[a]!) * (mesh.ys[c]! - mesh.ys[a]!) -
          (mesh.ys[b]! - mesh.ys[a]!) * (mesh.xs[c]! - mesh.xs[a]!);
        expect(twice).toBeGreaterThan(0);
        const middle = [
          (mesh.xs[a]! + mesh.xs[b]! + mesh.xs[c]!) / 3,
          (mesh.ys[a]! + mesh.ys[b]! + mesh.ys[c]!) / 3,
        ] as const;
        expect(openings.some((opening) => isInOutline(opening, middle))).toBe(false);
      }
      expect(plateMesh(outline, openings, fine)).toEqual(mesh);
    }
  });

  it('a panel with windows is weaker the thinner its webs, says how sure it is, and where the model ends', () => {
    const at = (webMm: number) => {
      const field = windowField(rectangle(400, 200), [], {
        id: 'W',
        shape: 'trapezoid',
        thicknessMm: 1,
        count: 5,
        webMm,
        edgeMm: 25,
        along: { from: [0, 0], to: [400, 0] },
      });
      if (!field.ok) throw new Error(field.why);
      const answer = panelStrength(
        rectangle(400, 200),
        field.field.openings.map(({ outline }) => outline),
        sheet,
        'simply',
        { pressureKpa: 0.5, pressNPerMm: 1 },
      );
      if ('why' in answer) throw new Error(answer.why);
      return answer;
    };
    const [thin, thick] = [at(8), at(20)];
    expect(thin.bucklingFactor!.value).toBeLessThan(0.9 * thick.bucklingFactor!.value);
    expect(thin.frequencyHz.off / thin.frequencyHz.value).toBeLessThan(0.02);
    expect(thin.limits.join()).toMatch(/half the thickness.*test it/);
    expect(thin.limits.join()).toMatch(/oil-can/);
    // published: Peterson, hole in a strip, d/W 0.2: 2.5065 of the net section, so / 0.8 of 1 N/mm on 1 mm; pulled or pressed.
    const holed = panelStrength(rectangle(400, 200), [roundOutline([200, 100], 20)], sheet, 'simply', {
      pressNPerMm: 1,
    });
    if ('why' in holed) throw new Error(holed.why);
    const [least, most] = [-1, 1].map((sign) => (holed.planeMpa!.value + sign * holed.planeMpa!.off) / (2.5065 / 0.8));
    expect(holed.planeMpa!.value / (2.5065 / 0.8)).toBeCloseTo(1, 1);
    expect(least).toBeLessThan(1);
    expect(most).toBeGreaterThan(1);
    const solid = panelStrength(rectangle(400, 200), [], sheet, 'simply', {});
    if ('why' in solid) throw new Error(solid.why);
    expect(solid.frequencyHz.value / flatPlateFrequency(12.337, 200, D, 2700, 1)).toBeCloseTo(1, 2);
    expect(panelStrength(rectangle(400, 200), [], sheet, 'free', {})).toEqual({
      why: 'the plate is not held: too few of its edges are',
    });
  });
});

describe('open shares of mesh', () => {
  it.each(published('panel.mesh').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const { kind, a, b } = item.inputs as { kind: number; a: number; b: number };
    const share = kind === 0 ? openShareRound(a, b) : openShareWoven(a, b);
    expect(Math.abs(100 * share - expectedNumber(item))).toBeLessThan(tolerance(item, expectedNumber(item)));
  });

  it('are those of a counted raster (second)', () => {
    const counted = (isOpen: (x: number, y: number) => boolean, wide: number, high: number): number => {
      let open = 0;
      for (let i = 0; i < 400; i++)
        for (let j = 0; j < 400; j++) if (isOpen(((i + 0.5) / 400) * wide, ((j + 0.5) / 400) * high)) open++;
      return open / 160_000;
    };
    const square = counted((x, y) => Math.hypot(x - 2.5, y - 2.5) < 1.5, 5, 5);
    expect(openShareSquare(3, 5)).toBeCloseTo(square, 3);
    const s3 = Math.sqrt(3);
    const inHex = (x: number, y: number): boolean =>
      Math.max(Math.abs(x), Math.abs(x / 2 + (s3 / 2) * y), Math.abs(x / 2 - (s3 / 2) * y)) < 3;
    const hex = counted(
      (x, y) =>
        [
          [0, 0],
          [8, 0],
          [0, 8 * s3],
          [8, 8 * s3],
          [4, 4 * s3],
        ].some(([u, v]) => inHex(x - u!, y - v!)),
      8,
      8 * s3,
    );
    expect(openShareHexagon(6, 8)).toBeCloseTo(hex, 2);
  });
});

describe('a plate sprung into a twist', () => {
  it('the pull at its corners is what the bending triangles store, w = k x y, over half the way of the corner', () => {
    const { mesh, shapes } = plate(2, 'simply', 40);
    const [lift, k] = [30, 30 / (2 * SHORT * SHORT)];
    const own = new Float64Array(81);
    let twice = 0;
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      bendingStiffness(shapes[t / 3]!, D, 0.3, own);
      const u = [0, 1, 2].flatMap((n) => {
        const [x, y] = [mesh.xs[mesh.triangles[t + n]!]!, mesh.ys[mesh.triangles[t + n]!]!];
        return [k * x * y, k * y, k * x];
      });
      for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) twice += u[i]! * own[9 * i + j]! * u[j]!;
    }
    // Three corners stay, the fourth goes `lift` under the pull: 2 U = P lift.
    const pull = twistPull(70_000, 0.3, 1, lift, 2 * SHORT, SHORT);
    expect(pull / (twice / lift)).toBeCloseTo(1, 9);
    // Mxy = D (1 - nu) k, and its shear at the face 6 Mxy / t^2.
    expect(twistShear(pull, 1)).toBeCloseTo(6 * D * 0.7 * k, 9);
  });
});
