import { boreAreaM2, linearQuadraticLaw } from './linear-quadratic.ts';
import type { Loss } from './loss.ts';
import { FlowError, needFluid, needNotNegative, needPositive, needWithin } from '../flow-error.ts';
import { plateLostShare } from './orifice-flow.ts';

/** A drilled or sharp-edged restrictor. */
export interface Restrictor {
  readonly where: string;
  readonly boreM: number;
  /** Length of its bore [m]; absent: a thin plate. */
  readonly lengthM?: number;
  /** Discharge coefficient at high Reynolds numbers; absent 0.62, a sharp edge. */
  readonly discharge?: number;
  /** Bore of the pipe around it, for the part of the drop that is won back behind it; absent: much wider. */
  readonly pipeBoreM?: number;
}

const sharpDischarge = 0.62;

/**
 * A restrictor from creeping to fast flow. Fast: dp = rho/2 (Q/(Cd A))^2, less what is won back in a pipe. Creeping flow
 * through a round hole in a thin plate adds 24 mu Q/d^3 (exact), its length 128 mu L Q/(pi d^4); so Cd falls with Reynolds'
 * number as Cd/sqrt(1 + 14.5/Re) for a sharp edge.
 */
export function restrictorLoss(restrictor: Restrictor): Loss {
  const { where, boreM } = restrictor;
  const lengthM = restrictor.lengthM ?? 0;
  const discharge = restrictor.discharge ?? sharpDischarge;
  needPositive(`${where}, bore`, boreM, 'm');
  needNotNegative(`${where}, length`, lengthM, 'm');
  needWithin(`${where}, discharge coefficient`, discharge, 0.3, 1, '');
  const share = restrictor.pipeBoreM === undefined ? 0 : boreM / restrictor.pipeBoreM;
  if (!(share >= 0 && share < 1))
    throw new FlowError(`${where}, bore of the pipe`, restrictor.pipeBoreM, `wider than the restrictor, ${boreM} m`);
  const kept = share === 0 ? 1 : plateLostShare(share, discharge) * (1 - share ** 4);
  return {
    where,
    under: (fluid) => {
      needFluid(where, fluid);
      const mu = fluid.viscosityPaS;
      const slow = (24 * mu) / boreM ** 3 + (128 * mu * lengthM) / (Math.PI * boreM ** 4);
      return linearQuadraticLaw(where, slow, (kept * fluid.densityKgM3) / (2 * (discharge * boreAreaM2(boreM)) ** 2));
    },
    times: restrictor.discharge === undefined ? [0.9, 1.15] : [1, 1],
    source: restrictor.discharge === undefined ? 'sampson-1891' : 'builder',
    known: 'computed',
  };
}
