import type { BayPort } from '#bay';
import {
  type RigidMotion,
  type Vec,
  composed,
  cross,
  distance,
  dot,
  motionAbout,
  norm,
  perpendicular,
  shifted,
  still,
  sub,
} from '#geometry';

/** How a port stands in one car against the other. */
export interface PortMove {
  readonly motion: RigidMotion;
  readonly shiftMm: number;
  readonly turnDeg: number;
  readonly stays: boolean;
}

/** Less than this is no move: rounding in a car file [mm, deg]. */
const SAME_MM = 0.05;
const SAME_DEG = 0.05;

/** The least motion that brings one port pose onto the other: turned about its face, then shifted. */
export function movedPort(before: BayPort, after: BayPort): PortMove {
  const shiftMm = distance(before.at, after.at);
  const turn = Math.atan2(norm(cross(before.faces, after.faces)), dot(before.faces, after.faces));
  const turnDeg = (turn * 180) / Math.PI;
  const stays = shiftMm < SAME_MM && turnDeg < SAME_DEG;
  if (stays) return { motion: still, shiftMm: 0, turnDeg: 0, stays };
  const shift = shifted(sub(after.at, before.at));
  if (turnDeg < SAME_DEG) return { motion: shift, shiftMm, turnDeg: 0, stays };
  const axis: Vec =
    norm(cross(before.faces, after.faces)) > 1e-9 ? cross(before.faces, after.faces) : perpendicular(before.faces);
  return { motion: composed(shift, motionAbout(before.at, axis, turn)), shiftMm, turnDeg, stays };
}

/** Do two ports go the same way, as if bolted to one thing? */
export function movesAlike(a: PortMove, b: PortMove): boolean {
  const probes: Vec[] = [
    [0, 0, 0],
    [1000, 0, 0],
    [0, 1000, 0],
  ];
  return probes.every((p) => {
    const [x, y] = [a.motion, b.motion].map(
      (m): Vec => [dot(m.rows[0], p) + m.shift[0], dot(m.rows[1], p) + m.shift[1], dot(m.rows[2], p) + m.shift[2]],
    );
    return distance(x!, y!) < SAME_MM;
  });
}
