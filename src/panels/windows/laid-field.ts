import {
  depthInOutline,
  movedOutline,
  type Outline,
  outlineGap,
  type Point2,
  type ReadyOutline,
  readyOutline,
  isInOutline,
} from '#geometry';
import type { DrilledHole } from '../flat-pattern.ts';
import {
  boxesApart,
  type Clear,
  type FieldQuad,
  gapToClear,
  quadHeight,
  quadLength,
  quadMiddle,
} from './field-quad.ts';
import type { Cell } from './window-cells.ts';
import type { Opening, WindowField } from './window-spec.ts';

/** The frame of the edge that a field follows: u along it, v into the panel. */
export interface EdgeFrame {
  readonly from: Point2;
  readonly turn: number;
  /** Length of the edge [mm], and whether it is taken from its other end. */
  readonly long: number;
  readonly isTurned: boolean;
}

export const inFrame = (frame: EdgeFrame, outline: Outline): Outline => {
  const [c, s] = [Math.cos(-frame.turn), Math.sin(-frame.turn)];
  const [x, y] = frame.from;
  return movedOutline(outline, [-(c * x - s * y), -(s * x + c * y)], -frame.turn);
};
export const outOfFrame = (frame: EdgeFrame, outline: Outline): Outline =>
  movedOutline(outline, frame.from, frame.turn);

export const pointInFrame = (frame: EdgeFrame, at: Point2): Point2 => inFrame(frame, [{ at }])[0]!.at;
const pointOutOfFrame = (frame: EdgeFrame, at: Point2): Point2 => outOfFrame(frame, [{ at }])[0]!.at;

/** Least webs and edge distances of openings as they lie; and what of it is closer than asked. */
export interface Distances {
  readonly webMm?: number;
  readonly edgeMm: number;
  readonly broken?: { readonly opening: number; readonly from: string; readonly mm: number };
}

/** Far enough to say how near the nearest is [times what is asked]. */
const LOOK = 6;

/** How near openings are to one another, to the outline and to the rest; `broken` tells the first that is too near. */
export function distancesOf(
  cells: readonly Cell[],
  panel: ReadyOutline,
  clears: readonly Clear[],
  asked: { readonly webMm: number; readonly edgeMm: number },
): Distances {
  const ready = cells.map(({ outline }) => readyOutline(outline));
  let [web, edge] = [Infinity, Infinity];
  let broken: Distances['broken'];
  const note = (opening: number, from: string, mm: number, least: number): void => {
    if (mm < least - 1e-6) broken ??= { opening, from, mm };
  };
  const order = ready.map((_, i) => i).sort((i, j) => ready[i]!.box[0] - ready[j]!.box[0]);
  for (const [place, i] of order.entries()) {
    const one = ready[i]!;
    // One that lies so deep in the panel changes nothing.
    if (depthOfBox(one.box, panel) < Math.max(edge, asked.edgeMm)) {
      const within = isInOutline(panel, one.sides[0]!.a);
      const toEdge = within ? Math.min(edge, outlineGap(one, panel, edge)) : 0;
      edge = Math.min(edge, toEdge);
      note(i, 'the outline', toEdge, asked.edgeMm);
    }
    for (const clear of clears) {
      // Nothing that is further off than asked changes anything.
      if (clear.outline !== undefined && boxesApart(one.box, clear.outline.box) > clear.clearMm) continue;
      const gap = gapToClear(one, clear, clear.clearMm);
      edge = Math.min(edge, gap);
      note(i, clear.name, gap, clear.clearMm);
    }
    const look = Math.min(web, LOOK * asked.webMm + 1);
    for (let k = place + 1; k < order.length; k++) {
      const other = ready[order[k]!]!;
      if (other.box[0] - one.box[2] > look) break;
      if (other.box[1] - one.box[3] > look || one.box[1] - other.box[3] > look) continue;
      // No nearer than the nearest so far, nor than asked: it changes nothing.
      if (boxesApart(one.box, other.box) >= Math.max(web, asked.webMm)) continue;
      const gap = outlineGap(one, other, look);
      web = Math.min(web, gap);
      note(i, 'the next opening', gap, asked.webMm);
    }
  }
  return {
    ...(web === Infinity ? {} : { webMm: web }),
    edgeMm: edge,
    ...(broken === undefined ? {} : { broken }),
  };
}

/** At least so deep lies all of a box in an outline [mm]; negative where it may not lie in it. */
function depthOfBox([x0, y0, x1, y1]: ReadyOutline['box'], panel: ReadyOutline): number {
  return depthInOutline(panel, [(x0 + x1) / 2, (y0 + y1) / 2]) - Math.hypot(x1 - x0, y1 - y0) / 2;
}

/** Cells in the frame as named openings on the flat, with what can be said of them together. */
export function laidField(
  frame: EdgeFrame,
  quad: FieldQuad,
  cells: readonly Cell[],
  distances: Distances,
  of: { id: string; count: number; rows: number; drillMm: number; meshShare: number; notes: readonly string[] },
): WindowField {
  const openings = cells.map((cell, i): Opening => {
    const name = cells.length === 1 ? of.id : `${of.id}.${i + 1}`;
    const corners = cell.corners.map(
      (at): DrilledHole => ({
        at: pointOutOfFrame(frame, at),
        diameterMm: of.drillMm,
        for: `corner of ${name}`,
        corner: true,
      }),
    );
    return { name, outline: outOfFrame(frame, cell.outline), corners, areaMm2: cell.areaMm2 };
  });
  const openMm2 = cells.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
  const [u, v] = quadMiddle(quad);
  return {
    id: of.id,
    openings,
    openMm2,
    freeMm2: openMm2 * of.meshShare,
    ...(distances.webMm === undefined ? {} : { webMm: distances.webMm }),
    edgeMm: distances.edgeMm,
    drillMm: of.drillMm,
    count: of.count,
    rows: of.rows,
    centreMm: [frame.isTurned ? frame.long - u : u, v],
    sizeMm: [quadLength(quad), quadHeight(quad)],
    notes: of.notes,
  };
}
