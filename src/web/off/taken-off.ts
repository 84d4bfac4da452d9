import type { StripOfStep as StripStep } from '#answers';
import { Quaternion, Vector3 } from 'three';
import { signal } from '../bench/signal.ts';

/** A thing on its way out: turned about a point of its own, then shifted [mm]. */
export interface OnItsWay {
  readonly shiftMm: readonly [number, number, number];
  readonly aboutMm: readonly [number, number, number];
  readonly turn: Quaternion;
}

/** What of the car is off, or on its way out, as it is being looked at; empty while nobody looks. */
export const takenOff = signal<ReadonlyMap<string, OnItsWay | 'off'>>(new Map());

const ORIGIN = [0, 0, 0] as const;

/**
 * Where everything is after so much of a strip-down: whole steps before `done` are off, the one it falls in is on its way.
 *
 * @param done - steps done, 0 to the count of them; 1.25 is the second step a quarter of its way out
 */
export function takenAt(steps: readonly StripStep[], done: number): ReadonlyMap<string, OnItsWay | 'off'> {
  const out = new Map<string, OnItsWay | 'off'>();
  const now = Math.min(steps.length, Math.floor(done));
  for (const step of steps.slice(0, now)) for (const id of idsOf(step)) out.set(id, 'off');
  const step = steps[now];
  const share = done - now;
  if (step === undefined || share <= 0) return out;
  const way = onItsWay(step, share);
  for (const id of idsOf(step)) out.set(id, way);
  return out;
}

/** An end that is only opened stays where it is. */
const idsOf = ({ kind, what, along }: StripStep): readonly string[] => (kind === 'end' ? [] : [what, ...along]);

function onItsWay({ coming }: StripStep, share: number): OnItsWay | 'off' {
  if (coming.how === 'freely')
    return share > 0.5 ? 'off' : { shiftMm: ORIGIN, aboutMm: ORIGIN, turn: new Quaternion() };
  if (coming.how === 'straight') {
    const by = coming.lengthMm * share;
    const [x, y, z] = coming.direction;
    return { shiftMm: [x * by, y * by, z * by], aboutMm: ORIGIN, turn: new Quaternion() };
  }
  const { keys, middle } = coming;
  const along = share * (keys.length - 1);
  const before = keys[Math.min(keys.length - 1, Math.floor(along))]!;
  const after = keys[Math.min(keys.length - 1, Math.floor(along) + 1)]!;
  const part = along - Math.floor(along);
  const turn = quaternion(before.turn).slerp(quaternion(after.turn), part);
  const shift = new Vector3(...before.shift).lerp(new Vector3(...after.shift), part);
  return { shiftMm: [shift.x, shift.y, shift.z], aboutMm: middle, turn };
}

const quaternion = ([w, x, y, z]: readonly [number, number, number, number]): Quaternion => new Quaternion(x, y, z, w);
