import type { Panel } from '#car';
import type { Facet } from '../surface/facets.ts';
import type { LaidCorner, LaidEdge, PanelSheet } from '../layout.ts';
import { edgeSpec } from '../surface/ring.ts';

/** The sides of a panel in ring order, with what stands beyond them. */
export function laidEdges(
  panel: Panel,
  ring: readonly LaidCorner[],
  facets: readonly Facet[],
  sheet: PanelSheet,
): readonly LaidEdge[] {
  void sheet;
  return ring.map((from, k) => {
    const next = (k + 1) % ring.length;
    const to = ring[next]!;
    const facet = facets.findIndex(({ ring: loop }) => loop.includes(k) && loop.includes(next));
    const { polygon, ring: loop } = facets[facet]!;
    const spec = edgeSpec(panel, from.id, to.id);
    const line = [polygon[loop.indexOf(k)]!, polygon[loop.indexOf(next)]!] as const;
    return {
      id: `${from.id}-${to.id}`,
      from: from.id,
      to: to.id,
      ...(spec === undefined ? {} : { spec }),
      line,
      lengthMm: Math.hypot(line[1][0] - line[0][0], line[1][1] - line[0][1]),
      facet,
      reachMm: spec?.flange === undefined && spec?.joggle === undefined ? (spec?.overlapMm ?? 0) : 0,
    };
  });
}
