import type { Body } from './body.ts';
import { bodyField, pathsGap } from './body-body.ts';
import type { BodyGap } from './body-gap.ts';
import { bodyShape } from './body-shape.ts';
import { type Bounds, distanceToBounds, grown, joined } from './bounds.ts';
import type { Vec } from './vec.ts';

interface Placed {
  readonly bodies: readonly Body[];
  readonly bounds: Bounds;
}

export interface NearLine {
  readonly id: string;
  /** To the nearest body's surface, ends taken as round [mm]; negative inside. */
  readonly distance: number;
  /** Unit vector away from that line. */
  readonly gradient: Vec;
}

/**
 * Lines already placed, as obstacles to the next: put in and taken out by id. `distance` and `nearest` take ends as round,
 * which never reads too generous (a planner's field); `gaps` are exact.
 */
export class LineObstacles {
  private readonly lines = new Map<string, Placed>();

  get ids(): readonly string[] {
    return [...this.lines.keys()];
  }

  add(id: string, bodies: readonly Body[]): void {
    if (bodies.length === 0) return void this.lines.delete(id);
    // Round ends stand out past the flat bounds by up to the radius.
    const bounds = bodies.map((b) => grown(bodyShape(b).bounds, b.radiusMm)).reduce(joined);
    this.lines.set(id, { bodies, bounds });
  }

  /** The bodies of a line that stands here; none if it does not. */
  bodiesOf(id: string): readonly Body[] {
    return this.lines.get(id)?.bodies ?? [];
  }

  remove(id: string): void {
    this.lines.delete(id);
  }

  /** To the nearest line, ends round [mm]; any value >= `limitMm` beyond it. Lines in `except` are passed over. */
  distance(x: number, y: number, z: number, limitMm = Infinity, except?: ReadonlySet<string>): number {
    let best = limitMm;
    for (const [id, line] of this.lines) {
      if (except?.has(id) || isBeyond(line.bounds, x, y, z, best)) continue;
      for (const body of line.bodies) best = Math.min(best, roundWithin(body, x, y, z, best));
    }
    return best;
  }

  /** The nearest line within `limitMm`, how far, and the way off it; null where there is none. */
  nearest(x: number, y: number, z: number, limitMm = Infinity, except?: ReadonlySet<string>): NearLine | null {
    let best = limitMm;
    let found: { readonly id: string; readonly body: Body } | null = null;
    for (const [id, line] of this.lines) {
      if (except?.has(id) || isBeyond(line.bounds, x, y, z, best)) continue;
      for (const body of line.bodies) {
        const d = roundWithin(body, x, y, z, best);
        if (d >= best) continue;
        best = d;
        found = { id, body };
      }
    }
    if (found === null) return null;
    const field = bodyField(found.body);
    field.roundDistanceWithin(x, y, z, Infinity);
    const c = field.nearestOnCentreline(x, y, z)!;
    const off = Math.hypot(x - c[0], y - c[1], z - c[2]);
    const gradient: Vec = off > 0 ? [(x - c[0]) / off, (y - c[1]) / off, (z - c[2]) / off] : [0, 0, 1];
    return { id: found.id, distance: best, gradient };
  }

  /** The exact gap to each line nearer than `withinMm`, in the order the lines were added. */
  gaps(
    bodies: readonly Body[],
    withinMm: number,
    except?: ReadonlySet<string>,
  ): readonly (BodyGap & { readonly id: string })[] {
    const rows: (BodyGap & { readonly id: string })[] = [];
    for (const [id, line] of this.lines) {
      if (except?.has(id)) continue;
      const gap = pathsGap(bodies, line.bodies, withinMm);
      if (gap.gapMm < withinMm) rows.push({ id, ...gap });
    }
    return rows;
  }
}

/** Inside the bounds it may always be deeper than the best so far. */
function isBeyond(bounds: Bounds, x: number, y: number, z: number, best: number): boolean {
  const d = distanceToBounds(bounds, x, y, z);
  return d > 0 && d >= best;
}

function roundWithin(body: Body, x: number, y: number, z: number, limit: number): number {
  if (isBeyond(grown(bodyShape(body).bounds, body.radiusMm), x, y, z, limit)) return limit;
  return bodyField(body).roundDistanceWithin(x, y, z, limit);
}
