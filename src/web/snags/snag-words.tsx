import type { ReactNode } from 'react';
import type { Snag } from '#snags';

/** The sentence of a snag; one that does not name its line has it in front. */
export function SnagWords({ snag: { line, text } }: { readonly snag: Snag }): ReactNode {
  return (
    <span className="snag-text">
      {line === undefined || text.includes(line) ? null : <strong>{`${line} · `}</strong>}
      {text}
    </span>
  );
}
