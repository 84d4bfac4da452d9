import type { Panel, PanelEdge } from '#car';
import type { BalancedCorner } from '../corners/balanced-corners.ts';
import { creasedLoops } from './facets.ts';

/** Lap of a split where the car does not say [mm]. */
export const SPLIT_LAP_MM = 20;

/** A piece of a panel: a panel of its own with the corners that are left to it. */
export interface SplitPiece {
  readonly panel: Panel;
  readonly corners: readonly BalancedCorner[];
}

/** The pieces that the splits of a panel leave, the whole one where there are none. The first piece reaches over the next by the lap. */
export function splitPieces(panel: Panel, corners: readonly BalancedCorner[]): readonly SplitPiece[] {
  const splits = panel.creases?.filter(({ kind }) => kind === 'split') ?? [];
  if (splits.length === 0) return [{ panel, corners }];
  const place = new Map(corners.map(({ id }, k) => [id, k]));
  const loops = creasedLoops(
    corners.length,
    splits.map(({ from, to }) => [place.get(from)!, place.get(to)!]),
  );
  const lapped = new Set<object>();
  return loops.map((loop) => {
    const ids = new Set(loop.map((k) => corners[k]!.id));
    const holds = (row: { from: string; to: string }) => ids.has(row.from) && ids.has(row.to);
    const laps = splits.filter(holds).map((split): PanelEdge => {
      const isOver = !lapped.has(split);
      lapped.add(split);
      return { from: split.from, to: split.to, overlapMm: isOver ? (split.overlapMm ?? SPLIT_LAP_MM) : 0 };
    });
    return {
      corners: loop.map((k) => corners[k]!),
      panel: {
        ...panel,
        corners: loop.map((k) => panel.corners![k]!),
        edges: [...(panel.edges ?? []).filter(holds), ...laps],
        creases: (panel.creases ?? []).filter((crease) => crease.kind !== 'split' && holds(crease)),
        windows: (panel.windows ?? []).filter(({ along }) => along === undefined || holds(along)),
      },
    };
  });
}
