import { describe, expect, it } from 'vitest';
import { chance } from '../../../test/geometry/seeded-meshes.ts';
import { firstWave } from './first-wave.ts';
import {
  boxTankDamping,
  boxTankFrequency,
  measuredRoundTankDamping,
  roundTankDamping,
  roundTankFrequency,
  roundTankPendulum,
  roundTankSwingingShare,
  stepOvershoot,
} from './slosh-formulas.ts';
import { movingSurface, stepOf, stepTilt } from './surface-motion.ts';

const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };

/** Classical fourth-order steps through x'' + 2 z w x' + w^2 (x - T) = 0 with T along a straight line. */
function rungeKutta(
  w: number,
  z: number,
  span: number,
  from: readonly [number, number],
  aim: readonly [number, number],
  n: number,
) {
  const h = span / n;
  const f = (t: number, [x, v]: readonly [number, number]) =>
    [v, -2 * z * w * v - w * w * (x - aim[0] - ((aim[1] - aim[0]) * t) / span)] as const;
  let at: readonly [number, number] = from;
  for (let i = 0; i < n; i++) {
    const t = i * h;
    const k1 = f(t, at);
    const k2 = f(t + h / 2, [at[0] + (h / 2) * k1[0], at[1] + (h / 2) * k1[1]]);
    const k3 = f(t + h / 2, [at[0] + (h / 2) * k2[0], at[1] + (h / 2) * k2[1]]);
    const k4 = f(t + h, [at[0] + h * k3[0], at[1] + h * k3[1]]);
    at = [
      at[0] + (h / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]),
      at[1] + (h / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]),
    ];
  }
  return at;
}

describe('one step of the oscillator', () => {
  it.each([0, 0.01, 0.3, 0.999, 1, 1.0001, 2.5])(
    'is what small Runge-Kutta steps give (second), damping %s (seed 3)',
    (damping) => {
      const draw = chance(3);
      for (let k = 0; k < 10; k++) {
        const [w, span] = [draw(2, 20), draw(0.01, 0.5)];
        const from = [draw(-1, 1), draw(-5, 5)] as const;
        const aim = [draw(-1, 1), draw(-1, 1)] as const;
        const exact = stepOf(w, damping, span, from, aim);
        const small = rungeKutta(w, damping, span, from, aim, 4000);
        expect(exact[0]).toBeCloseTo(small[0], 8);
        expect(exact[1]).toBeCloseTo(small[1], 7);
      }
    },
  );
  it('without pull runs on', () => {
    expect(stepOf(0, 0.1, 2, [1, 3], [5, 5])).toEqual([7, 3]);
  });
});

