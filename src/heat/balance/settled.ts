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
  // What passes changes little from round to round: it is added up anew only where the balance looks closed.
  let passes = 0;
  let unbalanced = Number.POSITIVE_INFINITY;
  for (; rounds < MOST_ROUNDS; rounds++) {
    state.radiate(c);
    state.balance(c);
    const missed = missing(state);
    if (passes === 0 || missed < BALANCED * passes) passes = passing(state, c);
    unbalanced = missed / passes;
    if (unbalanced < BALANCED) break;
    state.advance(c, 0, c);
  }
  return { c, settled: unbalanced < BALANCED, rounds, heat: state.heat(c), unbalanced };
}

/** What the free nodes miss, all together [W]. */
function missing({ net, residual }: NetState): number {
  let missed = 0;
  for (let i = 0; i < net.nodes; i++) if (net.fixed[i] === 0) missed += Math.abs(residual[i]!);
  return missed;
}

function passing(state: NetState, c: Float64Array): number {
  const { inW, outW } = state.heat(c);
  return Math.max(1e-9, inW, outW);
}
