import { addScaled, dot, unit, type Vec } from '#geometry';
import { ballMover } from '../removal/mover.ts';
import { allowedDepth, lengthOut } from '../removal/straight-pulls.ts';
import { touchesAlong } from '../removal/touch.kernel.ts';
import type { Scene, SceneObstacle } from './scene.ts';

/** Half of what a hand with a spanner is thick, where the crew does not say [mm]: from memory. */
const HAND_HALF_MM = 25;
/** A hand comes from anywhere in front of a head, not from behind it: cosine of the angle to the way it faces. */
const IN_FRONT = -0.2;

/** What a hand is kept from by, on the best straight ways to a place: any one set off lets it there. */
export interface HandReach {
  /** Least sets of ids; none: no straight way was found. */
  readonly clearedBy: readonly (readonly string[])[];
}

/**
 * Whether a hand gets straight from outside to a place, and past what. A hose gives way to a hand; everything else does not. Only
 * straight ways are tried: a hand that bends round a corner gets further.
 *
 * @param at - where the fastener or joint is [mm]
 * @param faces - the way it faces, or null: from anywhere
 * @param own - ids that cannot be off before it is reached
 */
export function handReach(
  scene: Scene,
  at: Vec,
  faces: Vec | null,
  own: ReadonlySet<string>,
  directions: readonly Vec[] = scene.common,
): HandReach {
  const thick = scene.world.car.workshop?.hand?.thickMm;
  const radius = thick === undefined ? HAND_HALF_MM : thick / 2;
  const start = faces === null ? at : addScaled(at, unit(faces), radius + 1);
  const hand = ballMover(start, radius);
  const inWay = scene.obstacles.filter(({ isHose }) => !isHose);
  const allowed = inWay.map((way) => allowedDepth(hand, way));
  const tried = faces === null ? directions : [unit(faces), ...directions];
  const sets: string[][] = [];
  for (const direction of tried) {
    if (faces !== null && dot(direction, unit(faces)) < IN_FRONT) continue;
    const length = lengthOut(hand, scene.bounds, direction);
    const touches = inWay.filter((way, i) => touchesAlong(hand, way, direction, length, allowed[i]!));
    const ids = touches.map(({ owner }) => owner);
    if (ids.some((id) => own.has(id)) || touches.some((way) => staysOn(scene, way))) continue;
    sets.push([...new Set(ids)].toSorted());
    if (ids.length === 0) break;
  }
  return { clearedBy: leastSets(sets) };
}

export const staysOn = ({ world }: Scene, { kind, owner }: SceneObstacle): boolean =>
  kind === 'part' && world.bay.partById.get(owner)?.part.staysOn === true;

/** Sets that hold no other of them; each once, the smallest first. */
export function leastSets(sets: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const kept: (readonly string[])[] = [];
  for (const set of sets.toSorted((a, b) => a.length - b.length || (a.join() < b.join() ? -1 : 1)))
    if (!kept.some((few) => few.every((id) => set.includes(id)))) kept.push(set);
  return kept;
}
