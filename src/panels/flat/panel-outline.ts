import type { Outline } from '#geometry';
import type { LaidEdge } from '../layout.ts';
import { fittedArcs } from './fitted-arcs.ts';
import type { LaidSides } from './laid-edges.ts';
import { reliefCorners } from './relief.ts';
import { type DraftCorner, rounded } from './rounded.ts';
import { tabCorners } from './tabs.ts';

/** Free corners of flanges and tabs are taken round: a sharp one cuts hands [mm]. */
const FREE_CORNER_MM = 3;

/** The outline of a flat from its sides in ring order; `radii` of the corner at which each side begins [mm]. */
export function panelOutline(
  { edges, cuts }: LaidSides,
  radii: readonly number[],
  thicknessMm: number,
  arcsWithinMm: number,
): Outline {
  const free = (edge: LaidEdge) => Math.min(FREE_CORNER_MM, (edge.strip?.landMm ?? 0) / 2);
  const draft = edges.flatMap((edge, k): readonly DraftCorner[] => {
    const cut = cuts[k]!;
    const last = edges[(k + edges.length - 1) % edges.length]!;
    const corner = cornerCorners(
      cut,
      radii[k] ?? 0,
      Math.min(free(edge) || Infinity, free(last) || Infinity, FREE_CORNER_MM),
    );
    if (edge.tabs !== undefined) return [...corner, ...tabCorners(edge.tabs, thicknessMm, FREE_CORNER_MM)];
    if (edge.curve === undefined) return corner;
    return curved(corner, edge, cuts[(k + 1) % cuts.length]!.at, arcsWithinMm);
  });
  return rounded(draft);
}

function cornerCorners(cut: LaidSides['cuts'][number], radiusMm: number, freeMm: number): readonly DraftCorner[] {
  const { end, start, at, reliefMm } = cut;
  if (end !== undefined && start !== undefined) return reliefCorners(at, (reliefMm ?? 0) / 2, end, start, freeMm);
  const out = (flank: typeof end = []) =>
    flank.slice(1).map((p, i, all) => (i === all.length - 1 ? { at: p, radiusMm: freeMm } : { at: p }));
  if (end !== undefined) return [...out(end).reverse(), { at }];
  if (start !== undefined) return [{ at }, ...out(start)];
  return [{ at, radiusMm }];
}

/** A curved side: its arcs from the corner that begins it to the next one. */
function curved(
  corner: readonly DraftCorner[],
  edge: LaidEdge,
  to: readonly [number, number],
  withinMm: number,
): DraftCorner[] {
  const begin = corner.at(-1)!;
  const { arcs } = fittedArcs([begin.at, ...edge.curve!.slice(1, -1), to], withinMm);
  return [...corner.slice(0, -1), ...arcs.map((arc, i) => (i === 0 ? { ...arc, at: begin.at } : arc))];
}
