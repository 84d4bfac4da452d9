import { describe, expect, it } from 'vitest';
import type { Network, NetworkBranch, RefusedNetwork } from './network.ts';
import { flowsByPressure } from './planted/oracle.ts';
import {
  checkValve,
  displacementPump,
  pipe,
  power,
  quadratic,
  reliefValve,
  spinningPump,
} from './planted/plain-laws.ts';
import { faultyNetwork, soundNetwork } from './planted/random-network.ts';
import { seeded } from './planted/seeded.ts';
import { streetNetwork } from './planted/street-network.ts';
import { solveNetwork, type NetworkOptions, type SettledNetwork } from './solve-network.ts';

function settledAnswer(network: Network, options?: NetworkOptions): SettledNetwork {
  const answer = solveNetwork(network, options);
  if (!answer.ok) throw new Error(answer.why);
  return answer;
}

function refused(network: Network): RefusedNetwork {
  const answer = solveNetwork(network);
  if (answer.ok) throw new Error('settled, and ought to be refused');
  return answer;
}

const largest = (all: ArrayLike<number>): number => Array.from(all).reduce((most, x) => Math.max(most, Math.abs(x)), 0);

/** What flows are measured by: the largest, and where nothing flows a millionth of a litre a second. */
const scaleOf = (flows: ArrayLike<number>): number => Math.max(1e-9, largest(flows));

/** A network whose laws have a laminar part everywhere, so that its flows are as well known as its pressures. */
function roundedNetwork(seed: number, most: number): Network {
  const network = soundNetwork(seed, most);
  const by = seeded(seed + 7);
  const laws = [
    () => pipe(by.scale(0.005, 0.05), by.scale(0.1, 5), by.scale(1e-3, 1)),
    () => pipe(by.scale(0.005, 0.05), by.scale(0.1, 5), by.scale(1e-3, 1)),
    () => pipe(by.scale(0.005, 0.05), by.scale(0.1, 5), by.scale(1e-3, 1)),
    () => spinningPump(by.scale(1e4, 5e5), by.scale(1e-4, 1e-2)),
    () => displacementPump(by.scale(1e-5, 1e-3), by.scale(1e-12, 1e-10)),
    () => checkValve(by.scale(1e6, 1e8), by.scale(1e8, 1e11), by.scale(1e-13, 1e-12)),
    () => reliefValve(by.scale(5e4, 8e5), by.scale(1e-13, 1e-11), by.scale(1e6, 1e9)),
  ];
  return { ...network, branches: network.branches.map((branch) => ({ ...branch, law: by.oneOf(laws)() })) };
}

const seeds = (count: number): number[] => Array.from({ length: count }, (_, n) => n + 1);

