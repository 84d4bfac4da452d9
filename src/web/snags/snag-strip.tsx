import { type ReactNode, useId, useMemo, useState } from 'react';
import { byCause, type Cause, type Snag } from '#snags';
import { useStanding } from '../bench/bench.ts';
import { open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { moreWords } from './cause-list.tsx';
import { LevelMark } from './level-mark.tsx';
import { openSnags } from './open-snags.ts';
import { QuestionKeys, type Shown, snagsShown } from './question-keys.tsx';
import { SnagCure, SnagSource, SnagWords } from './snag-words.tsx';
import { WorkedOutBehind } from './worked-out-behind.tsx';
import './snags.css';

const NONE: readonly Snag[] = [];

/** What causes snags as sentences along the bottom, worst first: a line high until more is asked for; on a narrow screen only their count. */
export function SnagStrip(): ReactNode {
  const all = useStanding()?.snags;
  const snags = useMemo(() => openSnags(all ?? NONE), [all]);
  const [isTall, setTall] = useState(false);
  const [shown, setShown] = useState<Shown>('all');
  const row = useId();
  const causes = useMemo(
    () => byCause(snagsShown({ still: snags, accepted: NONE, shown: isTall ? shown : 'all' })),
    [snags, shown, isTall],
  );
  return (
    <section className={`snag-strip${isTall ? ' snag-strip-tall' : ''}`} aria-label="Snags, worst first">
      <SnagCount snags={all === undefined ? null : snags} />
      <div className="snag-side">
        {isTall ? <QuestionKeys still={snags} accepted={NONE} shown={shown} onShown={setShown} /> : null}
        <ul className="snag-row" id={row}>
          {causes.map((cause) => (
            <li key={cause.lead.id}>
              <CauseCard cause={cause} isTall={isTall} />
            </li>
          ))}
          {all !== undefined && snags.length === 0 ? (
            <li className="snag-none">Nothing is open on what has been worked out so far.</li>
          ) : null}
        </ul>
      </div>
      {snags.length === 0 ? null : (
        <button
          type="button"
          className="snag-fold"
          aria-expanded={isTall}
          aria-controls={row}
          onClick={() => setTall(!isTall)}
        >
          {isTall ? 'Less' : 'Cures'}
        </button>
      )}
    </section>
  );
}

/** How many of which level; opens the list of all of them. */
function SnagCount({ snags }: { readonly snags: readonly Snag[] | null }): ReactNode {
  const count = (level: Snag['level']): number => (snags ?? []).filter((snag) => snag.level === level).length;
  return (
    <button type="button" className="snag-count" onClick={() => open({ kind: 'snags' })}>
      <span>
        <strong>Snags</strong>{' '}
        {snags === null ? (
          <span className="soft">being judged</span>
        ) : (
          <>
            <span className="level level-stop">▲ {count('stop')} stop</span>{' '}
            <span className="level level-fix">◆ {count('fix')} fix</span>{' '}
            <span className="level level-note">● {count('note')} note</span>
          </>
        )}
      </span>
      {snags === null ? null : <WorkedOutBehind />}
    </button>
  );
}

function CauseCard({ cause, isTall }: { readonly cause: Cause; readonly isTall: boolean }): ReactNode {
  const { lead, more, how } = cause;
  const { paper } = useSignal(place);
  const isOpen = paper.kind === 'snag' && [lead, ...more].some((snag) => snag.id === paper.id);
  return (
    <button
      type="button"
      className="snag-card"
      aria-current={isOpen ? 'true' : undefined}
      onClick={() => open({ kind: 'snag', id: lead.id })}
    >
      <span className="snag-head">
        <LevelMark level={lead.level} />
        {more.length === 0 ? null : <span className="small soft">{moreWords(more.length, how)}</span>}
      </span>
      <SnagWords snag={lead} />
      {isTall ? (
        <>
          <SnagCure snag={lead} />
          <SnagSource snag={lead} />
        </>
      ) : null}
    </button>
  );
}
