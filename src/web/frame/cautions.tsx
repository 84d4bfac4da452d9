import type { ReactNode } from 'react';

/** What can hurt someone here, and who comes before this tool; printed with the paper that it stands on. */
export function Cautions({ words }: { readonly words: readonly string[] }): ReactNode {
  if (words.length === 0) return null;
  return (
    <aside className="cautions" aria-label="Cautions">
      {words.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </aside>
  );
}
