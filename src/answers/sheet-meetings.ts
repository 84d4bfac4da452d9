import { dot, isInOutline, lerp, norm, scale, straightOutline, sub, type Vec } from '#geometry';
import type { LinesWorld } from '#lines';
import { type Facet, flatFromCar, heightOver, type PanelCrossing } from '#panels';

/** A place where something goes through a sheet, and its way there, out of the outside face. */
interface Meets {
  readonly at: Vec;
  readonly along: Vec;
}

/** Where a path goes through the sheet, inside what the facet closes. */
export function meetings(path: readonly Vec[], facets: readonly Facet[]): Meets[] {
  return facets.flatMap((facet) =>
    path.slice(1).flatMap((to, i) => {
      const from = path[i]!;
      const [a, b] = [heightOver(facet.frame, from), heightOver(facet.frame, to)];
      if (a > 0 === b > 0) return [];
      const at = lerp(from, to, a / (a - b));
      if (!isInOutline(straightOutline(facet.polygon), flatFromCar(facet.frame, at))) return [];
      const way = sub(to, from);
      return [{ at, along: scale(way, Math.sign(dot(way, facet.frame.out)) / norm(way)) }];
    }),
  );
}

/** The grommet that a line or a cable of this size goes in, as its hole wants it; nothing where the shelf has none. */
export function grommetHole(shelf: LinesWorld['shelf'], odMm: number): Fitted {
  const row = shelf.grommets.find(({ lineOdMinMm, lineOdMaxMm }) => lineOdMinMm < odMm && odMm <= lineOdMaxMm);
  if (row === undefined) return {};
  const { holeMm, name: seal, outsideOdMm: seatMm, panelMaxMm, maxC: standsC } = row;
  return { holeMm, seal, seatMm, panelMaxMm, standsC };
}

export type Fitted = Partial<Pick<PanelCrossing, 'holeMm' | 'seal' | 'seatMm' | 'panelMaxMm' | 'standsC'>>;
