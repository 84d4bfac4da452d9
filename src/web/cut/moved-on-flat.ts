import type { Edit, Panel } from '#car';
import type { Point2 } from '#geometry';
import type { LaidEdge, PanelLayout } from '#panels';

/** Something that can be moved on the flat: where its middle is and how far it reaches from there [mm]. */
export interface Movable {
  readonly kind: 'window' | 'hole';
  readonly id: string;
  readonly at: Point2;
  readonly reachMm: readonly [number, number];
}

/** Windows and the builder's own holes; what lines make moves with the line. */
export function movables({ panel, windows, holes, edges }: PanelLayout): readonly Movable[] {
  const fields = windows.flatMap((field): Movable[] => {
    const points = field.openings.flatMap(({ outline }) => outline.map(({ at }) => at));
    const window = panel.windows?.find(({ id }) => id === field.id);
    if (points.length === 0 || window === undefined) return [];
    const edge = edgeFrame(edges, window.along);
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    return [
      {
        kind: 'window',
        id: field.id,
        at: onEdge(edge, field.centreMm),
        reachMm: [(Math.max(...xs) - Math.min(...xs)) / 2, (Math.max(...ys) - Math.min(...ys)) / 2],
      },
    ];
  });
  const own = holes.flatMap(({ id, at, diameterMm, sizeMm }): Movable[] => {
    if (panel.holes?.some((hole) => hole.id === id) !== true) return [];
    const half = sizeMm === undefined ? diameterMm / 2 : Math.max(...sizeMm) / 2;
    return [{ kind: 'hole', id, at, reachMm: [half, half] }];
  });
  return [...fields, ...own];
}

interface EdgeFrame {
  readonly from: Point2;
  readonly way: Point2;
  readonly inward: Point2;
}

/** An edge as the builder names it; the longest where none is named. The ring runs counter-clockwise: inwards is to its left. */
function edgeFrame(
  edges: readonly LaidEdge[],
  named: { readonly from: string; readonly to: string } | undefined,
): EdgeFrame {
  const isNamed = ({ from, to }: LaidEdge): boolean => [from, to].every((id) => id === named?.from || id === named?.to);
  const found = named === undefined ? undefined : edges.find(isNamed);
  const edge = found ?? edges.reduce((a, b) => (b.lengthMm > a.lengthMm + 1e-6 ? b : a));
  const [[x1, y1], [x2, y2]] = edge.line;
  const long = Math.hypot(x2 - x1, y2 - y1);
  const ring: Point2 = [(x2 - x1) / long, (y2 - y1) / long];
  const isAlong = found === undefined || found.from === named?.from;
  return {
    from: isAlong ? edge.line[0] : edge.line[1],
    way: isAlong ? ring : [-ring[0], -ring[1]],
    inward: [-ring[1], ring[0]],
  };
}

const onEdge = ({ from, way, inward }: EdgeFrame, [along, across]: Point2): Point2 => [
  from[0] + along * way[0] + across * inward[0],
  from[1] + along * way[1] + across * inward[1],
];

function fromEdge({ from, way, inward }: EdgeFrame, [x, y]: Point2): Point2 {
  const [dx, dy] = [x - from[0], y - from[1]];
  return [dx * way[0] + dy * way[1], dx * inward[0] + dy * inward[1]];
}

/** A place on a flat is marked out to a tenth of a millimetre. */
const tenth = (mm: number): number => Math.round(mm * 10) / 10 + 0;

/** Where it would be said to be, moved by so much on the drawing: along its edge and in from it [mm]. */
export function placeMoved(layout: PanelLayout, { kind, id, at }: Movable, [dx, dy]: Point2): Point2 {
  const { panel, edges } = layout;
  const [first, second] = panel.corners ?? [];
  const own = panel.windows?.find((window) => window.id === id)?.along;
  const ends = first === undefined || second === undefined ? undefined : { from: first.id, to: second.id };
  const [along, across] = fromEdge(edgeFrame(edges, kind === 'window' ? own : ends), [at[0] + dx, at[1] + dy]);
  return [tenth(along), tenth(across)];
}

/** The panel with it moved, and the one edit that keeps that. */
export function panelMoved(
  layout: PanelLayout,
  panel: Panel,
  what: Movable,
  by: Point2,
): { readonly panel: Panel; readonly edit: Edit } {
  const [along, across] = placeMoved(layout, what, by);
  if (what.kind === 'window') {
    const value = (panel.windows ?? []).map((window) =>
      window.id === what.id ? { ...window, centreAlongMm: along, centreAcrossMm: across } : window,
    );
    return {
      panel: { ...panel, windows: value },
      edit: { do: 'set-panel', panel: panel.id, field: 'windows', value },
    };
  }
  const value = (panel.holes ?? []).map(({ atMm, ...hole }): NonNullable<Panel['holes']>[number] =>
    hole.id === what.id ? { ...hole, flatMm: [along, across] } : atMm === undefined ? hole : { ...hole, atMm },
  );
  return { panel: { ...panel, holes: value }, edit: { do: 'set-panel', panel: panel.id, field: 'holes', value } };
}
