import { describe, expect, it } from 'vitest';
import { coldOil, hotOil, seeded, spread, water } from '../../../test/flow/fluids-for-tests.ts';
import { expectedOf, named, published, type PublishedValue, tolerance } from '../../../test/published/published.ts';
import { carriesFoam, drainDepth, drainFlow } from './drain-capacity.ts';
import { laminarFullDrain, laminarPartFullRatio } from './laminar-part-full.ts';
import { manningFlow, partFull, turbulentDrainFlow } from './part-full.ts';

const near = (item: PublishedValue, name: string, given: number) => {
  const expected = expectedOf(item, name);
  expect(Math.abs(given - expected), `${name}: ${given} for ${expected}`).toBeLessThanOrEqual(
    tolerance(item, expected),
  );
};

/** Flow and velocity over those of the full pipe at one Manning's roughness. */
function ratios(depth: number) {
  const full = partFull(1, 1);
  const part = partFull(1, depth);
  const q =
    manningFlow(part.areaM2, part.hydraulicRadiusM, 1, 1) / manningFlow(full.areaM2, full.hydraulicRadiusM, 1, 1);
  const area = part.areaM2 / full.areaM2;
  return { area, radius: part.hydraulicRadiusM / full.hydraulicRadiusM, q, v: q / area };
}

/** Where a function of the depth is greatest, by thirds. */
function greatest(f: (depth: number) => number): number {
  let [low, high] = [0.5, 1];
  for (let i = 0; i < 200; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (f(a) < f(b)) low = a;
    else high = b;
  }
  return (low + high) / 2;
}

function check(item: PublishedValue, g: Record<string, number>): void {
  const depth = g['y/D'] ?? 0;
  if (item.id === 'partfull-max') {
    const atFlow = greatest((d) => ratios(d).q);
    const atVelocity = greatest((d) => ratios(d).v);
    near(item, 'y/D_Qmax', atFlow);
    near(item, 'Qmax/Qfull', ratios(atFlow).q);
    near(item, 'y/D_Vmax', atVelocity);
    near(item, 'Vmax/Vfull', ratios(atVelocity).v);
  } else if (item.id.startsWith('partfull-')) {
    const r = ratios(depth);
    near(item, 'A/Afull', r.area);
    near(item, 'Rh/Rfull', r.radius);
    near(item, 'Q/Qfull', r.q);
    near(item, 'V/Vfull', r.v);
  } else if (item.id === 'manning-R') {
    const flow = (y: number) => {
      const p = partFull(g['D']!, y);
      return manningFlow(p.areaM2, p.hydraulicRadiusM, g['S']!, g['n']!);
    };
    let [low, high] = [0, 0.93 * g['D']!];
    for (let i = 0; i < 100; i++) {
      const middle = (low + high) / 2;
      if (flow(middle) < g['Q']!) low = middle;
      else high = middle;
    }
    const p = partFull(g['D']!, low);
    near(item, 'y', low);
    near(item, 'V', g['Q']! / p.areaM2);
    near(item, 'A', p.areaM2);
    near(item, 'P', p.wettedM);
    near(item, 'R', p.hydraulicRadiusM);
    near(item, 'Qfull', flow(g['D']!));
  } else if (item.id.startsWith('drain-laminar-oil')) {
    const slope = Math.sin((g['slope_deg']! * Math.PI) / 180);
    const flow = laminarFullDrain(g['D']!, slope, g['rho']!, g['mu']!) * laminarPartFullRatio(depth);
    const p = partFull(g['D']!, depth * g['D']!);
    near(item, 'Q_L_min', 60000 * flow);
    near(item, 'V', flow / p.areaM2);
    near(item, 'Re_hydraulic', ((flow / p.areaM2) * 4 * p.hydraulicRadiusM * g['rho']!) / g['mu']!);
    // What the tool says of it: laminar as it is, or held to the turbulent law where laminar no longer holds.
    const drain = { where: 'drain', boreM: g['D']!, fallDeg: g['slope_deg']!, roughnessM: 3e-6 };
    const told = drainFlow(drain, depth, { densityKgM3: g['rho']!, viscosityPaS: g['mu']! });
    if (expectedOf(item, 'Re_hydraulic') < 2000) {
      expect(told.regime).toBe('laminar');
      expect(told.flowM3S).toBe(flow);
    } else {
      expect(told.regime).not.toBe('laminar');
      expect(told.flowM3S).toBeLessThan(flow);
    }
  } else if (item.id.startsWith('drain-laminar-')) {
    near(item, 'Q/Q_full_laminar', laminarPartFullRatio(depth));
  } else throw new Error(`no check for the published value ${item.id}`);
}

describe('drains agree with', () => {
  it.each(published('flow.drain').map((item) => [named(item), item]))('%s', (_, item) =>
    check(item, { ...item.inputs }),
  );
});

