import { type RigidMotion, type Vec, addScaled, movedPoint, tailPose } from '#geometry';
import type { HoseRow } from '#standards';
import { type EndTolerance, cutLength } from '../make-up/cut-length.ts';
import type { EndShape } from '../make-up/end-shape.ts';
import type { PieceMovement } from './carriers.ts';
import type { Clearance } from './clearance.ts';
import type { HangProblem } from './hang-problem.ts';
import { type Hung, hangAt, hangFree, isNearMiss, movedPose } from './hang.ts';
import { type RodPose, denseRod } from './hung-rod.ts';
import { joinedPath } from './joined-path.ts';
import { type HeldAt, type HoseRun } from './run.ts';
import { settledHose } from './settled-hose.ts';
import type { Span, SpanEnd } from './span.ts';
import { type Tail, tailShape } from './tails.ts';

/** One end of a piece as fitted. */
export interface FittedEnd {
  readonly end: SpanEnd;
  readonly tail: Tail;
  /** Clock of the hose end, a whole number of degrees [rad]. */
  readonly phiRad: number;
  readonly shape: EndShape;
}

/** A hose between two joints, worked out as it hangs. */
export interface HosePiece {
  readonly hose: HoseRow;
  readonly a: FittedEnd;
  readonly b: FittedEnd;
  /** x,y,z from A's tail to B's tail, points at most 3 mm apart, as it hangs. */
  readonly path: Float64Array;
  readonly hung: Hung;
  /** The cut length's allowance that it was hung at both ends of [mm]. */
  readonly allowanceMm: readonly [number, number];
  /** Length of the free hose between its sockets [mm]. */
  readonly flexibleMm: number;
  readonly straightsMm: readonly [number, number];
  readonly cost: number;
  /** Every limit that a single hose can be judged by is kept, by the field's reading. */
  readonly ok: boolean;
  /** The same hose with its ends carried off by what they sit on. */
  readonly moved: (from: RigidMotion, to: RigidMotion) => Float64Array;
}

/** How well an end's place [+-mm] and facing [+-deg] are known. */
export type EndKnown = Pick<EndTolerance, 'knownToMm' | 'facingKnownDeg'>;

export interface HosePieceWish {
  readonly span: Span;
  readonly hose: HoseRow;
  readonly stops: readonly HeldAt[];
  readonly clearOf: (leg: Span) => Clearance;
  readonly count: number;
  /** Another piece of the line has no way: this one is drawn only to show where it fails, and not searched for long. */
  readonly isLost?: boolean;
  /** How well the place and facing of each end are known: the cut length's allowance comes from it. */
  readonly known: readonly [EndKnown, EndKnown];
  readonly clampSpacingMm: number;
  /** What else the line asks of a piece: that it falls, say. Pieces that do not are kept for want of better. */
  readonly suits?: (piece: HosePiece) => boolean;
  /** Asked where nothing at all was found at first: is it certain that there is no way? */
  readonly isCutOff?: () => boolean;
  readonly movement: PieceMovement;
}

/** What each clamp counts against a longer way [mm]: drilling, a clip, a fixing. */
const CLAMP_COST_MM = 30;

/** A clock to the degree: what can be set with a protractor at all. */
const wholeDegree = (rad: number): number =>
  (Math.round((((rad * 180) / Math.PI) % 360) + 360) % 360) * (Math.PI / 180);

function fitted(end: SpanEnd, tail: Tail, phiRad: number): FittedEnd {
  const phi = tail.pose.free ? wholeDegree(phiRad) : phiRad;
  return { end, tail, phiRad: phi, shape: tailShape(end, tail, phi) };
}

/** Where the hose may begin to bend, and the way it goes there. */
function bendStart(fit: FittedEnd): RodPose {
  const { point, direction } = tailPose({ ...fit.tail.pose, phiRad: fit.phiRad }, fit.phiRad);
  return { point: addScaled(point, direction, fit.tail.pose.straightMm), direction };
}

