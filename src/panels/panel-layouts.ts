import type { Car, Panel } from '#car';
import type { TriangleMesh } from '#geometry';
import type { PanelCrossing } from './holes/panel-crossing.ts';
import { brakeTool } from './brake/brake-tool.ts';
import { foldOrderFindings } from './brake/fold-order.ts';
import { flangeClashes } from './joints/flange-clash.ts';
import { jointFindings } from './joints/joint-findings.ts';
import { panelRows } from './windows/row-windows.ts';
import { throughFindings } from './joints/panels-through.ts';
import { laidOut } from './laid-out.ts';
import type { PanelLayout } from './layout.ts';

/** What panels are laid out with besides the car. */
export interface PanelAsk {
  readonly crossings?: readonly PanelCrossing[];
  /** Scans that have been read, by file as the car names it [mm]; absent: corners stay as taped. */
  readonly meshes?: ReadonlyMap<string, TriangleMesh>;
}

/** Every panel of the car laid out, in the order of the file; a split one as its pieces. */
export function panelLayouts(car: Car, ask: PanelAsk = {}): readonly PanelLayout[] {
  const around = { car, crossings: ask.crossings ?? [], ...(ask.meshes && { meshes: ask.meshes }) };
  const bare = (car.panels ?? []).flatMap((panel) => laidOut(panel, around));
  const rows = panelRows(bare);
  const concerned = new Set(rows.map(({ panel }) => panel));
  const laid =
    rows.length === 0
      ? bare
      : (car.panels ?? []).flatMap((panel) =>
          concerned.has(panel.id)
            ? laidOut(panel, { ...around, rows })
            : bare.filter((layout) => layout.panel.id === panel.id),
        );
  const tool = brakeTool(car);
  const told = [
    ...jointFindings(laid),
    ...throughFindings(laid),
    ...laid.flatMap(flangeClashes),
    ...laid.flatMap((layout) => foldOrderFindings(layout, tool)),
  ];
  return laid.map((layout) => {
    // What is said of a split panel is said once, with its first piece.
    const own = (layout.piece?.number ?? 1) === 1 ? told.filter(({ panel }) => panel === layout.panel.id) : [];
    return own.length === 0 ? layout : { ...layout, findings: [...layout.findings, ...own] };
  });
}

/** One panel as it would be laid out in the car by itself: what it does to its neighbours is not told. */
export function layoutsOfPanel(
  car: Car,
  panel: Panel,
  { crossings = [], meshes }: PanelAsk = {},
): readonly PanelLayout[] {
  return laidOut(panel, { car, crossings, ...(meshes && { meshes }) });
}
