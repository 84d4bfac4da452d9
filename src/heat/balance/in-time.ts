import { NetState } from './net-state.kernel.ts';
import type { ThermalNet } from './thermal-net.ts';

/** One moment of a run in time. */
export interface NetMoment {
  readonly seconds: number;
  readonly c: Float64Array;
}

export interface RunInTime {
  readonly moments: readonly NetMoment[];
  /** Heat that came in less what went out less what is stored, over what passed [-]. */
  readonly unbalanced: number;
  /** Why it ended early. */
  readonly stopped?: string;
}

export interface InTimeWish {
  readonly seconds: number;
  /** Error of one step at any node [K]. */
  readonly withinK: number;
  readonly mostStepS: number;
  /** Told at each step; may put another network there (same nodes): other air, a pump that stops. */
  readonly at?: (moment: NetMoment, net: ThermalNet, filmsW: Float64Array) => ThermalNet | undefined;
}

/** SDIRK of second order, stiffly accurate: both stages with this share of the step. Source: closed form, 1 - 1/sqrt 2. */
const GAMMA = 1 - Math.SQRT1_2;
const MOST_ROUNDS = 40;
/** Slopes serve for so many rounds: within a step they change little. */
const FRESH_EVERY = 5;
/** A round that changes nothing by more leaves the balance closed to some 1e-8: rounds take what is left down by some ten times each [K]. */
const SETTLED_K = 5e-4;
const FIRST_STEP_S = 0.5;
const LEAST_STEP_S = 1e-3;

/** Temperatures in time, by an implicit step of second order whose length follows its own error. */
export function inTime(first: ThermalNet, start: Float64Array, wish: InTimeWish): RunInTime {
  let state = new NetState(first);
  let c: Float64Array = Float64Array.from(start);
  let seconds = 0;
  let step = Math.min(FIRST_STEP_S, wish.seconds);
  let drift: Float64Array = new Float64Array(first.nodes);
  const moments: NetMoment[] = [{ seconds: 0, c: Float64Array.from(c) }];
  let [missed, passed] = [0, 0];
  while (seconds < wish.seconds - 1e-9) {
    const taken = tryStep(state, c, step, drift);
    if (taken === null || taken.errorK > wish.withinK) {
      step *= taken === null ? 0.25 : Math.max(0.2, 0.9 * Math.sqrt(wish.withinK / taken.errorK));
      if (step < LEAST_STEP_S)
        return { moments, unbalanced: missed / Math.max(1, passed), stopped: stoppedAt(seconds) };
      continue;
    }
    missed += taken.missedJ;
    passed += taken.passedJ;
    seconds += step;
    c = taken.c;
    drift = taken.drift;
    moments.push({ seconds, c: Float64Array.from(c) });
    const next = wish.at?.(moments.at(-1)!, state.net, taken.filmsW);
    if (next !== undefined) state = new NetState(next, state.shape);
    const grow = Math.min(2.5, 0.9 * Math.sqrt(wish.withinK / Math.max(1e-9, taken.errorK)));
    step = Math.min(step * grow, wish.mostStepS, Math.max(LEAST_STEP_S, wish.seconds - seconds));
  }
  return { moments, unbalanced: missed / Math.max(1, passed) };
}

const stoppedAt = (seconds: number): string =>
  `after ${seconds.toFixed(1)} s no step of ${LEAST_STEP_S} s or more keeps its error within what is asked`;

interface TakenStep {
  readonly c: Float64Array;
  /** How fast each node goes on at the end of the step [K/s]: a first guess for the next. */
  readonly drift: Float64Array;
  readonly errorK: number;
  readonly missedJ: number;
  readonly passedJ: number;
  readonly filmsW: Float64Array;
}

/** Both stages of one step; null where one does not settle. */
function tryStep(state: NetState, c: Float64Array, step: number, before: Float64Array): TakenStep | null {
  const { net } = state;
  const perS = 1 / (GAMMA * step);
  const one = stage(state, ahead(c, before, GAMMA * step), c, perS, true);
  if (one === null) return null;
  const slope = new Float64Array(net.nodes);
  for (let i = 0; i < net.nodes; i++) slope[i] = (one.c[i]! - c[i]!) * perS;
  const base = new Float64Array(net.nodes);
  for (let i = 0; i < net.nodes; i++)
    base[i] = net.capacity[i]! > 0 ? c[i]! + (1 - GAMMA) * step * slope[i]! : one.c[i]!;
  const two = stage(state, ahead(one.c, slope, (1 - GAMMA) * step), base, perS, false);
  if (two === null) return null;
  let errorK = 0;
  let storedJ = 0;
  const drift = new Float64Array(net.nodes);
  for (let i = 0; i < net.nodes; i++) {
    if (net.capacity[i] === 0 || net.fixed[i] === 1) continue;
    const slopeTwo = (two.c[i]! - base[i]!) * perS;
    drift[i] = slopeTwo;
    // Against implicit Euler over the same step.
    errorK = Math.max(errorK, 0.3 * step * Math.abs(slopeTwo - slope[i]!) * GAMMA);
    storedJ += net.capacity[i]! * (two.c[i]! - c[i]!);
  }
  const cameJ = step * ((1 - GAMMA) * one.netW + GAMMA * two.netW);
  const passedJ = step * ((1 - GAMMA) * one.inW + GAMMA * two.inW) + Math.abs(storedJ);
  return { c: two.c, drift, errorK, missedJ: Math.abs(cameJ - storedJ), passedJ, filmsW: two.filmsW };
}

interface Stage {
  readonly c: Float64Array;
  /** Heat in less out of the network as a whole [W]. */
  readonly netW: number;
  readonly inW: number;
  readonly filmsW: Float64Array;
}

/** Straight on from `c`. */
function ahead(c: Float64Array, drift: Float64Array, seconds: number): Float64Array {
  const out = new Float64Array(c.length);
  for (let i = 0; i < c.length; i++) out[i] = c[i]! + seconds * drift[i]!;
  return out;
}

/** @param guess - taken over and changed */
function stage(state: NetState, guess: Float64Array, base: Float64Array, perS: number, isFirst: boolean): Stage | null {
  const c = guess;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    state.radiate(c);
    state.balance(c);
    const most = state.advance(c, perS, base, round % FRESH_EVERY === (isFirst ? 0 : FRESH_EVERY - 1));
    if (most > SETTLED_K) continue;
    state.radiate(c);
    state.balance(c);
    const { inW, outW, toFilmsW } = state.heat(c);
    return { c, netW: inW - outW, inW, filmsW: toFilmsW };
  }
  return null;
}