describe('the network solver', () => {
  it('solves a pump, two pipes in parallel and a return as worked by hand', () => {
    // Pump lifts 3e5 - 1e9 q; two pipes of 1e9 and 3e9 side by side make 0.75e9; return 1.25e9: q = 3e5 / 3e9 = 1e-4.
    const network: Network = {
      nodes: [{ id: 'tank', fixedPa: 0 }, { id: 'a' }, { id: 'b' }],
      branches: [
        { id: 'pump', from: 'tank', to: 'a', law: (q) => ({ dropPa: 1e9 * q - 3e5, slope: 1e9 }) },
        { id: 'wide', from: 'a', to: 'b', law: quadratic(1e9, 0) },
        { id: 'narrow', from: 'b', to: 'a', law: quadratic(3e9, 0) },
        { id: 'return', from: 'b', to: 'tank', law: quadratic(1.25e9, 0) },
      ],
    };
    const answer = settledAnswer(network);
    const expected = [1e-4, 0.75e-4, -0.25e-4, 1e-4];
    for (const [b, q] of expected.entries()) expect(answer.flowM3S[b]).toBeCloseTo(q, 15);
    expect(answer.pressurePa[1]).toBeCloseTo(2e5, 6);
    expect(answer.pressurePa[2]).toBeCloseTo(1.25e5, 6);
    expect(answer.dropPa[1]).toBeCloseTo(7.5e4, 6);
  });

  it('counts a column of fluid: two tanks of unlike height, worked by hand', () => {
    // 1000 kg/m3, 2 m: 19613.3 Pa drive 1e9 Pa per m3/s.
    const answer = settledAnswer({
      nodes: [
        { id: 'high', fixedPa: 0, heightM: 2 },
        { id: 'low', fixedPa: 0, heightM: 0 },
      ],
      branches: [{ id: 'down', from: 'high', to: 'low', law: quadratic(1e9, 0) }],
      densityKgM3: 1000,
    });
    expect(answer.flowM3S[0]).toBeCloseTo(1.96133e-5, 12);
  });

  it('names dead ends, and the node that stands for 0 Pa in a part without a fixed pressure', () => {
    const answer = settledAnswer({
      nodes: [{ id: 'b', inflowM3S: 1e-4 }, { id: 'a', inflowM3S: -1e-4 }, { id: 'gauge' }],
      branches: [
        { id: 'x', from: 'b', to: 'a', law: quadratic(1e9, 0) },
        { id: 'y', from: 'b', to: 'gauge', law: power(1e12, 2) },
      ],
    });
    expect(answer.deadEnds).toEqual(['gauge']);
    expect(answer.zeroPa).toEqual(['a']);
    expect(answer.flowM3S[1]).toBe(0);
    expect(answer.pressurePa[0]).toBeCloseTo(1e5, 6);
    expect(answer.pressurePa[2]).toBeCloseTo(1e5, 6);
  });

  it('lets a shut check valve, a relief valve and a pump of next to no slip stand side by side', () => {
    // 2e-4 m3/s less 1e-15 a pascal; relief opens at 4e5 Pa: the gallery takes 4e5 / 4e9 = 1e-4, relief nearly the rest.
    const network: Network = {
      nodes: [{ id: 'tank', fixedPa: 0 }, { id: 'main' }],
      branches: [
        { id: 'pump', from: 'tank', to: 'main', law: displacementPump(2e-4, 1e-18) },
        { id: 'relief', from: 'main', to: 'tank', law: reliefValve(4e5, 1e-18, 1e-3) },
        { id: 'gallery', from: 'main', to: 'tank', law: quadratic(4e9, 0) },
        { id: 'check', from: 'tank', to: 'main', law: checkValve(1e6, 1e9, 1e-18) },
      ],
    };
    const answer = settledAnswer(network);
    expect(answer.flowM3S[0]).toBeCloseTo(2e-4, 11);
    expect(answer.flowM3S[1]).toBeCloseTo(1e-4, 11);
    expect(answer.flowM3S[2]).toBeCloseTo(1e-4, 11);
    expect(answer.pressurePa[1]).toBeCloseTo(4e5, 3);
    expect(answer.flowM3S[3]! / -4e-13).toBeCloseTo(1, 6);
  });
});

