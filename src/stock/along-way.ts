import type { TakenWay } from '#car';
import type { Vec } from '#geometry';
import type { Way } from '#lines';

const pathLength = (path: readonly (readonly number[])[]): number => {
  let sum = 0;
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1] as Vec, path[i] as Vec];
    sum += Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  }
  return sum;
};

/** Length of a line from port face to port face [mm]. */
export const lengthAlong = (way: Way | TakenWay): number =>
  way.bodies.reduce((sum, body) => sum + pathLength(body.pathMm), 0);

/** Outside diameter of what lies at a length along a line [mm]. */
export function odAt(way: Way | TakenWay, alongMm: number): number {
  let along = 0;
  for (const body of way.bodies) {
    along += pathLength(body.pathMm);
    if (alongMm <= along) return body.odMm;
  }
  return way.bodies.at(-1)?.odMm ?? way.pieces[0]?.odMm ?? 0;
}
