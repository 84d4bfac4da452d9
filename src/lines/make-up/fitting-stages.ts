import type { HoseEndRow } from '#standards';
import { acrossCornersMm } from '#standards';
import { type Link, entryOf, exitOf } from './mating-chains.ts';
import type { Stage, StraightStage } from './stage.ts';

/** A hose over a spigot: how much of the spigot it covers, and how thick it stands there. */
export interface Cover {
  readonly overlapMm: number;
  readonly odMm: number;
}

/**
 * An adapter's shape from its port side on: a straight, or two legs and the turn between them. Where a hose is pushed over a
 * spigot, the hose side (a formed elbow) gives up the length that overlaps, and the spigot carries the hose's thickness there.
 */
export function adapterStages(link: Link, before: Cover | undefined, after: Cover | undefined): readonly Stage[] {
  const [first, second] = legsOf(link);
  const { row } = link;
  const odMm = Math.max(row.bodyOdMm, acrossCornersMm(row.hexMm));
  const cut = (end: 'hose' | 'spigot', cover: Cover | undefined): number =>
    end === 'hose' ? (cover?.overlapMm ?? 0) : 0;
  const lead = cut(sideOf(entryOf(link)), before);
  const trail = cut(sideOf(exitOf(link)), after);
  const part = row.id;
  const cover = { before: lead === 0 ? before : undefined, after: trail === 0 ? after : undefined };
  if (row.angleDeg === 0) {
    const lengthMm = Math.max(0, row.lengthMm - lead - trail);
    return covered({ kind: 'straight', lengthMm, odMm, part }, cover.before, cover.after);
  }
  const angleRad = (row.angleDeg * Math.PI) / 180;
  const firstMm = Math.max(0, first - lead);
  const secondMm = Math.max(0, second - trail);
  const radiusMm = elbowRadius(row.bendRadiusMm ?? 0, angleRad, Math.min(firstMm, secondMm));
  const tangent = radiusMm * Math.tan(angleRad / 2);
  return [
    ...covered({ kind: 'straight', lengthMm: firstMm - tangent, odMm, part }, cover.before, undefined),
    { kind: 'bend', angleRad, radiusMm, odMm, part, clock: 1 },
    ...covered({ kind: 'straight', lengthMm: secondMm - tangent, odMm, part }, undefined, cover.after),
  ];
}

const sideOf = (end: { readonly type: string }): 'hose' | 'spigot' => (end.type === 'hose-bore' ? 'hose' : 'spigot');

function legsOf({ row, flipped }: Link): readonly [number, number] {
  const a = row.aLegMm ?? row.lengthMm / 2;
  const b = row.bLegMm ?? row.lengthMm / 2;
  return flipped ? [b, a] : [a, b];
}

/** Legs are measured to where their axes cross: a radius takes its tangent length from each, so a short leg limits it. */
const elbowRadius = (wantedMm: number, angleRad: number, shortLegMm: number): number =>
  Math.min(wantedMm, shortLegMm / Math.tan(angleRad / 2));

/** A straight with what is pushed over its two ends. */
function covered(stage: StraightStage, before: Cover | undefined, after: Cover | undefined): readonly StraightStage[] {
  const head = Math.min(before?.overlapMm ?? 0, stage.lengthMm);
  const foot = Math.min(after?.overlapMm ?? 0, stage.lengthMm - head);
  const pieces: readonly StraightStage[] = [
    { ...stage, lengthMm: head, odMm: Math.max(stage.odMm, before?.odMm ?? 0) },
    { ...stage, lengthMm: stage.lengthMm - head - foot },
    { ...stage, lengthMm: foot, odMm: Math.max(stage.odMm, after?.odMm ?? 0) },
  ];
  return pieces.filter((piece) => piece.lengthMm > 0);
}

/** A hose end's shape from its seat on: nut, bend, neck, socket. */
export function hoseEndStages(row: HoseEndRow): readonly Stage[] {
  const part = row.id;
  const nutOdMm = Math.max(acrossCornersMm(row.nutHexMm), row.neckOdMm);
  const bend: Stage = {
    kind: 'bend',
    angleRad: (row.angleDeg * Math.PI) / 180,
    radiusMm: row.bendRadiusMm,
    odMm: row.neckOdMm,
    part,
    clock: 0,
  };
  const stages: readonly Stage[] = [
    { kind: 'straight', lengthMm: row.nutMm, odMm: nutOdMm, part },
    ...(row.angleDeg === 0 ? [] : [bend]),
    { kind: 'straight', lengthMm: row.afterBendMm, odMm: row.neckOdMm, part },
    { kind: 'straight', lengthMm: row.socketMm, odMm: row.socketOdMm, part },
  ];
  return stages.filter((s) => s.kind === 'bend' || s.lengthMm > 0);
}
