import type { Lever } from '#car';
import { add, addScaled, dot, norm, scale, sub, unit, type Vec } from '#geometry';

type About = Pick<Lever, 'pivotMm' | 'axis'>;

/** A pin or handle as the lever carries it: the place on the axis beside it, and from there out to it [mm]. */
function carried({ pivotMm, axis }: About, at: Vec): { readonly foot: Vec; readonly out: Vec } {
  const along = unit(axis);
  const foot = addScaled(pivotMm, along, dot(sub(at, pivotMm), along));
  return { foot, out: sub(at, foot) };
}

/** How far something is from the axis that it turns about: what its ratio goes by [mm]. */
export const armRadiusMm = (about: About, at: Vec): number => norm(carried(about, at).out);

/** The same the same way from the axis, nearer or further [mm]; undefined on the axis, where there is no way. */
export function atRadius(about: About, at: Vec, radiusMm: number): Vec | undefined {
  const { foot, out } = carried(about, at);
  const long = norm(out);
  return long < 1e-6 ? undefined : add(foot, scale(out, radiusMm / long));
}

/** The same on the other side of the axis: what it pulled it then pushes. */
export function turnedRound(about: About, at: Vec): Vec {
  const { foot, out } = carried(about, at);
  return sub(foot, out);
}
