import type { Panel } from '#car';
import type { BalancedCorner } from '../corners/balanced-corners.ts';
import type { LaidCorner } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { type CreaseBend, type Facet, facets } from './facets.ts';
import { heightOver } from './flat-frame.ts';
import { type Ring, ringOf } from './ring.ts';
import { type SurfaceShape, surfaceShape } from './surface-shape.ts';

/** A panel as surface: its corners in ring order, its facets unfolded, and how far it is from flat. */
export interface PanelSurface {
  readonly ring: Ring;
  readonly corners: readonly LaidCorner[];
  readonly facets: readonly Facet[];
  readonly creases: readonly CreaseBend[];
  readonly shape: SurfaceShape;
}

export function panelSurface(panel: Panel, measured: readonly BalancedCorner[], sheet: PanelSheet): PanelSurface {
  const ring = ringOf(
    measured.map(({ at }) => at),
    panel.outside,
  );
  const corners = ring.order.map((k) => measured[k]!);
  const place = new Map(corners.map(({ id }, k) => [id, k]));
  const folded = facets(
    corners.map(({ at }) => at),
    ring.outside,
    (panel.creases ?? []).map(({ from, to }) => [place.get(from)!, place.get(to)!]),
    { thicknessMm: sheet.thicknessMm, kFactor: sheet.kFactor, radiusMm: sheet.bendRadiusMm },
  );
  return {
    ring,
    ...folded,
    corners: corners.map((corner, k): LaidCorner => {
      const owners = folded.facets.filter(({ ring: loop }) => loop.includes(k));
      // On a crease the far facet stands off by what the bend takes up: the corner is drawn where the facet that is held has it.
      const held = owners.find(({ ring: loop }) => loop.includes(0) && loop.includes(1)) ?? owners[0]!;
      return { ...corner, outMm: heightOver(held.frame, corner.at), flat: held.polygon[held.ring.indexOf(k)]! };
    }),
    shape: surfaceShape(measured),
  };
}
