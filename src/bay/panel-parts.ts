import type { Car, Panel, Part } from '#car';
import { meshSolid, type Solid, triangleMesh, type Vec } from '#geometry';
import { carFromFlat, type Facet, panelLayouts } from '#panels';

/**
 * The panels of the car as parts of the bay: what lines keep off, and may pass where the line says so. Not among them: a panel that
 * is cut from a part or lies on it (that part stands for it), and one that gives way to the lines.
 */
export function panelParts(car: Car): readonly { readonly part: Part; readonly solids: readonly Solid[] }[] {
  return panelLayouts(car).flatMap(({ panel, facets, sheet }) =>
    panel.on !== undefined || panel.givesWay === true || facets.length === 0
      ? []
      : [{ part: asPart(panel), solids: facets.map((facet) => slab(facet, sheet.thicknessMm)) }],
  );
}

/** A facet with its thickness: windows have mesh behind them and are no way through. */
function slab({ polygon, frame }: Facet, thicknessMm: number): Solid {
  const corners: Vec[] = [0, thicknessMm].flatMap((deep) => polygon.map((at) => carFromFlat(frame, at, deep)));
  const n = polygon.length;
  const sides = polygon.flatMap((_, i) => [i, n + i, (i + 1) % n, (i + 1) % n, n + i, n + ((i + 1) % n)]);
  const faces = Array.from({ length: n - 2 }, (_, k) => [0, k + 1, k + 2, n, n + k + 2, n + k + 1]);
  return meshSolid(triangleMesh(Float64Array.from(corners.flat()), Uint32Array.from([...faces.flat(), ...sides])));
}

const asPart = (panel: Panel): Part => ({
  id: panel.id,
  name: panel.name ?? panel.id,
  class: panel.class ?? 'fixed',
  ...(panel.movesWith === undefined ? {} : { movesWith: panel.movesWith }),
  ...(panel.knownToMm === undefined ? {} : { knownToMm: panel.knownToMm }),
  crossable: ['grommet', 'bulkhead-fitting'],
  shapes: [],
  ports: [],
});
