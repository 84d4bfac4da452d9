import type { BayPart } from '#bay';
import { addScaled, distance, dot, norm, sub, unit, type Vec } from '#geometry';
import type { LinesWorld } from '#lines';
import { sheetRule } from '#standards';
import { placedPath } from './placed-path.ts';

/** The open end of a hot pipe, and the way it blows. */
export interface HotMouth {
  readonly part: BayPart;
  readonly at: Vec;
  readonly way: Vec;
  readonly odMm: number;
}

/** Open ends of the hot pipes that are drawn as tubes: ends at which no other hot part begins. */
export function hotMouths({ bay }: LinesWorld): readonly HotMouth[] {
  const hot = bay.parts.filter((part) => part.class === 'hot');
  return hot.flatMap((part) =>
    part.part.shapes.flatMap((shape): HotMouth[] => {
      const { pathMm: path, radiusMm } = placedPath(shape) ?? { pathMm: [], radiusMm: 0 };
      // A cylinder is a body with closed ends.
      if (shape.tube === undefined || path.length < 2) return [];
      const others = hot.filter((other) => other !== part).flatMap(({ solids }) => solids);
      return [path, path.toReversed()].flatMap((way): HotMouth[] => {
        const [at, before] = [way.at(-1)!, way.at(-2)!];
        if (distance(at, before) < 1e-6 || others.some((solid) => solid.distance(...at) < radiusMm)) return [];
        return [{ part, at, way: unit(sub(at, before)), odMm: 2 * radiusMm }];
      });
    }),
  );
}

/** How far in front of a mouth nothing should stand [mm]. */
export const jetReachMm = ({ odMm }: HotMouth): number => sheetRule('exit-clear').value * odMm;

/** A free round jet widens by about this to either side: tan of 12 degrees, from memory. */
const WIDENS = Math.tan((12 * Math.PI) / 180);
/** Looked at along the jet every so many radii. */
const STEP = 0.25;

/** How far from the mouth the jet comes on something; undefined: within its reach on nothing. */
export function jetMeetsMm(
  mouth: HotMouth,
  gapAt: (at: Vec) => number,
  reachMm = jetReachMm(mouth),
): number | undefined {
  const radius = mouth.odMm / 2;
  for (let s = 0; s <= reachMm; s += STEP * radius) {
    if (gapAt(addScaled(mouth.at, mouth.way, s)) < radius + s * WIDENS) {
      return s;
    }
  }
  return undefined;
}

/** Whether a place lies in the jet, as far as it reaches. */
export function isInJet(mouth: HotMouth, at: Vec, reachMm: number): boolean {
  const from = sub(at, mouth.at);
  const s = dot(from, mouth.way);
  return s >= 0 && s <= reachMm && norm(addScaled(from, mouth.way, -s)) <= mouth.odMm / 2 + s * WIDENS;
}
