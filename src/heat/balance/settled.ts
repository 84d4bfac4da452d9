import { NetState } from './net-state.kernel.ts';
import type { NetHeat, ThermalNet } from './thermal-net.ts';

/** Temperatures at which every free node gets as much heat as it gives, or where it stopped. */
export interface Settled {
  readonly c: Float64Array;
  readonly settled: boolean;
  readonly rounds: number;
  readonly heat: NetHeat;
  /** Heat in less heat out, over the heat in [-]. */
  readonly unbalanced: number;
}

/** A balance is held when what the free nodes miss, all together, is below this share of the heat that goes through [-]. */
const BALANCED = 2e-7;
/** Rounds after which a network that does not settle is given up: each round takes the error down by some times. */
const MOST_ROUNDS = 200;

/**
 * Steady temperatures: block after block by Newton, with what comes from the other blocks as it stands, until all balances hold. Every
 * block's matrix has its greatest numbers on the diagonal and radiation between blocks only ever lowers differences, so rounds settle.
 *
 * @param start - first guess; may be taken over and changed
 */
export function settled(net: ThermalNet, start: Float64Array, state = new NetState(net)): Settled {
  const c = Float64Array.from(start);
  let rounds = 0;
  let unbalanced = Number.POSITIVE_INFINITY;
  for (; rounds < MOST_ROUNDS; rounds++) {
    state.radiate(c);
    state.balance(c);
    unbalanced = missing(state, c);
    if (unbalanced < BALANCED) break;
    state.advance(c, 0, c);
  }
  const heat = state.heat(c);
  return { c, settled: unbalanced < BALANCED, rounds, heat, unbalanced };
}

function missing(state: NetState, c: Float64Array): number {
  const { net, residual } = state;
  let missed = 0;
  for (let i = 0; i < net.nodes; i++) if (net.fixed[i] === 0) missed += Math.abs(residual[i]!);
  const { inW, outW } = state.heat(c);
  return missed / Math.max(1e-9, inW, outW);
}
