import { knownToRise, type LossLaw } from '../network/loss-law.ts';
import { needNotNegative, needPositive } from '../flow-error.ts';

/**
 * The law dp = a Q + b Q |Q|: viscous part and inertia. `a` is above zero, so that the law rises at rest too; `b` may differ
 * by direction (a step in bore is a contraction one way and an expansion the other).
 *
 * @param linearPaSM3 - a [Pa per m3/s]
 * @param forwardPaS2M6 - b for flow from first end to second [Pa per (m3/s)2]
 * @param backwardPaS2M6 - b for the other way; the same where it is not given
 */
export function linearQuadraticLaw(
  where: string,
  linearPaSM3: number,
  forwardPaS2M6: number,
  backwardPaS2M6: number = forwardPaS2M6,
): LossLaw {
  // Laws are made by the ten thousand: the words of a fault are put together only where there is one.
  if (!(linearPaSM3 > 0 && linearPaSM3 < Infinity)) needPositive(`${where}, viscous part`, linearPaSM3, 'Pa s/m3');
  if (!(forwardPaS2M6 >= 0 && forwardPaS2M6 < Infinity))
    needNotNegative(`${where}, inertia part`, forwardPaS2M6, 'Pa s2/m6');
  if (!(backwardPaS2M6 >= 0 && backwardPaS2M6 < Infinity))
    needNotNegative(`${where}, inertia part backward`, backwardPaS2M6, 'Pa s2/m6');
  // With a above zero and b not below, its slope a + 2 b |Q| is above zero everywhere.
  return knownToRise((flowM3S) => {
    const b = flowM3S < 0 ? -backwardPaS2M6 : forwardPaS2M6;
    const inertia = b * flowM3S;
    return { dropPa: (linearPaSM3 + inertia) * flowM3S, slope: linearPaSM3 + 2 * inertia };
  }, always);
}

const always = (): boolean => true;

/** Area of a round bore [m2]. */
export const boreAreaM2 = (boreM: number): number => (Math.PI * boreM * boreM) / 4;

/**
 * A fitting by its loss coefficients on the velocity in a bore: K = K_slow/Re + K_fast.
 * With the velocity head of Q that is dp = K_slow mu V/(2 D) + K_fast rho V^2/2.
 */
export function coefficientLaw(
  where: string,
  boreM: number,
  slow: number,
  fast: number,
  fluid: { readonly densityKgM3: number; readonly viscosityPaS: number },
  fastBackward: number = fast,
): LossLaw {
  needPositive(`${where}, bore`, boreM, 'm');
  const area = boreAreaM2(boreM);
  const head = fluid.densityKgM3 / (2 * area * area);
  return linearQuadraticLaw(where, (slow * fluid.viscosityPaS) / (2 * boreM * area), fast * head, fastBackward * head);
}
