import type { ReactNode } from 'react';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';

/** What an address names and the car has not, or no longer; with the lists that say what there is. */
export function NoSuch({ what }: { readonly what: string }): ReactNode {
  return (
    <article className="paper">
      <PaperHead>{`There is no ${what}`}</PaperHead>
      <div className="keys">
        <Key onClick={() => open({ kind: 'lines' })}>All lines</Key>
        <Key onClick={() => open({ kind: 'parts' })}>All parts</Key>
      </div>
    </article>
  );
}
