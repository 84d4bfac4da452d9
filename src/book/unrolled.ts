import { distance, dot, sub, type Vec } from '#geometry';
import type { Spot } from './drawing.ts';

/** One straight step of a centreline laid flat: first turn, then go. */
export interface FlatStep {
  readonly turnRad: number;
  readonly lengthMm: number;
}

/** Turns below this are the rounding of the path [rad]. */
const NO_TURN_RAD = 1e-3;

/**
 * A centreline laid flat: each turn kept, all to the same side. `before` is the direction in which the stretch before it ends.
 */
export function unrolled(path: readonly Vec[], before: Vec | null): { steps: FlatStep[]; last: Vec | null } {
  const steps: FlatStep[] = [];
  let direction = before;
  for (let i = 1; i < path.length; i++) {
    const along = sub(path[i]!, path[i - 1]!);
    const lengthMm = distance(path[i]!, path[i - 1]!);
    if (lengthMm < 1e-9) continue;
    const turnRad = direction === null ? 0 : angle(direction, along);
    direction = along;
    const last = steps.at(-1);
    if (turnRad < NO_TURN_RAD && last !== undefined)
      steps[steps.length - 1] = { turnRad: last.turnRad, lengthMm: last.lengthMm + lengthMm };
    else steps.push({ turnRad: turnRad < NO_TURN_RAD ? 0 : turnRad, lengthMm });
  }
  return { steps, last: direction };
}

function angle(a: Vec, b: Vec): number {
  const cos = dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b));
  return Math.acos(Math.min(1, Math.max(-1, cos)));
}

export const turnOf = (steps: readonly FlatStep[]): number => steps.reduce((sum, step) => sum + step.turnRad, 0);
export const lengthOf = (steps: readonly FlatStep[]): number => steps.reduce((sum, step) => sum + step.lengthMm, 0);

/** Where a flat walk stands and which way it looks (angle from +x towards +y, that is clockwise on the sheet). */
export interface Pose {
  readonly at: Spot;
  readonly headingRad: number;
}

/** The spots of a walk, the start among them, and where it ends. `side` 1 turns clockwise on the sheet, -1 the other way. */
export function walked(from: Pose, steps: readonly FlatStep[], scale: number, side: 1 | -1) {
  const spots: Spot[] = [from.at];
  let pose = from;
  for (const step of steps) {
    const headingRad = pose.headingRad + side * step.turnRad;
    pose = { at: ahead({ at: pose.at, headingRad }, step.lengthMm * scale), headingRad };
    spots.push(pose.at);
  }
  return { spots, end: pose };
}

export const ahead = ({ at, headingRad }: Pose, length: number): Spot => [
  at[0] + length * Math.cos(headingRad),
  at[1] + length * Math.sin(headingRad),
];

/** A spot beside a pose: to the right hand as seen on the sheet. */
export const beside = ({ at, headingRad }: Pose, length: number): Spot => [
  at[0] - length * Math.sin(headingRad),
  at[1] + length * Math.cos(headingRad),
];

/** A mitre is not drawn longer than this many half widths. */
const MOST_MITRE = 2;

/** The outline of a band of one width along a walk. */
export function band(spots: readonly Spot[], width: number): Spot[] {
  const headings = spots.slice(1).map((to, i) => Math.atan2(to[1] - spots[i]![1], to[0] - spots[i]![0]));
  const sides = spots.map((at, i) => {
    const [a, b] = [headings[Math.max(0, i - 1)]!, headings[Math.min(headings.length - 1, i)]!];
    const half = Math.atan2(Math.sin(b - a), Math.cos(b - a)) / 2;
    const reach = Math.min(MOST_MITRE, 1 / Math.max(1e-6, Math.cos(half))) * (width / 2);
    const pose = { at, headingRad: a + half };
    return [beside(pose, reach), beside(pose, -reach)] as const;
  });
  return [...sides.map(([right]) => right), ...sides.map(([, left]) => left).reverse()];
}
