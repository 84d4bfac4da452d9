import type { Case } from '#car';
import type { Vec } from '#geometry';

/** Standard fall [m/s2]: CGPM 1901, exact by definition. */
export const STANDARD_FALL = 9.80665;

/**
 * Which way and how hard fluid in the car is pulled, in g, in the axes of the car: the earth's pull in a car that is
 * pitched and rolled, less what the car speeds up by. At rest on the level: [0, 0, -1].
 */
export function pullG(at: Pick<Case, 'g' | 'pitchDeg' | 'rollDeg'>): Vec {
  const pitch = ((at.pitchDeg ?? 0) * Math.PI) / 180;
  const roll = ((at.rollDeg ?? 0) * Math.PI) / 180;
  const { forwardG = 0, rightG = 0, upG = 0 } = at.g ?? {};
  // Nose up, what is down in the world points rearward in the car; right side down, to its right.
  const down: Vec = [Math.sin(pitch), Math.cos(pitch) * Math.sin(roll), -Math.cos(pitch) * Math.cos(roll)];
  // Speeding up presses rearward, which is +X; a right-hander presses to the left.
  return [down[0] + forwardG, down[1] - rightG, down[2] - upG];
}

/** Height of a place against the pull, times the pull [mm g]: what `densityKgM3 * STANDARD_FALL / 1000` turns into pressure. */
export const heightMmG = (pull: Vec, atMm: Vec): number => -(pull[0] * atMm[0] + pull[1] * atMm[1] + pull[2] * atMm[2]);
