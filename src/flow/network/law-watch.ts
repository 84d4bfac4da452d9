import type { LossLaw } from './loss-law.ts';
import { type RefusedNetwork, refusal } from './network.ts';

/** Drops closer than this share of their size count as equal: what a law itself may lose in rounding. */
const LAW_ROUNDING = 1e-9;
/** Places at which a law is looked at up to its own flow, and about no flow. */
const SAMPLES = 24;
const FEW_SAMPLES = 6;

/** All laws of a net at all flows, looked at for what would break the convex problem. */
export interface LawWatch {
  /**
   * Drops and slopes at `flow`. False, and `refused` is set, where a law gives no number or a slope below zero. On trial,
   * an infinite drop counts as a number: the search comes back from so far out.
   */
  lossesAt(flow: Float64Array, drop: Float64Array, slope: Float64Array, isTrial: boolean): boolean;
  /** False, and `refused` is set, where a drop moved against its flow. */
  rises(flow0: Float64Array, drop0: Float64Array, flow1: Float64Array, drop1: Float64Array): boolean;
  /** False, and `refused` is set, where a law does not rise all the way from no flow to `flow`, and `leastFlow` either way. */
  risesTo(flow: Float64Array, leastFlow: number): boolean;
  refused: RefusedNetwork | undefined;
}

const shown = (x: number): string => String(Number(x.toPrecision(4)));

function noNumber(element: string, words: string): RefusedNetwork {
  return refusal('not-a-number', `element "${element}": ${words}; allowed: numbers`, [element]);
}

function fallsAt(element: string, flow: number, slope: number): RefusedNetwork {
  const words = `at ${shown(flow)} m3/s its loss falls by ${shown(-slope)} Pa per m3/s`;
  return refusal('falls', `element "${element}": ${words}; allowed: a loss that rises with flow`, [element]);
}

function fallsBetween(element: string, flow0: number, drop0: number, flow1: number, drop1: number): RefusedNetwork {
  const [low, high] = flow0 < flow1 ? [flow0, flow1] : [flow1, flow0];
  const [atLow, atHigh] = flow0 < flow1 ? [drop0, drop1] : [drop1, drop0];
  const words = `its loss goes from ${shown(atLow)} Pa at ${shown(low)} m3/s to ${shown(atHigh)} Pa at ${shown(high)} m3/s`;
  return refusal('falls', `element "${element}": ${words}; allowed: a loss that rises with flow`, [element]);
}

const isWithinRounding = (by: number, drop0: number, drop1: number): boolean =>
  Math.abs(by) <= LAW_ROUNDING * Math.max(Math.abs(drop0), Math.abs(drop1));

/** Why a law does not rise on the way from one flow to another, looked at in some steps; undefined where it does. */
function faultAlong(
  element: string,
  law: LossLaw,
  from: number,
  to: number,
  steps: number,
): RefusedNetwork | undefined {
  let q0 = from;
  let drop0 = law(from).dropPa;
  for (let s = 1; s <= steps; s++) {
    const q1 = from + ((to - from) * s) / steps;
    const drop1 = law(q1).dropPa;
    const by = (drop1 - drop0) * Math.sign(to - from);
    if (Number.isNaN(by))
      return noNumber(element, `its law gives no finite loss between ${shown(q0)} and ${shown(q1)} m3/s`);
    if (by < 0 && !isWithinRounding(by, drop0, drop1)) return fallsBetween(element, q0, drop0, q1, drop1);
    q0 = q1;
    drop0 = drop1;
  }
  return undefined;
}

function faultUpTo(element: string, law: LossLaw, flow: number, leastFlow: number): RefusedNetwork | undefined {
  if (law.isKnownToRise?.(Math.max(Math.abs(flow), leastFlow)) === true) return undefined;
  const fault =
    faultAlong(element, law, 0, flow, SAMPLES) ?? faultAlong(element, law, -leastFlow, leastFlow, FEW_SAMPLES);
  if (fault !== undefined) return fault;
  const low = law(-leastFlow).dropPa;
  const high = law(leastFlow).dropPa;
  return high > low ? undefined : fallsBetween(element, -leastFlow, low, leastFlow, high);
}

/** `elements` names each law. */
export function lawWatch(elements: readonly string[], laws: readonly LossLaw[]): LawWatch {
  const refuse = (fault: RefusedNetwork | undefined): boolean => {
    watch.refused = fault;
    return fault === undefined;
  };
  const watch: LawWatch = {
    refused: undefined,
    lossesAt(flow, drop, slope, isTrial) {
      for (let b = 0; b < laws.length; b++) {
        const q = flow[b]!;
        const d = laws[b]!(q);
        drop[b] = d.dropPa;
        slope[b] = d.slope;
        const isNumber = Number.isFinite(d.dropPa) && Number.isFinite(d.slope);
        if (!isNumber && !(isTrial && d.dropPa * q === Infinity && !Number.isNaN(d.slope)))
          return refuse(
            noNumber(elements[b]!, `at ${shown(q)} m3/s its law gives a loss of ${d.dropPa} Pa with slope ${d.slope}`),
          );
        if (d.slope < 0) return refuse(fallsAt(elements[b]!, q, d.slope));
      }
      return true;
    },
    rises(flow0, drop0, flow1, drop1) {
      for (let b = 0; b < laws.length; b++) {
        const by = drop1[b]! - drop0[b]!;
        if (!(by * (flow1[b]! - flow0[b]!) < 0) || isWithinRounding(by, drop0[b]!, drop1[b]!)) continue;
        return refuse(fallsBetween(elements[b]!, flow0[b]!, drop0[b]!, flow1[b]!, drop1[b]!));
      }
      return true;
    },
    risesTo(flow, leastFlow) {
      for (let b = 0; b < laws.length; b++) {
        const fault = faultUpTo(elements[b]!, laws[b]!, flow[b]!, leastFlow);
        if (fault !== undefined) return refuse(fault);
      }
      return true;
    },
  };
  return watch;
}
