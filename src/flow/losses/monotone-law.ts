import type { LossLaw } from '../network/loss-law.ts';

/** Whether a law rises over a range of flow, and if not, where it first fails and how. */
export type Rising = { readonly rises: true } | { readonly rises: false; readonly atM3S: number; readonly why: string };

/** Flows looked at: as many evenly spread, and as many closing in on rest from either side. */
const looks = 400;

/**
 * Looks at a law over a range of flow: whether it is finite, its slope above zero and each drop above the one before.
 * An element that fails is named and refused: a network with it may have no answer, or more than one.
 */
export function monotoneLaw(law: LossLaw, leastM3S: number, mostM3S: number): Rising {
  if (!(Number.isFinite(leastM3S) && Number.isFinite(mostM3S) && leastM3S < mostM3S))
    return { rises: false, atM3S: leastM3S, why: `no range of flow: ${leastM3S} to ${mostM3S} m3/s` };
  let before = -Infinity;
  let beforeAt = leastM3S;
  for (const flowM3S of flowsLookedAt(leastM3S, mostM3S)) {
    const { dropPa, slope } = law(flowM3S);
    const fails = (why: string): Rising => ({ rises: false, atM3S: flowM3S, why });
    if (!Number.isFinite(dropPa)) return fails(`the drop is ${dropPa} at ${flowM3S} m3/s`);
    if (!(slope > 0 && Number.isFinite(slope))) return fails(`the slope is ${slope} Pa s/m3 at ${flowM3S} m3/s`);
    if (!(dropPa > before))
      return fails(`the drop falls from ${before} Pa at ${beforeAt} m3/s to ${dropPa} Pa at ${flowM3S} m3/s`);
    before = dropPa;
    beforeAt = flowM3S;
  }
  return { rises: true };
}

function flowsLookedAt(least: number, most: number): readonly number[] {
  const widest = Math.max(Math.abs(least), Math.abs(most));
  const flows = [0];
  for (let i = 0; i <= looks; i++) {
    flows.push(least + ((most - least) * i) / looks);
    const near = widest * 10 ** ((-9 * i) / looks);
    flows.push(near, -near);
  }
  const sorted = flows.filter((q) => q >= least && q <= most).sort((a, b) => a - b);
  return sorted.filter((q, i) => i === 0 || q - sorted[i - 1]! > 1e-13 * widest);
}
