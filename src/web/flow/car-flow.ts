import { useEffect, useMemo } from 'react';
import type { FlowAnswer, FlowViews } from '#flow';
import { kept } from '../bench/bench.ts';
import { useWork, type Work } from '../bench/job.ts';
import { signal, useSignal } from '../bench/signal.ts';

/** The flow of the car on the bench, as far as it is worked out. */
export interface CarFlow {
  readonly flow: FlowAnswer;
  readonly views: FlowViews | null;
}

/** The last answer, so that the paper is there at once when it is opened again. */
const last = signal<{ readonly at: string; readonly answer: CarFlow } | null>(null);

/** Asks for the flow of the car as it stands, the open case first; a change of the car asks again. */
export function useCarFlow(caseId: string | undefined): {
  readonly answer: CarFlow | null;
  readonly isOld: boolean;
  readonly work: Work<CarFlow>;
} {
  const now = useSignal(kept)!;
  const work = useWork<CarFlow>();
  const at = `${now.id} ${now.revision}`;
  const had = useSignal(last);
  const { begin } = work;
  const isDone = had?.at === at;
  // The case that is open when the car changes is asked about first; opening another one asks nothing anew.
  const first = useMemo(() => ({ at, caseId }), [at]);
  useEffect(() => {
    if (last.get()?.at === first.at) return;
    begin(now.id, { kind: 'flow', ...(first.caseId === undefined ? {} : { case: first.caseId }) });
  }, [begin, now.id, first]);
  const { job } = work;
  useEffect(() => {
    if (job?.state === 'done' && job.answer !== undefined && job.answer !== null) last.set({ at, answer: job.answer });
  }, [job, at]);
  // While it is worked out anew, what was there stays, and says so.
  const part = isDone ? null : (job?.answer ?? null);
  const answer = part ?? (had?.at.startsWith(`${now.id} `) === true ? had.answer : null);
  return { answer, isOld: part === null && !isDone && answer !== null, work };
}
