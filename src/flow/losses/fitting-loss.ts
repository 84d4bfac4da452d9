import { sharpEntrance, inwardEntrance, anyExit, roundedEntrance } from './bore-steps.ts';
import { type FittingId, threeConstantFittings } from './fitting-coefficients.ts';
import { coefficientLaw } from './linear-quadratic.ts';
import type { Loss } from './loss.ts';
import { FlowError, needFluid, needNotNegative, needPositive } from '../flow-error.ts';

const mPerIn = 0.0254;
/** K of an entrance or exit at rest is of the order of this over Re, from memory. */
const endSlow = 30;
/** A vanishing slow part still gives the law a slope at rest: K = 0.01/Re is 1e-5 at Re 1000. */
const leastSlow = 0.01;

/** A pipe fitting of the three-constant table. */
export function fittingLoss(where: string, fitting: FittingId, boreM: number): Loss {
  const row = threeConstantFittings.find((r) => r.id === fitting);
  if (row === undefined)
    throw new FlowError(`${where}, fitting`, `"${String(fitting)}"`, threeConstantFittings.map((r) => r.id).join(', '));
  needPositive(`${where}, bore`, boreM, 'm');
  const fast = row.ki * (1 + row.kd / (boreM / mPerIn) ** 0.3);
  return {
    where,
    under: (fluid) => coefficientLaw(where, boreM, row.k1, fast, fluid),
    times: [0.7, 1.4],
    source: row.source,
    known: 'second-hand',
  };
}

/** Any loss by a coefficient that the builder states, with its part that falls with Reynolds' number. */
export function coefficientLoss(where: string, boreM: number, fast: number, slow: number = leastSlow): Loss {
  needPositive(`${where}, bore`, boreM, 'm');
  needNotNegative(`${where}, loss coefficient`, fast, '');
  needPositive(`${where}, slow part of the loss coefficient`, slow, '');
  return {
    where,
    under: (fluid) => {
      needFluid(where, fluid);
      return coefficientLaw(where, boreM, slow, fast, fluid);
    },
    times: [1, 1],
    source: 'builder',
    known: 'read',
  };
}

/** How a bore begins at a tank. */
export type Entrance = 'sharp' | 'inward' | { readonly edgeRadiusM: number };

/** Where a line leaves a tank (flow into the bore is forward); backward it is an exit. */
export function entranceLoss(where: string, boreM: number, entrance: Entrance): Loss {
  needPositive(`${where}, bore`, boreM, 'm');
  if (typeof entrance === 'object') needNotNegative(`${where}, radius of the edge`, entrance.edgeRadiusM, 'm');
  const k = entrance === 'sharp' ? sharpEntrance : entrance === 'inward' ? inwardEntrance : rounded(entrance, boreM);
  return {
    where,
    under: (fluid) => coefficientLaw(where, boreM, endSlow, k, fluid, anyExit),
    times: [0.8, 1.4],
    source: typeof entrance === 'object' ? 'swamee-entrance' : 'tp-410',
    known: 'second-hand',
  };
}

const rounded = (edge: { readonly edgeRadiusM: number }, boreM: number): number =>
  roundedEntrance(edge.edgeRadiusM / boreM);

/** Where a line ends in a tank: the whole velocity head is lost; backward it is a sharp entrance. */
export function exitLoss(where: string, boreM: number): Loss {
  needPositive(`${where}, bore`, boreM, 'm');
  return {
    where,
    under: (fluid) => coefficientLaw(where, boreM, endSlow, anyExit, fluid, sharpEntrance),
    times: [1, 1.1],
    source: 'borda-carnot',
    known: 'computed',
  };
}
