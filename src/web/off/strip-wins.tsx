import type { ReactNode } from 'react';
import type { StripOf } from '#answers';
import { minutesWords } from '#units';
import { useWork } from '../bench/job.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';

interface WinsWish {
  readonly carId: string;
  readonly what: string;
  readonly aim: StripOf['aim'];
}

/** What quarter-turns, dry-breaks or another panel split would win of a job: worked out when it is asked for. */
export function StripWins({ carId, what, aim }: WinsWish): ReactNode {
  const { job, isBusy, begin, stop } = useWork<StripOf>();
  const answer = job?.state === 'done' ? (job.answer ?? null) : null;
  return (
    <section aria-label="What would win time" className={answer === null ? 'no-print' : ''}>
      <h2>What would win time</h2>
      {isBusy ? (
        <Progress job={job!} what="The job again with quarter-turns, dry-breaks and panels split" onStop={stop} />
      ) : answer === null ? (
        <>
          {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
          <div className="keys no-print">
            <Key onClick={() => begin(carId, { kind: 'strip', what, aim, wins: true })}>
              Try quarter-turns, dry-breaks, other panel splits
            </Key>
          </div>
        </>
      ) : answer.wins.length === 0 ? (
        <p>No quarter-turn, dry-break or other panel split wins a minute.</p>
      ) : (
        <ul>
          {answer.wins.map(({ words, savedMin, minutes }) => (
            <li key={words}>{`${minutesWords(savedMin)} less: ${words} (${minutesWords(minutes)} alone)`}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
