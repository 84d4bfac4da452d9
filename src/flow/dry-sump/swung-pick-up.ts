import { addScaled, dot, norm, scale, type Vec } from '#geometry';
import { standardGravity } from '#units';
import { firstWave } from '../tank/first-wave.ts';
import { type CarG, Levels, pullOn } from '../tank/level.ts';
import { depthInside } from '../tank/outlet.ts';
import type { Tank } from '../tank/tank.ts';
import type { Mouth } from './mouths.ts';
import { depthMm, floorMm, LEVEL } from './tank-depth.ts';
import { litres } from './tank-words.ts';
import { wavePlanOf } from './wave-plan.ts';

/** A mouth on an arm that hangs from a pivot and swings to where the oil is thrown, its bore square to the arm. */
export interface SwungPickUp {
  /** On the upright through the tank's middle, over its floor. */
  readonly pivotOverFloorMm: number;
  readonly armMm: number;
  /** The least that keeps its bore covered at every g asked, the arm hanging still. */
  readonly leastM3: number;
}

/** Heights of the pivot that are tried, of the tank's own. */
const PIVOTS = Array.from({ length: 19 }, (_, i) => (i + 1) / 20);
const HALVINGS = 30;
/** An arm shorter than its bore is wide is none. */
const LEAST_ARM = 1;
/** Above this share of the tank no fill covers the bore. */
const BRIM = 1 - 1e-9;

/**
 * The pivot and arm that do with the least oil. The arm hangs along the pull, as the oil does square to it, so that its mouth
 * is covered by what stands under it along the pull; it is as long as the walls let it swing from the level to each g.
 */
export function swungPickUp({ tank, outlet }: Pick<Mouth, 'tank' | 'outlet'>, gs: readonly CarG[]): SwungPickUp | null {
  const { centre } = tank.mesh;
  const floor = floorMm(tank);
  const high = 2 * (centre[2] - floor);
  const downs = gs.map(downOf).filter((down) => down !== undefined);
  const swept = [...downs, ...downs.map(halfway)];
  let best: SwungPickUp | null = null;
  for (const share of PIVOTS) {
    const pivot: Vec = [centre[0], centre[1], floor + share * high];
    const armMm = longestArm(tank, pivot, [STRAIGHT_DOWN, ...swept], outlet.boreMm / 2);
    if (armMm < LEAST_ARM * outlet.boreMm) continue;
    const leastM3 = leastUnder(tank, pivot, armMm, gs);
    if (leastM3 !== undefined && (best === null || leastM3 < best.leastM3))
      best = { pivotOverFloorMm: share * high, armMm, leastM3 };
  }
  return best;
}

const STRAIGHT_DOWN: Vec = [0, 0, -1];

function downOf(g: CarG): Vec | undefined {
  const pull = pullOn(g);
  const size = norm(pull);
  return size > 0 ? scale(pull, 1 / size) : undefined;
}

function halfway(down: Vec): Vec {
  const sum = addScaled(down, STRAIGHT_DOWN, 1);
  return norm(sum) > 0 ? scale(sum, 1 / norm(sum)) : down;
}

/** As long as a ball of the bore's radius at its end stays inside, whichever of these ways it hangs [mm]. */
function longestArm(tank: Tank, pivot: Vec, downs: readonly Vec[], clearMm: number): number {
  const fits = (armMm: number): boolean =>
    downs.every((down) => depthInside(tank, addScaled(pivot, down, armMm)) >= clearMm);
  let [low, high] = [0, 2 * norm(addScaled(pivot, tank.mesh.centre, -1)) + Math.cbrt(tank.volumeM3) * 2000];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function leastUnder(tank: Tank, pivot: Vec, armMm: number, gs: readonly CarG[]): number | undefined {
  const levels = new Levels(tank);
  let most = 0;
  for (const g of gs) {
    if (!levels.look(g)) return undefined;
    const { volumeM3 } = levels.below(dot(levels.up, pivot) - armMm);
    if (volumeM3 > BRIM * tank.volumeM3) return undefined;
    most = Math.max(most, volumeM3);
  }
  return most;
}

/** Swings a second of a weight on an arm, and of oil in a tank of a known wave, both at 1 g. */
function swings(mouth: Mouth, { armMm, leastM3 }: SwungPickUp): string {
  const plan = wavePlanOf(mouth.inside);
  const arm = Math.sqrt(standardGravity / (armMm / 1000)) / (2 * Math.PI);
  const depth = depthMm(mouth, Math.max(leastM3, 1e-5));
  if (plan === undefined || depth <= 0) return `; it swings ${arm.toFixed(1)} times a second at 1 g`;
  const oil = firstWave(plan, depth, 0).frequencyHz;
  return `; at 1 g it swings ${arm.toFixed(1)} times a second, the oil ${oil.toFixed(1)}${arm < oil ? ': it comes after the oil' : ''}`;
}

/** In words, with the least oil; undefined where no arm is covered at every g, or needs more than the tank may hold. */
export function swungCure(
  mouth: Mouth,
  gs: readonly CarG[],
  words: string,
): { words: string; leastM3: number } | undefined {
  const swung = swungPickUp(mouth, [LEVEL, ...gs]);
  if (swung === null) return undefined;
  const { armMm, pivotOverFloorMm, leastM3 } = swung;
  return {
    words: `a pick-up that swings, on an arm of ${armMm.toFixed(0)} mm about the tank's middle, ${pivotOverFloorMm.toFixed(0)} mm over its floor: ${litres(leastM3)} L keeps it covered ${words} once it hangs still${swings(mouth, swung)}`,
    leastM3,
  };
}
