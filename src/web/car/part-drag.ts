import type { ThreeEvent } from '@react-three/fiber';
import { Plane, Vector3 } from 'three';
import type { Vec } from '#geometry';
import { held, isHolding, stand, type Stand } from './view.ts';

/** The plane in which a part slides, by where the viewer stands. */
const square: Readonly<Record<Stand, Vector3>> = {
  'walk round': new Vector3(0, 0, 1),
  side: new Vector3(0, 1, 0),
  top: new Vector3(0, 0, 1),
};

interface Grip {
  readonly plane: Plane;
  readonly at: Vector3;
  readonly from: Vec;
}
let grip: Grip | null = null;

/** Takes hold of a part where the pointer touches it. */
export function takeHold(event: ThreeEvent<PointerEvent>): void {
  const hand = held.get();
  if (hand === null) return;
  event.stopPropagation();
  (event.target as Element).setPointerCapture(event.pointerId);
  grip = {
    plane: new Plane().setFromNormalAndCoplanarPoint(square[stand.get().stand], event.point),
    at: event.point.clone(),
    from: hand.byMm,
  };
  isHolding.set(true);
}

/** Draws it along; whole millimetres, as a tape tells them. */
export function drawAlong(event: ThreeEvent<PointerEvent>): void {
  const hand = held.get();
  if (hand === null || grip === null) return;
  event.stopPropagation();
  const now = event.ray.intersectPlane(grip.plane, new Vector3());
  if (now === null) return;
  const by = now.sub(grip.at);
  const { from } = grip;
  held.set({
    part: hand.part,
    byMm: [Math.round(from[0] + by.x), Math.round(from[1] + by.y), Math.round(from[2] + by.z)],
  });
}

export function letGo(event: ThreeEvent<PointerEvent>): void {
  if (grip === null) return;
  event.stopPropagation();
  grip = null;
  isHolding.set(false);
}
