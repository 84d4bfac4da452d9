import type { Line } from '#car';
import { type RigidMotion, movedPoint, still } from '#geometry';
import { type Crossed, alongOf } from './along.ts';
import type { DraftBody } from './draft-body.ts';
import type { HosePiece } from './hose-piece.ts';
import { type PlacedJoint, jointBody } from './joints.ts';
import { reversedPath } from './reversed-path.ts';
import type { TubePiece } from './tube-piece.ts';

export type DraftPiece =
  | { readonly kind: 'hose'; readonly piece: HosePiece }
  | { readonly kind: 'tube'; readonly piece: TubePiece };

/** A whole line worked out, before it is judged and written down. */
export interface LineDraft {
  readonly line: Line;
  readonly pieces: readonly DraftPiece[];
  /** Fittings between the pieces, in order; null where hose and tube join without one. */
  readonly between: readonly (PlacedJoint | null)[];
  readonly grommets: readonly PlacedJoint[];
  /** Adapter, end and first straight at either end of the line [mm], where the pieces themselves do not say. */
  readonly nearMm?: readonly [number, number];
}

/** Everything solid on the line from face to face, in order. */
export function draftBodies(draft: LineDraft): DraftBody[] {
  return draft.pieces.flatMap((drawn, i) => {
    const joint = draft.between[i];
    const fitting = joint === null || joint === undefined ? null : jointBody(joint);
    return [...pieceBodies(drawn), ...(fitting === null ? [] : [fitting])];
  });
}

function pieceBodies(drawn: DraftPiece): DraftBody[] {
  if (drawn.kind === 'tube') return drawn.piece.bodies.map((body) => ({ ...body }));
  return hoseBodies(drawn.piece);
}

/** A hose with the fittings at both its ends, from face to face. */
export function hoseBodies(piece: HosePiece): DraftBody[] {
  const hose: DraftBody = { part: 'hose', row: piece.hose.id, path: piece.path, radiusMm: piece.hose.odMm / 2 };
  return [...piece.a.shape.bodies, hose, ...reversedBodies(piece.b.shape.bodies)];
}

/** The same bodies walked the other way. */
export const reversedBodies = (bodies: readonly DraftBody[]): DraftBody[] =>
  [...bodies].reverse().map((body) => ({ ...body, path: reversedPath(body.path) }));

/** The bodies with the line's ends carried off by what they sit on; pieces between fittings on one mover stay as they are. */
export function draftBodiesAt(
  draft: LineDraft,
  from: RigidMotion,
  to: RigidMotion,
  joint: (part: string) => RigidMotion,
): DraftBody[] {
  const ends = [from, ...draft.between.map((j) => (j === null ? null : joint(j.part))), to];
  const motions = ends.map((motion, i) => motion ?? tubeMotion(draft, ends, i));
  return draft.pieces.flatMap((drawn, i) => {
    const before = motions[i] ?? from;
    const after = motions[i + 1] ?? to;
    const fitting = draft.between[i];
    const body = fitting === null || fitting === undefined ? null : jointBody(fitting);
    const moved = body === null ? [] : [carried(body, joint(fitting!.part))];
    return [...pieceAt(drawn, before, after), ...moved];
  });
}

/** Where a hose goes over a tube, the tube's own motion: with the fitting at its other end, else with the chassis it is clipped to. */
function tubeMotion(draft: LineDraft, ends: readonly (RigidMotion | null)[], joint: number): RigidMotion {
  const tubeBefore = draft.pieces[joint - 1]?.kind === 'tube';
  return ends[tubeBefore ? joint - 1 : joint + 1] ?? still;
}

function pieceAt(drawn: DraftPiece, from: RigidMotion, to: RigidMotion): DraftBody[] {
  if (drawn.kind === 'tube') return drawn.piece.bodies.map((body) => carried(body, from));
  const { piece } = drawn;
  const hose: DraftBody = {
    part: 'hose',
    row: piece.hose.id,
    path: piece.moved(from, to),
    radiusMm: piece.hose.odMm / 2,
  };
  const a = piece.a.shape.bodies.map((body) => carried(body, from));
  const b = reversedBodies(piece.b.shape.bodies).map((body) => carried(body, to));
  return [...a, hose, ...b];
}

function carried(body: DraftBody, motion: RigidMotion): DraftBody {
  const path = new Float64Array(body.path.length);
  for (let i = 0; i < path.length; i += 3)
    path.set(movedPoint(motion, [body.path[i]!, body.path[i + 1]!, body.path[i + 2]!]), i);
  return { ...body, path };
}

/** Stretches of the line where a part does not count because the line passes it there. */
export function draftCrossings(draft: LineDraft, bodies: readonly DraftBody[]): Crossed[] {
  const joints = [...draft.between.filter((j) => j !== null), ...draft.grommets];
  return joints.map((joint) => alongOf(joint, bodies));
}