const opposite = (v: Vec): Vec => [-v[0], -v[1], -v[2]];

interface Laid {
  readonly a: FittedEnd;
  readonly b: FittedEnd;
  readonly start: RodPose;
  readonly end: RodPose;
  readonly straightsMm: readonly [number, number];
  readonly problem: HangProblem;
}

/** What there is to hang: the curve between the straights, its ends turned to whole degrees. */
function hangProblem(wish: HosePieceWish, run: HoseRun, budget: { rods: number }): Laid {
  const a = fitted(wish.span.a, run.a, run.phiA);
  const b = fitted(wish.span.b, run.b, run.phiB);
  const start = bendStart(a);
  const back = bendStart(b);
  const end: RodPose = { point: back.point, direction: opposite(back.direction) };
  const straightsMm: [number, number] = [a.tail.pose.straightMm, b.tail.pose.straightMm];
  const from = straightsMm[0] > 0 ? 1 : 0;
  const to = run.points.length / 3 - (straightsMm[1] > 0 ? 1 : 0);
  const planned = run.points.slice(3 * from, 3 * to);
  planned.set(start.point, 0);
  planned.set(end.point, planned.length - 3);
  const problem: HangProblem = {
    planned,
    held: run.held.map((k, n) => ({ knot: k - from, carrier: wish.stops[n]!.carrier })),
    leaves: start.direction,
    arrives: end.direction,
    straightsMm,
    insertsMm: run.a.makeUp.insertMm + run.b.makeUp.insertMm,
    odMm: wish.hose.odMm,
    minBendRadiusMm: wish.hose.minBendRadiusMm,
    clear: wish.clearOf(wish.span),
    allowanceMm: cutLength({
      flexibleMm: run.lengthMm,
      insertAMm: run.a.makeUp.insertMm,
      insertBMm: run.b.makeUp.insertMm,
      ends: [
        { ...wish.known[0], makeUp: run.a.makeUp },
        { ...wish.known[1], makeUp: run.b.makeUp },
      ],
    }).allowanceMm,
    clampSpacingMm: wish.clampSpacingMm,
    budget,
    movement: wish.movement,
  };
  return { a, b, start, end, straightsMm, problem };
}

/** A run hung in this way, and settled where that nearly does; `isSettled` false leaves it at the hanging. */
export function pieceOf(
  wish: HosePieceWish,
  run: HoseRun,
  budget: { rods: number },
  how: (problem: HangProblem) => Hung,
  isSettled = true,
): HosePiece {
  const laid = hangProblem(wish, run, budget);
  const hung = how(laid.problem);
  if (hung.ok || !isSettled || !isNearMiss(laid.problem, hung)) return hungPiece(wish, run, laid, hung);
  return settledPiece(wish, run, laid, hung) ?? hungPiece(wish, run, laid, hung);
}

/** Turns of either end tried beside the planned ones where nothing hangs well from those [rad]. */
const TURNS = [0, 0.7, -0.7] as const;

/** The run settled with patience, from clocks turned off the planned ones too; null where it comes to nothing. */
export function patientPiece(wish: HosePieceWish, run: HoseRun, budget: { rods: number }): HosePiece | null {
  const laid = hangProblem(wish, run, budget);
  const hung = hangFree(laid.problem);
  for (const turnA of laid.a.tail.pose.free ? TURNS : [0])
    for (const turnB of laid.b.tail.pose.free ? TURNS : [0]) {
      const piece = settledPiece(wish, run, laid, hung, { turnA, turnB });
      if (piece !== null) return piece;
      if (budget.rods <= 0) return null;
    }
  return null;
}

