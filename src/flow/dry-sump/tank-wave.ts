import { type Vec } from '#geometry';
import { firstWave, type TankWave } from '../tank/first-wave.ts';
import { type CarG, Levels } from '../tank/level.ts';
import { coverOf } from '../tank/outlet.ts';
import { ringBaffleDamping } from '../tank/slosh-formulas.ts';
import { type StepTilt, stepTilt } from '../tank/surface-motion.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import type { Mouth } from './mouths.ts';
import type { TankInCase } from './tank-answer.ts';
import { depthMm } from './tank-depth.ts';
import { wavePlanOf } from './wave-plan.ts';

/** A ring lies this share of the tank's radius under the oil at rest: close under it, it calms most. Our choice. */
const RING_BELOW = 0.1;
/** Rounds until a ring's damping and the wave that it leaves agree. */
const RING_ROUNDS = 8;

interface Swing {
  readonly wave: TankWave;
  readonly step: StepTilt;
}

function swingIn(mouth: Mouth, state: DrySumpState, g: CarG, oilM3: number, addedDamping: number): Swing | null {
  const plan = wavePlanOf(mouth.inside);
  const depth = oilM3 > 0 ? depthMm(mouth, oilM3) : 0;
  if (plan === undefined || depth <= 0 || Math.hypot(g.longitudinalG, g.lateralG) < 0.01) return null;
  const { viscosityPaS, densityKgM3 } = state.asked.fluid;
  const smooth = firstWave(plan, depth, viscosityPaS / densityKgM3);
  const wave = { ...smooth, damping: smooth.damping + addedDamping };
  return { wave, step: stepTilt(wave, g) };
}

/**
 * The first wave of a tank after this g comes on at once, where its shape has a published one, and how the outlet stands to it.
 *
 * @param addedDamping - of baffles, as a share of critical [-]
 */
export function waveIn(
  mouth: Mouth,
  state: DrySumpState,
  g: CarG,
  oilM3: number,
  addedDamping = 0,
): TankInCase['wave'] {
  const swing = swingIn(mouth, state, g, oilM3, addedDamping);
  if (swing === null) return null;
  const flat = Math.hypot(g.longitudinalG, g.lateralG);
  const tilt = (swing.step.mostDeg * Math.PI) / 180;
  const up: Vec = [(-g.longitudinalG / flat) * Math.sin(tilt), (g.lateralG / flat) * Math.sin(tilt), Math.cos(tilt)];
  const levels = new Levels(mouth.tank);
  levels.lookAlong(up);
  return { ...swing, cover: coverOf(mouth.outlet, { up, heightMm: levels.heightMm(oilM3) }) };
}

/** A ring baffle as it would be fitted, and the damping it adds at the wave that it leaves. */
export interface RingBaffle {
  readonly widthMm: number;
  readonly belowMm: number;
  readonly damping: number;
}

/** A ring of this share of the radius in a round tank; undefined for other shapes. The lesser wave of the ring's own overshoot counts. */
export function bafflePlan(
  mouth: Mouth,
  state: DrySumpState,
  g: CarG,
  oilM3: number,
  widthShare: number,
): RingBaffle | undefined {
  const plan = wavePlanOf(mouth.inside);
  if (plan === undefined || plan.kind !== 'round') return undefined;
  const radiusM = plan.radiusMm / 1000;
  let damping = 0;
  for (let round = 0; round < RING_ROUNDS; round++) {
    const swing = swingIn(mouth, state, g, oilM3, damping);
    if (swing === null) return undefined;
    const overshoot = ((swing.step.mostDeg - swing.step.restDeg) * Math.PI) / 180;
    damping = ringBaffleDamping(
      radiusM,
      widthShare * radiusM,
      RING_BELOW * radiusM,
      radiusM * Math.tan(Math.min(1, overshoot)),
    );
  }
  return { widthMm: widthShare * plan.radiusMm, belowMm: RING_BELOW * plan.radiusMm, damping };
}
