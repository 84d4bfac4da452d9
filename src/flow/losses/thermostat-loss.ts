import { coefficientLaw } from './linear-quadratic.ts';
import type { Loss } from './loss.ts';
import { FlowError, needNotNegative, needPositive, needWithin } from '../flow-error.ts';

/** A thermostat by temperature. */
export interface Thermostat {
  readonly where: string;
  readonly boreM: number;
  readonly opensAtC: number;
  readonly fullAtC: number;
  /** Loss coefficient wide open, on the velocity in the bore. */
  readonly openCoefficient: number;
  /** Area of its bleed hole or leak over its open area, above 0. */
  readonly bleedShare: number;
}

/** Slow part of an open thermostat's coefficient: of the order of a globe valve's, common practice. */
const slow = 1500;

/**
 * Share of its open area at a temperature: the bleed when cold, all of it at the full temperature, a straight line between.
 * Wax has a band of several degrees between opening and shutting, which this leaves out.
 */
export function thermostatOpenShare(thermostat: Thermostat, temperatureC: number): number {
  const { where, opensAtC, fullAtC, bleedShare } = thermostat;
  if (!(Number.isFinite(opensAtC) && fullAtC > opensAtC && Number.isFinite(fullAtC)))
    throw new FlowError(`${where}, temperature of full opening`, fullAtC, `above the opening at ${opensAtC} C`);
  needWithin(`${where}, bleed share`, bleedShare, 1e-4, 1, '');
  if (!Number.isFinite(temperatureC)) throw new FlowError(`${where}, temperature`, temperatureC, 'a finite number C');
  const lift = Math.min(1, Math.max(0, (temperatureC - opensAtC) / (fullAtC - opensAtC)));
  return bleedShare + (1 - bleedShare) * lift;
}

/** A thermostat at one temperature of its wax: the open coefficient over the square of the open share. */
export function thermostatLoss(thermostat: Thermostat, temperatureC: number): Loss {
  const { where, boreM, openCoefficient } = thermostat;
  needPositive(`${where}, bore`, boreM, 'm');
  needNotNegative(`${where}, loss coefficient`, openCoefficient, '');
  const open = thermostatOpenShare(thermostat, temperatureC);
  return {
    where,
    under: (fluid) => coefficientLaw(where, boreM, slow / open ** 2, openCoefficient / open ** 2, fluid),
    times: [0.7, 1.5],
    source: 'common-practice',
    known: 'practice',
  };
}
