import { sub, type Vec } from '#geometry';
import { angleBetweenDeg } from '#levers';

/** How far it turns at each corner between its ends [deg]. */
export const cornerTurnsDeg = (path: readonly Vec[]): readonly number[] =>
  path.slice(1, -1).map((at, i) => angleBetweenDeg(sub(at, path[i]!), sub(path[i + 2]!, at)));
