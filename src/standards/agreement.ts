import { describeEnd } from './mates.ts';
import type { End } from './end.ts';
import { hexes } from './hexes.ts';
import { threadSize } from './thread-size.ts';
import { dashSizes, faceSealThreads, flare45Threads, threadName, threadOf } from './threads.ts';
import { mmFromInches } from '#units';

/** What a list prints about one threaded end: these must agree with each other. */
export interface PrintedEnd {
  readonly end: End;
  readonly thread?: string | undefined;
  /** Diameter over the male thread, or the printed major [mm]. */
  readonly threadOdMm?: number | undefined;
}

/** A measured male thread is up to 0.4 mm under its nominal size; a printed one is rounded. */
const threadOdSlackMm = { under: 0.45, over: 0.15 } as const;

/**
 * Dash, thread and diameter checked against each other: public lists misprint them (a -20 beside 1 9/16-18, a -14 beside
 * 1 3/8-12). One line a disagreement, with what the dash has.
 */
export function disagreements(printed: PrintedEnd): string[] {
  const { end, thread, threadOdMm } = printed;
  const wanted = threadOf(end);
  const given = thread === undefined ? undefined : threadSize(thread);
  if (thread !== undefined && given === undefined)
    return [`thread "${thread}" is not read; write it as 1 5/16-12 or M14x1.5`];
  const faults: string[] = [];
  if (wanted !== undefined && given !== undefined && given.name !== threadName(wanted)) {
    faults.push(`thread ${given.name} does not belong to ${describeEnd(end)}${hintFor(end, given.name)}`);
  }
  const nominal = wanted === undefined ? given : (threadSize(wanted) ?? given);
  if (nominal !== undefined && threadOdMm !== undefined && !isNear(threadOdMm, nominal.majorMm)) {
    const others = withDiameter(threadOdMm);
    const near = others === '' ? '' : `; that is the diameter of ${others}`;
    faults.push(
      `diameter ${threadOdMm} mm does not belong to ${nominal.name} (${nominal.majorMm.toFixed(2)} mm)${near}`,
    );
  }
  if (
    given !== undefined &&
    wanted !== undefined &&
    given.name !== threadName(wanted) &&
    threadOdMm !== undefined &&
    !isNear(threadOdMm, given.majorMm)
  ) {
    faults.push(
      `diameter ${threadOdMm} mm does not belong to the thread printed beside it, ${given.name} (${given.majorMm.toFixed(2)} mm)`,
    );
  }
  return faults;
}

const isNear = (measured: number, nominal: number): boolean =>
  measured <= nominal + threadOdSlackMm.over && measured >= nominal - threadOdSlackMm.under;

/** What the wrong thread may really be: another seat's, another dash's, or the hex printed for the thread. */
function hintFor(end: End, thread: string): string {
  const sameThread = [
    ...dashSizes.map((r) => ({ text: `-${r.dash} 37-degree flare and O-ring boss`, thread: r.thread as string })),
    ...flare45Threads.map((r) => ({ text: `-${r.dash} 45-degree flare`, thread: r.thread as string })),
    ...faceSealThreads.map((r) => ({ text: `-${r.dash} face seal`, thread: r.thread as string })),
  ].filter((r) => threadName(r.thread) === thread);
  if (sameThread.length > 0) return `; it is that of ${sameThread.map((r) => r.text).join(' and ')}`;
  const major = threadSize(thread)?.majorMm;
  const hex = hexes.find(
    (h) => h.dash === end.dash && major !== undefined && Math.abs(mmFromInches(h.acrossFlatsIn) - major) < 0.05,
  );
  return hex === undefined ? '' : `; ${(major ?? 0).toFixed(1)} mm is its hex, not its thread`;
}

const withDiameter = (mm: number): string =>
  dashSizes
    .filter((r) => isNear(mm, r.majorMm))
    .map((r) => `-${r.dash} (${r.thread})`)
    .join(' and ');

/** Least and most bore for a dash, over all families: a tenth under the tube family's, a tenth over dash/16 in. */
const boreShare = { under: 0.85, over: 1.1 } as const;
const tubeFamilyBoreIn: Readonly<Record<number, number>> = {
  3: 0.125,
  4: 0.1875,
  5: 0.25,
  6: 0.3125,
  8: 0.40625,
  10: 0.5,
  12: 0.625,
  16: 0.875,
  20: 1.125,
  24: 1.375,
  32: 1.8125,
};

/** Whether a hose's bore can belong to its dash, in any family: one line if not. */
export function boreDisagreement(dash: number, boreMm: number): string | undefined {
  const tube = tubeFamilyBoreIn[dash];
  if (tube === undefined)
    return `-${dash} is no hose size; there are ${Object.keys(tubeFamilyBoreIn)
      .map((d) => `-${d}`)
      .join(' ')}`;
  const [least, most] = [mmFromInches(tube) * boreShare.under, mmFromInches(dash / 16) * boreShare.over];
  if (boreMm >= least && boreMm <= most) return undefined;
  return `bore ${boreMm} mm does not belong to a -${dash} hose (${least.toFixed(1)} to ${most.toFixed(1)} mm over all families)`;
}
