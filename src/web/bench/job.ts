import { useCallback, useEffect, useRef, useState } from 'react';
import type { Job } from '../server/answers.ts';
import { calls, type JobWish } from '../server/calls.ts';
import type { Edit } from '#car';
import { judgeAgain, sayFault } from './bench.ts';
import { useBegun } from './begun.ts';

/** Asked again after so long: at first, while a quick answer may come, then now and then. */
const FIRST_POLL_MS = 100;
const FIRST_POLLS = 12;
const POLL_MS = 500;

/** Heavy work on the server, as the screen follows it. */
export interface Work<Answer> {
  readonly job: Job<Answer> | null;
  readonly isBusy: boolean;
  begin(car: string, wish: JobWish): void;
  stop(): void;
  clear(): void;
  /** Keeps what came of it: what others did to the same thing since it was begun is told, not written over. */
  keep(edits: readonly Edit[], done: string): Promise<boolean>;
}

function asked(car: string, wish: JobWish): Promise<{ readonly job: string }> {
  if (wish.kind === 'laps') return calls.drive(car, wish.log);
  if (wish.kind === 'template') return calls.readTemplate(car, wish.photo, wish.asked);
  return calls.begin(car, wish);
}

/** One job at a time; a new one or leaving the paper stops the one before. */
export function useWork<Answer>(): Work<Answer> {
  const [job, setJob] = useState<Job<Answer> | null>(null);
  const { mark, keep } = useBegun();
  const turn = useRef(0);
  const running = useRef<string | null>(null);

  const stopRunning = useCallback(() => {
    turn.current++;
    const id = running.current;
    running.current = null;
    if (id !== null) void calls.stop(id);
  }, []);
  useEffect(() => stopRunning, [stopRunning]);

  const begin = useCallback(
    (car: string, wish: JobWish) => {
      stopRunning();
      mark();
      const mine = turn.current;
      const isMine = (): boolean => mine === turn.current;
      setJob({ job: '', kind: wish.kind, state: 'waiting', done: 0, total: 0 });
      const follow = async (): Promise<void> => {
        const { job: id } = await asked(car, wish);
        if (!isMine()) return calls.stop(id);
        running.current = id;
        for (let n = 0; ; n++) {
          const now = await calls.job<Answer>(id);
          if (!isMine()) return;
          setJob(now);
          if (now.state !== 'waiting' && now.state !== 'working') break;
          await new Promise((wake) => setTimeout(wake, n < FIRST_POLLS ? FIRST_POLL_MS : POLL_MS));
        }
        running.current = null;
        if (wish.kind === 'ways' || wish.kind === 'plan') judgeAgain();
      };
      follow().catch((fault: unknown) => {
        if (!isMine()) return;
        setJob(null);
        sayFault(fault);
      });
    },
    [stopRunning, mark],
  );
  const stop = useCallback(() => {
    stopRunning();
    setJob((was) => (was === null ? null : { ...was, state: 'stopped' }));
  }, [stopRunning]);
  const clear = useCallback(() => {
    stopRunning();
    setJob(null);
  }, [stopRunning]);
  return { job, isBusy: job?.state === 'waiting' || job?.state === 'working', begin, stop, clear, keep };
}
