import { type PlanningItem, planningItems } from '#bay';
import type { Line } from '#car';
import { type LineObstacles, type Solid, type Vec, distanceToBounds } from '#geometry';
import type { LinesWorld } from '../world.ts';
import { REACH_MM } from './bricks.ts';
import type { SlackReading } from './span.ts';

/** A place where the line passes a part: within the zone that part does not count. */
export interface Passage {
  readonly part: string;
  readonly at: Vec;
  /** Radius of the zone [mm]. */
  readonly zoneMm: number;
}

/** Bricks read a line's round side this much too far off at most [mm]. */
const READING_MM = 0.8;

/**
 * Slack of a place to everything a line keeps off: parts at their full keep-offs (moving ones at their extremes too) and
 * placed lines. Parts that the line passes are left out close to where it passes them.
 */
export function farReading(
  world: LinesWorld,
  line: Line,
  placed: LineObstacles | null,
  passages: readonly Passage[],
): SlackReading {
  const items = planningItems(world.bay, line);
  const passedParts = new Set(passages.map((p) => p.part));
  const passed = items.filter((item) => passedParts.has(item.part));
  const bricks = world.bricks.bricks(passed.length === 0 ? items : items.filter((item) => !passedParts.has(item.part)));
  const others = (placed?.ids ?? []).map((id) =>
    world.bricks.line(placed!.bodiesOf(id), world.lineKeepOffMm + READING_MM),
  );
  const other = new Float64Array(4);
  const withLines = (x: number, y: number, z: number, out: Float64Array): void => {
    for (const placedLine of others) {
      if (distanceToBounds(placedLine.bounds, x, y, z) >= out[0]!) continue;
      placedLine.slackAndGradient(x, y, z, other);
      if (other[0]! < out[0]!) out.set(other);
    }
  };
  return {
    slackAndGradient(x, y, z, out) {
      bricks.slackAndGradient(x, y, z, out);
      for (const item of passed) withItem(item, passages, x, y, z, out);
      withLines(x, y, z, out);
    },
    toLines(x, y, z, out) {
      out[0] = REACH_MM;
      out.fill(0, 1);
      withLines(x, y, z, out);
    },
    coarse(x, y, z) {
      let slack = bricks.coarse(x, y, z);
      for (const item of passed) {
        if (!isPassed(passages, item.part, x, y, z))
          slack = Math.min(slack, item.solid.distanceWithin(x, y, z, slack + item.keepOffMm) - item.keepOffMm);
      }
      for (const placedLine of others)
        if (distanceToBounds(placedLine.bounds, x, y, z) < slack) slack = Math.min(slack, placedLine.coarse(x, y, z));
      return slack;
    },
  };
}

function withItem(
  item: PlanningItem,
  passages: readonly Passage[],
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): void {
  const limit = out[0]! + item.keepOffMm;
  if (distanceToBounds(item.solid.bounds, x, y, z) >= limit || isPassed(passages, item.part, x, y, z)) return;
  const slack = item.solid.distanceWithin(x, y, z, limit) - item.keepOffMm;
  if (slack >= out[0]!) return;
  out[0] = slack;
  awayFrom(item.solid, x, y, z, out);
}

const isPassed = (passages: readonly Passage[], part: string, x: number, y: number, z: number): boolean =>
  passages.some((p) => p.part === part && Math.hypot(x - p.at[0], y - p.at[1], z - p.at[2]) < p.zoneMm);

/** The gradient of a signed distance: away from the surface outside, towards it inside. */
export function awayFrom(solid: Solid, x: number, y: number, z: number, out: Float64Array): void {
  const { point, distance } = solid.closest(x, y, z);
  const sign = distance < 0 ? -1 : 1;
  const d = Math.max(1e-9, Math.hypot(x - point[0], y - point[1], z - point[2]));
  out[1] = (sign * (x - point[0])) / d;
  out[2] = (sign * (y - point[1])) / d;
  out[3] = (sign * (z - point[2])) / d;
}
