import type { ReactNode } from 'react';
import { useStanding } from '../bench/bench.ts';
import { open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { WorkedOutBehind } from './worked-out-behind.tsx';
import { LevelMark } from './level-mark.tsx';
import { openSnags } from './open-snags.ts';
import { SnagCure, SnagSource, SnagWords } from './snag-words.tsx';
import type { Snag } from '#snags';
import './snags.css';

/** What stands along the bottom edge: every stop, and so many at least; the list holds all of them. */
const LEAST_SHOWN = 12;

/** The worst snags as sentences along the bottom; on a narrow screen only their count. */
export function SnagStrip(): ReactNode {
  const judged = useStanding();
  const snags = judged === null ? [] : openSnags(judged.snags);
  const count = (level: Snag['level']): number => snags.filter((snag) => snag.level === level).length;
  return (
    <section className="snag-strip" aria-label="Snags, worst first">
      <button type="button" className="snag-count" onClick={() => open({ kind: 'snags' })}>
        <strong>Snags</strong>
        {judged === null ? (
          <span className="soft">being judged</span>
        ) : (
          <>
            <span className="level level-stop">▲ {count('stop')} stop</span>
            <span className="level level-fix">◆ {count('fix')} fix</span>
            <span className="level level-note">● {count('note')} note</span>
            <WorkedOutBehind />
          </>
        )}
      </button>
      <ul className="snag-row">
        {snags.slice(0, Math.max(LEAST_SHOWN, count('stop'))).map((snag) => (
          <li key={snag.id}>
            <SnagSentence snag={snag} />
          </li>
        ))}
        {judged !== null && snags.length === 0 ? (
          <li className="snag-none">Nothing is open on what has been worked out so far.</li>
        ) : null}
      </ul>
    </section>
  );
}

function SnagSentence({ snag }: { readonly snag: Snag }): ReactNode {
  const { paper } = useSignal(place);
  const isOpen = paper.kind === 'snag' && paper.id === snag.id;
  return (
    <button
      type="button"
      className="snag-card"
      aria-current={isOpen ? 'true' : undefined}
      onClick={() => open({ kind: 'snag', id: snag.id })}
    >
      <LevelMark level={snag.level} />
      <SnagWords snag={snag} />
      <SnagCure snag={snag} />
      <SnagSource snag={snag} />
    </button>
  );
}