describe('the laminar part-full ratio', () => {
  it('is a half at half full and one when full, by symmetry and by Poiseuille', () => {
    expect(laminarPartFullRatio(0.5)).toBeCloseTo(0.5, 9);
    expect(laminarPartFullRatio(1 - 1e-9)).toBeCloseTo(1, 4);
    expect(laminarPartFullRatio(0)).toBe(0);
    expect(laminarPartFullRatio(1)).toBe(1);
  });

  it('is the lubrication film when shallow: int h^3/3 across the surface', () => {
    // hand: q = int h^3/3 dx with h = x0^2/(2r) - x^2/(2r), x0^2 = 2 r y: q = (32/35) x0 y^3/3 for y << r.
    const y = 2e-4;
    const film = (Math.sqrt(2 * y) * y ** 3 * 32) / 35 / 3;
    expect((laminarPartFullRatio(y / 2) * Math.PI) / 8 / film).toBeCloseTo(1, 2);
  });

  it.each([0.15, 0.35, 0.7, 0.9])('is that of finite differences on a fine grid at %d', (depth) => {
    expect(Math.abs(byFiniteDifferences(depth) / laminarPartFullRatio(depth) - 1)).toBeLessThan(0.01);
  });
});

/** Poisson's equation on a square grid with short arms at the wall (Shortley and Weller), over-relaxed; radius 1. */
function byFiniteDifferences(depthOverBore: number): number {
  const h = 1 / 40;
  const surface = 1 - 2 * depthOverBore;
  // y counts down from the surface, row 0 on it; the wall is the circle about (0, -surface).
  const inside = (x: number, y: number) => x * x + (y + surface) ** 2 < 1 - 1e-12;
  const half = Math.ceil(1 / h);
  const rows = Math.ceil((2 * depthOverBore) / h) + 1;
  const width = 2 * half + 1;
  const w = new Float64Array(width * rows);
  const arm = (x: number, y: number, dx: number, dy: number): number => {
    if (inside(x + dx * h, y + dy * h)) return 1;
    const reach =
      dx !== 0
        ? Math.sqrt(1 - (y + surface) ** 2) - Math.abs(x) * Math.sign(x * dx || 1)
        : Math.sqrt(1 - x * x) - dy * (y + surface);
    return Math.max(1e-3, Math.min(1, reach / h));
  };
  const at = (i: number, j: number) => j * width + i;
  const cells: { k: number; e: number; wst: number; s: number; n: number; i: number; j: number }[] = [];
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < width; i++) {
      const [x, y] = [(i - half) * h, j * h];
      if (!inside(x, y)) continue;
      cells.push({
        k: at(i, j),
        i,
        j,
        e: arm(x, y, 1, 0),
        wst: arm(x, y, -1, 0),
        s: arm(x, y, 0, 1),
        n: j === 0 ? 1 : arm(x, y, 0, -1),
      });
    }
  for (let sweep = 0; sweep < 900; sweep++)
    for (const { k, e, wst, s, n, i, j } of cells) {
      const east = e === 1 ? w[at(i + 1, j)]! : 0;
      const west = wst === 1 ? w[at(i - 1, j)]! : 0;
      const south = s === 1 ? (w[at(i, j + 1)] ?? 0) : 0;
      const north = j === 0 ? south : n === 1 ? w[at(i, j - 1)]! : 0;
      const up = j === 0 ? s : n;
      const own = 2 / (e * wst) + 2 / (s * up);
      const sum = (2 / (e + wst)) * (east / e + west / wst) + (2 / (s + up)) * (south / s + north / up) + h * h;
      w[k]! += 1.85 * (sum / own - w[k]!);
    }
  let flow = 0;
  for (const { k, j } of cells) flow += w[k]! * h * h * (j === 0 ? 0.5 : 1);
  return flow / (Math.PI / 8);
}

