/** A point or direction: three plain numbers. Lengths are millimetres throughout this room (docs/decisions/0002). */
export type Vec = readonly [x: number, y: number, z: number];

export const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec, s: number): Vec => [a[0] * s, a[1] * s, a[2] * s];
/** a + b * s */
export const addScaled = (a: Vec, b: Vec, s: number): Vec => [a[0] + b[0] * s, a[1] + b[1] * s, a[2] + b[2] * s];
export const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const norm = (a: Vec): number => Math.sqrt(dot(a, a));
export const distance = (a: Vec, b: Vec): number => norm(sub(a, b));
export const lerp = (a: Vec, b: Vec, t: number): Vec => addScaled(a, sub(b, a), t);

/** The unit vector along `a`; `a` must not be zero (callers check at the border). */
export const unit = (a: Vec): Vec => scale(a, 1 / norm(a));

/** A unit vector square to the unit vector `a`; the same one every time. */
export function perpendicular(a: Vec): Vec {
  const [x, y, z] = [Math.abs(a[0]), Math.abs(a[1]), Math.abs(a[2])];
  const other: Vec = x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1];
  return unit(cross(a, other));
}

/** `v` turned about the unit vector `axis` by `angleRad`, right-handed (Rodrigues). */
export function turned(v: Vec, axis: Vec, angleRad: number): Vec {
  const c = Math.cos(angleRad);
  const s = Math.sin(angleRad);
  const k = cross(axis, v);
  const d = dot(axis, v) * (1 - c);
  return [v[0] * c + k[0] * s + axis[0] * d, v[1] * c + k[1] * s + axis[1] * d, v[2] * c + k[2] * s + axis[2] * d];
}
