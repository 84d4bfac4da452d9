import { useEffect } from 'react';
import type { Part } from '#car';
import type { HeatAnswer, HeatCase } from '#heat';
import { kept } from '../bench/bench.ts';
import { useWork, type Work } from '../bench/job.ts';
import { signal, useSignal } from '../bench/signal.ts';

/** The last answer, so that the paper and the picture of the car have it at once when they are opened again. */
const last = signal<{ readonly at: string; readonly answer: HeatAnswer } | null>(null);

/** The case whose temperatures the car is painted with; null where none is open. */
export const painted = signal<HeatCase | null>(null);

/** A part that is looked at and not kept, such as a shield: drawn on the car. */
export const partSeen = signal<Part | null>(null);

/** Asks for the heat of the car as it stands; a change of the car asks again. What was there stays until then, and says so. */
export function useCarHeat(): {
  readonly answer: HeatAnswer | null;
  readonly isOld: boolean;
  readonly work: Work<HeatAnswer>;
} {
  const now = useSignal(kept)!;
  const work = useWork<HeatAnswer>();
  const had = useSignal(last);
  const at = `${now.id} ${now.revision}`;
  const { begin, job } = work;
  useEffect(() => {
    if (last.get()?.at !== at) begin(now.id, { kind: 'heat' });
  }, [begin, now.id, at]);
  useEffect(() => {
    if (job?.kind === 'heat' && job.state === 'done' && job.answer !== undefined && job.answer !== null)
      last.set({ at, answer: job.answer });
  }, [job, at]);
  // The hardest case comes first, the others follow.
  const part = job?.kind === 'heat' && job.state === 'working' ? (job.answer ?? null) : null;
  const answer = part ?? (had?.at.startsWith(`${now.id} `) === true ? had.answer : null);
  return { answer, isOld: part === null && answer !== null && had?.at !== at, work };
}
