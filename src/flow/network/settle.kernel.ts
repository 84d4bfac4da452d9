import type { LawWatch } from './law-watch.ts';
import { type RefusedNetwork, refusal } from './network.ts';
import type { NetworkLayout } from './network-layout.ts';
import type { ConductanceSystem } from './sparse-factor.kernel.ts';
import { imbalances, treeBalance } from './tree-balance.kernel.ts';

/** Slopes below this share of the middle one are lifted to it, so that a law that is flat at no flow cannot take all. */
const LEAST_SLOPE_SHARE = 1e-9;
/** A step is long enough when what drives it has sunk to this share. */
const LINE_SHARE = 0.1;
const MOST_TRIALS = 90;
/** Settled: no loss is off by more than this share of the pressures in the net, beyond what rounding forbids … */
const LOSS_SHARE = 1e-10;
/** … and no flow would change by more than this share of the largest; or the content by more than this of itself. */
const FLOW_SHARE = 1e-12;
const CONTENT_SHARE = 1e-26;
/** Steps without gain after which flows are as well known as they will be. */
const MOST_STALLED = 2;
/** Pressures and flows below these are as good as none: a net in which nothing flows would have no measure of its own. */
export const LEAST_PA = 1;
export const LEAST_FLOW_M3S = 1e-9;
const ROUNDING = 2 ** -52;

/** The convex problem: which flows, balanced at every node, make the content least. */
export interface ContentProblem {
  readonly layout: NetworkLayout;
  readonly system: ConductanceSystem;
  readonly watch: LawWatch;
  /** By branch: what is added to the law's loss (column of fluid, less the head). */
  readonly addedPa: Float64Array;
  /** By free node. */
  readonly inflowM3S: Float64Array;
  readonly mostIterations: number;
}

/** Where the search stands; the arrays are changed in place. */
export interface ContentState {
  readonly flow: Float64Array;
  /** By node, the fixed ones as given. */
  readonly pressure: Float64Array;
  readonly drop: Float64Array;
  readonly slope: Float64Array;
}

/** The search has ended. */
export interface Settled {
  readonly ok: true;
  readonly iterations: number;
  readonly trials: number;
}

/** Middle slope, in the sense of logarithms, of those above zero; 1 where there are none. */
function middleSlope(slope: Float64Array): number {
  let sum = 0;
  let count = 0;
  for (let b = 0; b < slope.length; b++) {
    if (!(slope[b]! > 0 && slope[b]! < Infinity)) continue;
    sum += Math.log(slope[b]!);
    count++;
  }
  return count === 0 ? 1 : Math.exp(sum / count);
}

/** What a step of length t is tried in. */
interface Line {
  readonly step: Float64Array;
  readonly flow: Float64Array;
  readonly drop: Float64Array;
  readonly slope: Float64Array;
  /** By branch: slope used for the step times the step, so that the driving force at t = 0 is less this. */
  readonly pull: Float64Array;
  trials: number;
  /** Rounding in the last driving force. */
  noise: number;
}

/** d content / dt at t: rises with t. NaN where a law is refused. */
function drivingForce(problem: ContentProblem, state: ContentState, line: Line, t: number): number {
  const { step, flow, drop, slope, pull } = line;
  for (let b = 0; b < step.length; b++) flow[b] = state.flow[b]! + t * step[b]!;
  line.trials++;
  if (!problem.watch.lossesAt(flow, drop, slope, true)) return Number.NaN;
  if (!problem.watch.rises(state.flow, state.drop, flow, drop)) return Number.NaN;
  let force = 0;
  let noise = 0;
  for (let b = 0; b < step.length; b++) {
    const d = step[b]!;
    if (d === 0) continue;
    force += d * (drop[b]! - state.drop[b]! - pull[b]!);
    noise += Math.abs(d) * (Math.abs(drop[b]!) + Math.abs(state.drop[b]!));
  }
  line.noise = 4 * ROUNDING * noise;
  return force;
}

