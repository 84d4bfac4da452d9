import { addScaled, type Vec } from '#geometry';
import { toldCures } from '../circuit/worked-cure.ts';
import { guides } from '../limits.ts';
import { gToward, type GreatestG } from '../tank/under-g.ts';
import type { Mouth } from './mouths.ts';
import { greatestAt, MOST_G } from './tank-in-g.ts';

/** A cure that gains less is not worth a line [g]. */
const LEAST_GAIN_G = 0.02;
const MORE_OIL_M3 = 0.001;
const DIRECTIONS_DEG = Array.from({ length: 8 }, (_, i) => i * 45);

/**
 * What the outlet gains in the g that it stands in its worst direction, each cure worked out on the changed tank, the best first;
 * all directions are looked at, so that one is not cured at the cost of another.
 */
export function outletCures(mouth: Mouth, oilM3: number, toward: GreatestG): string[] {
  const directions = [...new Set([...DIRECTIONS_DEG, toward.directionDeg])];
  const leastG = (changed: Pick<Mouth, 'tank' | 'outlet'>, fillM3: number): number =>
    Math.min(...greatestAt(changed, fillM3, directions).map(({ g }) => g));
  const now = leastG(mouth, oilM3);
  const tried = [...movedOutlets(mouth, toward.directionDeg), ...moreOil(mouth, oilM3)].map(
    ({ words, outlet, fillM3 }: Tried) => ({
      words,
      gain: leastG({ tank: mouth.tank, outlet: outlet ?? mouth.outlet }, fillM3 ?? oilM3) - now,
    }),
  );
  return toldCures(
    tried.map(({ words, gain }) => ({
      words:
        now + gain >= MOST_G
          ? `${words}: no g up to ${MOST_G} bares it`
          : `${words}: +${gain.toFixed(2)} g, ${(now + gain).toFixed(2)} in the worst direction`,
      gain,
    })),
    LEAST_GAIN_G,
  );
}

/** An outlet somewhere else, and where in words. */
export interface MovedOutlet {
  readonly words: string;
  readonly outlet: Mouth['outlet'];
}

interface Tried extends Partial<MovedOutlet> {
  readonly words: string;
  readonly fillM3?: number;
}

function moreOil({ tank }: Mouth, oilM3: number): Tried[] {
  const air = (tank.volumeM3 - oilM3 - MORE_OIL_M3) * 1000;
  return air < guides.tankAir.value
    ? []
    : [{ words: `1.0 L more oil (${air.toFixed(1)} L of air left)`, fillM3: oilM3 + MORE_OIL_M3 }];
}

/** Other places that the outlet could draw from, the oil being thrown as in this direction of the plan. */
export function movedOutlets({ tank, outlet }: Mouth, directionDeg: number): MovedOutlet[] {
  const { longitudinalG, lateralG } = gToward(directionDeg, 1, 1);
  const thrown: Vec = [longitudinalG, -lateralG, 0];
  const { positions, centre } = tank.mesh;
  const along = (v: Vec): number => v[0] * thrown[0] + v[1] * thrown[1];
  let [low, near, far] = [Infinity, Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    const corner: Vec = [positions[i]! + centre[0], positions[i + 1]! + centre[1], positions[i + 2]! + centre[2]];
    low = Math.min(low, corner[2]);
    near = Math.min(near, along(corner));
    far = Math.max(far, along(corner));
  }
  const out: MovedOutlet[] = [];
  const down = outlet.atMm[2] - low - outlet.boreMm / 2;
  if (down > 1)
    out.push({
      words: `the outlet ${down.toFixed(0)} mm lower, its bore at the floor`,
      outlet: { ...outlet, atMm: addScaled(outlet.atMm, [0, 0, 1], -down) },
    });
  const middle = (near + far) / 2 - along(outlet.atMm);
  if (middle > outlet.boreMm)
    out.push({
      words: `a pipe inside that draws ${middle.toFixed(0)} mm nearer the side where the oil is thrown, at the tank's middle`,
      outlet: { ...outlet, atMm: addScaled(outlet.atMm, thrown, middle) },
    });
  if (down > 1 && middle > outlet.boreMm)
    out.push({
      words: `both: a pipe that draws from the middle of the floor`,
      outlet: {
        ...outlet,
        axis: [0, 0, 1],
        atMm: addScaled(addScaled(outlet.atMm, thrown, middle), [0, 0, 1], -down - outlet.boreMm / 2 + 5),
      },
    });
  return out;
}
