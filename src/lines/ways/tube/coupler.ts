import { jointPoses } from '#bay';
import {
  type RigidMotion,
  type Vec,
  addScaled,
  distance,
  dot,
  movedDirection,
  movedPoint,
  sub,
  subdivided,
} from '#geometry';
import type { HoseRow } from '#standards';
import type { EndMakeUp } from '../../make-up/end-make-up.ts';
import type { LinesWorld } from '../../world.ts';
import type { FittedEnd, HosePiece } from '../hose-piece.ts';
import type { SpanEnd } from '../span.ts';
import { tailShape, tails } from '../tails.ts';
import { reversedPath } from '../reversed-path.ts';

/** A straight coupler shows this much hose between two spigots at least [mm], and a share of its diameter; common practice, no source. */
const LEAST_SHOWING_MM = 40;
const LEAST_SHOWING_ODS = 1;
/** A coupler gives endways by this share of what shows; from memory, unverified. */
const ENDWAYS_GIVE = 0.1;
/** Lengths are rounded up to this [mm]. */
const WHOLE_MM = 5;
/** Drawn no coarser than this [mm]. */
const STEP_MM = 2.95;
const STRAIGHT_MM = 100_000;

/** How two things that a coupler joins move against each other at its place. */
export interface CouplerMovement {
  /** Sideways and endways offset at most [mm]. */
  readonly sidewaysMm: number;
  readonly endwaysMm: number;
  /** Angle between the two at most [rad]. */
  readonly angleRad: number;
}

/** The movement at a place and direction between what it sits on and what the tube sits on. */
export function couplerMovement(
  world: LinesWorld,
  at: Vec,
  along: Vec,
  portMover: string | null,
  tubeMover: string | null,
): CouplerMovement {
  let [sidewaysMm, endwaysMm, angleRad] = [0, 0, 0];
  for (const pose of jointPoses(world.bay.movers, { from: portMover, to: tubeMover, part: null })) {
    const off = sub(movedPoint(pose.from, at), movedPoint(pose.to, at));
    const end = dot(off, along);
    endwaysMm = Math.max(endwaysMm, Math.abs(end));
    sidewaysMm = Math.max(sidewaysMm, Math.hypot(...sub(off, [along[0] * end, along[1] * end, along[2] * end])));
    angleRad = Math.max(
      angleRad,
      2 * Math.asin(Math.min(1, distance(movedDirection(pose.from, along), movedDirection(pose.to, along)) / 2)),
    );
  }
  return { sidewaysMm, endwaysMm, angleRad };
}

/**
 * Hose that must show between two spigots [mm]: the trade's least; two arcs of the least radius that step sideways by the
 * movement (length 2 sqrt(s R) for a small step s) and turn by its angle; and enough to give endways.
 */
export function couplerLength(hose: Pick<HoseRow, 'odMm' | 'minBendRadiusMm'>, movement: CouplerMovement): number {
  const step = 2 * Math.sqrt(movement.sidewaysMm * hose.minBendRadiusMm) + movement.angleRad * hose.minBendRadiusMm;
  const least = Math.max(LEAST_SHOWING_MM, LEAST_SHOWING_ODS * hose.odMm, step, movement.endwaysMm / ENDWAYS_GIVE);
  return Math.ceil(least / WHOLE_MM - 1e-9) * WHOLE_MM;
}

/** Every make-up of an end that a coupler can go on, fitted where nothing near is touched; the plainest first. */
export function fittedEnds(end: SpanEnd, odMm: number, straightMm: number): FittedEnd[] {
  const wanted: SpanEnd = { ...end, straightMm };
  return tails(wanted, odMm, {}).flatMap((tail) =>
    tail.clocks.map(({ phiRad }): FittedEnd => ({ end: wanted, tail, phiRad, shape: tailShape(wanted, tail, phiRad) })),
  );
}

