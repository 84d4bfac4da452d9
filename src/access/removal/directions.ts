import { dot, unit, type Vec } from '#geometry';

/** Directions nearer to each other than this count as one [-]: cosine of 3 degrees. */
const SAME = Math.cos((3 * Math.PI) / 180);

/** The six ways along the axes, upwards first: a part that lifts out is let go of last. */
export const axisDirections: readonly Vec[] = [
  [0, 0, 1],
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, -1],
];

/** Along and between the axes: 26 ways, about 45 degrees apart; upwards first. */
const sphere: readonly Vec[] = [1, 0, -1]
  .flatMap((z) => [0, 1, -1].flatMap((x) => [0, 1, -1].map((y): Vec => [x, y, z])))
  .filter((d) => d.some((c) => c !== 0))
  .map(unit);

/** Ways to try, in order: those given, then the axes, then a sphere of them; each once. */
export function pullDirections(given: readonly Vec[]): readonly Vec[] {
  const kept: Vec[] = [];
  for (const direction of [...given, ...axisDirections, ...sphere]) {
    const way = unit(direction);
    if (!kept.some((other) => dot(other, way) > SAME)) kept.push(way);
  }
  return kept;
}