describe('the surface through a drive', () => {
  const wave = { frequencyHz: 2.25, damping: 0.01 };
  it('stands still at rest and on a held g that it began with', () => {
    for (const g of [rest, { ...rest, lateralG: 0.9 }]) {
      const moved = movingSurface(
        wave,
        [0, 0.1, 0.3].map((timeS) => ({ timeS, ...g })),
      );
      for (const at of moved) {
        expect(at.g.lateralG).toBeCloseTo(g.lateralG, 12);
        expect(at.g.verticalG).toBeCloseTo(1, 12);
        expect(at.isHeld).toBe(false);
      }
    }
  });

  it('does not depend on how finely a straight run is sampled', () => {
    const run = (n: number) =>
      movingSurface({ frequencyHz: 2, damping: 0.05 }, [
        { timeS: 0, ...rest },
        ...Array.from({ length: n }, (_, i) => ({ timeS: (i + 1) / n, ...rest, lateralG: 1e-4 * ((i + 1) / n) })),
      ]).at(-1)!;
    expect(run(1).g.lateralG).toBeCloseTo(run(500).g.lateralG, 10);
  });

  it('swings faster under more pull, by the root of the mean of a sample (hand)', () => {
    const [, at] = movingSurface(wave, [
      { timeS: 0, ...rest },
      { timeS: 0.1, longitudinalG: 0, lateralG: 0.03, verticalG: 3 },
    ]);
    const omega = 2 * Math.PI * wave.frequencyHz * Math.sqrt((1 + Math.hypot(0.03, 3)) / 2);
    const [angle] = stepOf(omega, wave.damping, 0.1, [0, 0], [0, Math.atan2(0.03, 3)]);
    expect(at!.tiltDeg).toBeCloseTo((angle * 180) / Math.PI, 9);
  });

  it('runs past its rest by the overshoot of the closed form after a step (hand), and settles', () => {
    const damping = 0.05;
    const steep = { ...rest, lateralG: 0.2 };
    const samples = [
      { timeS: 0, ...rest },
      { timeS: 1e-6, ...steep },
      ...Array.from({ length: 3000 }, (_, i) => ({ timeS: 0.005 * (i + 1), ...steep })),
    ];
    const moved = movingSurface({ frequencyHz: 2, damping }, samples);
    const restDeg = (Math.atan(0.2) * 180) / Math.PI;
    const most = Math.max(...moved.map((m) => m.tiltDeg));
    expect(most / restDeg).toBeCloseTo(1 + stepOvershoot(damping), 3);
    expect(moved.at(-1)!.tiltDeg).toBeCloseTo(restDeg, 2);
    const step = stepTilt({ frequencyHz: 2, damping }, steep);
    expect(step.mostDeg).toBeCloseTo(most, 2);
    expect(moved.find((m) => m.tiltDeg === most)!.timeS).toBeCloseTo(step.afterS, 1);
  });

  it('is held at 90 degrees and says so; with more damping than critical there is no overshoot', () => {
    const hard = { ...rest, lateralG: 1.5 };
    expect(stepTilt(wave, hard)).toMatchObject({ restDeg: expect.closeTo(56.31, 2), mostDeg: 90, isHeld: true });
    const moved = movingSurface(wave, [
      { timeS: 0, ...rest },
      ...Array.from({ length: 200 }, (_, i) => ({ timeS: 0.01 * (i + 1), ...hard })),
    ]);
    expect(Math.max(...moved.map((m) => m.tiltDeg))).toBeCloseTo(90, 9);
    // Held once, and then back at once: the roof has stopped it.
    const first = moved.findIndex((m) => m.isHeld);
    expect([first > 0, moved[first + 1]!.isHeld, moved[first + 1]!.tiltDeg < 90]).toEqual([true, false, true]);
    expect(stepTilt({ frequencyHz: 2, damping: 1.2 }, hard)).toMatchObject({
      mostDeg: expect.closeTo(56.31, 2),
      isHeld: false,
    });
  });

  it('refuses times that stand still and a wave without frequency', () => {
    expect(() =>
      movingSurface(wave, [
        { timeS: 1, ...rest },
        { timeS: 1, ...rest },
      ]),
    ).toThrow(/sample 1 timeS less the one before: 0; allowed/);
    expect(() => movingSurface({ ...wave, frequencyHz: 0 }, [])).toThrow(/frequencyHz: 0/);
    expect(() => stepTilt({ ...wave, damping: -1 }, rest)).toThrow(/damping: -1; allowed: 0 or more/);
    expect(movingSurface(wave, [])).toEqual([]);
  });
});

describe('the first wave', () => {
  const g = 9.80665;
  it('swings as its pendulum does, and as the spring and mass of the handbook (second: its printed table, rounded there)', () => {
    for (const [r, h] of [
      [0.09, 0.05],
      [0.09, 0.3],
      [0.5, 0.2],
    ] as const) {
      const f = roundTankFrequency(r, h, g);
      expect(f).toBeCloseTo(Math.sqrt(g / roundTankPendulum(r, h)) / (2 * Math.PI), 12);
      // Table 6.1: m1 = m d / (4.4 h) tanh(3.68 h/d); K = m g / (1.19 h) tanh^2(3.68 h/d).
      const t = Math.tanh((3.68 * h) / (2 * r));
      expect(roundTankSwingingShare(r, h) / ((2 * r * t) / (4.4 * h))).toBeCloseTo(1, 2);
      const k = (g / (1.19 * h)) * t * t;
      expect(f / (Math.sqrt(k / ((2 * r * t) / (4.4 * h))) / (2 * Math.PI))).toBeCloseTo(1, 2);
    }
  });

  it('in a shallow box runs as a long wave does, sqrt(g h) over twice the length (hand)', () => {
    expect(boxTankFrequency(1, 0.01, g) / (Math.sqrt(g * 0.01) / 2)).toBeCloseTo(1, 3);
  });

  it('is damped as the loss summed over walls and floor says (second: own quadrature), round and box', () => {
    const nu = 1.2e-5;
    for (const [r, h] of [
      [0.09, 0.04],
      [0.09, 0.3],
    ] as const)
      expect(roundTankDamping(r, h, g, nu) / summedRound(r, h, g, nu)).toBeCloseTo(1, 4);
    for (const [l, b, h] of [
      [0.4, 0.25, 0.08],
      [0.2, 0.3, 0.3],
    ] as const)
      expect(boxTankDamping(l, b, h, g, nu) / summedBox(l, b, h, g, nu)).toBeCloseTo(1, 4);
  });

  it('is damped more where it is measured than the laminar layers alone say, in deep oil 1.42 times', () => {
    expect(measuredRoundTankDamping(0.09, 0.4, g, 1e-5) / roundTankDamping(0.09, 0.4, g, 1e-5)).toBeCloseTo(1.42, 2);
  });

  it('of a tank says its limits in words', () => {
    const round = firstWave({ kind: 'round', radiusMm: 90 }, 300, 1.2e-5);
    expect(round.frequencyHz).toBeCloseTo(2.254, 3);
    expect([round.damping, round.measuredDamping]).toEqual([expect.closeTo(0.00664, 5), expect.closeTo(0.00942, 5)]);
    expect(round.limits).toEqual([]);
    const cold = firstWave({ kind: 'box', alongMm: 400, acrossMm: 250 }, 20, 2e-3);
    expect(cold.limits).toEqual([expect.stringMatching(/^shallow/), expect.stringMatching(/^thick oil/)]);
    expect(() => firstWave({ kind: 'round', radiusMm: 0 }, 300, 1e-5)).toThrow(/radiusMm: 0/);
    expect(() => firstWave({ kind: 'round', radiusMm: 90 }, 0, 1e-5)).toThrow(/depthMm: 0/);
  });
});

