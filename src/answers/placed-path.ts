import type { Shape } from '#car';
import type { Vec } from '#geometry';

/** The middle line of a pipe that is drawn in car axes, which is how a path is taped; undefined for any other solid. */
export const placedPath = (shape: Shape): readonly Vec[] | undefined =>
  shape.turnDeg === undefined && shape.atMm === undefined ? shape.tube?.pointsMm : undefined;