/** A short straight hose from a fitted end to the end of a tube in line with it. */
export function couplerPiece(
  hose: HoseRow,
  from: FittedEnd,
  tubeMakeUp: EndMakeUp,
  label: string,
  showingMm: number,
  movement: CouplerMovement,
): HosePiece {
  const { at, along } = from.shape.tail;
  const end = addScaled(at, along, showingMm);
  const other: SpanEnd = {
    label,
    at: end,
    faces: [-along[0], -along[1], -along[2]],
    partId: null,
    moverId: null,
    makeUps: [tubeMakeUp],
    nearItems: [],
    nearMm: 0,
    straightMm: showingMm / 2,
  };
  const b = fittedEnds(other, hose.odMm, showingMm / 2)[0]!;
  const half = showingMm / 2;
  const leastRadiusMm =
    movement.sidewaysMm < 1e-9 ? STRAIGHT_MM : Math.min(STRAIGHT_MM, showingMm ** 2 / (4 * movement.sidewaysMm));
  const line = Float64Array.of(...at, ...end);
  return {
    hose,
    a: from,
    b,
    path: subdivided(line, STEP_MM),
    allowanceMm: COUPLER_ALLOWANCE_MM,
    hung: {
      ok: true,
      reaches: true,
      clamps: [],
      lengthMm: 0,
      leastMm: 0,
      sparePercent: sparePercent(from.tail.makeUp.insertMm + tubeMakeUp.insertMm, showingMm),
      nominal: line,
      spreadMm: 0,
      leastRadiusMm,
      leastSlackMm: 0,
      moverSlackMm: null,
      overlongMm: null,
      carried: () => line,
    },
    flexibleMm: showingMm,
    straightsMm: [half, half],
    cost: from.shape.lengthMm + showingMm + from.tail.makeUp.cost + tubeMakeUp.cost,
    ok: true,
    moved: (poseA, poseB) => bridged(movedEnd(poseA, at, along), movedEnd(poseB, end, along)),
  };
}

/** A coupler may draw half out of its overlaps before its clamps come to the beads. */
const sparePercent = (overlapMm: number, showingMm: number): number => Math.round((50 * overlapMm) / showingMm);

interface Ray {
  readonly at: Vec;
  readonly along: Vec;
}

const movedEnd = (motion: RigidMotion, at: Vec, along: Vec): Ray => ({
  at: movedPoint(motion, at),
  along: movedDirection(motion, along),
});

/** A smooth curve that leaves and arrives along the two rays (cubic; ends and directions right). */
function bridged(from: Ray, to: Ray): Float64Array {
  const reach = distance(from.at, to.at);
  const steps = Math.max(2, Math.ceil((1.05 * reach) / STEP_MM));
  const out = new Float64Array(3 * (steps + 1));
  for (let n = 0; n <= steps; n++) {
    const t = n / steps;
    const [h0, h1, h2, h3] = [
      2 * t ** 3 - 3 * t ** 2 + 1,
      t ** 3 - 2 * t ** 2 + t,
      -2 * t ** 3 + 3 * t ** 2,
      t ** 3 - t ** 2,
    ];
    for (let k = 0; k < 3; k++)
      out[3 * n + k] = h0 * from.at[k]! + h1 * reach * from.along[k]! + h2 * to.at[k]! + h3 * reach * to.along[k]!;
  }
  return out;
}

/** A hose piece seen from its other end: the line reaches the tube first. */
export function reversedPiece(piece: HosePiece): HosePiece {
  return {
    ...piece,
    a: piece.b,
    b: piece.a,
    path: reversedPath(piece.path),
    straightsMm: [piece.straightsMm[1], piece.straightsMm[0]],
    moved: (from, to) => reversedPath(piece.moved(to, from)),
  };
}

/** A coupler is trimmed to what shows between the spigots; it gives endways [mm]. Common practice, no source. */
const COUPLER_ALLOWANCE_MM: readonly [number, number] = [-5, 15];
