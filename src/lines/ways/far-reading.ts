import { type PlanningItem, planningItems } from '#bay';
import type { Line } from '#car';
import { type LineObstacles, type Vec, distanceToBounds } from '#geometry';
import type { LinesWorld } from '../world.ts';
import { REACH_MM, type SlackBricks, awayFrom } from './bricks.ts';
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
  const lines = new PlacedLines(others);
  return {
    slackAndGradient(x, y, z, out) {
      bricks.slackAndGradient(x, y, z, out);
      for (const item of passed) withItem(item, passages, x, y, z, out);
      lines.workIn(x, y, z, out);
    },
    closely(x, y, z, out) {
      bricks.closely(x, y, z, out);
      for (const item of passed) withItem(item, passages, x, y, z, out);
      lines.workIn(x, y, z, out);
    },
    toLines(x, y, z, out) {
      out[0] = REACH_MM;
      out.fill(0, 1);
      lines.workIn(x, y, z, out);
    },
    coarse(x, y, z) {
      let slack = bricks.coarse(x, y, z);
      for (const item of passed) {
        if (!isPassed(passages, item.part, x, y, z))
          slack = Math.min(slack, item.solid.distanceWithin(x, y, z, slack + item.keepOffMm) - item.keepOffMm);
      }
      return lines.coarse(x, y, z, slack);
    },
  };
}

/** Slack to placed lines: those within reach of a place are listed by cubes. */
export class PlacedLines {
  private readonly lines: readonly SlackBricks[];
  private readonly near = new Map<number, readonly SlackBricks[]>();
  private readonly other = new Float64Array(4);
  private lastKey = -1;
  private last: readonly SlackBricks[] = [];

  constructor(lines: readonly SlackBricks[]) {
    this.lines = lines;
  }

  /** Lowers a reading to that of the nearest line. */
  workIn(x: number, y: number, z: number, out: Float64Array): void {
    const { other } = this;
    if (this.lines.length === 0) return;
    for (const line of this.around(x, y, z)) {
      if (distanceToBounds(line.bounds, x, y, z) >= out[0]!) continue;
      line.slackAndGradient(x, y, z, other);
      if (other[0]! < out[0]!) out.set(other);
    }
  }

  coarse(x: number, y: number, z: number, mostMm: number): number {
    let slack = mostMm;
    if (this.lines.length === 0) return slack;
    for (const line of this.around(x, y, z))
      if (distanceToBounds(line.bounds, x, y, z) < slack) slack = Math.min(slack, line.coarse(x, y, z));
    return slack;
  }

  private around(x: number, y: number, z: number): readonly SlackBricks[] {
    const i = Math.floor(x / CUBE_MM);
    const j = Math.floor(y / CUBE_MM);
    const k = Math.floor(z / CUBE_MM);
    const key = i + HALF + 2 * HALF * (j + HALF + 2 * HALF * (k + HALF));
    if (key === this.lastKey) return this.last;
    let lines = this.near.get(key);
    if (lines === undefined) {
      lines = this.nearestIn([(i + 0.5) * CUBE_MM, (j + 0.5) * CUBE_MM, (k + 0.5) * CUBE_MM]);
      this.near.set(key, lines);
    }
    this.lastKey = key;
    this.last = lines;
    return lines;
  }

  /** Lines that may be the nearest somewhere in a cube: what is a whole cube further off than the nearest is so nowhere in it. */
  private nearestIn(centre: Vec): readonly SlackBricks[] {
    const reach = REACH_MM + HALF_DIAGONAL_MM;
    const off = this.lines.map((line) =>
      distanceToBounds(line.bounds, ...centre) < reach ? line.exactly(...centre, reach) : reach,
    );
    const most = Math.min(reach, Math.min(...off) + 2 * HALF_DIAGONAL_MM + READINGS_OFF_MM);
    return this.lines.filter((_, n) => off[n]! < most);
  }
}

/** Side of the cubes [mm]; numbered from 0 up to twice the half either way. */
const CUBE_MM = 48;
const HALF = 2048;
const HALF_DIAGONAL_MM = (CUBE_MM * Math.sqrt(3)) / 2;
/** A brick reads this much off the true distance at most, two of them together [mm]; coarse cells lie whole in a cube. */
const READINGS_OFF_MM = 12;

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
