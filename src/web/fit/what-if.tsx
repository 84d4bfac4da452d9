import { type ReactNode, type RefObject, useEffect, useRef, useState } from 'react';
import type { Edit } from '#car';
import { kept } from '../bench/bench.ts';
import { useWork, type Work } from '../bench/job.ts';
import { useSignal } from '../bench/signal.ts';
import { amount } from '../buy/amount.ts';
import { Key } from '../frame/key.tsx';
import type { WhatIfAnswer } from '../server/answers.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { Progress } from './progress.tsx';
import { type Differences, standingDifferences } from './standing-differences.ts';
import { takenFrom } from './taken-from.ts';
import type { Lengths } from '#units';
import { SnagWords } from '../snags/snag-words.tsx';
import { useLengths } from '../tape/lengths.ts';
import type { TightGap } from './tightest.ts';
import { gapWords } from './words.ts';

/** A change that is asked about before it is kept. */
export interface Asked {
  readonly work: Work<WhatIfAnswer>;
  readonly edits: readonly Edit[];
  /** Lines that were worked out anew in the answer. */
  readonly lines: readonly string[];
  ask(edits: readonly Edit[], lines?: readonly string[]): void;
}

export function useWhatIf(): Asked {
  const work = useWork<WhatIfAnswer>();
  const id = useSignal(kept)?.id;
  const [edits, setEdits] = useState<readonly Edit[]>([]);
  const [lines, setLines] = useState<readonly string[]>([]);
  return {
    work,
    edits,
    lines,
    ask(next, anew = []) {
      if (id === undefined) return;
      setEdits(next);
      setLines(anew);
      work.begin(id, { kind: 'what-if', edits: next, lines: [...anew] });
    },
  };
}

interface Wish {
  readonly asked: Asked;
  /** What keeping it is called; absent where the caller has its own key for that. */
  readonly keepAs?: string;
  readonly onKept?: () => void;
}

/** What a change would do to gaps, order and made lines; shown before it is kept. */
export function WhatIf({ asked, keepAs, onKept }: Wish): ReactNode {
  const { work, edits } = asked;
  const paper = useInSight(work.job?.answer !== undefined);
  if (work.job === null) return null;
  const { answer } = work.job;
  const progress = work.isBusy ? (
    <Progress
      job={work.job}
      what={answer === undefined ? (work.job.part ?? 'Working out what it would change') : 'Looking for a better way'}
      onStop={work.stop}
    />
  ) : null;
  if (progress !== null && answer === undefined) return progress;
  if (answer === undefined) {
    const why =
      work.job.state === 'stopped' ? 'Stopped; nothing was changed.' : (work.job.text ?? 'It could not be worked out.');
    return <p className="soft">{why}</p>;
  }
  const told = standingDifferences(answer.before, answer.after);
  const toDo = told.ways.flatMap((row) =>
    row.isLost && !row.isMade && !asked.lines.includes(row.line) ? [row.line] : [],
  );
  return (
    <section className="seen" aria-label="What it would change" aria-live="polite" ref={paper}>
      <h3>What it would change; not kept yet</h3>
      {progress}
      <Told told={told} anew={asked.lines} />
      <div className="keys">
        {keepAs === undefined ? null : (
          <Key
            weight="do"
            onClick={() =>
              void work.keep([...edits, ...takenAnew(answer, asked.lines)], keepAs).then((isKept) => {
                if (!isKept) return;
                work.clear();
                onKept?.();
              })
            }
          >
            Keep it
          </Key>
        )}
        {toDo.length === 0 ? null : (
          <Key onClick={() => asked.ask(edits, toDo)}>{`Work out ${toDo.join(', ')} with it`}</Key>
        )}
        <Key onClick={work.clear}>Leave it as it was</Key>
      </div>
    </section>
  );
}

/** What was asked for is brought in sight when it comes. */
function useInSight(isThere: boolean): RefObject<HTMLElement | null> {
  const shown = useRef<HTMLElement>(null);
  useEffect(() => {
    if (isThere) shown.current?.scrollIntoView({ block: 'nearest' });
  }, [isThere]);
  return shown;
}