describe('a drain', () => {
  it('runs laminar and turbulent as each law has it', () => {
    const drain = { where: 'drain', boreM: 0.0127, fallDeg: 20, roughnessM: 1e-5 };
    const slope = Math.sin((20 * Math.PI) / 180);
    const half = partFull(0.0127, 0.00635);
    const cold = drainFlow(drain, 0.5, coldOil);
    expect(cold.regime).toBe('laminar');
    expect(cold.flowM3S).toBeCloseTo(laminarFullDrain(0.0127, slope, 885, 0.6) / 2, 12);
    const wet = drainFlow(drain, 0.5, water);
    expect(wet.regime).toBe('turbulent');
    expect(wet.flowM3S).toBe(turbulentDrainFlow(half.areaM2, half.hydraulicRadiusM, slope, 1e-5, 0.001002 / 998.2));
    // By Darcy's equation, the other way round: f rho V^2/2/(4R) = rho g S.
    const f = (8 * 9.80665 * half.hydraulicRadiusM * slope) / wet.velocityMS ** 2;
    const inside = 1e-5 / 3.7 / (4 * half.hydraulicRadiusM) + 2.51 / wet.reynolds / Math.sqrt(f);
    expect(1 / Math.sqrt(f)).toBeCloseTo(-2 * Math.log10(inside), 9);
  });

  it('carries more, the steeper, wider or thinner it is, and deeper up to 0.86 (seed 81)', () => {
    const draw = seeded(81);
    for (let i = 0; i < 100; i++) {
      const drain = { where: 'drain', boreM: spread(draw, 0.006, 0.04), fallDeg: draw(2, 80), roughnessM: 3e-6 };
      const fluid = { densityKgM3: 850, viscosityPaS: spread(draw, 2e-3, 1) };
      const depth = draw(0.1, 0.8);
      const flow = (change: object, d = depth, f = fluid) => drainFlow({ ...drain, ...change }, d, f).flowM3S;
      const own = flow({});
      expect(flow({ fallDeg: drain.fallDeg + 5 })).toBeGreaterThanOrEqual(own);
      expect(flow({ boreM: drain.boreM * 1.1 })).toBeGreaterThan(own);
      expect(flow({}, depth + 0.05)).toBeGreaterThan(own);
      // Held at Reynolds 2000 a thicker oil runs as much faster as that takes; laminar and turbulent it runs slower.
      const thicker = drainFlow(drain, depth, { ...fluid, viscosityPaS: fluid.viscosityPaS * 1.2 });
      if (thicker.regime !== 'between' && drainFlow(drain, depth, fluid).regime === thicker.regime)
        expect(thicker.flowM3S).toBeLessThan(own);
    }
  });

  it('finds the depth for a flow, and says when there is none', () => {
    const drain = { where: 'drain', boreM: 0.0159, fallDeg: 30, roughnessM: 3e-6 };
    for (const depth of [0.1, 0.4, 0.8]) {
      const { flowM3S } = drainFlow(drain, depth, hotOil);
      expect(drainDepth(drain, flowM3S, hotOil)!.depthOverBore).toBeCloseTo(depth, 5);
    }
    expect(drainDepth(drain, 1, hotOil)).toBeUndefined();
    expect(drainDepth({ ...drain, fallDeg: 0 }, 1e-6, hotOil)).toBeUndefined();
  });

  it('of a turbo: carries the foam or not', () => {
    const drain = { where: 'turbo drain', boreM: 0.0159, fallDeg: 60, roughnessM: 3e-6 };
    const oil = { densityKgM3: 830, viscosityPaS: 0.008 };
    const answer = carriesFoam(drain, 2 / 60000, { factor: 3 }, oil);
    expect(answer.carries).toBe(true);
    expect(answer.runsAt!.flowM3S).toBeCloseTo(6 / 60000, 8);
    // hand: thick oil at half full is laminar, half of the full pipe's pi (rho/3) g D^4 sin 60/(128 mu), a third of it oil.
    const thick = carriesFoam(drain, 1e-6, { factor: 3 }, { densityKgM3: 830, viscosityPaS: 0.1 });
    const full = (Math.PI * (830 / 3) * 9.80665 * 0.0159 ** 4 * Math.sin(Math.PI / 3)) / (128 * 0.1);
    expect(thick.mostOilM3S / (full / 2 / 3)).toBeCloseTo(1, 9);
    const level = carriesFoam({ ...drain, fallDeg: 1 }, 2 / 60000, { factor: 3 }, oil);
    expect(level.carries).toBe(false);
    expect(level.runsAt).toBeUndefined();
  });

  const good = { where: 'turbo drain', boreM: 0.0159, fallDeg: 60, roughnessM: 3e-6 };
  it.each([
    [{ boreM: 0 }, 'flow: turbo drain, bore: 0; allowed: a number above 0 m'],
    [{ fallDeg: -5 }, 'flow: turbo drain, fall: -5; allowed: 0 to 90 deg; a drain that rises does not run by gravity'],
    [{ fallDeg: Number.NaN }, 'flow: turbo drain, fall: NaN; allowed: 0 to 90 deg'],
    [{ roughnessM: -1 }, 'flow: turbo drain, roughness: -1; allowed: 0 or a number above 0 m'],
  ])('%j is refused with one line', (change, message) => {
    expect(() => drainFlow({ ...good, ...change }, 0.5, hotOil)).toThrow(message);
    expect(() => drainDepth({ ...good, ...change }, 1e-5, hotOil)).toThrow(message);
  });

  it('refuses a foam that cannot be', () => {
    expect(() => carriesFoam(good, 1e-5, { factor: 0.5 }, hotOil)).toThrow(
      'flow: turbo drain, foam factor: 0.5; allowed: 1 to 20',
    );
    expect(() => drainFlow(good, 1.1, hotOil)).toThrow('flow: turbo drain, depth over bore: 1.1; allowed: 0 to 1');
  });
});
