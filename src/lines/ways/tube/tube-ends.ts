import { type Vec, addScaled, distance, scale } from '#geometry';
import type { HoseRow } from '#standards';
import { endMakeUps } from '../../make-up/end-make-ups.ts';
import type { EndMakeUp } from '../../make-up/end-make-up.ts';
import { tubeEndMakeUps } from '../../make-up/tube-end-make-ups.ts';
import { type LinesWorld, portOf } from '../../world.ts';
import { type EndAnswer, type PlacedJoint, portEnd, sideLabel } from '../joints.ts';
import { beside, nearLengthMm, restOf } from '../near-items.ts';
import type { SpanEnd } from '../span.ts';
import { type CouplerMovement, couplerLength, couplerPiece, fittedEnds } from './coupler.ts';
import { type TubeBench, type TubeEndAt, straightAt } from './hard-tube.ts';
import type { HosePiece } from '../hose-piece.ts';
import type { TubeAsked, TubeRule } from './tube-rule.ts';

/** A tube's end at a port: every fitting that takes the tube there. */
export function tubePortEnd({ world, line }: TubeBench, ref: string, tube: TubeAsked): EndAnswer {
  const port = portOf(world, ref);
  const made = tubeEndMakeUps({ end: port.end }, tube, world.shelf, { box: world.box, duty: line.duty });
  if ('missing' in made) return { missing: `${ref}: ${made.missing}` };
  const widest = Math.max(...made.makeUps.map((m) => (m.stages.find((s) => s.kind === 'straight')?.odMm ?? 0) / 2));
  const near = beside(world, port, line, widest);
  return {
    end: {
      label: ref,
      at: port.at,
      faces: port.faces,
      partId: port.partId,
      moverId: world.bay.partById.get(port.partId)?.moverId ?? null,
      makeUps: made.makeUps,
      nearItems: near.items,
      rest: near.rest,
      nearMm: nearLengthMm(port),
    },
  };
}

/** A tube's end on one side of a fitting between two pieces. */
export function tubeJointEnd({ world, line }: TubeBench, joint: PlacedJoint, tube: TubeAsked, side: -1 | 1): EndAnswer {
  const row = joint.row!;
  const made = tubeEndMakeUps({ end: side === -1 ? row.a : row.b }, tube, world.shelf, {
    box: world.box,
    duty: line.duty,
  });
  if ('missing' in made) return { missing: `${joint.label}: ${made.missing}` };
  return { end: jointSpanEnd(world, joint, side, made.makeUps) };
}

function jointSpanEnd(world: LinesWorld, joint: PlacedJoint, side: -1 | 1, makeUps: readonly EndMakeUp[]): SpanEnd {
  const faces = scale(joint.direction, side);
  const part = world.bay.partById.get(joint.part);
  return {
    label: sideLabel(joint, side),
    at: addScaled(joint.at, faces, joint.row!.lengthMm / 2),
    faces,
    partId: joint.part,
    moverId: part?.moverId ?? null,
    makeUps,
    nearItems: (part?.solids ?? []).map((solid) => ({ part: joint.part, solid, keepOffMm: 0, own: true })),
    nearMm: JOINT_NEAR_MM,
  };
}

/** Beside a fitting the panel itself does not count for this much of the line [mm]; as for a hose there. */
const JOINT_NEAR_MM = 60;

/** A line's end at a port for the hose of a coupler. */
export const hosePortEnd = ({ world, line }: TubeBench, ref: string, hose: HoseRow): EndAnswer =>
  portEnd(world, line, ref, hose);

/** The tube's own fitting at an end, at every clock that is clear; the plainest first. */
export function fittedTubeEnds(end: SpanEnd, tube: TubeAsked, rule: TubeRule, first: boolean): TubeEndAt[] {
  const bare: TubeEndAt = {
    from: end,
    fit: null,
    pose: { at: end.at, along: end.faces },
    insertMm: end.makeUps[0]?.insertMm ?? 0,
    over: null,
    nearMm: 0,
    prep: '',
    cost: 0,
  };
  const straightMm = straightAt(bare, rule, first);
  return fittedEnds(end, tube.odMm, straightMm).map((fit): TubeEndAt => {
    const { makeUp } = fit.tail;
    return {
      from: end,
      fit,
      pose: { at: fit.shape.tail.at, along: fit.shape.tail.along },
      insertMm: makeUp.insertMm,
      over: null,
      nearMm: fit.shape.lengthMm + straightMm,
      prep: nutPrep(makeUp, end.label),
      cost: fit.shape.lengthMm + makeUp.cost,
    };
  });
}

function nutPrep(makeUp: EndMakeUp, label: string): string {
  const last = makeUp.parts.findLast((p) => p.kind === 'adapter');
  const on = last === undefined ? '' : `${last.name} on before the end is worked; `;
  const flare =
    last?.id.startsWith('pipe-nut') === true
      ? 'double (inverted) flare to suit the seat'
      : '37-degree flare, double where the wall is thin';
  return `${on}${flare} (${label})`;
}

/** A coupler with the tube's end that it leaves. */
export interface CoupledEnd {
  readonly end: TubeEndAt;
  /** From the port to the tube. */
  readonly coupler: HosePiece;
}

/** Couplers from a port (or a tee's spigot) to a tube in line with it, the plainest first. */
export function coupledEnds(
  bench: TubeBench,
  end: SpanEnd,
  hose: HoseRow,
  tube: TubeAsked,
  rule: TubeRule,
  movement: CouplerMovement,
  label: string,
): CoupledEnd[] | { missing: string } {
  const made = endMakeUps({ end: { type: 'bead', odMm: tube.odMm } }, hose, bench.world.shelf, {
    box: bench.world.box,
    duty: bench.line.duty,
    allowElbowAdapters: false,
  });
  if ('missing' in made) return { missing: `${label}: ${made.missing}` };
  const onTube = made.makeUps.find((m) => m.angleDeg === 0)!;
  const showingMm = couplerLength(hose, movement);
  return fittedEnds(end, hose.odMm, showingMm).map((fit) => {
    const coupler = couplerPiece(hose, fit, onTube, label, showingMm, movement);
    const { at, along } = coupler.b.shape.tail;
    const tubeEnd: TubeEndAt = {
      from: end,
      fit: null,
      pose: { at: at as Vec, along: scale(along, -1) },
      insertMm: 0,
      over: { lengthMm: onTube.insertMm, odMm: hose.odMm, row: hose.id },
      nearMm: 0,
      prep: `bead rolled on the ${tube.odMm} mm end; the hose goes ${onTube.insertMm.toFixed(0)} mm over it (${label})`,
      cost: coupler.cost,
    };
    return { coupler, end: { ...tubeEnd, nearMm: fit.shape.lengthMm + showingMm + straightAt(tubeEnd, rule, true) } };
  });
}

/** An end of a short line whose other end relaxes a keep-off that far: what may come near there may come near here. */
export function withOthersNear({ world, line }: TubeBench, end: SpanEnd, other: SpanEnd): SpanEnd {
  if (distance(end.at, other.at) >= other.nearMm) return end;
  const relaxed = end.nearItems.map((item) => {
    const same = other.nearItems.find((o) => o.solid === item.solid);
    return same === undefined || item.own
      ? item
      : { ...item, keepOffMm: Math.min(item.keepOffMm, Math.max(0, same.keepOffMm)) };
  });
  const more = other.nearItems.filter((o) => !o.own && !end.nearItems.some((item) => item.part === o.part));
  const nearItems = [...relaxed, ...more];
  return { ...end, nearItems, rest: restOf(world, line, nearItems) };
}
