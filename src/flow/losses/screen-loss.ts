import { boreAreaM2, linearQuadraticLaw } from './linear-quadratic.ts';
import type { Loss } from './loss.ts';
import { FlowError, needFluid, needPositive, needWithin } from '../flow-error.ts';

/**
 * Loss of a screen of round wire in turbulent flow, on the velocity head before it.
 *
 *     K = 1.3 (1 - s) + (1/s - 1)^2
 *
 * @param openShare - open share of its area [-]
 * @returns loss coefficient [-]
 * @valid 0.1 <= openShare <= 1, wire Reynolds number above about 1000
 * @source idelchik-handbook
 * @example screenLossCoefficient(0.5) // 1.65
 */
export const screenLossCoefficient = (openShare: number): number => 1.3 * (1 - openShare) + (1 / openShare - 1) ** 2;

/** K of a screen at rest is this over the Reynolds number of its wire at the speed in the gaps, from memory. */
const wireSlow = 22;

/** A screen across the flow. */
export interface Screen {
  readonly where: string;
  /** The whole area of the screen, wires and gaps [m2]; or the bore that it closes. */
  readonly areaM2?: number;
  readonly boreM?: number;
  /** Open share of its area, above 0, below 1. */
  readonly openShare: number;
  readonly wireM: number;
  /** Share of the gaps that dirt has closed; 0 clean. */
  readonly cloggedShare?: number;
}

/** A screen, clean or partly clogged. Handbooks spread by two. */
export function screenLoss(screen: Screen): Loss {
  const { where, wireM } = screen;
  needPositive(`${where}, wire`, wireM, 'm');
  if (!(screen.openShare > 0 && screen.openShare < 1))
    throw new FlowError(`${where}, open share`, screen.openShare, 'above 0, below 1');
  needWithin(`${where}, clogged share`, screen.cloggedShare ?? 0, 0, 0.99, '');
  const area = screen.areaM2 ?? boreAreaM2(screen.boreM ?? Number.NaN);
  needPositive(`${where}, area`, area, 'm2');
  const open = screen.openShare * (1 - (screen.cloggedShare ?? 0));
  return {
    where,
    under: (fluid) => {
      needFluid(where, fluid);
      // Re of the wire is rho V/(open) wire/mu, so that the slow part is linear in V.
      const slow = (wireSlow * open * fluid.viscosityPaS) / (2 * wireM * area);
      return linearQuadraticLaw(where, slow, (screenLossCoefficient(open) * fluid.densityKgM3) / (2 * area * area));
    },
    times: [0.5, 2],
    source: 'idelchik-handbook',
    known: 'from-memory',
  };
}
