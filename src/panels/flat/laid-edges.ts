import type { Panel } from '#car';
import type { Point2 } from '#geometry';
import type { LaidCorner, LaidEdge } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import type { CreaseBend, Facet } from '../surface/facets.ts';
import { flatFromCar } from '../surface/flat-frame.ts';
import { edgeSpec } from '../surface/ring.ts';
import { lineThrough, movedOut } from './lines.ts';
import { type CornerCut, cornerCut, type Side } from './strip-ends.ts';
import { type LaidStrip, type Strip, stripOf } from './strip.ts';
import { laidTabs } from './tabs.ts';

interface Flattened {
  readonly corners: readonly LaidCorner[];
  readonly facets: readonly Facet[];
  readonly creases: readonly CreaseBend[];
}

/** The sides of a panel in ring order, with what stands beyond them, and the corners between them. */
export interface LaidSides {
  readonly edges: readonly LaidEdge[];
  /** Corner at which each side begins. */
  readonly cuts: readonly CornerCut[];
}

export function laidSides(panel: Panel, surface: Flattened, sheet: PanelSheet): LaidSides {
  const bare = surface.corners.map((_, k) => bareEdge(panel, surface, k, sheet));
  const sides = bare.map(
    ({ edge, strip }): Side => ({
      line: lineThrough(...edge.line),
      reachMm: edge.reachMm,
      frame: surface.facets[edge.facet]!.frame,
      ...(strip === undefined ? {} : { strip }),
      ...(edge.spec?.reliefMm === undefined ? {} : { reliefMm: edge.spec.reliefMm }),
    }),
  );
  const cuts = sides.map((side, k) => {
    const before = (k + sides.length - 1) % sides.length;
    return cornerCut(surface.corners[k]!.flat, sides[before]!, side, sheet.thicknessMm);
  });
  const edges = bare.map(({ edge, strip }, k): LaidEdge => {
    const base = movedOut(sides[k]!.line, edge.reachMm);
    if (strip !== undefined) {
      const laid: LaidStrip = { ...strip, base, start: cuts[k]!.start!, end: cuts[(k + 1) % cuts.length]!.end! };
      return { ...edge, strip: laid };
    }
    const tabs = edge.spec?.tabs;
    return tabs === undefined ? edge : { ...edge, tabs: laidTabs(tabs, sides[k]!.line, edge, sheet) };
  });
  return { edges, cuts };
}

function bareEdge(
  panel: Panel,
  { corners, facets }: Flattened,
  k: number,
  sheet: PanelSheet,
): { edge: LaidEdge; strip: Strip | undefined } {
  const next = (k + 1) % corners.length;
  const [from, to] = [corners[k]!, corners[next]!];
  const facet = facets.findIndex(({ ring }) => ring.includes(k) && ring.includes(next));
  const { polygon, ring, frame } = facets[facet]!;
  const spec = edgeSpec(panel, from.id, to.id);
  const line = [polygon[ring.indexOf(k)]!, polygon[ring.indexOf(next)]!] as const;
  const through = spec?.throughMm?.map((at): Point2 => flatFromCar(frame, at)) ?? [];
  const curve =
    through.length === 0 ? undefined : [line[0], ...(spec!.from === from.id ? through : through.reverse()), line[1]];
  const strip = curve === undefined ? stripOf(spec, sheet) : undefined;
  return {
    strip,
    edge: {
      id: `${from.id}-${to.id}`,
      from: from.id,
      to: to.id,
      ...(spec === undefined ? {} : { spec }),
      line,
      lengthMm: Math.hypot(line[1][0] - line[0][0], line[1][1] - line[0][1]),
      facet,
      reachMm: strip === undefined ? (spec?.overlapMm ?? 0) : -strip.setbackMm,
      ...(curve === undefined ? {} : { curve }),
    },
  };
}
