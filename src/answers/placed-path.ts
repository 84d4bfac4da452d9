import type { Shape } from '#car';
import { movedPoint, placing, type Vec } from '#geometry';

/** A round solid by its middle line, as it stands on the car [mm]. */
export interface PlacedPath {
  readonly pathMm: readonly Vec[];
  readonly radiusMm: number;
}

/** The middle line of a pipe or a cylinder, turned and moved as its shape says; undefined for any other solid. */
export function placedPath({ tube, cylinder, turnDeg, atMm }: Shape): PlacedPath | undefined {
  const motion = placing(turnDeg, atMm);
  const own = tube?.pointsMm ?? (cylinder === undefined ? undefined : [cylinder.fromMm, cylinder.toMm]);
  if (own === undefined) return undefined;
  return {
    pathMm: motion === undefined ? own : own.map((point) => movedPoint(motion, point)),
    radiusMm: (tube ?? cylinder)!.radiusMm,
  };
}
