/** A piece of a disc: radius r0..r1 [mm], angle a0..a1 [rad], a1 - a0 at most a whole turn. */

const TURN = 2 * Math.PI;

function holdsAngle(a: number, a0: number, a1: number): boolean {
  let d = (a - a0) % TURN;
  if (d < 0) d += TURN;
  return d <= a1 - a0;
}

/** The least of nu*u + nv*v over the sector: on the outer arc where it faces that way, else at a corner. */
export function leastOverSector(nu: number, nv: number, r0: number, r1: number, a0: number, a1: number): number {
  const size = Math.sqrt(nu * nu + nv * nv);
  if (size === 0) return 0;
  if (a1 - a0 >= TURN || holdsAngle(Math.atan2(-nv, -nu), a0, a1)) return -r1 * size;
  const p = nu * Math.cos(a0) + nv * Math.sin(a0);
  const q = nu * Math.cos(a1) + nv * Math.sin(a1);
  const least = Math.min(p, q);
  return least < 0 ? least * r1 : least * r0;
}

/** The square of the greatest distance from (xu, xv) to the sector. */
export function farthestOverSector(xu: number, xv: number, r0: number, r1: number, a0: number, a1: number): number {
  const off2 = xu * xu + xv * xv;
  if (off2 === 0) return r1 * r1;
  if (a1 - a0 >= TURN || holdsAngle(Math.atan2(-xv, -xu), a0, a1)) return (r1 + Math.sqrt(off2)) ** 2;
  const p = xu * Math.cos(a0) + xv * Math.sin(a0);
  const q = xu * Math.cos(a1) + xv * Math.sin(a1);
  const least = Math.min(p, q);
  return off2 + Math.max(r1 * r1 - 2 * r1 * least, r0 * r0 - 2 * r0 * least);
}
