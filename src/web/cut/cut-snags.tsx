import type { ReactNode } from 'react';
import type { Snag } from '#snags';
import { formatNumber } from '#units';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { useCutWords } from './cut-words.ts';

/** What is open on a panel or lever; absent as long as it is not judged: the sentence, found and limit, whose limit it is, cures; notes behind their count. */
export function CutSnags({ snags }: { readonly snags: readonly Snag[] | undefined }): ReactNode {
  if (snags === undefined) return <p className="soft">What is open is being judged.</p>;
  const grave = snags.filter(({ level }) => level !== 'note');
  const notes = snags.filter(({ level }) => level === 'note');
  return (
    <section className="cut-section" aria-label="What is open">
      <h2>What is open</h2>
      {grave.length === 0 ? <p>Nothing to stop or fix on what has been worked out.</p> : null}
      {grave.map((snag) => (
        <One key={snag.id} snag={snag} />
      ))}
      {notes.length === 0 ? null : (
        <details className="opened">
          <summary>{`Notes: ${notes.length}`}</summary>
          {notes.map((snag) => (
            <One key={snag.id} snag={snag} />
          ))}
        </details>
      )}
    </section>
  );
}

function One({ snag }: { readonly snag: Snag }): ReactNode {
  const words = useCutWords();
  const { level, text, cures, accepted } = snag;
  return (
    <div className="cut-snag">
      <LevelMark level={level} isAccepted={accepted !== undefined && !accepted.isWorse} />
      <p>{words(text)}</p>
      <p className="small soft">{words(numbersOf(snag))}</p>
      {cures.length === 0 ? null : (
        <ul className="cures" aria-label="What would cure it">
          {cures.map((cure) => (
            <li key={cure}>{words(cure)}</li>
          ))}
        </ul>
      )}
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'snag', id: snag.id })}>Open this point</Key>
      </div>
    </div>
  );
}

const digits = (value: number): number => (value % 1 === 0 ? 0 : Math.abs(value) < 10 ? 2 : 1);

function numbersOf({ value, limit, unit = '', source }: Snag): string {
  const words = (number: number): string => `${formatNumber(number, digits(number))} ${unit}`.trim();
  const found =
    value === undefined ? '' : `Found ${words(value)}${limit === undefined ? '' : `, limit ${words(limit)}`}. `;
  return `${found}From: ${source}`;
}
