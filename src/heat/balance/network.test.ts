import { describe, expect, it } from 'vitest';
import { expectedOf, named, published } from '../../../test/published/published.ts';
import { boilingTable } from '../laws/boiling-film.ts';
import { lumpedTemperature } from '../laws/conduction.ts';
import { stefanBoltzmann } from '../laws/radiation.ts';
import { inTime } from './in-time.ts';
import { filmHeat } from './net-state.kernel.ts';
import { settled } from './settled.ts';
import type { FilmTable, RadiantPair, ThermalNet } from './thermal-net.ts';

const ICE_K = 273.15;

/** A film with the same h at every temperature [W/(m2 K)]. */
const film = (airC: number, h: number): FilmTable => ({
  airC,
  stepK: 100,
  below: 10,
  heat: Float64Array.from({ length: 60 }, (_, i) => (i - 10) * 100 * h),
});

const pair = (k: number, a: number, b: number): RadiantPair => ({
  k,
  nodesA: Int32Array.of(a),
  weightsA: Float64Array.of(1),
  nodesB: Int32Array.of(b),
  weightsB: Float64Array.of(1),
});

interface Drawn {
  readonly fixed?: readonly number[];
  readonly capacity?: readonly number[];
  readonly films?: readonly FilmTable[];
  readonly film?: readonly number[];
  readonly area?: readonly number[];
  readonly pairs?: readonly RadiantPair[];
  readonly links?: readonly (readonly [number, number, number])[];
  readonly flows?: readonly (readonly [number, number, number])[];
  readonly source?: readonly number[];
  readonly blocks?: ThermalNet['blocks'];
}

const net = (nodes: number, drawn: Drawn): ThermalNet => ({
  nodes,
  blocks: drawn.blocks ?? [{ from: 0, to: nodes, half: nodes - 1 }],
  fixed: Uint8Array.from({ length: nodes }, (_, i) => (drawn.fixed?.includes(i) === true ? 1 : 0)),
  capacity: Float64Array.from({ length: nodes }, (_, i) => drawn.capacity?.[i] ?? 0),
  source: Float64Array.from({ length: nodes }, (_, i) => drawn.source?.[i] ?? 0),
  filmNode: Int32Array.from(drawn.film ?? [], (_, i) => i),
  filmArea: Float64Array.from(drawn.area ?? []),
  film: Int32Array.from(drawn.film ?? []),
  films: drawn.films ?? [],
  outsideK: new Float64Array(nodes),
  outsideC: 20,
  pairs: drawn.pairs ?? [],
  linkA: Int32Array.from(drawn.links ?? [], ([a]) => a),
  linkB: Int32Array.from(drawn.links ?? [], ([, b]) => b),
  linkG: Float64Array.from(drawn.links ?? [], ([, , g]) => g),
  flowFrom: Int32Array.from(drawn.flows ?? [], ([a]) => a),
  flowTo: Int32Array.from(drawn.flows ?? [], ([, b]) => b),
  flowWPerK: Float64Array.from(drawn.flows ?? [], ([, , g]) => g),
});

const rows = published('heat.radiation');
const row = (id: string) => rows.find((item) => item.id === id)!;

describe('a steady network', () => {
  it(named(row('rad-reradiating-3-10')), () => {
    const item = row('rad-reradiating-3-10');
    const { A, T1, T2 } = item.inputs as Readonly<Record<string, number>>;
    const f = expectedOf(item, 'F12');
    const answer = settled(
      net(3, { fixed: [0, 1], pairs: [pair(A! * f, 0, 1), pair(A! * (1 - f), 0, 2), pair(A! * (1 - f), 1, 2)] }),
      Float64Array.of(T1! - ICE_K, T2! - ICE_K, 20),
    );
    expect(answer.settled).toBe(true);
    expect(answer.unbalanced).toBeLessThan(1e-6);
    // The row's sigma is 5.67e-8.
    expect((answer.heat.inW * 5.67e-8) / stefanBoltzmann / expectedOf(item, 'q_W')).toBeCloseTo(1, 3);
  });

  it(named(row('rad-triangle-11-10')), () => {
    const item = row('rad-triangle-11-10');
    const { T1, T2, e1, e2 } = item.inputs as Readonly<Record<string, number>>;
    // Surfaces 0 and 1 given, their radiosities 2 and 3 behind their own resistances, the third wall 4 re-radiating; F = 1/2 each.
    const answer = settled(
      net(5, {
        fixed: [0, 1],
        pairs: [
          pair(e1! / (1 - e1!), 0, 2),
          pair(e2! / (1 - e2!), 1, 3),
          pair(0.5, 2, 3),
          pair(0.5, 2, 4),
          pair(0.5, 3, 4),
        ],
      }),
      Float64Array.of(T1! - ICE_K, T2! - ICE_K, 300, 200, 250),
    );
    expect((answer.heat.inW * 5.67e-8) / stefanBoltzmann / expectedOf(item, 'q')).toBeCloseTo(1, 3);
  });

  it('gives a shield between plates the heat and temperature of the series (rad-shield-0)', () => {
    const item = row('rad-shield-0');
    const k = 1 / (1 / 0.8 + 1 / 0.1 - 1);
    const other = 1 / (1 / 0.1 + 1 / 0.9 - 1);
    const answer = settled(
      net(3, { fixed: [0, 2], pairs: [pair(k, 0, 1), pair(other, 1, 2)] }),
      Float64Array.of(900 - ICE_K, 20, 400 - ICE_K),
    );
    expect(answer.c[1]! + ICE_K).toBeCloseTo(expectedOf(item, 'T_shield'), 3);
    expect(answer.heat.inW).toBeCloseTo(expectedOf(item, 'q_shield'), 2);
  });

  it('settles across blocks as it does within one, to the same temperatures', () => {
    const drawn: Drawn = {
      fixed: [0],
      pairs: [pair(0.01, 0, 1), pair(0.02, 1, 2), pair(0.03, 2, 3), pair(0.01, 3, 0)],
      links: [
        [1, 2, 0.5],
        [2, 3, 0.2],
      ],
      films: [film(40, 8)],
      film: [0, 0, 0, 0],
      area: [0.02, 0.03, 0.01, 0.04],
    };
    const start = Float64Array.of(700, 20, 20, 20);
    const whole = settled(net(4, drawn), start);
    const split = settled(
      net(4, {
        ...drawn,
        blocks: [
          { from: 0, to: 2, half: 1 },
          { from: 2, to: 4, half: 1 },
        ],
      }),
      start,
    );
    for (let i = 0; i < 4; i++) expect(split.c[i]).toBeCloseTo(whole.c[i]!, 3);
    expect(split.unbalanced).toBeLessThan(1e-6);
  });

  it('carries heat along with a flow: a pipe in a bath nears it as 1 - exp(-NTU) (closed form; 400 steps)', () => {
    const steps = 400;
    const [w, ua] = [50, 80];
    const answer = settled(
      net(steps + 2, {
        fixed: [0, steps + 1],
        flows: Array.from({ length: steps }, (_, i) => [i, i + 1, w] as const),
        links: Array.from({ length: steps }, (_, i) => [i + 1, steps + 1, ua / steps] as const),
      }),
      new Float64Array(steps + 2).fill(20).fill(120, 0, 1),
    );
    expect(answer.c[steps]).toBeCloseTo(20 + 100 * Math.exp(-ua / w), 0);
    expect(answer.unbalanced).toBeLessThan(1e-6);
  });
});

