import { movedDirection, movedPoint, type RigidMotion } from '#geometry';
import type { Bay } from './bay.ts';
import { bayPart } from './bay-part.ts';

/** The bay with one part carried off, its ports with it; everything else is shared, so that it is made in no time. */
export function bayWithMovedPart(bay: Bay, partId: string, motion: RigidMotion): Bay {
  const was = bay.partById.get(partId);
  if (was === undefined) return bay;
  const moved = bayPart(
    was.part,
    was.solids.map((solid) => solid.moved(motion)),
  );
  const ports = new Map(bay.ports);
  for (const port of bay.ports.values())
    if (port.partId === partId)
      ports.set(port.ref, { ...port, at: movedPoint(motion, port.at), faces: movedDirection(motion, port.faces) });
  const parts = bay.parts.map((part) => (part.id === partId ? moved : part));
  return { ...bay, parts, partById: new Map(parts.map((part) => [part.id, part])), ports };
}
