import type { StripOf } from '#answers';
import type { Vec } from '#geometry';
import { signal } from '../bench/signal.ts';

/** What a strip-down is about, on the picture: what it is all for, what else comes off, and the way the thing itself goes. */
export interface StripLook {
  readonly target: string;
  readonly comesOff: readonly string[];
  readonly out: Vec | null;
}

/** The strip-down that is open; the viewer is brought to where it shows. */
export const stripLook = signal<StripLook | null>(null);

/** Things that stand out now: what it is all for, and what comes off in the step that is looked at. */
export const marked = signal<ReadonlySet<string>>(new Set());

export function lookOf({ target, steps }: Pick<StripOf, 'target' | 'steps'>): StripLook {
  const last = steps.find(({ what, along }) => what === target || along.includes(target));
  return {
    target,
    comesOff: steps.flatMap(({ what, along, kind }) => (kind === 'end' ? [] : [what, ...along])),
    out: last?.coming.how === 'straight' ? last.coming.direction : null,
  };
}

/** The target and what comes off in the step that `done` falls in, or that is next. */
export function markedAt({ target, steps }: Pick<StripOf, 'target' | 'steps'>, done: number): ReadonlySet<string> {
  const step = done <= 0 ? undefined : steps[Math.floor(done)];
  return new Set([target, ...(step === undefined ? [] : [step.what.split('@')[0]!, ...step.along])]);
}

/** Steeper than this a thing goes up or down rather than aside: it is seen as well from where one looks. */
const STEEP = 0.8;
/** Less than this towards the viewer, it goes out of sight behind the car. */
const TOWARDS = 0.25;

/**
 * From where something is seen to come out: from the side one looks from, but where it would go away behind the car from that side
 * mirrored to the other.
 *
 * @param viewer - from the car towards the viewer, of length 1 [-]
 * @param out - the way it goes [-]
 * @returns towards the viewer, of length 1 [-]
 */
export function seenFrom(viewer: Vec, out: Vec): Vec {
  const long = Math.hypot(...out);
  if (long === 0 || Math.abs(out[2]) / long > STEEP) return viewer;
  const flat = Math.hypot(out[0], out[1]);
  const [x, y] = [out[0] / flat, out[1] / flat];
  const towards = viewer[0] * x + viewer[1] * y;
  if (towards >= TOWARDS) return viewer;
  const by = towards < 0 ? 2 * towards : 0;
  const turned: Vec = [viewer[0] - by * x, viewer[1] - by * y, viewer[2]];
  const lean = turned[0] * x + turned[1] * y;
  if (lean >= TOWARDS) return turned;
  const leant: Vec = [turned[0] + (TOWARDS - lean) * x, turned[1] + (TOWARDS - lean) * y, turned[2]];
  const size = Math.hypot(...leant);
  return [leant[0] / size, leant[1] / size, leant[2] / size];
}