/**
 * How far to go along a step: where the content is least, found by its slope along the line, which rises. Outwards by
 * growing factors while it is still below zero; then between the two signs by false position, halved in the logarithm
 * where that gets nowhere. 0: a law is refused; Infinity: no end in sight.
 */
function stepLength(problem: ContentProblem, state: ContentState, line: Line, force0: number): number {
  let low = 0;
  let atLow = force0;
  let high = Infinity;
  let atHigh = Infinity;
  let t = 1;
  let growth = 2;
  let side = 0;
  for (let trial = 0; trial < MOST_TRIALS; trial++) {
    const force = drivingForce(problem, state, line, t);
    if (Number.isNaN(force)) return 0;
    if (Math.abs(force) <= Math.max(LINE_SHARE * Math.abs(force0), line.noise)) return t;
    if (force < 0) {
      low = t;
      atLow = force;
      if (side < 0) atHigh /= 2;
      side = -1;
    } else {
      high = t;
      atHigh = force;
      if (side > 0) atLow /= 2;
      side = 1;
    }
    if (high === Infinity) {
      t *= growth;
      growth = Math.min(growth * 2, 1024);
      if (!(t < 1e250)) return Infinity;
      continue;
    }
    if (high - low <= 4 * ROUNDING * high) return drivingForce(problem, state, line, high) > -Infinity ? high : 0;
    if (atHigh === Infinity) t = low > 0 ? Math.sqrt(low * high) : high * 1e-3;
    else if (low > 0 && high > 8 * low) t = Math.sqrt(low * high);
    else if (trial % 3 === 2 && low > 0) t = (low + high) / 2;
    else {
      t = low + ((high - low) * atLow) / (atLow - atHigh);
      if (!(t > low && t < high)) t = (low + high) / 2;
    }
  }
  return low > 0 && drivingForce(problem, state, line, low) <= 0 ? low : 0;
}

/**
 * Newton's method on the flows of a net, each step by the pressures at its nodes:
 *
 *     r = loss(q) + added - (p_from - p_to),   w = 1 / loss'(q)
 *     S dp = imbalance + A (w r),              dq = w (dp_from - dp_to - r)
 *
 * with S the net's conductance matrix for w, and a line search along dq. Starts from any flows and ends balanced.
 *
 * After millar-1951-content, todini-1988-gradient in the bibliography.
 */
