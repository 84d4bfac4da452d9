import type { Outline } from '#geometry';
import type { LaidEdge } from '../layout.ts';
import { crossing, lineThrough, movedOut } from './lines.ts';
import { type DraftCorner, rounded } from './rounded.ts';

/** The outline of a flat from its sides in ring order; `radii` of the corner each side begins at [mm]. */
export function panelOutline(edges: readonly LaidEdge[], radii: readonly number[]): Outline {
  const draft = edges.map((edge, k): DraftCorner => {
    const last = edges[(k + edges.length - 1) % edges.length]!;
    const [a, b] = [last, edge].map((e) => movedOut(lineThrough(...e.line), e.reachMm));
    return { at: crossing(a!, b!, edge.line[0]), radiusMm: radii[k] ?? 0 };
  });
  return rounded(draft);
}
