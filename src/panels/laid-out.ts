import type { Panel } from '#car';
import { type BalancedCorner, type BalancedCorners, balancedCorners } from './corners/balanced-corners.ts';
import { placedFixings } from './fixings/placed-fixings.ts';
import { foldLines } from './flat/fold-lines.ts';
import { laidSides } from './flat/laid-edges.ts';
import { panelOutline } from './flat/panel-outline.ts';
import type { PanelLayout } from './layout.ts';
import { panelSheet } from './panel-sheet.ts';
import { surfaceFindings } from './surface/surface-findings.ts';
import { panelSurface } from './surface/panel-surface.ts';
import { splitPieces } from './surface/split-pieces.ts';

/** One panel laid out by itself, or its pieces where it is split. */
export function laidOut(panel: Panel): readonly PanelLayout[] {
  const balanced = balancedCorners(panel);
  if (balanced.corners.length < 3) return [unlaid(panel)];
  const pieces = splitPieces(panel, balanced.corners);
  return pieces.map((piece, i) => ({
    ...laidPiece(piece.panel, piece.corners, balanced),
    ...(pieces.length === 1 ? {} : { piece: { number: i + 1, of: pieces.length } }),
  }));
}

function unlaid(panel: Panel): PanelLayout {
  return {
    panel,
    sheet: panelSheet(panel),
    flats: [],
    facets: [],
    creases: [],
    edges: [],
    corners: [],
    tapes: [],
    fixings: [],
    holes: [],
    findings: [],
  };
}

/** A curved edge may leave its points by this where they are known better [mm]. */
const ARCS_WITHIN_MM = 0.5;

function laidPiece(panel: Panel, measured: readonly BalancedCorner[], balanced: BalancedCorners): PanelLayout {
  const sheet = panelSheet(panel);
  const surface = panelSurface(panel, measured, sheet);
  const sides = laidSides(panel, surface, sheet);
  const { edges, cuts } = sides;
  const fixings = placedFixings(edges);
  const corners = measured.map(({ id }) => surface.corners.find((corner) => corner.id === id)!);
  const radius = new Map(panel.corners?.map(({ id, radiusMm = 0 }) => [id, radiusMm]));
  const radii = surface.corners.map(({ id }) => radius.get(id) ?? 0);
  return {
    ...unlaid(panel),
    sheet,
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
        outline: panelOutline(sides, radii, sheet.thicknessMm, ARCS_WITHIN_MM),
        cutOuts: [],
        holes: [
          ...fixings.map(({ at, holeMm }) => ({ at, diameterMm: holeMm, for: 'fixing' })),
          ...cuts.flatMap(({ at, reliefMm }) =>
            reliefMm === undefined ? [] : [{ at, diameterMm: reliefMm, for: 'relief', corner: true }],
          ),
        ],
        slots: [],
        folds: foldLines(edges, surface.creases),
        marks: [],
        words: [],
        corners: corners.map(({ id, flat: at }) => ({ id, at })),
      },
    ],
  };
}
