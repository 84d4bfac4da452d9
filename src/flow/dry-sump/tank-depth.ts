import { type CarG, Levels } from '../tank/level.ts';
import type { Tank } from '../tank/tank.ts';

/** Standing on the level. */
export const LEVEL: CarG = { longitudinalG: 0, lateralG: 0, verticalG: 1 };

/** Height of the lowest point of a tank's inside [mm]. */
export function floorMm({ mesh: { positions, centre } }: Tank): number {
  let low = Infinity;
  for (let i = 2; i < positions.length; i += 3) low = Math.min(low, positions[i]! + centre[2]);
  return low;
}

/** Depth of oil standing on the level [mm]. */
export function depthMm({ tank }: { readonly tank: Tank }, oilM3: number): number {
  const levels = new Levels(tank);
  levels.look(LEVEL);
  return levels.heightMm(oilM3) - floorMm(tank);
}
