import type { ReactNode } from 'react';
import { Key } from '../frame/key.tsx';
import type { Job } from '../server/answers.ts';

interface Wish {
  readonly job: Job<unknown>;
  readonly what: string;
  readonly onStop: () => void;
}

/** How far heavy work has got, and a way to end it. */
export function Progress({ job, what, onStop }: Wish): ReactNode {
  const isKnown = job.total > 0;
  return (
    <div className="progress" role="group" aria-label={what}>
      <div>
        <span>{job.state === 'waiting' ? `${what}: waiting its turn` : what}</span>
        {isKnown ? <span className="soft">{` ${job.done} of ${job.total}`}</span> : null}
        <progress aria-label={what} max={isKnown ? job.total : 1} {...(isKnown ? { value: job.done } : {})} />
      </div>
      <Key onClick={onStop}>Stop</Key>
    </div>
  );
}
