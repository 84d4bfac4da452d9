import { coefficientLaw } from './linear-quadratic.ts';
import type { Loss } from './loss.ts';
import { FlowError, needPositive, needWithin } from '../flow-error.ts';

/** Coefficients of a tee's two legs on the velocity in the leg that carries both flows. One may be below zero. */
export interface TeeCoefficients {
  readonly branch: number;
  readonly run: number;
}

/** The angle's part of the converging rule, straight lines between the rows, as printed. */
const angleRows = [
  [30, 1.74],
  [45, 1.41],
  [60, 1],
  [90, 0],
] as const;

function angleFactor(angleDeg: number): number {
  if (angleDeg <= angleRows[0][0]) return angleRows[0][1];
  for (let i = 1; i < angleRows.length; i++) {
    const [at, f] = angleRows[i]!;
    const [before, g] = angleRows[i - 1]!;
    if (angleDeg <= at) return g + ((f - g) * (angleDeg - before)) / (at - before);
  }
  return 0;
}

/**
 * Coefficients of a tee in which two flows join (flow-of-fluids handbook, rule of 2009 with its errata).
 *
 * @param branchShare - flow of the branch over both flows, 0 to 1
 * @param branchOverRun - bore of the branch over that of the run, 0 to 1
 * @param angleDeg - between branch and run: 90 a tee, less a wye, 30 to 90
 */
export function joiningTee(branchShare: number, branchOverRun: number, angleDeg: number): TeeCoefficients {
  checkTee(branchShare, branchOverRun, angleDeg);
  const area = branchOverRun * branchOverRun;
  const f = angleFactor(angleDeg);
  const c = area <= 0.35 ? 1 : branchShare <= 0.4 ? 0.9 * (1 - branchShare) : 0.55;
  const rest = (1 - branchShare) ** 2;
  const pull = (f / area) * branchShare ** 2;
  return {
    branch: c * (1 + (branchShare / area) ** 2 - 2 * rest - pull),
    run: angleDeg >= 75 ? 1.55 * branchShare - branchShare ** 2 : 1 - rest - pull,
  };
}

/** Coefficients of a tee in which a flow divides; the arguments are those of `joiningTee`. */
export function dividingTee(branchShare: number, branchOverRun: number, angleDeg: number): TeeCoefficients {
  checkTee(branchShare, branchOverRun, angleDeg);
  const area = branchOverRun * branchOverRun;
  const speed = branchShare / area;
  const sharp = angleDeg < 60 || branchOverRun <= 2 / 3;
  const [h, j] = sharp ? [1, 2] : [0.3, 0];
  const m = area <= 0.4 ? 0.4 : (branchShare <= 0.5 ? 2 : 0.3) * (2 * branchShare - 1);
  return {
    branch:
      branchGain(branchShare, area, angleDeg) * (1 + h * speed ** 2 - j * speed * Math.cos((angleDeg * Math.PI) / 180)),
    run: m * branchShare ** 2,
  };
}

function branchGain(share: number, area: number, angleDeg: number): number {
  if (angleDeg >= 75) return area <= 2 / 3 ? 1 : 1 + 0.3 * share * share;
  if (area <= 0.35) return share <= 0.4 ? 1.1 - 0.7 * share : 0.85;
  return share <= 0.6 ? 1 - 0.6 * share : 0.6;
}

function checkTee(branchShare: number, branchOverRun: number, angleDeg: number): void {
  needWithin('tee, share of the branch in the flow', branchShare, 0, 1, '');
  if (!(branchOverRun > 0 && branchOverRun <= 1))
    throw new FlowError('tee, bore of the branch over that of the run', branchOverRun, 'above 0, up to 1');
  needWithin('tee, angle', angleDeg, 30, 90, 'deg');
}

/** K of a tee's leg at rest is of the order of this over Re: the three-constant table's 200 through and 800 round. */
const legSlow = { run: 200, branch: 800 } as const;

/**
 * One leg of a tee as an element of a network, at a stated split of the flow. A real tee's coefficient hangs on both flows,
 * and may be below zero where the faster flow drags the slower one along; a network needs laws of their own flow that rise.
 * So the split is stated (a network is solved, the split read off, and solved again), and a coefficient below zero counts as
 * zero: the gain is left out, which is the cautious side.
 *
 * @param legBoreM - bore of this leg [m]
 * @param combinedBoreM - bore of the leg that carries both flows [m]
 * @param legShare - flow of this leg over both flows, above 0
 * @param slowTimes - of the part that falls with Reynolds' number: below 1 where a small hole in the wall hardly slows the run
 */
export function teeLegLoss(
  where: string,
  leg: 'run' | 'branch',
  coefficients: TeeCoefficients,
  legBoreM: number,
  combinedBoreM: number,
  legShare: number,
  slowTimes = 1,
): Loss {
  needPositive(`${where}, bore`, legBoreM, 'm');
  needPositive(`${where}, bore of the leg with both flows`, combinedBoreM, 'm');
  if (!(legShare > 0 && legShare <= 1))
    throw new FlowError(`${where}, share of this leg`, legShare, 'above 0, up to 1');
  const onOwnVelocity = Math.max(0, coefficients[leg]) * ((legBoreM / combinedBoreM) ** 2 / legShare) ** 2;
  return {
    where,
    under: (fluid) => coefficientLaw(where, legBoreM, slowTimes * legSlow[leg], onOwnVelocity, fluid),
    times: [0.5, 2],
    source: 'tp-410',
    known: 'second-hand',
  };
}
