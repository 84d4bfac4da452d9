import { type ReactNode, useEffect } from 'react';
import type { LifingAnswer } from '#answers';
import type { Car } from '#car';
import { describeSource } from '#sources';
import { standsWords } from '#stock';
import { kept, useCar } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { counted } from '../snags/counted.ts';
import { addressOf } from './off-address.ts';

/** Today where the builder is, not in Greenwich. */
const today = (): string => {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
};

/** How what has a life is called: a part by its name, a line by its id and name. */
function calledIn({ parts, lines }: Car): (id: string) => string {
  const names = new Map<string, string>([
    ...parts.map(({ id, name }) => [id, name ?? id] as const),
    ...lines.map(({ id, name }) => [id, name === undefined || name === id ? id : `${id} ${name}`] as const),
  ]);
  return (id) => names.get(id) ?? id;
}

/** What is due today, the days that the car ran, and what to carry for a weekend. */
export function DuePaper(): ReactNode {
  const { runDays = [] } = useCar()!;
  const { id: carId, revision } = useSignal(kept)!;
  const { job, isBusy, begin, stop } = useWork<LifingAnswer>();
  useEffect(() => {
    begin(carId, { kind: 'due', day: today() });
    // Asked anew for each change of the car, and for nothing else.
  }, [carId, revision]); // eslint-disable-line react-hooks/exhaustive-deps
  const answer = job?.state === 'done' ? (job.answer ?? null) : null;
  const dayKey = (which: string, words: string): ReactNode => (
    <Key key={which} onClick={() => open({ kind: 'off', id: addressOf('day', which) })}>
      {words}
    </Key>
  );
  return (
    <article className="paper off-paper">
      <PaperHead below="Hoses, seals and parts by months, runs and heat cycles. Lives that are not entered are usual ones, and say so. The event's own rules on dates and tests go first.">
        What is due
      </PaperHead>
      {isBusy ? <Progress job={job!} what="Looking what is due" onStop={stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
      {answer === null ? null : <Due answer={answer} />}
      <section className="off-break no-print" aria-label="Days the car ran">
        <h2>Days the car ran</h2>
        <div className="keys">
          {runDays.map(({ on, runs }, i) => dayKey(String(i), `${on}: ${counted(runs, 'run')}`))}
          {dayKey('new', 'Put a day in')}
        </div>
      </section>
      {answer === null ? null : <Spares answer={answer} />}
      <div className="keys no-print">
        <Key onClick={() => print()}>Print it</Key>
        <Key onClick={() => open({ kind: 'off', id: 'all' })}>Back to what comes off</Key>
      </div>
    </article>
  );
}

function Due({ answer: { day, due } }: { readonly answer: LifingAnswer }): ReactNode {
  const called = calledIn(useCar()!);
  const known = due.flatMap((item) => (item.usedShare === null ? [] : [{ item, share: item.usedShare }]));
  const undated = due.filter(({ usedShare }) => usedShare === null);
  return (
    <section className="off-break" aria-label={`As of ${day}`}>
      <h2>{`As of ${day}`}</h2>
      {known.length === 0 ? (
        <p>Nothing has a day yet: sign lines as made and fitted, and give parts their dates.</p>
      ) : (
        <ul className="off-due">
          {known.map(({ item, share }) => (
            <li key={item.id} className={item.isDue ? 'warn' : ''}>
              <span>{`${item.isDue ? '◆ due: ' : ''}${called(item.id)}: ${standsWords(item)}${item.dueOn === undefined ? '' : `, by ${item.dueOn}`}`}</span>
              <span className="off-minutes">{`${(100 * share).toFixed(0)} %`}</span>
              <Used share={share} />
              <span className="small soft">{describeSource(item.source)}</span>
            </li>
          ))}
        </ul>
      )}
      {undated.length === 0 ? null : (
        <p className="small soft">{`No day entered: ${undated.map(({ id }) => called(id)).join('; ')}.`}</p>
      )}
    </section>
  );
}

const [WIDE, HIGH, MOST_SHARE] = [300, 14, 1.5];

/** Life used, beside the end of it. */
function Used({ share }: { readonly share: number }): ReactNode {
  const at = (value: number): number => (WIDE * Math.min(value, MOST_SHARE)) / MOST_SHARE;
  return (
    <svg className="off-bar" viewBox={`0 0 ${WIDE} ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
      <rect x={0} y={3} width={at(share)} height={HIGH - 6} fill={share >= 1 ? 'var(--brass)' : 'var(--steel)'} />
      <line x1={at(1)} x2={at(1)} y1={0} y2={HIGH} stroke="var(--ink)" strokeWidth={2.5} />
    </svg>
  );
}

function Spares({ answer: { spares } }: { readonly answer: LifingAnswer }): ReactNode {
  return (
    <section className="off-break" aria-label="For a weekend away">
      <h2>For a weekend away</h2>
      {spares.length === 0 ? <p>No line has a way yet.</p> : null}
      <ul className="off-due">
        {spares.map((spare) => (
          <li key={`${spare.what} ${spare.why}`}>
            <span>{`${spare.qty}${spare.unit === 'm' ? ' m' : ''} ${spare.what}`}</span>
            <span className="off-minutes">{spare.inBox >= spare.qty ? 'in the box' : ''}</span>
            <span className="small soft">{`${spare.why}: ${spare.servesLines.join(' ')}`}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