describe('random networks', () => {
  it('settle, balanced to 1e-9 of the largest flow, losses fitting the pressures: seeds 1 to 200, 1 to 200 branches', () => {
    for (const seed of seeds(200)) {
      const network = soundNetwork(seed);
      const answer = settledAnswer(network);
      const over = new Map(network.nodes.map((node) => [node.id, node.inflowM3S ?? 0]));
      for (const [b, branch] of network.branches.entries()) {
        over.set(branch.from, over.get(branch.from)! - answer.flowM3S[b]!);
        over.set(branch.to, over.get(branch.to)! + answer.flowM3S[b]!);
      }
      const free = network.nodes.filter((node) => node.fixedPa === undefined).map((node) => over.get(node.id)!);
      expect(largest(free), `seed ${seed}`).toBeLessThanOrEqual(1e-9 * largest(answer.flowM3S));
      expect([...answer.flowM3S, ...answer.pressurePa, ...answer.dropPa].every(Number.isFinite)).toBe(true);
    }
  });

  it('with a fault in them are refused by its kind and name: seeds 1 to 200', () => {
    for (const seed of seeds(200)) {
      const { network, fault } = faultyNetwork(seed);
      const answer = refused(network);
      expect(answer.kind, `seed ${seed}: ${answer.why}`).toBe(fault!.kind);
      expect(answer.where, `seed ${seed}: ${answer.why}`).toContain(fault!.where);
      expect(answer.why).toContain(fault!.where);
      expect(answer.why).not.toContain('\n');
    }
  });

  it('have the flows that a slow solution by pressures and bisection finds: seeds 1 to 120, up to 12 branches', () => {
    let compared = 0;
    for (const seed of seeds(120)) {
      const network = roundedNetwork(seed, 12);
      const answer = settledAnswer(network);
      // Parts that hang on no fixed pressure get one: since their inflows add up to nothing, it changes no flow.
      const nodes = network.nodes.map((node) => {
        if (!answer.zeroPa.includes(node.id)) return node;
        const { inflowM3S: _, ...rest } = node;
        return { ...rest, fixedPa: 0 };
      });
      const slow = flowsByPressure({ ...network, nodes }, 1e5);
      if (slow === undefined) continue;
      compared++;
      const most = scaleOf(slow);
      for (const [b, q] of slow.entries())
        expect(Math.abs(answer.flowM3S[b]! - q) / most, `seed ${seed}, ${network.branches[b]!.id}`).toBeLessThan(1e-7);
    }
    expect(compared).toBeGreaterThan(80);
  });

  it('lose nothing round any loop: the drops along a tree give the drop of every other branch, seeds 1 to 60', () => {
    for (const seed of seeds(60)) {
      const network = roundedNetwork(seed, 60);
      const answer = settledAnswer(network);
      const height = new Map(network.nodes.map((node) => [node.id, node.heightM ?? 0]));
      const weight = (network.densityKgM3 ?? 0) * 9.80665;
      const across = network.branches.map(
        (branch, b) =>
          branch.law(answer.flowM3S[b]!).dropPa -
          (branch.headPa ?? 0) +
          weight * (height.get(branch.to)! - height.get(branch.from)!),
      );
      // Pressures walked from each part's first node by the laws alone.
      const pressure = new Map<string, number>();
      let loops = 0;
      for (const start of network.nodes) {
        if (pressure.has(start.id)) continue;
        pressure.set(start.id, 0);
        const queue = [start.id];
        for (const id of queue) {
          for (const [b, branch] of network.branches.entries()) {
            if (branch.from !== id && branch.to !== id) continue;
            const other = branch.from === id ? branch.to : branch.from;
            const there = pressure.get(id)! + (branch.from === id ? -across[b]! : across[b]!);
            const known = pressure.get(other);
            if (known === undefined) {
              pressure.set(other, there);
              queue.push(other);
              continue;
            }
            loops++;
            expect(Math.abs(there - known), `seed ${seed}, loop over ${branch.id}`).toBeLessThan(
              1e-6 * largest(across) + 1e-6,
            );
          }
        }
      }
      expect(loops).toBeGreaterThan(0);
    }
  });

  it('have the same flows from any start: seeds 1 to 60', () => {
    for (const seed of seeds(60)) {
      const network = roundedNetwork(seed, 40);
      const cold = settledAnswer(network);
      const by = seeded(seed);
      const strange = { ...cold, flowM3S: cold.flowM3S.map(() => by.between(-1, 1) * by.scale(1e-8, 1e-1)) };
      const warm = settledAnswer(network, { warm: strange });
      const most = scaleOf(cold.flowM3S);
      for (const [b, q] of cold.flowM3S.entries())
        expect(Math.abs(warm.flowM3S[b]! - q) / most, `seed ${seed}`).toBeLessThan(1e-9);
      const again = settledAnswer(network, { warm: cold });
      expect(again.iterations, `seed ${seed}`).toBeLessThanOrEqual(3);
      expect(again.layout).toBe(cold.layout);
    }
  });

  it('do not depend on how nodes and branches are numbered or turned: seeds 1 to 60', () => {
    for (const seed of seeds(60)) {
      const network = roundedNetwork(seed, 40);
      const by = seeded(seed + 1);
      const mixed = <T>(all: readonly T[]): T[] =>
        all
          .map((x) => ({ x, at: by.between(0, 1) }))
          .sort((a, b) => a.at - b.at)
          .map(({ x }) => x);
      const turned = (branch: NetworkBranch): NetworkBranch => ({
        ...branch,
        from: branch.to,
        to: branch.from,
        headPa: -(branch.headPa ?? 0),
        law: (q) => {
          const { dropPa, slope } = branch.law(-q);
          return { dropPa: -dropPa, slope };
        },
      });
      const other: Network = { ...network, nodes: mixed(network.nodes), branches: mixed(network.branches).map(turned) };
      const one = settledAnswer(network);
      const two = settledAnswer(other);
      const place = new Map(other.branches.map((branch, b) => [branch.id, b]));
      const most = scaleOf(one.flowM3S);
      for (const [b, branch] of network.branches.entries())
        expect(Math.abs(one.flowM3S[b]! + two.flowM3S[place.get(branch.id)!]!) / most).toBeLessThan(1e-9);
      const at = new Map(other.nodes.map((node, n) => [node.id, n]));
      const range = largest(one.pressurePa) + 1;
      for (const [n, node] of network.nodes.entries())
        expect(Math.abs(one.pressurePa[n]! - two.pressurePa[at.get(node.id)!]!) / range).toBeLessThan(1e-7);
    }
  });

  it('never flow more through an element that is made to lose more: seeds 1 to 60', () => {
    let less = 0;
    for (const seed of seeds(60)) {
      const network = roundedNetwork(seed, 40);
      const before = settledAnswer(network);
      const most = scaleOf(before.flowM3S);
      const by = seeded(seed + 2);
      for (let n = 0; n < 4; n++) {
        const b = by.whole(0, network.branches.length - 1);
        const more = by.scale(1e6, 1e10);
        const branches = network.branches.map((branch, k): NetworkBranch => {
          if (k !== b) return branch;
          return {
            ...branch,
            law: (q) => {
              const { dropPa, slope } = branch.law(q);
              return { dropPa: dropPa + more * q, slope: slope + more };
            },
          };
        });
        const after = settledAnswer({ ...network, branches }, { warm: before });
        const change = Math.abs(after.flowM3S[b]!) - Math.abs(before.flowM3S[b]!);
        expect(change / most, `seed ${seed}, branch ${b}`).toBeLessThan(1e-11);
        if (change < -1e-9 * most) less++;
      }
    }
    expect(less).toBeGreaterThan(60);
  });
});

