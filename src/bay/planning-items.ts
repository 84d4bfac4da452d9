import type { Line, PartClass } from '#car';
import { type RigidMotion, type Solid, still } from '#geometry';
import type { Bay } from './bay.ts';
import { type BayPart, isOwnPart } from './bay-part.ts';
import { keepOff } from './keep-off.ts';
import { jointPoses } from './movement.ts';
import { solidsSeenFrom } from './moved-solids.ts';

/** One solid to keep off, for a planner's fields. */
export interface PlanningItem {
  readonly solid: Solid;
  /** From the solid's surface to the line's [mm]. */
  readonly keepOffMm: number;
  readonly part: string;
  readonly class: PartClass;
  /** A copy of the part at an extreme of its movement, not where it is drawn. */
  readonly moved: boolean;
  /** The part carries one of the line's ports. */
  readonly own: boolean;
}

/** Added to the doubt in hot and moving parts, so that worst case never touches by rounding [mm]. */
const SPARE_MM = 1;

/**
 * What a line has to keep off, part by part: the rule, or for hot and moving parts at least as much as is not known about the
 * two places. Parts that move against the line stand there once more at each extreme; there it is enough not to be touched.
 * For a line between two movers, parts on either are given as drawn only: its own ends go with them, so they are judged on
 * the line as it hangs (`gapsToParts`).
 */
export function planningItems(bay: Bay, line: Line): readonly PlanningItem[] {
  const from = bay.ports.get(line.from);
  const to = bay.ports.get(line.to);
  const mover = (id: string | undefined): string | null =>
    id === undefined ? null : (bay.partById.get(id)?.moverId ?? null);
  const ends = { from: mover(from?.partId), to: mover(to?.partId) };
  const portDoubt = Math.max(from?.knownToMm ?? 0, to?.knownToMm ?? 0);
  return bay.parts.flatMap((part) => {
    const doubt = part.class === 'fixed' ? 0 : part.knownToMm + portDoubt;
    const touch = doubt + SPARE_MM;
    const rule = keepOff(bay, part, line).mm;
    const item = (solid: Solid, keepOffMm: number, moved: boolean): PlanningItem => ({
      solid,
      keepOffMm,
      part: part.id,
      class: part.class,
      moved,
      own: isOwnPart(part, from?.partId) || isOwnPart(part, to?.partId),
    });
    const nominal = part.solids.map((s) => item(s, part.class === 'fixed' ? rule : Math.max(rule, touch), false));
    return [...nominal, ...movedSolids(bay, part, ends).map((s) => item(s, touch, true))];
  });
}

function movedSolids(
  bay: Bay,
  part: BayPart,
  ends: { readonly from: string | null; readonly to: string | null },
): readonly Solid[] {
  const together = ends.from === ends.to;
  if (!together && (part.moverId === ends.from || part.moverId === ends.to)) return [];
  const seen = new Set<RigidMotion>();
  return jointPoses(bay.movers, { ...ends, part: part.moverId }).flatMap((pose) => {
    if (together) {
      const solids = solidsSeenFrom(part, pose.from, pose.part);
      return solids === part.solids ? [] : solids;
    }
    if (pose.part === still || seen.has(pose.part)) return [];
    seen.add(pose.part);
    return solidsSeenFrom(part, null, pose.part);
  });
}