/** The ways found for the lines that were worked out with a change: kept together with it. */
function takenAnew(answer: WhatIfAnswer, lines: readonly string[]): readonly Edit[] {
  return answer.after.lines.flatMap((row): Edit[] =>
    row.way !== null && lines.includes(row.line) ? [{ do: 'take-way', line: row.line, way: takenFrom(row.way) }] : [],
  );
}

/** `anew`: lines that were worked out with the change. */
function Told({ told, anew }: { readonly told: Differences; readonly anew: readonly string[] }): ReactNode {
  const lengths = useLengths();
  const isNothing =
    told.gaps.length + told.ways.length + told.newSnags.length + told.goneSnags.length + told.order.length === 0;
  if (isNothing) return <p>No gap, snag or order row changes.</p>;
  return (
    <div className="told">
      {told.madeTouched.length === 0 ? null : (
        <p className="warn">{`▲ Made and no longer as it should be: ${told.madeTouched.join(', ')}. It is not moved; remake it or leave the change.`}</p>
      )}
      {told.ways.map((row) => (
        <p key={row.line}>{wayTold(row, anew.includes(row.line))}</p>
      ))}
      {told.gaps.length === 0 ? null : (
        <table className="sheet">
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Tightest now</th>
              <th scope="col">Then</th>
            </tr>
          </thead>
          <tbody>
            {told.gaps.map((row) => (
              <tr key={row.line}>
                <td>
                  <strong>{row.line}</strong>
                </td>
                <td>{gapTold(row.before, lengths)}</td>
                <td>{gapTold(row.after, lengths)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <SnagsTold title="New" snags={told.newSnags} />
      <SnagsTold title="Gone" snags={told.goneSnags} />
      {told.order.length === 0 ? null : <OrderTold rows={told.order} />}
    </div>
  );
}

const gapTold = (gap: TightGap | null, lengths: Lengths): string =>
  gap === null ? `none within ${lengths.one(150)}` : `${gap.part}: ${gapWords(gap, lengths)}`;

function wayTold({ line, isLost, isMade }: Differences['ways'][number], isAnew: boolean): string {
  if (!isLost) return `${line} has a way.`;
  if (isAnew) return `${line} was worked out with it, and has no way then: what is new below says why.`;
  return isMade
    ? `${line} no longer meets its ports, and it is made.`
    : `${line} no longer meets its ports: to be worked out again.`;
}

/** As many as are read at one go; the rest is counted. */
const MOST = 8;

function SnagsTold({ title, snags }: { readonly title: string; readonly snags: Differences['newSnags'] }): ReactNode {
  if (snags.length === 0) return null;
  return (
    <div>
      <h3>{`${title}: ${snags.length}`}</h3>
      <ul>
        {snags.slice(0, MOST).map((snag) => (
          <li key={`${snag.id} ${snag.level}`}>
            <LevelMark level={snag.level} /> <SnagWords snag={snag} />
          </li>
        ))}
        {snags.length > MOST ? <li className="soft">{`and ${snags.length - MOST} more`}</li> : null}
      </ul>
    </div>
  );
}

function OrderTold({ rows }: { readonly rows: Differences['order'] }): ReactNode {
  return (
    <>
      <OrderList title="Buy more" rows={rows.filter((row) => row.after > row.before)} />
      <OrderList
        title="No longer needed; goes back if it is bought"
        rows={rows.filter((row) => row.after < row.before)}
      />
    </>
  );
}

function OrderList({ title, rows }: { readonly title: string; readonly rows: Differences['order'] }): ReactNode {
  const lengths = useLengths();
  if (rows.length === 0) return null;
  return (
    <div>
      <h3>{title}</h3>
      <ul>
        {rows.map((row) => (
          <li key={row.id}>
            <strong>{amount(Math.abs(row.after - row.before), row.unit, lengths)}</strong>
            {` ${lengths.soldAs(row.name)}; ${amount(row.before, row.unit, lengths)} before, ${amount(row.after, row.unit, lengths)} then`}
          </li>
        ))}
      </ul>
    </div>
  );
}
