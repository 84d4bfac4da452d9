import { type Body, type Vec, dot, endToEndDeg, sub } from '#geometry';
import { type End, tightening } from '#standards';
import { clockDeg, clockFrame } from '../make-up/clock-frame.ts';
import { makeUpText } from '../make-up/make-up-text.ts';
import type { Way, WayClamp, WayEnd, WayPiece } from '../way.ts';
import { type LinesWorld, portOf } from '../world.ts';
import { nearestAlong } from './along.ts';
import { moverOf, nearestFixed } from './carriers.ts';
import type { FittedEnd, HosePiece } from './hose-piece.ts';
import { CLIP_REACH_MM } from './holds.ts';
import type { LineDraft } from './line-draft.ts';

const RAD = Math.PI / 180;
const round = (value: number, digits: number): number => Number(value.toFixed(digits));
const roundedPlace = (at: Vec): Vec => [round(at[0], 1), round(at[1], 1), round(at[2], 1)];

/** Both ends of the line, and the ends at the joints inside it. */
export function writtenEnds(world: LinesWorld, draft: LineDraft): { ends: Way['ends']; joints: Way['joints'] } {
  const all = draft.pieces.flatMap((d) => [d.piece.a, d.piece.b]);
  const from = portOf(world, draft.line.from).end;
  const to = portOf(world, draft.line.to).end;
  const first = writtenEnd(draft.line.from, all[0] ?? null, from);
  const last = writtenEnd(draft.line.to, all.at(-1) ?? null, to);
  const joints = all
    .slice(1, -1)
    .flatMap((fit) =>
      fit === null || fit.end.makeUps.length === 0
        ? []
        : [writtenEnd(fit.end.label, fit, world.bay.ports.get(fit.end.label)?.end ?? null)],
    );
  return { ends: [first, last], joints };
}

function writtenEnd(port: string, fit: FittedEnd | null, end: End | null): WayEnd {
  if (fit === null)
    return {
      port,
      makeUp: [],
      parts: [],
      angleDeg: 0,
      clockDeg: null,
      words: 'the tube itself',
      clockHow: 'none',
      tightening: [],
    };
  const { makeUp } = fit.tail;
  const turning = turningClock(fit);
  const adapterDeg = adapterClock(fit);
  const turned = {
    frame: turning.frame,
    clockDeg: turning.deg,
    ...(adapterDeg === null ? {} : { adapter: { frame: clockFrame(fit.end.faces), clockDeg: adapterDeg } }),
  };
  return {
    port,
    makeUp: makeUp.parts.filter((p) => p.kind === 'adapter' || p.kind === 'hose-end').map((p) => p.id),
    parts: makeUp.parts,
    angleDeg: makeUp.angleDeg,
    clockDeg: turning.deg,
    ...(turning.deg === null ? {} : { clockFrom: turning.frame.from }),
    words: end === null ? makeUp.clockWords : makeUpText(makeUp, end, turned),
    clockHow: makeUp.clockWords,
    ...(adapterDeg === null ? {} : { adapterClockDeg: adapterDeg }),
    tightening: end === null ? [] : tighteningWords(end),
  };
}

function tighteningWords(end: End): string[] {
  const found = tightening(end);
  return found === undefined ? [] : [found.text];
}

/** The clock of the hose end's own tail, read on the axis it screws onto. */
function turningClock(fit: FittedEnd): { frame: ReturnType<typeof clockFrame>; deg: number | null } {
  const { pose } = fit.tail;
  const frame = clockFrame(pose.axis);
  const hoseEndBent = fit.tail.makeUp.angleDeg !== 0;
  if (!hoseEndBent || pose.offsetMm < 1e-6) return { frame, deg: null };
  const off = sub(fit.shape.tail.at, pose.origin);
  const along = dot(off, pose.axis);
  const sideways = sub(off, [pose.axis[0] * along, pose.axis[1] * along, pose.axis[2] * along]);
  const deg = clockDeg(frame, sideways);
  return { frame, deg: deg === null ? null : round(deg, 1) % 360 };
}

/** The clock of an elbow adapter: set by itself, or the only thing that turns. */
function adapterClock(fit: FittedEnd): number | null {
  if (fit.tail.adapterClockRad !== null) return round(fit.tail.adapterClockRad / RAD, 1) % 360;
  const elbow = fit.tail.makeUp.angleDeg === 0 && fit.tail.pose.offsetMm > 1e-6;
  return elbow ? round((((fit.phiRad / RAD) % 360) + 360) % 360, 1) % 360 : null;
}