describe('a sweep', () => {
  it('uses the layout again and settles in fewer steps than from nothing', () => {
    const base = streetNetwork(400, 3);
    let warm: SettledNetwork | undefined;
    let cold = 0;
    let kept = 0;
    for (let n = 0; n < 12; n++) {
      const nodes = base.nodes.map((node) =>
        node.fixedPa === undefined ? node : { ...node, fixedPa: node.fixedPa * (1 + 0.05 * n) },
      );
      const alone = settledAnswer({ ...base, nodes });
      const next: SettledNetwork = settledAnswer({ ...base, nodes }, warm === undefined ? {} : { warm });
      if (warm !== undefined) expect(next.layout).toBe(warm.layout);
      expect(largest(next.flowM3S.map((q, b) => q - alone.flowM3S[b]!))).toBeLessThan(1e-9 * largest(alone.flowM3S));
      warm = next;
      cold += alone.iterations;
      kept += next.iterations;
    }
    expect(kept).toBeLessThan(0.8 * cold);
  });

  it('lays out anew where the net is another', () => {
    const network = soundNetwork(5, 20);
    const warm = settledAnswer(network);
    const [first, ...rest] = network.branches;
    const other = { ...network, branches: [{ ...first!, id: 'another' }, ...rest] };
    expect(settledAnswer(other, { warm }).layout).not.toBe(warm.layout);
  });
});

