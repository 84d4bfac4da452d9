import { type BayPart, jointPoses } from '#bay';
import { type RigidMotion, type Vec, distanceToBounds, still } from '#geometry';
import type { LinesWorld } from '../world.ts';
import type { SpanEnd } from './span.ts';

/** What holds a hose goes with: what the hose's start or its other end sits on, or the chassis. */
export type Carrier = 'from' | 'chassis' | 'to';

/** Where two things that carry the ends of a hose have gone. */
export interface EndMotions {
  readonly from: RigidMotion;
  readonly to: RigidMotion;
}

export const motionOf = (carrier: Carrier, { from, to }: EndMotions): RigidMotion =>
  carrier === 'chassis' ? still : carrier === 'from' ? from : to;

/** How the two ends of a hose move against each other, and what there is to clamp it to. */
export interface PieceMovement {
  /** Where its ends go at each extreme, as drawn left out; none where they go together. */
  readonly extremes: readonly EndMotions[];
  /** What its clamps may go with, in order along it; one where its ends go together. */
  readonly carriers: readonly Carrier[];
  /** Which ends are on fittings in a panel: supports, as a clamp is; a port is none. */
  readonly supported: readonly [boolean, boolean];
  /** A carrier that is a mover, not the chassis. */
  readonly isMoved: (carrier: Carrier) => boolean;
  /** From a place to the nearest fixed part that goes with a carrier [mm]; infinite where there is none. */
  readonly mountMm: (at: Vec, carrier: Carrier) => number;
}

/** The movement between two ends of a hose. */
export function pieceMovement(world: LinesWorld, a: SpanEnd, b: SpanEnd): PieceMovement {
  const isPort = (end: SpanEnd): boolean => world.bay.ports.has(end.label);
  return {
    extremes: jointPoses(world.bay.movers, { from: a.moverId, to: b.moverId, part: null })
      .slice(1)
      .filter((pose) => pose.from !== pose.to),
    carriers: carriersBetween(a.moverId, b.moverId),
    supported: [!isPort(a), !isPort(b)],
    isMoved: (carrier) => moverOf(carrier, a.moverId, b.moverId) !== null,
    mountMm: (at, carrier) =>
      nearestFixed(world, moverOf(carrier, a.moverId, b.moverId), at)?.distanceMm ?? Number.POSITIVE_INFINITY,
  };
}

function carriersBetween(a: string | null, b: string | null): readonly Carrier[] {
  if (a === b) return ['from'];
  return a === null || b === null ? ['from', 'to'] : ['from', 'chassis', 'to'];
}

/** The mover that a carrier is; null is the chassis. */
export const moverOf = (carrier: Carrier, a: string | null, b: string | null): string | null =>
  carrier === 'chassis' ? null : carrier === 'from' ? a : b;

/** What a part that holds the hose goes with, as the hose sees it; what moves with neither end counts as the chassis. */
export function carrierOf(mover: string | null, a: string | null, b: string | null): Carrier {
  if (a === b || mover === a) return 'from';
  if (mover === b) return 'to';
  return a === null ? 'from' : b === null ? 'to' : 'chassis';
}

/** The nearest fixed part that goes with a mover. */
export function nearestFixed(
  world: LinesWorld,
  moverId: string | null,
  at: Vec,
): { part: BayPart; distanceMm: number } | null {
  let best: { part: BayPart; distanceMm: number } | null = null;
  for (const part of world.bay.parts) {
    if (part.class !== 'fixed' || part.moverId !== moverId) continue;
    for (const solid of part.solids) {
      const limit = best?.distanceMm ?? Number.POSITIVE_INFINITY;
      if (distanceToBounds(solid.bounds, ...at) >= limit) continue;
      const distanceMm = solid.distanceWithin(...at, limit);
      if (distanceMm < limit) best = { part, distanceMm };
    }
  }
  return best;
}
