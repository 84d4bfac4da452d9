import type { Panel, PanelEdge } from '#car';

type Point = readonly [number, number, number];
const over = (planeYMm: number, [x, y, z]: Point): [number, number, number] => [x, 2 * planeYMm - y, z];

/**
 * A panel meant as the mirror of another: what is done to the master (edges, fixings, windows, holes, creases, sheet) is done to
 * it, on its own measured corners. What it says itself counts before the master.
 */
export function mirroredIntent(panel: Panel, master: Panel | undefined): Panel {
  if (panel.mirrorOf === undefined || master === undefined) return panel;
  const plane = panel.mirrorOf.planeYMm ?? 0;
  const own = panel.edges ?? [];
  const isSame = (a: PanelEdge, b: PanelEdge) =>
    (a.from === b.from && a.to === b.to) || (a.from === b.to && a.to === b.from);
  const edges = [
    ...own.map((edge) => ({
      ...mirroredEdge(
        master.edges?.find((row) => isSame(row, edge)),
        plane,
      ),
      ...edge,
    })),
    ...(master.edges ?? [])
      .filter((edge) => !own.some((row) => isSame(row, edge)))
      .map((edge) => mirroredEdge(edge, plane)),
  ] as PanelEdge[];
  const holes =
    panel.holes ??
    master.holes?.map((hole) => (hole.atMm === undefined ? hole : { ...hole, atMm: over(plane, hole.atMm) }));
  const { outside } = master;
  const carried = {
    sheet: panel.sheet ?? master.sheet,
    kFactor: panel.kFactor ?? master.kFactor,
    bendRadiusMm: panel.bendRadiusMm ?? master.bendRadiusMm,
    grain: panel.grain ?? master.grain,
    top: panel.top ?? master.top,
    creases: panel.creases ?? master.creases,
    windows: panel.windows ?? master.windows,
    load: panel.load ?? master.load,
    removable: panel.removable ?? master.removable,
    outside: panel.outside ?? (outside && ([outside[0], -outside[1], outside[2]] as typeof outside)),
    corners: panel.corners?.map((corner) => {
      const radiusMm = corner.radiusMm ?? master.corners?.find(({ id }) => id === corner.id)?.radiusMm;
      return radiusMm === undefined ? corner : { ...corner, radiusMm };
    }),
    holes,
  };
  const told = Object.fromEntries(Object.entries(carried).filter(([, value]) => value !== undefined));
  return { ...panel, ...told, ...(edges.length === 0 ? {} : { edges }) };
}

function mirroredEdge(edge: PanelEdge | undefined, plane: number): Partial<PanelEdge> {
  if (edge?.throughMm === undefined) return edge ?? {};
  return { ...edge, throughMm: edge.throughMm.map((at) => over(plane, at)) };
}
