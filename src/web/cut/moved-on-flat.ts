import type { Edit, Panel } from '#car';
import { add, type Point2, sub, type Vec } from '#geometry';
import { carFromFlat, type FlatFrame, type LaidCorner, type LaidEdge, type PanelLayout } from '#panels';

/** Something that can be moved on the flat: where its middle is and how far it reaches from there [mm]. */
export interface Movable {
  readonly kind: 'window' | 'hole' | 'corner';
  readonly id: string;
  readonly at: Point2;
  readonly reachMm: readonly [number, number];
}

/** Something in the hand, and how far it was drawn on the flat [mm]. */
export interface Held {
  readonly what: Movable;
  readonly by: Point2;
}

/** Windows, the builder's own holes, corners that were measured; what lines make moves with the line. */
export function movables({ panel, windows, holes, edges, corners }: PanelLayout): readonly Movable[] {
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
  const measured = corners.filter((corner) => panel.template === undefined && corner.measured !== undefined);
  return [
    ...fields,
    ...own,
    ...measured.map(({ id, flat }) => ({ kind: 'corner' as const, id, at: flat, reachMm: POINT })),
  ];
}

const POINT = [0, 0] as const;

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

/** How the drawing stands on the car at one of its corners. */
export function frameAtCorner({ facets }: PanelLayout, { flat }: LaidCorner): FlatFrame {
  const isAt = ([x, y]: Point2): boolean => Math.hypot(x - flat[0], y - flat[1]) < SAME_MM;
  return (facets.find(({ polygon }) => polygon.some(isAt)) ?? facets[0]!).frame;
}

/** Where on the car a corner would be, moved by so much along its sheet [mm]. */
export function cornerMoved(layout: PanelLayout, id: string, [dx, dy]: Point2): Vec {
  const corner = layout.corners.find((one) => one.id === id)!;
  const { measured, at } = corner;
  const frame = frameAtCorner(layout, corner);
  const along = sub(carFromFlat(frame, [dx, dy]), frame.origin);
  const [x, y, z] = add(measured ?? at, along);
  return [tenth(x), tenth(y), tenth(z)];
}

const SAME_MM = 0.01;

/** The panel with it moved, and the one edit that keeps that. */
export function panelMoved(
  layout: PanelLayout,
  panel: Panel,
  what: Movable,
  by: Point2,
): { readonly panel: Panel; readonly edit: Edit } {
  if (what.kind === 'corner') {
    const [x, y, z] = cornerMoved(layout, what.id, by);
    const value = (panel.corners ?? []).map((corner) =>
      corner.id === what.id ? { ...corner, atMm: [x, y, z] as [number, number, number] } : corner,
    );
    return { panel: { ...panel, corners: value }, edit: { do: 'set-panel', panel: panel.id, field: 'corners', value } };
  }
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
