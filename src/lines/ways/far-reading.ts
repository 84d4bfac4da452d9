import { type Bay, type PlanningItem, planningItems } from '#bay';
import type { Line } from '#car';
import { type LineObstacles, type Vec, distanceToBounds } from '#geometry';
import type { SlackReading } from './span.ts';

/** A place where the line passes a part: within the zone that part does not count. */
export interface Passage {
  readonly part: string;
  readonly at: Vec;
  /** Radius of the zone [mm]. */
  readonly zoneMm: number;
}

/** Beyond this slack nothing matters to a planner [mm]. */
const REACH_MM = 120;

/**
 * Slack of a place to everything a line keeps off: parts at their full keep-offs (moving ones at their extremes too) and
 * placed lines. Parts that the line passes are left out close to where it passes them.
 */
export function farReading(
  bay: Bay,
  line: Line,
  placed: LineObstacles | null,
  lineKeepOffMm: number,
  passages: readonly Passage[],
): SlackReading {
  const items = planningItems(bay, line);
  return {
    slackAndGradient(x, y, z, out) {
      let least = REACH_MM;
      let nearest: PlanningItem | null = null;
      for (const item of items) {
        const limit = least + item.keepOffMm;
        if (distanceToBounds(item.solid.bounds, x, y, z) >= limit) continue;
        if (passages.length > 0 && isPassed(passages, item.part, x, y, z)) continue;
        const slack = item.solid.distanceWithin(x, y, z, limit) - item.keepOffMm;
        if (slack >= least) continue;
        least = slack;
        nearest = item;
      }
      const other = placed?.nearest(x, y, z, least + lineKeepOffMm) ?? null;
      if (other !== null && other.distance - lineKeepOffMm < least) {
        out[0] = other.distance - lineKeepOffMm;
        out.set(other.gradient, 1);
        return;
      }
      out[0] = least;
      if (nearest === null) out.fill(0, 1);
      else awayFrom(nearest, x, y, z, out);
    },
  };
}

const isPassed = (passages: readonly Passage[], part: string, x: number, y: number, z: number): boolean =>
  passages.some((p) => p.part === part && Math.hypot(x - p.at[0], y - p.at[1], z - p.at[2]) < p.zoneMm);

/** The gradient of a signed distance: away from the surface outside, towards it inside. */
function awayFrom(item: PlanningItem, x: number, y: number, z: number, out: Float64Array): void {
  const { point, distance } = item.solid.closest(x, y, z);
  const sign = distance < 0 ? -1 : 1;
  const d = Math.max(1e-9, Math.hypot(x - point[0], y - point[1], z - point[2]));
  out[1] = (sign * (x - point[0])) / d;
  out[2] = (sign * (y - point[1])) / d;
  out[3] = (sign * (z - point[2])) / d;
}
