import type { ReactNode } from 'react';
import { useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { SnagWords } from '../snags/snag-words.tsx';

/** What is open about one line, each a way to its own paper. */
export function LineSnags({ line }: { readonly line: string }): ReactNode {
  const mine = useStanding()?.snags.filter((snag) => snag.line === line) ?? [];
  if (mine.length === 0) return null;
  return (
    <section aria-label={`Open on ${line}`}>
      <h2>{`Open on ${line}`}</h2>
      <ul className="snag-list">
        {mine.map((snag) => (
          <li key={snag.id}>
            <button type="button" className="snag-card" onClick={() => open({ kind: 'snag', id: snag.id })}>
              <LevelMark level={snag.level} isAccepted={snag.accepted !== undefined} />
              <SnagWords snag={snag} />
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