/** The same hose with clocks and length moved until it keeps its limits as it hangs; null where it comes to nothing. */
function settledPiece(
  wish: HosePieceWish,
  run: HoseRun,
  laid: Laid,
  hung: Hung,
  patient?: { readonly turnA: number; readonly turnB: number },
): HosePiece | null {
  const { problem } = laid;
  if (run.held.length > 0 || hung.clamps.length > 0 || problem.budget.rods <= 0) return null;
  const settled = settledHose({
    start: (phi) => ({ pose: bendStart({ ...laid.a, phiRad: phi }), body: bodyPlaces(laid.a.tail, phi) }),
    end: (phi) => {
      const back = bendStart({ ...laid.b, phiRad: phi });
      return { pose: { point: back.point, direction: opposite(back.direction) }, body: bodyPlaces(laid.b.tail, phi) };
    },
    turnsA: laid.a.tail.pose.free,
    turnsB: laid.b.tail.pose.free,
    phiA: laid.a.phiRad + (patient?.turnA ?? 0),
    phiB: laid.b.phiRad + (patient?.turnB ?? 0),
    patient: patient !== undefined,
    lengthMm: hung.lengthMm,
    laid: hung.nominal,
    straightsMm: problem.straightsMm[0] + problem.straightsMm[1],
    minBendRadiusMm: problem.minBendRadiusMm,
    spare: hung.sparePercent / 100,
    allowanceMm: problem.allowanceMm,
    clear: problem.clear,
    budget: problem.budget,
  });
  if (settled === null) return null;
  const [before, after] = laid.straightsMm.map((mm) => (mm > 0 ? [0, 0, 0] : [])) as [number[], number[]];
  const points = Float64Array.from([...before, ...settled.nominal, ...after]);
  const other: HoseRun = { ...run, phiA: settled.phiA, phiB: settled.phiB, points, ok: true };
  const again = hangProblem(wish, other, problem.budget);
  const kept = hangAt(again.problem, settled.lengthMm, hung.sparePercent / 100);
  return kept.ok ? hungPiece(wish, other, again, kept) : null;
}

/** The places on a turning end's body that the solver keeps clear too. */
function bodyPlaces({ pose }: Tail, phiRad: number): { at: Vec; wantMm: number }[] {
  const samples = pose.bodySamples;
  if (!pose.free || samples === undefined) return [];
  const [c, s] = [Math.cos(phiRad), Math.sin(phiRad)];
  const radial: Vec = [
    pose.up[0] * c + pose.right[0] * s,
    pose.up[1] * c + pose.right[1] * s,
    pose.up[2] * c + pose.right[2] * s,
  ];
  return Array.from({ length: samples.length / 3 }, (_, i) => ({
    at: addScaled(addScaled(pose.origin, pose.axis, samples[3 * i]!), radial, samples[3 * i + 1]!),
    wantMm: samples[3 * i + 2]!,
  }));
}

function hungPiece(
  wish: HosePieceWish,
  run: HoseRun,
  { a, b, start, end, straightsMm, problem }: Laid,
  hung: Hung,
): HosePiece {
  const flexibleMm = hung.lengthMm + straightsMm[0] + straightsMm[1];
  return {
    hose: wish.hose,
    a,
    b,
    path: withStraights(denseRod(hung.nominal, start, end), a, b),
    hung,
    allowanceMm: problem.allowanceMm,
    flexibleMm,
    straightsMm,
    cost:
      a.shape.lengthMm +
      flexibleMm +
      b.shape.lengthMm +
      a.tail.makeUp.cost +
      b.tail.makeUp.cost +
      CLAMP_COST_MM * hung.clamps.length,
    ok: run.ok && hung.ok,
    moved: (poseA, poseB) => {
      const rod = hung.carried({ from: poseA, to: poseB });
      const path = denseRod(rod, movedPose(start, poseA), movedPose(end, poseB));
      return joinedPath([movedPoint(poseA, a.shape.tail.at)], path, [movedPoint(poseB, b.shape.tail.at)]);
    },
  };
}

const withStraights = (curve: Float64Array, a: FittedEnd, b: FittedEnd): Float64Array =>
  joinedPath(
    a.tail.pose.straightMm > 0 ? [a.shape.tail.at] : [],
    curve,
    b.tail.pose.straightMm > 0 ? [b.shape.tail.at] : [],
  );
