import { add, addScaled, dot, scale, sub, type Point2, type Vec } from '#geometry';

/**
 * Where a flat stands on the car: x and y of the drawing and the way its outside face looks, in car axes. x, y and out are
 * right-handed, so whoever looks at the outside face sees the drawing as it is and never its mirror image.
 */
export interface FlatFrame {
  readonly origin: Vec;
  readonly x: Vec;
  readonly y: Vec;
  readonly out: Vec;
}

/** A point of the drawing on the car, `deepMm` under the outside face. */
export function carFromFlat(frame: FlatFrame, [u, v]: Point2, deepMm = 0): Vec {
  return add(frame.origin, add(addScaled(scale(frame.x, u), frame.y, v), scale(frame.out, -deepMm)));
}

/** A point of the car on the drawing, straight down on it. */
export function flatFromCar(frame: FlatFrame, at: Vec): Point2 {
  const d = sub(at, frame.origin);
  return [dot(d, frame.x), dot(d, frame.y)];
}

/** How far a point stands out of the outside face [mm], + outwards. */
export function heightOver(frame: FlatFrame, at: Vec): number {
  return dot(sub(at, frame.origin), frame.out);
}
