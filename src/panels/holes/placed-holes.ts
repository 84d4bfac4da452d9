import type { Panel } from '#car';
import type { Point2 } from '#geometry';
import { degOf, lineThrough, plus, rightOf } from '../flat/lines.ts';
import type { LaidEdge, PlacedHole } from '../layout.ts';
import { onFlat } from '../surface/facet-at.ts';
import type { Facet } from '../surface/facets.ts';
import { crossingHole } from './crossing-hole.ts';
import type { PanelCrossing } from './panel-crossing.ts';

/** Where a point given from the panel's first corner, along its first edge and square to it, is on the drawing. */
export function flatOfOwn(panel: Panel, edges: readonly LaidEdge[], [along, across]: Point2): Point2 {
  const [first, second] = panel.corners!.map(({ id }) => id);
  const edge = edges.find(({ from, to }) => (from === first && to === second) || (from === second && to === first));
  // A piece of a split panel without that edge is marked out from its own first one.
  const measured = lineThrough(...(edge ?? edges[0]!).line);
  const runs = edge === undefined || edge.from === first;
  const from = runs ? (edge?.line[0] ?? edges[0]!.line[0]) : edge.line[1];
  return plus(plus(from, measured.along, runs ? along : -along), rightOf(measured.along), -across);
}

/** Where what is given on the flat is measured from, and which way. */
export interface OwnAxes {
  readonly flatOf: (own: Point2) => Point2;
  readonly turnDeg: number;
}

/** From the panel's first corner along its first edge. */
export const edgeAxes = (panel: Panel, edges: readonly LaidEdge[]): OwnAxes => ({
  flatOf: (own) => flatOfOwn(panel, edges, own),
  turnDeg: turnOfFirst(panel, edges),
});

/** Every hole of a panel: its own, and those of the lines that cross it. */
export function placedHoles(
  panel: Panel,
  facets: readonly Facet[],
  axes: OwnAxes,
  crossings: readonly PanelCrossing[],
): readonly PlacedHole[] {
  const own = (panel.holes ?? []).flatMap((hole): PlacedHole[] => {
    const at = hole.flatMm !== undefined ? axes.flatOf(hole.flatMm) : hole.atMm && onFlat(facets, hole.atMm).at;
    if (at === undefined) return [];
    return [
      {
        id: hole.id,
        for: hole.for ?? hole.id,
        at,
        diameterMm: hole.diameterMm ?? 0,
        ...(hole.sizeMm === undefined ? {} : { sizeMm: hole.sizeMm, turnDeg: axes.turnDeg }),
        ...(hole.cornerDrillMm === undefined ? {} : { cornerDrillMm: hole.cornerDrillMm }),
        ...(hole.fitted === undefined ? {} : { fitted: hole.fitted }),
      },
    ];
  });
  const crossed = crossings
    .filter((crossing) => !own.some((hole) => hole.for === crossing.line))
    .map((crossing) => crossingHole(crossing, facets, panel.thicknessMm));
  return [...own, ...crossed];
}

function turnOfFirst(panel: Panel, edges: readonly LaidEdge[]): number {
  const [first, second] = panel.corners!.map(({ id }) => id);
  const edge = edges.find(({ from, to }) => (from === first && to === second) || (from === second && to === first));
  return degOf(lineThrough(...(edge ?? edges[0]!).line).along);
}
