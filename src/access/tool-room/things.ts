import type { Bay } from '#bay';
import { type Body, bodyField, bodyShape, type Bounds, distanceToBounds, type Solid, type Vec } from '#geometry';

/** Something solid that a tool or a hand may meet: one solid of a part or panel, or one body of a line. */
export interface Thing {
  /** Part, panel or line. */
  readonly id: string;
  readonly kind: 'part' | 'panel' | 'line';
  /** Which body of its line. */
  readonly body?: number;
  readonly bounds: Bounds;
  /** Signed distance; any value >= limit beyond it [mm]. */
  distanceWithin(x: number, y: number, z: number, limitMm: number): number;
  /** Nearest place of a convex solid: it lies wholly behind the plane there. Null for what is not convex. */
  readonly closest: ((x: number, y: number, z: number) => Vec) | null;
}

/** Everything solid in the car: parts and panels as the bay has them, lines as they lie, each body with its flat ends. */
export function thingsOf(bay: Bay, lines: ReadonlyMap<string, readonly Body[]>): readonly Thing[] {
  const panels = new Set((bay.car.panels ?? []).map(({ id }) => id));
  return [
    ...bay.parts.flatMap(({ id, solids }) => solids.map((solid) => ofSolid(id, panels.has(id), solid))),
    ...[...lines].flatMap(([id, bodies]) => bodies.map((body, n) => ofBody(id, n, body))),
  ];
}

const ofSolid = (id: string, isPanel: boolean, solid: Solid): Thing => ({
  id,
  kind: isPanel ? 'panel' : 'part',
  bounds: solid.bounds,
  distanceWithin: (x, y, z, limitMm) => solid.distanceWithin(x, y, z, limitMm),
  closest: solid.kind === 'mesh' ? null : (x, y, z) => solid.closest(x, y, z).point,
});

const ofBody = (id: string, body: number, of: Body): Thing => ({
  id,
  kind: 'line',
  body,
  bounds: bodyShape(of).bounds,
  distanceWithin: (x, y, z, limitMm) => bodyField(of).distanceWithin(x, y, z, limitMm),
  closest: null,
});

/** So few things are all looked at: to leave some out takes longer. */
const FEW = 3;

/** The things about a place, to be asked how near the nearest is and which. */
export class Look {
  private readonly near: readonly Thing[];
  private last: Thing | null = null;

  constructor(things: readonly Thing[]) {
    this.near = things;
  }

  /** The things whose bounds come within reach of a place. */
  static about(things: readonly Thing[], [x, y, z]: readonly [number, number, number], reachMm: number): Look {
    return new Look(things.filter(({ bounds }) => distanceToBounds(bounds, x, y, z) <= reachMm));
  }

  /** Those of its things whose bounds come within reach of a place: any look there that asks no further finds the same among them. */
  within(x: number, y: number, z: number, reachMm: number): Look {
    if (this.near.length <= FEW) return this;
    const near = this.near.filter(({ bounds }) => distanceToBounds(bounds, x, y, z) <= reachMm);
    return near.length === this.near.length ? this : new Look(near);
  }

  /** The nearest thing of the last look that was within its limit. */
  get met(): Thing | null {
    return this.last;
  }

  /** Signed distance to the nearest thing; the limit where nothing is nearer [mm]. */
  distance(x: number, y: number, z: number, limitMm: number): number {
    let best = limitMm;
    this.last = null;
    const { near } = this;
    for (let n = 0; n < near.length; n++) {
      const thing = near[n]!;
      const { min, max } = thing.bounds;
      const dx = x < min[0] ? min[0] - x : x > max[0] ? x - max[0] : 0;
      const dy = y < min[1] ? min[1] - y : y > max[1] ? y - max[1] : 0;
      const dz = z < min[2] ? min[2] - z : z > max[2] ? z - max[2] : 0;
      const apart = dx * dx + dy * dy + dz * dz;
      if (apart > 0 && (best <= 0 || apart >= best * best)) continue;
      const d = thing.distanceWithin(x, y, z, best);
      if (d >= best) continue;
      best = d;
      this.last = thing;
    }
    return best;
  }

  /**
   * Is every place of the plane through here, square to `axis`, clear by `needMm` as far as `spreadMm`? True only where that is sure:
   * a convex thing stays behind the plane through its nearest place, so that along it nothing comes nearer.
   */
  isClear(x: number, y: number, z: number, axis: Vec, needMm: number, spreadMm: number): boolean {
    const reach = needMm + spreadMm;
    for (const thing of this.near) {
      if (distanceToBounds(thing.bounds, x, y, z) >= reach) continue;
      const d = thing.distanceWithin(x, y, z, reach);
      if (d >= reach) continue;
      if (thing.closest === null || d <= 0) return false;
      const q = thing.closest(x, y, z);
      const lean = ((x - q[0]) * axis[0] + (y - q[1]) * axis[1] + (z - q[2]) * axis[2]) / d;
      if (d - Math.sqrt(Math.max(0, 1 - lean * lean)) * spreadMm < needMm) return false;
    }
    return true;
  }
}
