import type { Panel } from '#car';
import { type Outline, outlinePoints, type Point2 } from '#geometry';

/** An outline with its openings, as a photo of a card gives it and a builder corrects it [mm]. */
export interface TemplateShape {
  readonly outline: Outline;
  readonly openings: readonly Outline[];
}

const HUNDREDTH = 100;
/** A bulge is written to this: a metre of arc stays within 0.01 mm. */
const BULGE = 1e5;
const rounded = (value: number, to: number): number => Math.round(value * to) / to + 0;

/** The corner of the box round an outline that lies lowest and furthest left [mm]. */
export function lowestOf(outline: Outline): Point2 {
  const points = outlinePoints(outline);
  return [Math.min(...points.map(([x]) => x)), Math.min(...points.map(([, y]) => y))];
}

/** A shape as a panel of the car file takes it, its flat axes beginning at `origin`; where it is on the car is still to be said. */
export function templateOf(
  { outline, openings }: TemplateShape,
  knownToMm: number,
  [x, y]: Point2 = lowestOf(outline),
): NonNullable<Panel['template']> {
  const rows = (ring: Outline): NonNullable<Panel['template']>['outlineMm'] =>
    ring.map(({ at, bulge = 0 }) => {
      const [a, b] = [rounded(at[0] - x, HUNDREDTH), rounded(at[1] - y, HUNDREDTH)];
      return bulge === 0 ? [a, b] : [a, b, rounded(bulge, BULGE)];
    });
  return {
    outlineMm: rows(outline),
    ...(openings.length === 0 ? {} : { holesMm: openings.map(rows) }),
    knownToMm: rounded(knownToMm, 10),
    matches: [],
  };
}
