import type { ReactNode } from 'react';
import type { Cause, Snag } from '#snags';
import { open } from '../bench/place.ts';
import { LevelMark } from './level-mark.tsx';
import { SnagCure, SnagSource, SnagWords } from './snag-words.tsx';

/** Causes as sentences, worst first, each with what else comes of it folded beneath. */
export function CauseList({ causes }: { readonly causes: readonly Cause[] }): ReactNode {
  return (
    <ul className="snag-list">
      {causes.map(({ lead, more, how }) => (
        <li key={lead.id}>
          <SnagRow snag={lead} />
          {more.length === 0 ? null : (
            <details className="same-cause">
              <summary>{moreWords(more.length, how)}</summary>
              <ul className="snag-list">
                {more.map((snag) => (
                  <li key={snag.id}>
                    <SnagRow snag={snag} />
                  </li>
                ))}
              </ul>
            </details>
          )}
        </li>
      ))}
    </ul>
  );
}

/** "and 3 more of the same cause", "and 23 more like it". */
export const moreWords = (count: number, how: Cause['how']): string =>
  `and ${count} more ${how === 'alike' ? 'like it' : 'of the same cause'}`;

/** A snag as a row that opens it. */
export function SnagRow({ snag }: { readonly snag: Snag }): ReactNode {
  return (
    <button type="button" className="snag-card" onClick={() => open({ kind: 'snag', id: snag.id })}>
      <LevelMark level={snag.level} isAccepted={snag.accepted !== undefined} />
      <SnagWords snag={snag} />
      {snag.accepted === undefined ? null : (
        <span className="soft small">{`Accepted by ${snag.accepted.by}: ${snag.accepted.why}`}</span>
      )}
      <SnagCure snag={snag} />
      <SnagSource snag={snag} />
    </button>
  );
}
