import { laminarUpTo, turbulentFrom } from '../losses/friction-factor.ts';
import { FlowError, needFluid, needNotNegative, needPositive, needWithin } from '../flow-error.ts';
import type { Flowing } from '../losses/loss.ts';
import { laminarFullDrain, laminarPartFullRatio } from './laminar-part-full.ts';
import { partFull, turbulentDrainFlow } from './part-full.ts';

/** A drain that runs by gravity alone. */
export interface Drain {
  readonly where: string;
  readonly boreM: number;
  /** How far it falls from level; its least, where it varies [deg]. */
  readonly fallDeg: number;
  readonly roughnessM: number;
}

/** What a drain carries when filled to a depth. */
export interface DrainFlow {
  readonly flowM3S: number;
  readonly velocityMS: number;
  /** 4 V R/nu. */
  readonly reynolds: number;
  readonly regime: 'laminar' | 'between' | 'turbulent';
  readonly depthOverBore: number;
}

/**
 * Steady flow of a drain filled to a depth: laminar (exact) up to Reynolds 2000; where it would run faster, turbulent (the
 * rough-pipe law on four hydraulic radii), or held at 2000 where that law gives less. From 2000 to 4000 it is uncertain.
 */
export function drainFlow(drain: Drain, depthOverBore: number, fluid: Flowing): DrainFlow {
  checkDrain(drain);
  needFluid(drain.where, fluid);
  needWithin(`${drain.where}, depth over bore`, depthOverBore, 0, 1, '');
  return flowAt(drain, depthOverBore, fluid);
}

function flowAt(drain: Drain, depthOverBore: number, fluid: Flowing): DrainFlow {
  const slope = Math.sin((drain.fallDeg * Math.PI) / 180);
  const { areaM2, hydraulicRadiusM } = partFull(drain.boreM, depthOverBore * drain.boreM);
  if (areaM2 === 0 || slope === 0) return { flowM3S: 0, velocityMS: 0, reynolds: 0, regime: 'laminar', depthOverBore };
  const nu = fluid.viscosityPaS / fluid.densityKgM3;
  // Reynolds' number of a flow is 4 Q over nu and the wetted wall.
  const perReynolds = (areaM2 * nu) / (4 * hydraulicRadiusM);
  const laminar =
    laminarFullDrain(drain.boreM, slope, fluid.densityKgM3, fluid.viscosityPaS) * laminarPartFullRatio(depthOverBore);
  const isLaminar = laminar <= laminarUpTo * perReynolds;
  const flowM3S = isLaminar
    ? laminar
    : Math.max(laminarUpTo * perReynolds, turbulentDrainFlow(areaM2, hydraulicRadiusM, slope, drain.roughnessM, nu));
  const reynolds = flowM3S / perReynolds;
  return {
    flowM3S,
    velocityMS: flowM3S / areaM2,
    reynolds,
    regime: isLaminar ? 'laminar' : reynolds >= turbulentFrom ? 'turbulent' : 'between',
    depthOverBore,
  };
}

/** A drain deeper than this may fill suddenly and then gulps instead of running: common practice, no source [-]. */
const usualMostDepth = 0.5;
/** Laminar flow is greatest at this filling (turbulent at 0.94): a drain asked for more backs up [-]. */
const fullest = 0.86;

/** Depth at which a drain carries a flow, or undefined if it cannot at any depth (it is looked for up to 0.86 of the bore). */
export function drainDepth(drain: Drain, flowM3S: number, fluid: Flowing): DrainFlow | undefined {
  checkDrain(drain);
  needFluid(drain.where, fluid);
  needNotNegative(`${drain.where}, flow`, flowM3S, 'm3/s');
  if (flowAt(drain, fullest, fluid).flowM3S < flowM3S) return undefined;
  let low = 0;
  let high = fullest;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (flowAt(drain, middle, fluid).flowM3S < flowM3S) low = middle;
    else high = middle;
  }
  return flowAt(drain, high, fluid);
}

/** Whether a drain carries the foam that comes off a turbo. */
export interface FoamAnswer {
  readonly carries: boolean;
  /** Most oil (without its air) that it carries at the allowed depth [m3/s]. */
  readonly mostOilM3S: number;
  /** What it would run at with the oil asked for; absent where it would run over. */
  readonly runsAt: DrainFlow | undefined;
}

/** Foam on its way down a drain. */
export interface Foam {
  /** Volume of the foam over that of its oil: 1 is no air, 2 is half air. What leaves a turbo is 2 to 4, from memory. */
  readonly factor: number;
  /** Filling allowed, so that air can pass above [-]; absent: 0.5. */
  readonly mostDepth?: number;
}

/**
 * Whether a drain carries an oil flow that comes as foam. The foam is counted with the oil's own viscosity and the density of
 * the mixture; thicker foam runs slower still, so a bare yes is no proof.
 */
export function carriesFoam(drain: Drain, oilM3S: number, foam: Foam, oil: Flowing): FoamAnswer {
  checkDrain(drain);
  needFluid(drain.where, oil);
  needNotNegative(`${drain.where}, oil flow`, oilM3S, 'm3/s');
  needWithin(`${drain.where}, foam factor`, foam.factor, 1, 20, '');
  const mostDepth = foam.mostDepth ?? usualMostDepth;
  needWithin(`${drain.where}, filling allowed`, mostDepth, 0.05, fullest, '');
  const mixture = { densityKgM3: oil.densityKgM3 / foam.factor, viscosityPaS: oil.viscosityPaS };
  const mostOilM3S = flowAt(drain, mostDepth, mixture).flowM3S / foam.factor;
  return { carries: mostOilM3S >= oilM3S, mostOilM3S, runsAt: drainDepth(drain, oilM3S * foam.factor, mixture) };
}

function checkDrain(drain: Drain): void {
  const { where } = drain;
  needPositive(`${where}, bore`, drain.boreM, 'm');
  needNotNegative(`${where}, roughness`, drain.roughnessM, 'm');
  if (!(drain.fallDeg >= 0 && drain.fallDeg <= 90))
    throw new FlowError(`${where}, fall`, drain.fallDeg, '0 to 90 deg; a drain that rises does not run by gravity');
}