export function settled(problem: ContentProblem, state: ContentState): Settled | RefusedNetwork {
  const { layout, system, watch, addedPa, inflowM3S } = problem;
  const { from, to, fromNode, toNode, freeNodes, branchIds } = layout;
  const { flow, pressure, drop, slope } = state;
  const branches = branchIds.length;
  const conductance = new Float64Array(branches);
  const used = new Float64Array(branches);
  const residual = new Float64Array(branches);
  const rise = new Float64Array(freeNodes.length);
  const line: Line = {
    step: new Float64Array(branches),
    flow: new Float64Array(branches),
    drop: new Float64Array(branches),
    slope: new Float64Array(branches),
    pull: new Float64Array(branches),
    trials: 0,
    noise: 0,
  };
  const balance = treeBalance(layout);
  const over = new Float64Array(freeNodes.length);
  balance(inflowM3S, slope, flow);
  if (!watch.lossesAt(flow, drop, slope, false)) return watch.refused!;
  let contentBefore = Infinity;
  let stalled = 0;
  let spent = 0;
  let worst = 0;
  for (let iteration = 1; iteration <= problem.mostIterations; iteration++) {
    const leastSlope = LEAST_SLOPE_SHARE * middleSlope(slope);
    imbalances(layout, inflowM3S, flow, over);
    rise.set(over);
    for (let b = 0; b < branches; b++) {
      used[b] = Math.max(slope[b]!, leastSlope);
      conductance[b] = 1 / used[b]!;
      const r = drop[b]! + addedPa[b]! - (pressure[fromNode[b]!]! - pressure[toNode[b]!]!);
      residual[b] = r;
      if (from[b]! >= 0) rise[from[b]!]! += conductance[b]! * r;
      if (to[b]! >= 0) rise[to[b]!]! -= conductance[b]! * r;
    }
    if (!system.factor(conductance)) {
      const b = used.indexOf(used.reduce((a, x) => Math.max(a, x)));
      return refusal('unsettled', `its losses lie too far apart for numbers, "${branchIds[b]}" the steepest`, [
        branchIds[b]!,
      ]);
    }
    system.solve(rise);
    let largestFlow = LEAST_FLOW_M3S;
    let largestStep = 0;
    let largestPa = LEAST_PA;
    let content = 0;
    for (let n = 0; n < freeNodes.length; n++) pressure[freeNodes[n]!]! += rise[n]!;
    for (let b = 0; b < branches; b++) {
      const up = (from[b]! < 0 ? 0 : rise[from[b]!]!) - (to[b]! < 0 ? 0 : rise[to[b]!]!);
      line.pull[b] = up - residual[b]!;
      line.step[b] = conductance[b]! * line.pull[b]!;
    }
    // Along flat laws the step above is a small difference of pressures blown up; balance says it exactly.
    balance(over, used, line.step);
    for (let b = 0; b < branches; b++) {
      const d = line.step[b]!;
      content += line.pull[b]! * d;
      largestFlow = Math.max(largestFlow, Math.abs(flow[b]!), Math.abs(flow[b]! + d));
      largestStep = Math.max(largestStep, Math.abs(d));
      const across = pressure[fromNode[b]!]! - pressure[toNode[b]!]!;
      largestPa = Math.max(largestPa, Math.abs(across), Math.abs(addedPa[b]!));
    }
    let isLossMet = true;
    let most = 0;
    for (let b = 0; b < branches; b++) {
      const off = Math.abs(line.pull[b]!);
      const levels = Math.abs(pressure[fromNode[b]!]!) + Math.abs(pressure[toNode[b]!]!);
      const rounding = 16 * ROUNDING * (slope[b]! * largestFlow + Math.abs(drop[b]!) + levels);
      if (off > LOSS_SHARE * largestPa + rounding) isLossMet = false;
      if (off > most) {
        most = off;
        worst = b;
      }
    }
    if (isLossMet) {
      stalled = content >= contentBefore / 4 ? stalled + 1 : 0;
      const isStill = largestStep <= FLOW_SHARE * largestFlow;
      if (isStill || stalled >= MOST_STALLED || content <= CONTENT_SHARE * largestPa * largestFlow)
        return { ok: true, iterations: iteration, trials: line.trials };
    }
    // Rounding is all that is left of the step; the pressures, at least, are better than before.
    if (!(content > 0)) {
      spent++;
      if (spent >= MOST_STALLED) return { ok: true, iterations: iteration, trials: line.trials };
      continue;
    }
    contentBefore = content;
    const t = stepLength(problem, state, line, -content);
    if (watch.refused !== undefined) return watch.refused;
    if (t === Infinity) {
      const b = line.step.findIndex((d) => Math.abs(d) === largestStep);
      return refusal(
        'unbounded',
        `flow through "${branchIds[b]}" would grow without end: nothing loses what drives it`,
        [branchIds[b]!],
      );
    }
    if (t === 0) {
      if (isLossMet) return { ok: true, iterations: iteration, trials: line.trials };
      break;
    }
    flow.set(line.flow);
    drop.set(line.drop);
    slope.set(line.slope);
  }
  return refusal(
    'unsettled',
    `not settled in ${problem.mostIterations} steps: "${branchIds[worst]}" loses ${drop[worst]!.toPrecision(4)} Pa at ${flow[worst]!.toPrecision(4)} m3/s, and that does not fit the pressures at its ends`,
    [branchIds[worst]!],
  );
}