describe('a network is refused', () => {
  const law = quadratic(1e9, 0);
  const node = (id: string, more: object = {}): Network['nodes'][number] => ({ id, ...more });
  const tanks = [node('a', { fixedPa: 1e5 }), node('b', { fixedPa: 0 })];
  const line: NetworkBranch = { id: 'line', from: 'a', to: 'b', law };
  const cases: readonly (readonly [string, Network, RefusedNetwork['kind'], string])[] = [
    [
      'an end that is no node',
      { nodes: tanks, branches: [{ ...line, to: 'c' }] },
      'input',
      'branch "line": ends at "c"',
    ],
    ['both ends at one node', { nodes: tanks, branches: [{ ...line, to: 'a' }, line] }, 'input', 'both ends at "a"'],
    ['a branch named twice', { nodes: tanks, branches: [line, line] }, 'input', 'branch "line": stands twice'],
    ['a node named twice', { nodes: [...tanks, tanks[0]!], branches: [line] }, 'input', 'node "a": stands twice'],
    [
      'a pressure that is no number',
      { nodes: [tanks[0]!, node('b', { fixedPa: Number.NaN })], branches: [line] },
      'input',
      'node "b": fixedPa is NaN',
    ],
    [
      'a head that is no number',
      { nodes: tanks, branches: [{ ...line, headPa: Infinity }] },
      'input',
      'branch "line": headPa is Infinity',
    ],
    [
      'pressure and inflow at one node',
      { nodes: [tanks[0]!, node('b', { fixedPa: 0, inflowM3S: 1 })], branches: [line] },
      'input',
      'node "b": fixedPa and inflowM3S',
    ],
    [
      'a height left out',
      { nodes: [tanks[0]!, node('b', { fixedPa: 0, heightM: 1 })], branches: [line], densityKgM3: 1 },
      'input',
      'node "a": no heightM',
    ],
    [
      'heights without a density',
      { nodes: tanks.map((n) => ({ ...n, heightM: 0 })), branches: [line] },
      'input',
      'densityKgM3 is not',
    ],
    ['a lone node', { nodes: [...tanks, node('c')], branches: [line] }, 'alone', 'no branch reaches c'],
    [
      'a part with more in than out',
      {
        nodes: [...tanks, node('c', { inflowM3S: 2e-4 }), node('d', { inflowM3S: -1e-4 })],
        branches: [line, { id: 'x', from: 'c', to: 'd', law }],
      },
      'unbalanced',
      'nodes c, d hang on no fixed pressure, and 0.0001 m3/s more',
    ],
    [
      'a loss that falls where it works',
      {
        nodes: tanks,
        branches: [
          { ...line, law: (q) => ({ dropPa: 1e9 * q - 3e13 * q * Math.abs(q), slope: 1e9 - 6e13 * Math.abs(q) }) },
        ],
      },
      'falls',
      'element "line"',
    ],
    [
      'a loss that stays the same',
      { nodes: tanks, branches: [line, { ...line, id: 'flat', law: () => ({ dropPa: 1e5, slope: 0 }) }] },
      'falls',
      'element "flat"',
    ],
    [
      'a loss that stays below what drives it',
      {
        nodes: tanks,
        branches: [
          { ...line, law: (q) => ({ dropPa: 5e4 * Math.tanh(1e4 * q), slope: 5e8 / Math.cosh(1e4 * q) ** 2 }) },
        ],
      },
      'unbounded',
      '"line"',
    ],
    [
      'no number from a law',
      { nodes: tanks, branches: [{ ...line, law: () => ({ dropPa: Number.NaN, slope: 1 }) }] },
      'not-a-number',
      'element "line"',
    ],
    [
      'an endless slope',
      { nodes: tanks, branches: [{ ...line, law: (q) => ({ dropPa: q, slope: Infinity }) }] },
      'not-a-number',
      'element "line"',
    ],
  ];
  it.each(cases)('%s', (_, network, kind, words) => {
    const answer = refused(network);
    expect(answer.kind, answer.why).toBe(kind);
    expect(answer.why).toContain(words);
    expect(answer.where.length).toBeGreaterThan(0);
  });

  it('when the counted effort is used up', () => {
    const answer = solveNetwork(streetNetwork(100, 1), { mostIterations: 2 });
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.kind).toBe('unsettled');
  });

  it('with nothing in it, no: no flows and no pressures', () => {
    expect(settledAnswer({ nodes: [], branches: [] }).flowM3S.length).toBe(0);
  });
});