export function writtenPieces(draft: LineDraft): WayPiece[] {
  return draft.pieces.map((d): WayPiece => {
    if (d.kind === 'hose') return writtenHose(d.piece);
    const { tube, lengthMm, bends, endPrep } = d.piece;
    const tightest = bends.length === 0 ? Number.POSITIVE_INFINITY : tube.bendRadiusMm;
    return {
      tube: { odMm: tube.odMm, wallMm: tube.wallMm, bendRadiusMm: tube.bendRadiusMm },
      cutLengthMm: Math.ceil(lengthMm),
      allowanceMm: [0, TUBE_TRIM_MM],
      odMm: tube.odMm,
      minBendRadiusMm: tube.bendRadiusMm,
      tightestBendMm: Number.isFinite(tightest) ? tightest : STRAIGHT_MM,
      endToEndDeg: null,
      bends,
      endPrep,
    };
  });
}

/** A tube is cut long and trimmed at the trial fit [mm]. */
const TUBE_TRIM_MM = 20;
/** A bend radius that stands for "straight" [mm]: JSON has no infinity. */
const STRAIGHT_MM = 100_000;

function writtenHose(piece: HosePiece): WayPiece {
  const cutMm = piece.flexibleMm + piece.a.tail.makeUp.insertMm + piece.b.tail.makeUp.insertMm;
  return {
    hose: piece.hose.id,
    cutLengthMm: round(cutMm, 0),
    allowanceMm: piece.allowanceMm,
    odMm: piece.hose.odMm,
    minBendRadiusMm: piece.hose.minBendRadiusMm,
    tightestBendMm: Math.min(STRAIGHT_MM, round(piece.hung.leastRadiusMm, 1)),
    endToEndDeg: betweenEnds(piece),
    hang: piece.hung.clamps.length === 0 ? 'free' : 'clamped',
    leastLengthMm: round(piece.hung.leastMm + piece.straightsMm[0] + piece.straightsMm[1], 0),
    slackPercent: round(piece.hung.sparePercent, 1),
  };
}

/** Angle of the second end's bend from the first's, looking from the first along the hose; null where an end is straight. */
function betweenEnds(piece: HosePiece): number | null {
  if (piece.a.tail.makeUp.angleDeg === 0 || piece.b.tail.makeUp.angleDeg === 0) return null;
  const deg = endToEndDeg(piece.path, bendSide(piece.a), bendSide(piece.b));
  return deg === null ? null : round(deg, 0) % 360;
}

/** From the hose towards the nut: back along the axis the end screws onto; beside it for a return bend, which has no other. */
function bendSide(fit: FittedEnd): Vec {
  const { axis, origin } = fit.tail.pose;
  return fit.tail.makeUp.angleDeg === 180 ? sub(origin, fit.shape.tail.at) : [-axis[0], -axis[1], -axis[2]];
}

export function writtenClamps(world: LinesWorld, draft: LineDraft, bodies: readonly Body[]): WayClamp[] {
  const clamps = draft.pieces.flatMap((d): WayClamp[] => {
    if (d.kind === 'tube')
      return d.piece.supports.map((at) => written(world, draft, bodies, at, d.piece.tube.odMm / 2, d.piece.seat, null));
    const { a, b, hung, hose } = d.piece;
    return hung.clamps.map(({ at, carrier }) => {
      const mover = moverOf(carrier, a.end.moverId, b.end.moverId);
      const end = mover === null ? null : mover === a.end.moverId ? a.end : b.end;
      return written(world, draft, bodies, at, hose.odMm / 2, mover, end?.partId ?? null);
    });
  });
  return clamps.sort((p, q) => p.alongMm - q.alongMm);
}

/** A clamp on the nearest fixed part that goes with what holds the line there; on a bracket from `base` where there is none. */
function written(
  world: LinesWorld,
  draft: LineDraft,
  bodies: readonly Body[],
  at: Vec,
  radiusMm: number,
  mover: string | null,
  base: string | null,
): WayClamp {
  const alongMm = round(nearestAlong(bodies, at), 0);
  const grommet = draft.grommets.find((g) => Math.hypot(g.at[0] - at[0], g.at[1] - at[1], g.at[2] - at[2]) < 2);
  if (grommet !== undefined) return { alongMm, atMm: roundedPlace(at), on: grommet.part, bracket: false };
  const near = nearestFixed(world, mover, at);
  if (near === null) return { alongMm, atMm: roundedPlace(at), on: base ?? 'chassis', bracket: true };
  return { alongMm, atMm: roundedPlace(at), on: near.part.id, bracket: near.distanceMm - radiusMm > CLIP_REACH_MM };
}
