import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Network } from '../src/flow/network/network.ts';
import type { NetworkLayout } from '../src/flow/network/network-layout.ts';
import { streetNetwork } from '../src/flow/network/planted/street-network.ts';
import { solveNetwork } from '../src/flow/network/solve-network.ts';
import type { ConductanceSystem } from '../src/flow/network/sparse-factor.kernel.ts';

const title = 'network solver: near-planar networks, beside the same Newton on ml-matrix Cholesky (dense)';
const ROUNDS = 7;
/** Pairs of the two sizes whose growth is told. */
const TURNS = 15;
const PIPES = [500, 1000, 1380, 2000, 5000] as const;
/** The rival is asked up to this many nodes. */
const MOST_DENSE_NODES = 800;
const SEED = 20;

/** The rival: the same equations, factored densely by ml-matrix. */
function denseSystem(layout: NetworkLayout): ConductanceSystem {
  const { from, to } = layout;
  const n = layout.freeNodes.length;
  let factored: CholeskyDecomposition | undefined;
  return {
    entries: (n * (n - 1)) / 2,
    factor(conductance) {
      const s = Matrix.zeros(n, n);
      for (let b = 0; b < conductance.length; b++) {
        const w = conductance[b]!;
        const i = from[b]!;
        const j = to[b]!;
        if (i >= 0) s.set(i, i, s.get(i, i) + w);
        if (j >= 0) s.set(j, j, s.get(j, j) + w);
        if (i < 0 || j < 0) continue;
        s.set(i, j, s.get(i, j) - w);
        s.set(j, i, s.get(j, i) - w);
      }
      factored = new CholeskyDecomposition(s);
      return factored.isPositiveDefinite();
    },
    solve(b) {
      b.set(factored!.solve(Matrix.columnVector(b)).to1DArray());
    },
  };
}

/** Median processor time of one call [ms], once the compiler has done with it. */
function medianMs(call: () => void, times: number, rounds: number): number {
  for (let k = 0; k < 2 * times; k++) call();
  const all: number[] = [];
  for (let r = 0; r < rounds; r++) {
    const from = process.cpuUsage().user;
    for (let k = 0; k < times; k++) call();
    all.push((process.cpuUsage().user - from) / 1000 / times);
  }
  return all.sort((a, b) => a - b)[all.length >> 1]!;
}

/** Farthest that two answers lie apart, as a share of the largest flow. */
function apart(network: Network, system: (layout: NetworkLayout) => ConductanceSystem): number {
  const ours = solveNetwork(network);
  const theirs = solveNetwork(network, { system });
  if (!ours.ok || !theirs.ok) return Number.NaN;
  const most = Math.max(...ours.flowM3S.map(Math.abs));
  return Math.max(...ours.flowM3S.map((q, b) => Math.abs(q - theirs.flowM3S[b]!))) / most;
}

/** How many times as long the larger net takes: both in turn, so that what else the machine does weighs on both, and the middle of all turns. */
function growthOf(less: number, more: number): number {
  const [few, many] = [less, more].map((pipes) => streetNetwork(pipes, SEED));
  const timed = (network: Network, calls: number): number => {
    const from = process.cpuUsage().user;
    for (let k = 0; k < calls; k++) solveNetwork(network);
    return (process.cpuUsage().user - from) / calls;
  };
  const calls = Math.round((4 * more) / less);
  timed(few!, 2 * calls);
  timed(many!, 8);
  const all = Array.from({ length: TURNS }, () => timed(many!, 4) / timed(few!, calls));
  return all.sort((a, b) => a - b)[TURNS >> 1]!;
}

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const rows: string[][] = [];
  for (const pipes of PIPES) {
    const network = streetNetwork(pipes, SEED);
    const answer = solveNetwork(network);
    if (!answer.ok) throw new Error(answer.why);
    const calls = Math.ceil(20_000 / pipes);
    const ms = medianMs(() => void solveNetwork(network), calls, ROUNDS);
    const warmMs = medianMs(() => void solveNetwork(network, { warm: answer }), calls, ROUNDS);
    const isDense = network.nodes.length <= MOST_DENSE_NODES;
    const rivalMs = isDense ? medianMs(() => void solveNetwork(network, { system: denseSystem }), 1, 3) : Number.NaN;
    rows.push([
      `${network.branches.length} pipes`,
      String(network.nodes.length),
      String(answer.iterations),
      String(answer.layout.system.entries),
      ms.toFixed(2),
      warmMs.toFixed(2),
      isDense ? rivalMs.toFixed(1) : '',
      isDense ? (rivalMs / ms).toFixed(0) : '',
      isDense ? apart(network, denseSystem).toExponential(0) : '',
    ]);
  }
  const growth = growthOf(500, 5000);
  return {
    headers: ['near-planar', 'nodes', 'iterations', 'factor entries', 'ms', 'ms again', 'ms dense', 'ratio', 'apart'],
    rows,
    goal: `t(5 000 pipes) / t(500 pipes) <= 15: ${growth.toFixed(1)} here, the middle of ${TURNS} pairs taken in turn`,
  };
}

export default { title, run };
