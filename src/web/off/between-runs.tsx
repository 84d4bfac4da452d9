import { type ReactNode, useEffect } from 'react';
import type { BreakJob, BreakJobs } from '#answers';
import { litresWords, minutesWords } from '#units';
import { kept, useCar } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { addressOf } from './off-address.ts';

/** What is to be done in each break, how long it takes, and whether that is within it. */
export function BetweenRuns(): ReactNode {
  const car = useCar()!;
  const { id: carId, revision } = useSignal(kept)!;
  const { job, isBusy, begin, stop } = useWork<readonly BreakJobs[]>();
  const hasJobs = (car.workshop?.breaks ?? []).some(({ jobs = [] }) => jobs.length > 0);
  useEffect(() => {
    if (hasJobs) begin(carId, { kind: 'breaks' });
    // Asked anew for each change of the car, and for nothing else.
  }, [carId, revision, hasJobs]); // eslint-disable-line react-hooks/exhaustive-deps
  const breaks = job?.state === 'done' ? (job.answer ?? []) : [];
  return (
    <>
      {isBusy ? <Progress job={job!} what="Working out what is to be done between runs" onStop={stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
      {breaks.map((row) => (
        <Break key={row.name} row={row} />
      ))}
      {hasJobs ? null : (
        <p className="soft">
          No jobs are named for a break, such as 40 minutes between two runs. Put some in to see which are within it.
        </p>
      )}
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'off', id: addressOf('crew') })}>Crew, breaks, minutes, tools</Key>
        <Key onClick={() => open({ kind: 'off', id: addressOf('due') })}>What is due</Key>
        <Key onClick={() => open({ kind: 'off', id: addressOf('rules') })}>Rules</Key>
      </div>
    </>
  );
}

function Break({ row: { name, minutes, crew, jobs } }: { readonly row: BreakJobs }): ReactNode {
  const most = 1.08 * Math.max(minutes, ...jobs.map(({ crewMinutes }) => crewMinutes));
  return (
    <section aria-label={name} className="off-break">
      <h2>{`${name}: ${minutesWords(minutes)}, ${crew === 1 ? 'one alone' : `${crew} at it`}`}</h2>
      {jobs.length === 0 ? <p className="soft">No job is named for it.</p> : null}
      {jobs.map((job) => (
        <button
          key={job.target}
          type="button"
          className="off-job"
          onClick={() => open({ kind: 'off', id: `replace/${job.target}` })}
        >
          <span>{job.name}</span>
          <span className={job.fits ? 'off-minutes' : 'off-minutes off-over'}>{jobWords(job)}</span>
          {job.found === 'found' ? <Bar minutes={job.crewMinutes} limit={minutes} most={most} /> : null}
        </button>
      ))}
      {jobs.length === 0 ? null : (
        <p className="small soft">
          Off and on again. Minutes are from memory where the crew has not clocked its own; putting on counts 1.3 times
          as long as taking off, from memory too. The bar across is the end of the break.
        </p>
      )}
    </section>
  );
}

function jobWords({ found, crewMinutes, fits, litres }: BreakJob): string {
  if (found === 'stays-on') return 'stays on the car';
  if (found !== 'found') return '◆ no way found';
  const runs = litres < 0.005 ? '' : `, ${litresWords(litres)}`;
  return `${fits ? '' : '◆ '}${minutesWords(crewMinutes)}${fits ? '' : ', longer than it'}${runs}`;
}

const [WIDE, HIGH] = [300, 14];

/** How long it takes, beside the end of the break. */
function Bar({
  minutes,
  limit,
  most,
}: {
  readonly minutes: number;
  readonly limit: number;
  readonly most: number;
}): ReactNode {
  const at = (value: number): number => (WIDE * value) / most;
  return (
    <svg className="off-bar" viewBox={`0 0 ${WIDE} ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
      <line x1={0} x2={WIDE} y1={HIGH - 1} y2={HIGH - 1} stroke="var(--rule)" strokeWidth={1} />
      <rect
        x={0}
        y={3}
        width={at(minutes)}
        height={HIGH - 6}
        fill={minutes > limit ? 'var(--brass)' : 'var(--steel)'}
      />
      <line x1={at(limit)} x2={at(limit)} y1={0} y2={HIGH} stroke="var(--ink)" strokeWidth={2.5} />
    </svg>
  );
}
