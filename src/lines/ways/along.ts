import type { Body, Vec } from '#geometry';
import type { PlacedJoint } from './joints.ts';

/** A part that a line passes, and where along the line it does not count. */
export interface Crossed {
  readonly part: string;
  readonly alongMm: readonly [number, number];
}

/** Beside a fitting's own length, this much of what is screwed on it may stand close to the panel [mm]. */
const BESIDE_FITTING_MM = 60;
/** A grommet's lip, and the panel's keep-off that a line square to it needs to clear [mm]. */
const BESIDE_GROMMET_MM = 12;

/** Where along the line a joint lies, with what it needs beside it. */
export function alongOf(joint: PlacedJoint, bodies: readonly Body[]): Crossed {
  const at = nearestAlong(bodies, joint.at);
  const half = joint.row === null ? joint.holeRadiusMm + BESIDE_GROMMET_MM : joint.row.lengthMm / 2 + BESIDE_FITTING_MM;
  return { part: joint.part, alongMm: [at - half, at + half] };
}

/** Length along the bodies to the place of their centreline nearest to `point` [mm]. */
export function nearestAlong(bodies: readonly Body[], point: Vec): number {
  let along = 0;
  let best = Number.POSITIVE_INFINITY;
  let where = 0;
  for (const { path } of bodies) {
    for (let i = 0; i + 2 < path.length; i += 3) {
      if (i > 0) along += Math.hypot(path[i]! - path[i - 3]!, path[i + 1]! - path[i - 2]!, path[i + 2]! - path[i - 1]!);
      const d = Math.hypot(path[i]! - point[0], path[i + 1]! - point[1], path[i + 2]! - point[2]);
      if (d >= best) continue;
      best = d;
      where = along;
    }
  }
  return where;
}
