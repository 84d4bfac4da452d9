import { LuDecomposition, Matrix } from 'ml-matrix';
import type { LossLaw } from '../loss-law.ts';
import type { Network } from '../network.ts';

const GRAVITY_M_S2 = 9.80665;
const MOST_ROUNDS = 500;

/** The smallest flow told apart, and 2 asinh of the largest over it. */
const UNIT_M3S = 1e-30;
const WIDEST = 160;

/** The flow at which a law loses `pa`: bisection, which knows nothing of slopes, over flows of all sizes alike. */
function flowAt(law: LossLaw, pa: number): number {
  let low = -WIDEST;
  let high = WIDEST;
  for (let n = 0; n < 70; n++) {
    const x = (low + high) / 2;
    if (law(UNIT_M3S * Math.sinh(x)).dropPa > pa) high = x;
    else low = x;
  }
  return UNIT_M3S * Math.sinh((low + high) / 2);
}

/**
 * The same network solved another way round, slowly: unknown are the pressures, each law is turned by bisection, and the
 * nodes' balances go to nothing by Newton with halved steps on a dense matrix. It shares no code with the solver.
 * Every part must hang on a fixed pressure. Undefined where it does not get there.
 */
export function flowsByPressure(network: Network, startPa: number): number[] | undefined {
  const unknowns = network.nodes.filter((node) => node.fixedPa === undefined);
  const place = new Map(unknowns.map((node, k) => [node.id, k]));
  const pressure = new Map(network.nodes.map((node) => [node.id, node.fixedPa ?? startPa]));
  const height = new Map(network.nodes.map((node) => [node.id, node.heightM ?? 0]));
  const weight = (network.densityKgM3 ?? 0) * GRAVITY_M_S2;
  const flows = (at: ReadonlyMap<string, number>): number[] =>
    network.branches.map((branch) => {
      const across = at.get(branch.from)! - at.get(branch.to)!;
      const added = weight * (height.get(branch.to)! - height.get(branch.from)!) - (branch.headPa ?? 0);
      return flowAt(branch.law, across - added);
    });
  const balances = (q: readonly number[]): number[] => {
    const over = unknowns.map((node) => node.inflowM3S ?? 0);
    for (const [b, branch] of network.branches.entries()) {
      const from = place.get(branch.from);
      const to = place.get(branch.to);
      if (from !== undefined) over[from]! -= q[b]!;
      if (to !== undefined) over[to]! += q[b]!;
    }
    return over;
  };
  const size = (over: readonly number[]): number => Math.hypot(...over);
  let q = flows(pressure);
  let over = balances(q);
  for (let round = 0; round < MOST_ROUNDS && unknowns.length > 0; round++) {
    if (size(over) <= 1e-12 * Math.max(...q.map(Math.abs))) return q;
    const s = Matrix.zeros(unknowns.length, unknowns.length);
    for (const [b, branch] of network.branches.entries()) {
      const w = 1 / Math.max(branch.law(q[b]!).slope, 1e-3);
      const i = place.get(branch.from);
      const j = place.get(branch.to);
      if (i !== undefined) s.set(i, i, s.get(i, i) + w);
      if (j !== undefined) s.set(j, j, s.get(j, j) + w);
      if (i === undefined || j === undefined) continue;
      s.set(i, j, s.get(i, j) - w);
      s.set(j, i, s.get(j, i) - w);
    }
    const step = new LuDecomposition(s).solve(Matrix.columnVector(over)).to1DArray();
    let t = 1;
    for (; t > 1e-10; t /= 2) {
      const tried = new Map(pressure);
      for (const [k, node] of unknowns.entries()) tried.set(node.id, pressure.get(node.id)! + t * step[k]!);
      const qTried = flows(tried);
      const overTried = balances(qTried);
      if (size(overTried) < (1 - 0.1 * t) * size(over)) {
        for (const [id, p] of tried) pressure.set(id, p);
        q = qTried;
        over = overTried;
        break;
      }
    }
    if (t <= 1e-10) return size(over) <= 1e-10 * Math.max(...q.map(Math.abs)) ? q : undefined;
  }
  return unknowns.length === 0 ? q : undefined;
}
