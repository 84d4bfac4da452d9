import type { LossLaw } from '../network/loss-law.ts';
import { boreAreaM2 } from './linear-quadratic.ts';
import type { Flowing, Loss } from './loss.ts';
import { needFluid, needNotNegative, needPositive } from '../flow-error.ts';

/** A check valve; flow from its first end to its second is the way it opens. */
export interface CheckValve {
  readonly where: string;
  readonly boreM: number;
  /** It opens at this difference [Pa]; 0 for a flap without a spring. */
  readonly cracksAtPa: number;
  /** Loss coefficient when open, on the velocity in the bore, and its slow part (K = slow/Re + fast). */
  readonly openCoefficient: number;
  readonly slowCoefficient?: number;
  /** What leaks back [m3/s] at a back pressure [Pa]. */
  readonly leak: { readonly flowM3S: number; readonly atPa: number };
}

/** The three-constant table's figure for lift and swing checks lies between 1500 and 2000. */
const usualSlow = 1500;
/** The spring lets go over a flow of this speed in the bore [m/s]; and so does the seat take hold backward. */
const easeSpeedMS = 1e-3;
/** At the latest over this share of the stated leak, so that the law meets it to this share. */
const leakEaseShare = 0.01;

/** A check valve as a rising law, smooth through rest: opens at its cracking pressure, backward it passes its leak. */
export function checkValveLoss(valve: CheckValve): Loss {
  const { where } = valve;
  needPositive(`${where}, bore`, valve.boreM, 'm');
  needNotNegative(`${where}, cracking pressure`, valve.cracksAtPa, 'Pa');
  needNotNegative(`${where}, loss coefficient`, valve.openCoefficient, '');
  needPositive(`${where}, slow part of the loss coefficient`, valve.slowCoefficient ?? usualSlow, '');
  needPositive(`${where}, flow that leaks back`, valve.leak.flowM3S, 'm3/s');
  needPositive(`${where}, back pressure of its leak`, valve.leak.atPa, 'Pa');
  return {
    where,
    under: (fluid) => checkLaw(valve, fluid),
    times: [0.7, 1.5],
    source: 'darby-1999',
    known: 'practice',
  };
}

function checkLaw(valve: CheckValve, fluid: Flowing): LossLaw {
  needFluid(valve.where, fluid);
  const area = boreAreaM2(valve.boreM);
  const ease = easeSpeedMS * area;
  const p = valve.cracksAtPa;
  const a = ((valve.slowCoefficient ?? usualSlow) * fluid.viscosityPaS) / (2 * valve.boreM * area);
  const b = (valve.openCoefficient * fluid.densityKgM3) / (2 * area * area);
  const atRest = p / ease + a;
  const shut = Math.max(atRest, valve.leak.atPa / valve.leak.flowM3S);
  const leakEase = Math.min(ease, valve.leak.flowM3S * leakEaseShare);
  return (q) => {
    if (q >= 0) {
      const root = Math.sqrt(q * q + ease * ease);
      return {
        dropPa: (p * q) / root + (a + b * q) * q,
        slope: (p * ease * ease) / (root * root * root) + a + 2 * b * q,
      };
    }
    const fade = Math.exp(q / leakEase);
    return {
      dropPa: shut * q + (shut - atRest) * leakEase * (1 - fade),
      slope: shut - (shut - atRest) * fade,
    };
  };
}
