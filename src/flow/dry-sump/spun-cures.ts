import { standardGravity } from '#units';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { WorkedCure } from '../circuit/worked-cure.ts';
import { airDensity } from '../fluids/air.ts';
import { smallestSpunBubble, turningSpeed } from '../fluids/spun-oil.ts';
import { frictionRegime } from '../losses/friction-factor.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import { OUTSIDE_PA } from './froth.ts';
import { feedMouths } from './mouths.ts';
import type { DeAeration, TankInCase } from './tank-answer.ts';
import { wavePlanOf } from './wave-plan.ts';

/** Three quarters of the oil stand outside half the radius: a bubble that has come that far is with the last of it. Our choice. */
const INWARD = 2;
/** Friction of a wall that curves with the oil is known to this factor. Our choice. */
const UNSURE = 2;
const ROUNDS = 20;

/** Oil that its returns keep turning, and the smallest bubble that then comes inward while it stays. */
interface Spun {
  readonly rpm: number;
  readonly wallG: number;
  /** How much higher the surface stands at the wall than in the middle: w^2 R^2/(2 g). */
  readonly rimMm: number;
  readonly smallestM: number;
}

/** The returns of a round tank led in along its wall, all one way round: how fast the oil turns and what comes out of it. */
export function spunCures(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase, air: DeAeration): WorkedCure[] {
  const inside = feedMouths(ready).find(({ spot }) => spot === tank.outlet)?.inside;
  const plan = inside === undefined ? undefined : wavePlanOf(inside);
  if (plan?.kind !== 'round') return [];
  const returns = state.scavenge.lines.filter(
    ({ line }) => partOf(ready.drawn.lines.get(line)?.to ?? '') === tank.part,
  );
  const into = returns.map(({ flowM3S, velocityMS, voidShare = 0 }) => ({
    flowM3S: flowM3S * (1 - voidShare),
    speedMS: velocityMS,
  }));
  const flowM3S = into.reduce((sum, row) => sum + row.flowM3S, 0);
  if (flowM3S <= 0) return [];
  const speedMS = into.reduce((sum, row) => sum + row.flowM3S * row.speedMS, 0) / flowM3S;
  const spin = (times: number): Spun => spunAt(state, { flowM3S, speedMS }, plan.radiusMm / 1000, air, times);
  const [now, slow, fast] = [spin(1), spin(UNSURE), spin(1 / UNSURE)];
  const mm = ({ smallestM }: Spun): string => (1000 * smallestM).toFixed(2);
  const lines = returns.map(({ line }) => line).join(', ');
  return [
    {
      words: `${lines} led in along the wall, all one way round: the oil turns at ${now.rpm.toFixed(0)} rpm (${slow.rpm.toFixed(0)} to ${fast.rpm.toFixed(0)}, its friction being known to a factor of two), ${now.wallG.toFixed(1)} g at the wall, where it stands ${now.rimMm.toFixed(0)} mm higher than in the middle; where nothing stirs it, bubbles from ${mm(now)} mm up (${mm(fast)} to ${mm(slow)}) come in to half the radius`,
      gain: 1000 * (air.smallestM - now.smallestM),
    },
  ];
}

function spunAt(
  { asked: { fluid, temperatureC } }: DrySumpState,
  into: { readonly flowM3S: number; readonly speedMS: number },
  radiusM: number,
  { depthM, dwellS }: DeAeration,
  times: number,
): Spun {
  const acrossM = (4 * radiusM * depthM) / (2 * depthM + radiusM);
  let turning = into.speedMS / radiusM;
  for (let round = 0; round < ROUNDS; round++) {
    const reynolds = Math.max(1, (fluid.densityKgM3 * turning * radiusM * acrossM) / fluid.viscosityPaS);
    turning = turningSpeed(into.flowM3S, into.speedMS, radiusM, depthM, times * frictionRegime(reynolds, 0).factor);
  }
  const air = airDensity(temperatureC, OUTSIDE_PA);
  return {
    rpm: (turning * 60) / (2 * Math.PI),
    wallG: (turning ** 2 * radiusM) / standardGravity,
    rimMm: (1000 * (turning * radiusM) ** 2) / (2 * standardGravity),
    smallestM: smallestSpunBubble(INWARD, turning, dwellS, fluid.viscosityPaS, fluid.densityKgM3, air),
  };
}
