import { bayWithMovedPart, bridgedBodies, gapsToParts } from '#bay';
import { type Line, splitPortRef } from '#car';
import { type Body, type RigidMotion, still, type Vec } from '#geometry';
import { bodiesOfWay, endLengths, type LinesWorld, takenInBay } from '#lines';

/** The gap of a line that stays where it is to the part in the builder's hand. */
export interface DragGap {
  readonly line: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly keepOffMm: number;
  readonly near: boolean;
  readonly atMm: Vec;
}

/** A line on the part's own ports, bent over to where they are now: a picture until it is worked out again. */
export interface DragGhost {
  readonly line: string;
  readonly bodies: readonly { readonly part: string; readonly pathMm: readonly Vec[]; readonly odMm: number }[];
}

export interface Dragged {
  readonly gaps: readonly DragGap[];
  readonly ghosts: readonly DragGhost[];
}

/** Gaps farther than this are of no interest to a hand that moves a part [mm]. */
const WITHIN_MM = 150;

/** A part carried off by a motion: the gaps of all taken lines to it, and its own lines as they would follow. Nothing is kept. */
export function dragged(world: LinesWorld, partId: string, motion: RigidMotion): Dragged {
  const bay = bayWithMovedPart(world.bay, partId, motion);
  const onlyIt = { ...bay, parts: bay.parts.filter((part) => part.id === partId) };
  const gaps: DragGap[] = [];
  const ghosts: DragGhost[] = [];
  for (const line of world.car.lines) {
    const taken = line.taken ?? null;
    if (taken === null || taken.bodies.length === 0) continue;
    const bodies = bodiesOfWay(taken);
    const [from, to] = [line.from, line.to].map((ref) => splitPortRef(ref).part === partId);
    if (from === true || to === true) {
      ghosts.push(ghost(line, bodies, from === true ? motion : still, to === true ? motion : still));
      continue;
    }
    const [row] = gapsToParts(takenInBay(bay, line, taken, bodies), onlyIt, WITHIN_MM);
    if (row === undefined) continue;
    const { gapMm, worstMm, bestMm, keepOffMm, near, atMm } = row;
    gaps.push({ line: line.id, gapMm, worstMm, bestMm, keepOffMm, near, atMm });
  }
  return { gaps: gaps.sort((a, b) => a.gapMm - a.keepOffMm - (b.gapMm - b.keepOffMm)), ghosts };
}

function ghost(line: Line, bodies: readonly Body[], from: RigidMotion, to: RigidMotion): DragGhost {
  const moved = bridgedBodies(bodies, from, to, endLengths(bodies));
  return {
    line: line.id,
    bodies: moved.map((body, i) => ({
      part: line.taken!.bodies[i]!.part,
      odMm: 2 * body.radiusMm,
      pathMm: Array.from(
        { length: body.path.length / 3 },
        (_, n): Vec => [body.path[3 * n]!, body.path[3 * n + 1]!, body.path[3 * n + 2]!],
      ),
    })),
  };
}
