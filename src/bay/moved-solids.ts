import { type RigidMotion, type Solid, still } from '#geometry';
import type { BayPart } from './bay-part.ts';
import { relativeTo } from './movement.ts';

const known = new WeakMap<BayPart, Map<RigidMotion | null, Map<RigidMotion, readonly Solid[]>>>();

/**
 * A part's solids with the part moved, as seen from something that has moved too (null: from the chassis). Worked out once
 * for each pair of poses: poses are the movers' own objects, so the same pose is the same object.
 */
export function solidsSeenFrom(part: BayPart, from: RigidMotion | null, pose: RigidMotion): readonly Solid[] {
  const motion = relativeTo(from ?? still, pose);
  if (motion === still) return part.solids;
  let ofPart = known.get(part);
  if (ofPart === undefined) known.set(part, (ofPart = new Map()));
  let ofFrom = ofPart.get(from);
  if (ofFrom === undefined) ofPart.set(from, (ofFrom = new Map()));
  let solids = ofFrom.get(pose);
  if (solids === undefined) ofFrom.set(pose, (solids = part.solids.map((s) => s.moved(motion))));
  return solids;
}
