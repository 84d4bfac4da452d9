import { type Outline, type OutlineCorner, type Point2, reversedOutline } from './outline.ts';

/** An outline moved: each of its points by `map`, which must be a turn and a shift (arcs keep their bulge). */
const mapped = (outline: Outline, map: (p: Point2) => Point2): Outline =>
  outline.map(({ at, bulge }): OutlineCorner => (bulge === undefined ? { at: map(at) } : { at: map(at), bulge }));

/** An outline turned about its origin [rad, from x towards y] and then shifted [mm]. */
export function movedOutline(outline: Outline, by: Point2, turn = 0): Outline {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return mapped(outline, ([x, y]) => [c * x - s * y + by[0], s * x + c * y + by[1]]);
}

/** An outline made larger or smaller about its origin. */
export const scaledOutline = (outline: Outline, times: number): Outline =>
  mapped(outline, ([x, y]) => [x * times, y * times]);

/** An outline seen from the other face: x turned about, gone round the same way as before. */
export const mirroredOutline = (outline: Outline): Outline =>
  reversedOutline(
    outline.map(
      ({ at, bulge }): OutlineCorner =>
        bulge === undefined ? { at: [-at[0], at[1]] } : { at: [-at[0], at[1]], bulge: -bulge },
    ),
  );
