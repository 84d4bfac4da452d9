import type { LossLaw } from '../network/loss-law.ts';
import { boreAreaM2 } from './linear-quadratic.ts';
import type { Flowing, Loss } from './loss.ts';
import { FlowError, needFluid, needPositive } from '../flow-error.ts';
import { reliefViscosityFactor } from './orifice-flow.ts';

/** A spring-loaded relief valve, from its inlet (first end) to its outlet. */
export interface ReliefValve {
  readonly where: string;
  /** It begins to open at this difference of pressure [Pa]. */
  readonly cracksAtPa: number;
  /** It is wide open, and passes its full flow, at this difference [Pa]. */
  readonly fullAtPa: number;
  readonly fullFlowM3S: number;
  /** Its bore, for the viscosity correction [m]. */
  readonly boreM: number;
}

/** At 71 % of the cracking pressure the shut valve leaks this share of its full flow. */
const leakShare = 1e-4;
/** Wide open, the law turns from the spring's line into that of a hole over this share more flow. */
const turnShare = 0.1;

/**
 * A relief valve as a rising law: practically shut below its cracking pressure (its leak keeps the law rising), a straight
 * line from cracking to full flow, and beyond that the square law of a hole that opens no further. A thick fluid passes Kv
 * times the full flow. Backward it stays shut but for its leak.
 */
export function reliefValveLoss(valve: ReliefValve): Loss {
  const { where, cracksAtPa, fullAtPa, fullFlowM3S, boreM } = valve;
  needPositive(`${where}, cracking pressure`, cracksAtPa, 'Pa');
  needPositive(`${where}, full flow`, fullFlowM3S, 'm3/s');
  needPositive(`${where}, bore`, boreM, 'm');
  if (!(fullAtPa > cracksAtPa && Number.isFinite(fullAtPa)))
    throw new FlowError(`${where}, pressure of full flow`, fullAtPa, `above the cracking pressure of ${cracksAtPa} Pa`);
  return {
    where,
    under: (fluid) => reliefLaw(valve, fluid),
    times: [0.9, 1.1],
    source: 'api-520',
    known: 'second-hand',
  };
}

function reliefLaw(valve: ReliefValve, fluid: Flowing): LossLaw {
  needFluid(valve.where, fluid);
  const { cracksAtPa: p1, fullAtPa: p2, fullFlowM3S, boreM } = valve;
  const reynolds = (fluid.densityKgM3 * fullFlowM3S * boreM) / (boreAreaM2(boreM) * fluid.viscosityPaS);
  const full = fullFlowM3S * Math.min(1, reliefViscosityFactor(reynolds));
  const leak = leakShare * full;
  const line = (p2 - p1) / full;
  const atRest = p1 / leak + line;
  const turn = turnShare * full;
  const holeFrom = full + turn;
  const hole = p2 / (full * full);
  const holeSlope = Math.max(2 * hole * holeFrom, line) - line;
  const atHole = (holeSlope * turn) / 2;
  return (q) => {
    if (q < 0) return { dropPa: atRest * q, slope: atRest };
    const root = Math.sqrt(q * q + leak * leak);
    let dropPa = (p1 * q) / root + line * q;
    let slope = (p1 * leak * leak) / (root * root * root) + line;
    if (q > holeFrom) {
      dropPa += atHole + hole * (q * q - holeFrom * holeFrom) - line * (q - holeFrom);
      slope += 2 * hole * q - line;
    } else if (q > full) {
      const x = q - full;
      dropPa += (holeSlope * x * x) / (2 * turn);
      slope += (holeSlope * x) / turn;
    }
    return { dropPa, slope };
  };
}
