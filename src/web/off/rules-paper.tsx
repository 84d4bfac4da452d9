import { type ReactNode, useEffect } from 'react';
import type { ClauseAnswer, RuleEvidence, RulesAnswer } from '#rules';
import { kept, useCar } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { useLengths } from '../tape/lengths.ts';
import { addressOf, type OffPaperKind } from './off-address.ts';

const go = (kind: OffPaperKind, which?: string): void => open({ kind: 'off', id: addressOf(kind, which) });

/** The rules as they were entered, clause by clause, with what was measured; packs that differ. */
export function RulesPaper(): ReactNode {
  const car = useCar()!;
  const { id: carId, revision } = useSignal(kept)!;
  const { job, isBusy, begin, stop } = useWork<RulesAnswer>();
  useEffect(() => {
    if ((car.rulePacks ?? []).length > 0) begin(carId, { kind: 'rules' });
    // Asked anew for each change of the car, and for nothing else.
  }, [carId, revision]); // eslint-disable-line react-hooks/exhaustive-deps
  const answer = job?.state === 'done' ? (job.answer ?? null) : null;
  return (
    <article className="paper off-paper">
      <PaperHead below="As you entered them, in your own words. It says whether the entered rule is met, never more: the event's own rules and its scrutineer decide.">
        Rules
      </PaperHead>
      {isBusy ? <Progress job={job!} what="Measuring the car against the rules" onStop={stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
      {(car.rulePacks ?? []).map((pack, i) => (
        <section key={pack.id} aria-label={`${pack.name} ${pack.year}`} className="off-break">
          <h2>{`${pack.name} ${pack.year}`}</h2>
          {pack.clauses.map((clause, n) => (
            <Clause
              key={clause.clause}
              name={clause.clause}
              text={clause.text}
              answer={answer?.packs[i]?.clauses[n] ?? null}
              onOpen={() => go('clause', `${i}~${n}`)}
            />
          ))}
          <div className="keys no-print">
            <Key onClick={() => go('clause', `${i}~new`)}>Put a clause in</Key>
            <Key onClick={() => go('pack', String(i))}>Name and year</Key>
          </div>
        </section>
      ))}
      {answer === null || answer.conflicts.length === 0 ? null : (
        <section aria-label="Where packs differ" className="off-break">
          <h2>Where packs differ</h2>
          {answer.conflicts.map(({ text, isContradiction }) => (
            <p key={text} className={isContradiction ? 'warn' : ''}>
              {`${isContradiction ? '◆ ' : ''}${text}`}
            </p>
          ))}
        </section>
      )}
      <div className="keys no-print">
        <Key onClick={() => go('pack', 'new')}>Put a rule book in</Key>
        <Key onClick={() => open({ kind: 'off', id: 'all' })}>Back to what comes off</Key>
      </div>
    </article>
  );
}

interface ClauseWish {
  readonly name: string;
  readonly text: string;
  readonly answer: ClauseAnswer | null;
  readonly onOpen: () => void;
}

function Clause({ name, text, answer, onOpen }: ClauseWish): ReactNode {
  const open = answer?.evidence.filter(({ verdict }) => verdict !== 'meets the entered rule') ?? [];
  const met = answer?.evidence.filter(({ verdict }) => verdict === 'meets the entered rule') ?? [];
  return (
    <div className="off-clause" role="group" aria-label={`Clause ${name}`}>
      <Key weight="bare" className="printed" aria-label={`Clause ${name}: change it`} onClick={onOpen}>
        {name}
      </Key>
      <div>
        <p>{text}</p>
        {answer === null ? null : (
          <p className={answer.verdict === 'does not meet' ? 'warn' : 'soft'}>
            {answer.verdict === 'does not meet' ? <LevelMark level="fix" /> : null}
            {` ${answer.verdict}${answer.isPhotoWanted ? ', photograph wanted' : ''}`}
          </p>
        )}
        <ul className="off-evidence">
          {open.map((row) => (
            <Evidence key={subjectOf(row)} row={row} />
          ))}
          {met.length === 0 ? null : <Evidence row={nearest(met)} more={met.length - 1} />}
        </ul>
      </div>
    </div>
  );
}

function Evidence({ row, more = 0 }: { readonly row: RuleEvidence; readonly more?: number }): ReactNode {
  const lengths = useLengths();
  const value = row.value === null ? '' : `${lengths.text(measured(row))} (${lengths.text(row.asked)}): `;
  const others = more === 0 ? '' : `, and ${more} more that ${more === 1 ? 'meets' : 'meet'} it`;
  return <li>{`${subjectOf(row)}${value === '' ? ': ' : ' '}${value}${lengths.text(row.text)}${others}`}</li>;
}

const measured = ({ value, unit }: RuleEvidence): string =>
  `${value!.toFixed(unit === '' || unit === 'L' ? 2 : 1)}${unit === '' ? '' : ` ${unit === 'degC' ? '°C' : unit}`}`;
const subjectOf = (row: RuleEvidence): string => row.line ?? row.panel ?? row.part ?? '';
/** Of those that are met the one with the least number is told. */
const nearest = (met: readonly RuleEvidence[]): RuleEvidence =>
  met.reduce((a, b) => ((b.value ?? Infinity) < (a.value ?? Infinity) ? b : a));
