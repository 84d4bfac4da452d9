import { type Body, bodyShape, movedPoint, type RigidMotion } from '#geometry';
import { lengthAlong } from './stretch.ts';

/** The bodies moved rigidly. */
export function movedBodies(bodies: readonly Body[], motion: RigidMotion): readonly Body[] {
  return bodies.map((body) => withPath(body, (x, y, z) => movedPoint(motion, [x, y, z])));
}

/**
 * A line whose two ends have moved apart: fittings go with their end, the hose between passes over from one motion to the
 * other without a kink (3 w^2 - 2 w^3 of the way along). A stand-in where the hose has not been worked out as it hangs there.
 *
 * @param stiffMm - how much of the line goes rigidly with its start and with its other end [mm]
 */
export function bridgedBodies(
  bodies: readonly Body[],
  from: RigidMotion,
  to: RigidMotion,
  stiffMm: readonly [number, number],
): readonly Body[] {
  const length = lengthAlong(bodies);
  const free = Math.max(1e-9, length - stiffMm[0] - stiffMm[1]);
  let start = 0;
  return bodies.map((body) => {
    const before = start;
    start += lengthAlong([body]);
    return withPath(body, (x, y, z, s) => {
      const w = Math.min(1, Math.max(0, (before + s - stiffMm[0]) / free));
      const k = w * w * (3 - 2 * w);
      const a = movedPoint(from, [x, y, z]);
      const b = movedPoint(to, [x, y, z]);
      return [a[0] + (b[0] - a[0]) * k, a[1] + (b[1] - a[1]) * k, a[2] + (b[2] - a[2]) * k];
    });
  });
}

function withPath(
  body: Body,
  place: (x: number, y: number, z: number, s: number) => readonly [number, number, number],
): Body {
  const { points, along, pieces } = bodyShape(body);
  const path = new Float64Array(3 * (pieces + 1));
  for (let i = 0; i <= pieces; i++)
    path.set(place(points[3 * i]!, points[3 * i + 1]!, points[3 * i + 2]!, along[i]!), 3 * i);
  return { part: body.part, path, radiusMm: body.radiusMm };
}
