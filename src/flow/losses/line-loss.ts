import { type Drop, knownToRise, type LossLaw } from '../network/loss-law.ts';
import type { Bend } from './bends-of-way.ts';
import { boreForce } from './bore-force.kernel.ts';
import type { FrictionForce, FrictionRule } from './friction-force.kernel.ts';
import type { Flowing, Loss } from './loss.ts';
import { needFluid, needNotNegative, needPositive, needWithin } from '../flow-error.ts';

/** A hose or tube of one bore. */
export interface BoreOfLine {
  readonly where: string;
  readonly boreM: number;
  /** Along the centreline, bends included. */
  readonly lengthM: number;
  readonly roughnessM: number;
  readonly bends?: readonly Bend[];
  /** Absent: from laminar to turbulent in one equation. */
  readonly rule?: FrictionRule;
}

/** Rougher than this the friction equations do not hold [-]. */
const roughestBore = 0.1;
/** Bends spread by this much between sources and between hung and measured curves; friction alone by a tenth. */
const bendTimes = [0.8, 1.3] as const;
const straightTimes = [0.9, 1.1] as const;

/**
 * Friction and bends of a hose or tube as a law that rises from rest to turbulence. What depends on the shape alone is
 * worked out once; a law for another fluid then costs nothing.
 */
export function lineLoss(line: BoreOfLine): Loss {
  const { where, boreM, lengthM, roughnessM } = line;
  needPositive(`${where}, bore`, boreM, 'm');
  needPositive(`${where}, length`, lengthM, 'm');
  needNotNegative(`${where}, roughness`, roughnessM, 'm');
  needWithin(`${where}, roughness over bore`, roughnessM / boreM, 0, roughestBore, '');
  const bends = (line.bends ?? []).map((bend, i) => {
    needPositive(`${where}, angle of bend ${i}`, bend.angleRad, 'rad');
    needPositive(`${where}, radius of bend ${i}`, bend.radiusM, 'm');
    return { angleRad: bend.angleRad, radiusOverBore: bend.radiusM / boreM };
  });
  const force = boreForce(line.rule ?? 'all-regimes', roughnessM / boreM, lengthM / boreM, bends);
  const isRisingTo = riseOf(force);
  return {
    where,
    under: (fluid) => lawOfForce(force, where, boreM, fluid, isRisingTo),
    times: bends.length > 0 ? bendTimes : straightTimes,
    source: line.rule === 'colebrook' ? 'colebrook-1939' : 'churchill-1977',
    known: 'second-hand',
  };
}

/** What a force is written to: read at once, by one law at a time. */
const out = new Float64Array(2);

/** Steps in which a force is looked at, from rest up to twice the Reynolds number asked for, and about rest. */
const LOOKS = 48;
const LOOKS_AT_REST = 6;

/** Whether a force rises from rest to a Reynolds number: looked at once up to twice that, for the flows of all fluids. */
export function riseOf(force: FrictionForce): (reynolds: number) => boolean {
  let known = 0;
  let falls = false;
  return (reynolds) => {
    if (falls || reynolds <= known) return !falls;
    const upTo = 2 * reynolds;
    let before = 0;
    for (let i = 1; i <= LOOKS_AT_REST + LOOKS; i++) {
      const share = i <= LOOKS_AT_REST ? i / (LOOKS * (LOOKS_AT_REST + 1)) : (i - LOOKS_AT_REST) / LOOKS;
      force(share * upTo, out);
      falls ||= !(out[0]! > before && out[1]! > 0);
      before = out[0]!;
    }
    known = upTo;
    return !falls;
  };
}

function lawOfForce(
  force: FrictionForce,
  where: string,
  boreM: number,
  fluid: Flowing,
  isRisingTo: (reynolds: number) => boolean,
): LossLaw {
  needFluid(where, fluid);
  const { densityKgM3, viscosityPaS } = fluid;
  const reynoldsPerFlow = (4 * densityKgM3) / (Math.PI * boreM * viscosityPaS);
  const pressure = (viscosityPaS * viscosityPaS) / (2 * densityKgM3 * boreM * boreM);
  force(1e-90, out);
  const atRest = out[1]! * pressure * reynoldsPerFlow;
  const law = (flowM3S: number): Drop => {
    if (flowM3S === 0) return { dropPa: 0, slope: atRest };
    const reynolds = Math.abs(flowM3S) * reynoldsPerFlow;
    force(reynolds, out);
    const dropPa = out[0]! * pressure;
    return { dropPa: flowM3S < 0 ? -dropPa : dropPa, slope: out[1]! * pressure * reynoldsPerFlow };
  };
  return knownToRise(law, (flowM3S) => isRisingTo(Math.abs(flowM3S) * reynoldsPerFlow));
}
