import {
  boxTankDamping,
  boxTankFrequency,
  measuredRoundTankDamping,
  roundTankDamping,
  roundTankFrequency,
  standardGravity,
} from './slosh-formulas.ts';
import type { FirstWave } from './surface-motion.ts';
import { needPositive, FlowError } from '../flow-error.ts';

/** A tank's plan as the published waves know it: upright and round, or upright with square corners. */
export type WavePlan =
  | { readonly kind: 'round'; readonly radiusMm: number }
  | { readonly kind: 'box'; readonly alongMm: number; readonly acrossMm: number };

/** The first wave at 1 g, with both dampings where two are known. */
export interface TankWave extends FirstWave {
  /** The larger one, as measured in smooth round tanks; absent for a box. */
  readonly measuredDamping?: number;
  /** Where the published forms are left, in words; empty within them. */
  readonly limits: readonly string[];
}

/** Shallower than this share of the length along the wave the wave is a running bore, not a standing slope [-]; our choice. */
const SHALLOW_SHARE = 0.1;
/** Laminar layers thicker than this share of the tank fill it: the damping is then a guess [-]; our choice. */
const THICK_SHARE = 0.05;

/**
 * The first sideways wave of an upright tank at 1 g, from published forms: linear, small, smooth walls, no baffles. The damping
 * is the lesser of the two known for a round tank: the greater swing.
 */
export function firstWave(plan: WavePlan, depthMm: number, viscosityM2S: number): TankWave {
  needPositive('depthMm', depthMm, 'mm');
  if (!(viscosityM2S >= 0 && Number.isFinite(viscosityM2S)))
    throw new FlowError('viscosityM2S', viscosityM2S, '0 m2/s or more');
  const depthM = depthMm / mmPerM;
  if (plan.kind === 'box') {
    needPositive('alongMm', plan.alongMm, 'mm');
    needPositive('acrossMm', plan.acrossMm, 'mm');
    const [along, across] = [plan.alongMm / mmPerM, plan.acrossMm / mmPerM];
    const frequencyHz = boxTankFrequency(along, depthM, standardGravity);
    const damping = boxTankDamping(along, across, depthM, standardGravity, viscosityM2S);
    return { frequencyHz, damping, limits: limitsOf(frequencyHz, viscosityM2S, depthM, along) };
  }
  needPositive('radiusMm', plan.radiusMm, 'mm');
  const radius = plan.radiusMm / mmPerM;
  const frequencyHz = roundTankFrequency(radius, depthM, standardGravity);
  const laminar = roundTankDamping(radius, depthM, standardGravity, viscosityM2S);
  const measured = measuredRoundTankDamping(radius, depthM, standardGravity, viscosityM2S);
  return {
    frequencyHz,
    damping: Math.min(laminar, measured),
    measuredDamping: measured,
    limits: limitsOf(frequencyHz, viscosityM2S, depthM, 2 * radius),
  };
}

const mmPerM = 1000;

function limitsOf(frequencyHz: number, viscosityM2S: number, depthM: number, alongM: number): string[] {
  const layerM = Math.sqrt(viscosityM2S / (Math.PI * frequencyHz));
  return [
    ...(depthM < SHALLOW_SHARE * alongM ? ['shallow: the wave runs as a bore, the standing form does not hold'] : []),
    ...(layerM > THICK_SHARE * alongM
      ? ['thick oil: its layer at the walls is no longer thin, the damping is a guess']
      : []),
  ];
}
