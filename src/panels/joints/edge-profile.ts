import type { PanelEdge } from '#car';
import { addScaled, scale, unit, type Vec } from '#geometry';
import { rightOf } from '../flat/lines.ts';
import { joggleStrip, stepLength } from '../flat/strip.ts';
import type { LaidEdge, PanelLayout } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';

/** A panel's edge on the car: where it runs, the way out of the sheet across it, the way its outside face looks. */
export interface EdgeOnCar {
  readonly panel: PanelLayout['panel'];
  readonly sheet: PanelSheet;
  readonly edge: LaidEdge;
  readonly from: Vec;
  readonly to: Vec;
  readonly across: Vec;
  readonly out: Vec;
}

/** A piece of the sheet cut square to an edge: its outside face from one end to the other, and the way that face looks. */
export interface ProfilePiece {
  readonly name: 'sheet' | 'flange' | 'land';
  readonly from: Vec;
  readonly to: Vec;
  readonly out: Vec;
}

/** The straight edges of a panel: what a curved one meets is not measured. */
export function edgesOnCar({ panel, sheet, edges, facets, corners }: PanelLayout): readonly EdgeOnCar[] {
  // As measured, not as laid flat: what a twist takes a corner off the sheet is told by the twist.
  const placed = (id: string): Vec => corners.find((corner) => corner.id === id)!.at;
  return edges
    .filter(({ curve }) => curve === undefined)
    .map((edge): EdgeOnCar => {
      const { frame } = facets[edge.facet]!;
      const [a, b] = edge.line;
      // Sides run counter-clockwise seen from outside: right of the way is out of the sheet.
      const [x, y] = rightOf([b[0] - a[0], b[1] - a[1]]);
      const across = unit(addScaled(scale(frame.x, x), frame.y, y));
      return { panel, sheet, edge, from: placed(edge.from), to: placed(edge.to), across, out: frame.out };
    });
}

/** So much of the sheet behind its edge is looked at [mm]. */
const BEHIND_MM = 80;

/** The panel at a place of its edge, cut square to it: the sheet and what is folded or stepped up from its end. */
export function profileAt(of: EdgeOnCar, at: Vec): readonly ProfilePiece[] {
  const { across, out, sheet, edge } = of;
  const { flange, joggle, tabs, overlapMm = 0 } = edge.spec ?? {};
  const fold =
    flange ?? (tabs && { ...tabs, turnDeg: tabs.turnDeg ?? 0, towards: tabs.towards ?? ('inside' as const) });
  const lap = fold === undefined && joggle === undefined ? overlapMm : 0;
  const web: ProfilePiece = {
    name: 'sheet',
    from: addScaled(at, across, -BEHIND_MM),
    to: addScaled(at, across, lap),
    out,
  };
  if (fold !== undefined) {
    const turn = ((fold.towards === 'inside' ? 1 : -1) * fold.turnDeg * Math.PI) / 180;
    const face = tipped(out, scale(across, -1), turn);
    // The measured edge is the outermost plane of a flange: its outside face, or where it stands up on the outside its inner one.
    const from = fold.towards === 'inside' ? at : addScaled(at, face, sheet.thicknessMm);
    const to = addScaled(from, tipped(across, out, turn), fold.heightMm);
    return [web, { name: 'flange', from, to, out: face }];
  }
  if (joggle === undefined) return [web];
  const from = addScaled(
    addScaled(at, out, joggle.towards === 'inside' ? -joggle.stepMm : joggle.stepMm),
    across,
    joggleRun(joggle, sheet),
  );
  return [web, { name: 'land', from, to: addScaled(from, across, joggle.landMm), out }];
}

/** From the measured edge to where the land of a joggle begins, along the sheet [mm]. */
function joggleRun(joggle: NonNullable<PanelEdge['joggle']>, sheet: PanelSheet): number {
  const [bend, slope] = joggleStrip(joggle, sheet).steps;
  if (bend?.kind !== 'bend' || slope === undefined) return 0;
  const turn = (bend.turnDeg * Math.PI) / 180;
  return (2 * bend.radiusMm + sheet.thicknessMm) * Math.sin(turn) + stepLength(slope) * Math.cos(turn);
}

/** A direction tipped towards the back of a face, about the edge. */
const tipped = (way: Vec, face: Vec, turn: number): Vec => addScaled(scale(way, Math.cos(turn)), face, -Math.sin(turn));