describe('a network in time', () => {
  const cooling = (drawn: Drawn, start: readonly number[], seconds: number) =>
    inTime(net(start.length, drawn), Float64Array.from(start), { seconds, withinK: 0.02, mostStepS: 60 });

  it(named(published('heat.transient').find(({ id }) => id === 'lumped-plate')!), () => {
    const { moments, unbalanced } = cooling(
      { films: [film(800, 200)], film: [0], area: [2], capacity: [2800 * 880 * 0.01] },
      [20],
      120,
    );
    expect(moments.at(-1)!.c[0]).toBeCloseTo(688.81, 0);
    expect(unbalanced).toBeLessThan(1e-6);
  });

  it('cools a lump as its closed form says, at every moment (within 0.1 K of 500)', () => {
    const { moments } = cooling({ films: [film(25, 20)], film: [0], area: [0.1], capacity: [1500] }, [525], 1800);
    for (const { seconds, c } of moments)
      expect(Math.abs(c[0]! - lumpedTemperature(525, 25, seconds, 750))).toBeLessThan(0.35);
  });

  it('cools by radiation alone as 1/T^3 grows (closed form: T = (T0^-3 + 3 sigma K t/C)^(-1/3) to empty space)', () => {
    const drawn: Drawn = { capacity: [1000, 0], fixed: [1], pairs: [pair(0.05, 0, 1)] };
    const { moments, unbalanced } = cooling(drawn, [800, -273.15], 900);
    const kelvin = ((800 + ICE_K) ** -3 + (3 * stefanBoltzmann * 0.05 * 900) / 1000) ** (-1 / 3);
    expect(moments.at(-1)!.c[0]! + ICE_K).toBeCloseTo(kelvin, 0);
    expect(unbalanced).toBeLessThan(1e-6);
  });

  it('lets water boil at its point and no hotter, and puts what comes in beyond that into steam (closed form: t = C (Tb - T0)/P)', () => {
    // 1 kg of water and 1 kW: from 20 to 120 degC in 418.6 s, from there all of it goes into steam.
    const [watts, capacity, boilsAtC, area] = [1000, 4186, 120, 0.05];
    const boiling: Drawn = {
      films: [boilingTable(boilsAtC)],
      film: [0],
      area: [area],
      capacity: [capacity],
      source: [watts],
    };
    const { moments, unbalanced } = cooling(boiling, [20], 900);
    const fromS = (capacity * (boilsAtC - 20)) / watts;
    let steamJ = 0;
    moments.forEach(({ seconds, c }, m) => {
      if (seconds < fromS) expect(c[0]).toBeCloseTo(20 + (watts * seconds) / capacity, 1);
      else expect(c[0]! - boilsAtC).toBeLessThan(watts / (20_000 * area) + 0.05);
      const before = moments[m - 1];
      if (before !== undefined) {
        const over = (at: typeof before): number => area * filmHeat(boilingTable(boilsAtC), at.c[0]!);
        steamJ += ((over(before) + over({ seconds, c })) / 2) * (seconds - before.seconds);
      }
    });
    expect(steamJ / (watts * (900 - fromS))).toBeCloseTo(1, 1);
    expect(unbalanced).toBeLessThan(1e-6);
    // Below its point nothing is given off.
    expect(filmHeat(boilingTable(boilsAtC), boilsAtC - 60)).toBe(0);
  });
});
