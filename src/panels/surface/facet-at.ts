import type { Point2, Vec } from '#geometry';
import { carFromFlat, flatFromCar, heightOver } from './flat-frame.ts';
import type { Facet } from './facets.ts';

/** How far outside a facet a point of the drawing lies; 0 or less within [mm]. */
function outsideFacet({ polygon }: Facet, p: Point2): number {
  let worst = -Infinity;
  for (let i = 0; i < polygon.length; i++) {
    const [a, b] = [polygon[i]!, polygon[(i + 1) % polygon.length]!];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    worst = Math.max(worst, ((p[0] - a[0]) * dy - (p[1] - a[1]) * dx) / Math.hypot(dx, dy));
  }
  return worst;
}

/** The facet that a point of the drawing belongs to: the one it lies in, else the nearest. */
export function facetAt(facets: readonly Facet[], p: Point2): Facet {
  return facets.reduce((a, b) => (outsideFacet(b, p) < outsideFacet(a, p) - 1e-9 ? b : a));
}

/** A point of the drawing on the car, as the panel hangs there; beyond an edge it goes on in the plane. */
export const onCar = (facets: readonly Facet[], p: Point2, deepMm = 0): Vec =>
  carFromFlat(facetAt(facets, p).frame, p, deepMm);

/** A point of the car on the drawing, straight down on the facet that it lies over; and how far it stands out of it. */
export function onFlat(
  facets: readonly Facet[],
  at: Vec,
): { readonly at: Point2; readonly outMm: number; readonly facet: Facet } {
  const found = facets
    .map((facet) => ({ facet, at: flatFromCar(facet.frame, at) }))
    .reduce((a, b) => (outsideFacet(b.facet, b.at) < outsideFacet(a.facet, a.at) - 1e-9 ? b : a));
  return { at: found.at, outMm: heightOver(found.facet.frame, at), facet: found.facet };
}
