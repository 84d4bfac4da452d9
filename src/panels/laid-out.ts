import type { Car, Panel } from '#car';
import type { Point2, TriangleMesh } from '#geometry';
import { type BalancedCorner, type BalancedCorners, balancedCorners } from './corners/balanced-corners.ts';
import { tapeFindings } from './corners/tape-findings.ts';
import { fixingFindings } from './fixings/fixing-findings.ts';
import { placedFixings } from './fixings/placed-fixings.ts';
import { slottedFixings } from './fixings/slots.ts';
import { edgeFindings } from './flat/edge-findings.ts';
import { flatOf } from './flat/flat-of.ts';
import { foldLines } from './flat/fold-lines.ts';
import { laidSides } from './flat/laid-edges.ts';
import { panelOutline } from './flat/panel-outline.ts';
import { reliefSlits } from './flat/relief-slits.ts';
import { holeFindings } from './holes/hole-findings.ts';
import type { PanelCrossing } from './holes/panel-crossing.ts';
import { edgeAxes, placedHoles } from './holes/placed-holes.ts';
import type { LaidEdge, PanelLayout } from './layout.ts';
import { mirrorCheck, mirrorFindings } from './mirror/mirror-check.ts';
import { mirroredIntent } from './mirror/mirrored-intent.ts';
import { panelSheet } from './panel-sheet.ts';
import { panelWindows, webOutline } from './panel-windows.ts';
import { onCar } from './surface/facet-at.ts';
import { bowFindings } from './scan/bow.ts';
import { type PanelScan, scanOf } from './scan/panel-scan.ts';
import { snappedCorners } from './scan/snapped-corners.ts';
import { panelSurface } from './surface/panel-surface.ts';
import { spanFindings } from './surface/span-findings.ts';
import { splitPieces } from './surface/split-pieces.ts';
import type { PanelRow } from './windows/panel-row.ts';
import { surfaceFindings } from './surface/surface-findings.ts';
import { templateLayout } from './surface/template-layout.ts';
import { isWorked, type TemplatePanel, templatePanel } from './surface/template-panel.ts';

/** What a panel is laid out among. */
export interface Around {
  readonly car: Pick<Car, 'parts' | 'panels' | 'movers'>;
  readonly crossings: readonly PanelCrossing[];
  /** Scans by file; absent: none is asked. */
  readonly meshes?: ReadonlyMap<string, TriangleMesh>;
  /** Rows of windows that go on over several panels; absent: they are left off. */
  readonly rows?: readonly PanelRow[];
}

/** One panel laid out by itself, or its pieces where it is split. */
export function laidOut(asked: Panel, around: Around): readonly PanelLayout[] {
  if (asked.template !== undefined) {
    const crossings = around.crossings.filter((crossing) => crossing.panel === asked.id);
    return [
      isWorked(asked) ? laidTemplate(asked, asked.template, around) : templateLayout(asked, asked.template, crossings),
    ];
  }
  const master = around.car.panels?.find(({ id }) => id === asked.mirrorOf?.panel && id !== asked.id);
  const panel = mirroredIntent(asked, master);
  const mirror = mirrorCheck(panel, master);
  const balanced = balancedCorners(panel);
  const scan = balanced.placeless ? undefined : scanOf(panel, around);
  const snapped = snappedCorners(panel, balanced.corners, scan);
  const told = [...tapeFindings(panel, balanced), ...mirrorFindings(panel, mirror), ...snapped.findings];
  if (balanced.corners.length < 3) return [{ ...unlaid(panel), findings: told }];
  const pieces = splitPieces(panel, snapped.corners);
  return pieces.map((piece, i) => {
    const of = pieces.length === 1 ? undefined : { number: i + 1, of: pieces.length };
    const layout = laidPiece(piece.panel, piece.corners, { ...around, balanced, scan }, of);
    return {
      ...layout,
      findings: [...(i === 0 ? told : []), ...layout.findings],
      ...(of && { piece: of }),
      ...(mirror && { mirror }),
    };
  });
}

/** A template with edges to fold or fix, or with windows: as corners where it lies on the car, its own panel kept. */
function laidTemplate(asked: Panel, template: NonNullable<Panel['template']>, around: Around): PanelLayout {
  const { panel, corners, findings, drawn } = templatePanel(asked, template);
  const balanced: BalancedCorners = { corners, tapes: [], untold: [], placeless: false };
  // Without its place on the car nothing is known to cross it.
  const crossings = template.matches.length < 3 ? [] : around.crossings;
  const layout = laidPiece(panel, corners, { ...around, crossings, balanced, scan: undefined, drawn }, undefined);
  return { ...layout, panel: asked, findings: [...findings, ...layout.findings] };
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
    windows: [],
    findings: [],
  };
}

/** A curved edge may leave its points by this where they are known better [mm]. */
const ARCS_WITHIN_MM = 0.5;

function laidPiece(
  panel: Panel,
  measured: readonly BalancedCorner[],
  around: Around & {
    readonly balanced: BalancedCorners;
    readonly scan: PanelScan | undefined;
    readonly drawn?: TemplatePanel['drawn'];
  },
  piece: PanelLayout['piece'],
): PanelLayout {
  const sheet = panelSheet(panel);
  const surface = panelSurface(panel, measured, sheet);
  const { facets, creases } = surface;
  const sides = laidSides(panel, surface, sheet);
  const { edges, cuts } = sides;
  const crossings = around.crossings.filter((crossing) => crossing.panel === panel.id);
  const { axes, cutOuts } = around.drawn?.(facets[0]!.frame) ?? { axes: edgeAxes(panel, edges), cutOuts: [] };
  const holes = placedHoles(panel, facets, axes, crossings);
  const folds = foldLines(edges, creases);
  const radius = new Map(panel.corners?.map(({ id, radiusMm = 0 }) => [id, radiusMm]));
  const radii = surface.corners.map(({ id }) => radius.get(id) ?? 0);
  const fixings = slottedFixings(panel, placedFixings({ edges, radii, folds, holes, sheet }), sheet);
  const corners = measured.map(({ id }) => surface.corners.find((corner) => corner.id === id)!);
  const outline = panelOutline(sides, radii, sheet.thicknessMm, ARCS_WITHIN_MM);
  const inCar = (at: Point2) => onCar(facets, at);
  const relieved = reliefSlits(panel, surface, folds, outline, sheet);
  const done = { panel, sheet, facets, creases, edges, corners, fixings, holes, folds, outline, cutOuts, inCar };
  const web = webOutline(edges, cuts, outline);
  const windows = panelWindows({ ...done, web, ...(around.rows && { rows: around.rows }) });
  const middleOf = ({ line: [a, b] }: LaidEdge) => inCar([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
  return {
    ...unlaid(panel),
    ...{ sheet, facets, creases, edges, corners, fixings, holes },
    surface: surface.shape,
    tapes: around.balanced.tapes,
    windows: windows.fields,
    web,
    findings: [
      ...surfaceFindings(panel, surface, sheet),
      ...bowFindings(panel, surface, around.scan),
      ...edgeFindings({ ...done, cuts, middleOf }),
      ...fixingFindings({ ...done, car: around.car }),
      ...holeFindings({ ...done, crossings }),
      ...spanFindings(panel, facets, sheet),
      ...windows.findings,
    ],
    flats: [flatOf({ ...done, ...relieved, piece, cuts, windows: windows.fields, meshes: windows.meshes })],
  };
}
