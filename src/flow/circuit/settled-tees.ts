import type { Flowing, Loss } from '../losses/loss.ts';
import { seriesLaw } from '../losses/loss.ts';
import type { Network } from '../network/network.ts';
import type { NetworkLayout } from '../network/network-layout.ts';
import { type NetworkAnswer, type SettledNetwork, solveNetwork } from '../network/solve-network.ts';
import { type Tee, teeLosses, type TeeLoss } from './tees.ts';

/** Legs are settled when none loses more or less by this than at the split before [Pa]. */
const SETTLED_PA = 0.1;
const MOST_ROUNDS = 40;

/** What tees take, by element. */
export type TeeLossesBy = ReadonlyMap<string, readonly TeeLoss[]>;

/** A network with its tees: their losses hang on the split, so that it is solved until the split stands. */
export interface SettledTees {
  readonly answer: NetworkAnswer;
  readonly losses: TeeLossesBy;
  /** How far off a leg still is [Pa]. */
  readonly offPa: number;
  readonly rounds: number;
}

const none: TeeLossesBy = new Map();

/**
 * Solves a network whose branches are elements by name, with what its tees take. Each round states the split of the last
 * one, so that each leg is a law of its own flow that rises; it ends when the next round would change no leg.
 */
export function settledTees(
  network: Network,
  tees: readonly Tee[],
  fluid: Flowing,
  warm?: SettledNetwork,
  layout?: NetworkLayout,
): SettledTees {
  const isHere = new Set(network.branches.map(({ id }) => id));
  const here = tees.filter(
    ({ run, branch }) => [...run, branch].filter(({ element }) => isHere.has(element)).length > 1,
  );
  const solve = (losses: TeeLossesBy, start: SettledNetwork | undefined): NetworkAnswer =>
    solveNetwork(withTees(network, losses, fluid), {
      ...(start === undefined ? {} : { warm: start }),
      ...(layout === undefined ? {} : { layout }),
    });
  const first = here.length > 0 && warm !== undefined && isLike(warm, network) ? warm : solve(none, warm);
  if (here.length === 0 || !first.ok) return { answer: first, losses: none, offPa: 0, rounds: 1 };
  let last = first;
  let losses = lossesAt(here, network, last);
  for (let rounds = 1; ; rounds++) {
    const answer = solve(losses, last);
    if (!answer.ok) return { answer, losses, offPa: 0, rounds };
    const next = lossesAt(here, network, answer);
    const offPa = apartPa(losses, next, network, answer, fluid);
    if (offPa <= SETTLED_PA || rounds >= MOST_ROUNDS) return { answer, losses, offPa, rounds };
    [last, losses] = [answer, next];
  }
}

const isLike = ({ layout }: SettledNetwork, { branches }: Network): boolean =>
  layout.branchIds.length === branches.length && branches.every(({ id }, i) => layout.branchIds[i] === id);

function lossesAt(tees: readonly Tee[], { branches }: Network, { flowM3S }: SettledNetwork): TeeLossesBy {
  const flows = new Map(branches.map(({ id }, i) => [id, flowM3S[i]!]));
  const out = new Map<string, TeeLoss[]>();
  for (const row of tees.flatMap((tee) => teeLosses(tee, (id) => flows.get(id))))
    out.set(row.element, [...(out.get(row.element) ?? []), row]);
  return out;
}

function withTees(network: Network, losses: TeeLossesBy, fluid: Flowing): Network {
  if (losses.size === 0) return network;
  return {
    ...network,
    branches: network.branches.map((branch) => {
      const own = losses.get(branch.id);
      return own === undefined
        ? branch
        : { ...branch, law: seriesLaw([branch.law, ...own.map(({ loss }) => loss.under(fluid))]) };
    }),
  };
}

const dropOf = (losses: readonly { readonly loss: Loss }[] | undefined, flowM3S: number, fluid: Flowing): number =>
  (losses ?? []).reduce((sum, { loss }) => sum + loss.under(fluid)(flowM3S).dropPa, 0);

function apartPa(
  before: TeeLossesBy,
  after: TeeLossesBy,
  { branches }: Network,
  { flowM3S }: SettledNetwork,
  fluid: Flowing,
): number {
  return branches.reduce((most, { id }, i) => {
    if (!before.has(id) && !after.has(id)) return most;
    const off = dropOf(after.get(id), flowM3S[i]!, fluid) - dropOf(before.get(id), flowM3S[i]!, fluid);
    return Math.max(most, Math.abs(off));
  }, 0);
}
