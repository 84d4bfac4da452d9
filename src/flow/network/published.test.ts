import { describe, expect, it } from 'vitest';
import { expectedOf, named, published, type PublishedValue, tolerance } from '../../../test/published/published.ts';
import type { LossLaw } from './loss-law.ts';
import type { Network, NetworkBranch } from './network.ts';
import { quadratic } from './planted/plain-laws.ts';
import { solveNetwork } from './solve-network.ts';

const LAMINAR_BELOW = 2300;

/** A round pipe's loss with the friction factor of one printed formula; its slope by differences. */
function roundPipe(
  pipe: { lengthM: number; boreM: number; roughness: number; density: number; viscosity: number },
  friction: (reynolds: number, relative: number) => number,
): LossLaw {
  const { lengthM, boreM, roughness, density, viscosity } = pipe;
  const drop = (q: number): number => {
    const v = Math.abs(q) / ((Math.PI / 4) * boreM ** 2);
    const re = (density * v * boreM) / viscosity;
    if (re < LAMINAR_BELOW) return (128 * viscosity * lengthM * q) / (Math.PI * boreM ** 4);
    return (Math.sign(q) * friction(re, roughness / boreM) * (lengthM / boreM) * density * v ** 2) / 2;
  };
  return (q) => {
    const h = 1e-5 * Math.max(Math.abs(q), 1e-9);
    return { dropPa: drop(q), slope: (drop(q + h) - drop(q - h)) / (2 * h) };
  };
}

const haaland = (re: number, relative: number): number =>
  (-1.8 * Math.log10(6.9 / re + (relative / 3.7) ** 1.11)) ** -2;

function colebrook(re: number, relative: number): number {
  let x = 7;
  for (let n = 0; n < 60; n++) x = -2 * Math.log10(relative / 3.7 + (2.51 * x) / re);
  return x ** -2;
}

const ends = (text: string): readonly [string, string] => {
  const [from, to] = text.split('-');
  return [from!, to!];
};

/** Flows by branch id. */
function flowsOf(network: Network): ReadonlyMap<string, number> {
  const answer = solveNetwork(network);
  if (!answer.ok) throw new Error(answer.why);
  const most = Math.max(...answer.flowM3S.map(Math.abs));
  expect(answer.imbalanceM3S).toBeLessThanOrEqual(1e-9 * most);
  return new Map(network.branches.map((branch, b) => [branch.id, answer.flowM3S[b]!]));
}

function holds(item: PublishedValue, found: (name: string) => number): void {
  for (const name of Object.keys(item.expected)) {
    const expected = expectedOf(item, name);
    expect(Math.abs(found(name) - expected), name).toBeLessThanOrEqual(tolerance(item, expected));
  }
}

type Inputs = Readonly<Record<string, unknown>>;

const checks: Readonly<Record<string, (item: PublishedValue, inputs: Inputs) => void>> = {
  // In feet, slugs and pounds as printed: the solver takes any consistent set.
  'network-7pipe'(item, inputs) {
    const fluid = {
      density: inputs['rho_slug_ft3'] as number,
      viscosity: inputs['mu_lbf_s_ft2'] as number,
      roughness: inputs['roughness_ft'] as number,
    };
    const branches = Object.entries(inputs['pipes'] as Record<string, string>).map(([n, text]): NetworkBranch => {
      const [, from, to, length, bore] = /^(\w)-(\w) (?:L=)?(\d+) (?:ft )?(?:D=)?(\d+)/.exec(text)!;
      const law = roundPipe({ ...fluid, lengthM: Number(length), boreM: Number(bore) / 12 }, haaland);
      return { id: `Q${n}`, from: from!, to: to!, law };
    });
    const inflow = new Map([
      ['A', 3],
      ['C', -1],
      ['E', -2],
    ]);
    const nodes = [...'ABCDEF'].map((id) => ({ id, inflowM3S: inflow.get(id) ?? 0 }));
    const flows = flowsOf({ nodes, branches });
    holds(item, (name) => flows.get(name)!);
  },
  'network-10pipe'(item, inputs) {
    const rows = inputs['pipes (D m, L m, f)'] as Record<string, readonly [number, number, number]>;
    const between = inputs['connectivity'] as Record<string, string>;
    const branches = Object.entries(rows).map(([n, [d, l, f]]): NetworkBranch => {
      const [from, to] = ends(between[n]!);
      return {
        id: `Q${n}`,
        from,
        to,
        law: quadratic(0, (8 * f * l) / (Math.PI ** 2 * (inputs['g'] as number) * d ** 5)),
      };
    });
    const inflow = new Map([
      ['N1', 0.08],
      ['N4', -0.04],
      ['N6', -0.02],
      ['N8', -0.02],
    ]);
    const nodes = [1, 2, 3, 4, 5, 6, 7, 8].map((n) => ({ id: `N${n}`, inflowM3S: inflow.get(`N${n}`) ?? 0 }));
    const flows = flowsOf({ nodes, branches });
    holds(item, (name) => flows.get(name)!);
  },
  'network-parallel-8-7'(item, inputs) {
    const at = (name: string): number => inputs[name] as number;
    const weight = at('rho') * at('g');
    const fluid = { density: at('rho'), viscosity: at('mu'), roughness: at('roughness'), lengthM: at('L') };
    const power = at('W_elect') * at('eta');
    // Power over flow; below a tenth of a litre a second its tangent, since a pump of given power has no shut-off pressure.
    const least = 1e-4;
    const pump: LossLaw = (q) =>
      q >= least
        ? { dropPa: -power / q, slope: power / q ** 2 }
        : { dropPa: -power / least + (power / least ** 2) * (q - least), slope: power / least ** 2 };
    const network: Network = {
      nodes: [{ id: 'A', fixedPa: weight * at('z_A') }, { id: 'joint' }, { id: 'B', fixedPa: weight * at('z_B') }],
      branches: [
        { id: 'Q_total', from: 'A', to: 'joint', law: pump },
        { id: 'Q1', from: 'joint', to: 'B', law: roundPipe({ ...fluid, boreM: at('D1') }, colebrook) },
        { id: 'Q2', from: 'joint', to: 'B', law: roundPipe({ ...fluid, boreM: at('D2') }, colebrook) },
      ],
    };
    const answer = solveNetwork(network);
    if (!answer.ok) throw new Error(answer.why);
    const heads = new Map([
      ['h_loss_m', answer.dropPa[1]! / weight],
      ['h_pump_m', -answer.dropPa[0]! / weight],
    ]);
    const flows = flowsOf(network);
    holds(item, (name) => flows.get(name) ?? heads.get(name)!);
  },
  'network-3reservoir'(item, inputs) {
    const r = inputs['R'] as readonly number[];
    const h = inputs['H'] as readonly number[];
    const network: Network = {
      nodes: [...h.map((fixedPa, n) => ({ id: `${n + 1}`, fixedPa })), { id: 'junction' }],
      branches: r.map((k, n) => ({
        id: `Q${n + 1}`,
        ...(n === 0 ? { from: '1', to: 'junction' } : { from: 'junction', to: `${n + 1}` }),
        law: quadratic(0, k),
      })),
    };
    const answer = solveNetwork(network);
    if (!answer.ok) throw new Error(answer.why);
    const flows = flowsOf(network);
    holds(item, (name) => flows.get(name) ?? answer.pressurePa[3]!);
  },
};

describe('networks of published examples', () => {
  it.each(published('flow.network').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const check = checks[item.id];
    if (check === undefined) throw new Error(`no check for ${item.id}`);
    check(item, item.inputs as Inputs);
  });
});
