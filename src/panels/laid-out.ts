import type { Panel } from '#car';
import { balancedCorners } from './corners/balanced-corners.ts';
import { placedFixings } from './fixings/placed-fixings.ts';
import { laidEdges } from './flat/laid-edges.ts';
import { panelOutline } from './flat/panel-outline.ts';
import type { PanelLayout } from './layout.ts';
import { panelSheet } from './panel-sheet.ts';
import { surfaceFindings } from './surface/surface-findings.ts';
import { panelSurface } from './surface/panel-surface.ts';

/** One panel laid out by itself. */
export function laidOut(panel: Panel): PanelLayout {
  const sheet = panelSheet(panel);
  const balanced = balancedCorners(panel);
  const nothing = { panel, sheet, facets: [], creases: [], edges: [], corners: [], fixings: [], holes: [] };
  if (balanced.corners.length < 3) return { ...nothing, flats: [], tapes: [], findings: [] };
  const surface = panelSurface(panel, balanced.corners, sheet);
  const edges = laidEdges(panel, surface.corners, surface.facets, sheet);
  const fixings = placedFixings(edges);
  const corners = balanced.corners.map(({ id }) => surface.corners.find((corner) => corner.id === id)!);
  const radius = new Map(panel.corners?.map(({ id, radiusMm = 0 }) => [id, radiusMm]));
  return {
    ...nothing,
    facets: surface.facets,
    creases: surface.creases,
    edges,
    corners,
    surface: surface.shape,
    tapes: balanced.tapes,
    fixings,
    findings: surfaceFindings(panel, surface),
    flats: [
      {
        panel: panel.id,
        name: panel.name ?? panel.id,
        sheet: sheet.id,
        thicknessMm: sheet.thicknessMm,
        ...(panel.grain === undefined ? {} : { grainDeg: panel.grain === 'along' ? 0 : 90 }),
        outline: panelOutline(
          edges,
          surface.corners.map(({ id }) => radius.get(id) ?? 0),
        ),
        cutOuts: [],
        holes: fixings.map(({ at, holeMm }) => ({ at, diameterMm: holeMm, for: 'fixing' })),
        slots: [],
        folds: [],
        marks: [],
        words: [],
        corners: corners.map(({ id, flat: at }) => ({ id, at })),
      },
    ],
  };
}