/** Bessel J1 and its slope by the integral that defines it, so that nothing of ours is in it. */
const j1 = (x: number): number => {
  let sum = 0;
  for (let i = 0; i < 400; i++) {
    const t = ((i + 0.5) * Math.PI) / 400;
    sum += Math.cos(t - x * Math.sin(t));
  }
  return sum / 400;
};

/** Damping = loss / (2 w energy), the loss being 1/2 rho sqrt(nu w/2) U^2 over each wetted piece; potential J1(kr) cos a cosh k(z+h). */
function summedRound(r: number, h: number, g: number, nu: number): number {
  const k = 1.8411837813406593 / r;
  const w = Math.sqrt(g * k * Math.tanh(k * h));
  const n = 600;
  let [wall, floor, energy] = [0, 0, 0];
  const top = j1(k * r);
  for (let i = 0; i < n; i++) {
    const z = ((i + 0.5) / n) * h;
    wall +=
      ((top ** 2 * Math.cosh(k * z) ** 2) / r ** 2 + top ** 2 * (k * Math.sinh(k * z)) ** 2) * Math.PI * r * (h / n);
    const q = ((i + 0.5) / n) * r;
    const slope = (j1(k * (q + 1e-5)) - j1(k * (q - 1e-5))) / 2e-5;
    floor += (slope ** 2 + (j1(k * q) / q) ** 2) * Math.PI * q * (r / n);
    energy += 0.5 * j1(k * q) ** 2 * Math.PI * q * (r / n) * Math.cosh(k * h) * k * Math.sinh(k * h);
  }
  return (0.5 * Math.sqrt((nu * w) / 2) * (wall + floor)) / (2 * w * energy);
}

function summedBox(l: number, b: number, h: number, g: number, nu: number): number {
  const k = Math.PI / l;
  const w = Math.sqrt(g * k * Math.tanh(k * h));
  const n = 400;
  let [loss, energy] = [0, 0];
  for (let i = 0; i < n; i++) {
    const z = ((i + 0.5) / n) * h;
    loss += 2 * b * (k * Math.sinh(k * z)) ** 2 * (h / n);
    const x = ((i + 0.5) / n) * l;
    loss += b * (k * Math.sin(k * x)) ** 2 * (l / n);
    energy += 0.5 * b * Math.cos(k * x) ** 2 * Math.cosh(k * h) * k * Math.sinh(k * h) * (l / n);
    for (let j = 0; j < n; j++) {
      const y = ((j + 0.5) / n) * h;
      loss +=
        2 *
        ((k * Math.sin(k * x) * Math.cosh(k * y)) ** 2 + (k * Math.cos(k * x) * Math.sinh(k * y)) ** 2) *
        (l / n) *
        (h / n);
    }
  }
  return (0.5 * Math.sqrt((nu * w) / 2) * loss) / (2 * w * energy);
}
