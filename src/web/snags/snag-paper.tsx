import type { ReactNode } from 'react';
import { snagOf, useCar, useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { byCause, type Snag } from '#snags';
import { Accept } from './accept.tsx';
import { moreWords, SnagRow } from './cause-list.tsx';
import { openSnags } from './open-snags.ts';
import { isBehind, WorkedOutBehind } from './worked-out-behind.tsx';
import { LevelMark } from './level-mark.tsx';
import { OpenedSnag } from './opened-snag.tsx';
import { SnagKeys } from './snag-keys.tsx';
import { SnagWords, useSnagLanguage } from './snag-words.tsx';

/** One open point: what, how much, where the limit comes from, and what would cure it. */
export function SnagPaper({ id }: { readonly id: string }): ReactNode {
  const judged = useStanding();
  const car = useCar();
  if (judged === null || car === null) return <p className="soft">The taken ways are being judged.</p>;
  const snag = snagOf(judged, id);
  if (snag === undefined)
    return (
      <article className="paper">
        <PaperHead>This snag is gone</PaperHead>
        <p>The car changed, and the point is no longer open.</p>
        <div className="keys">
          <Key onClick={() => open({ kind: 'snags' })}>All snags</Key>
        </div>
      </article>
    );
  return (
    <article className="paper">
      <LevelMark level={snag.level} isAccepted={snag.accepted !== undefined} />
      <PaperHead>
        <SnagWords snag={snag} />
      </PaperHead>
      {isBehind(snag.question) ? <WorkedOutBehind isLong of={snag.question} /> : null}
      <Numbers snag={snag} />
      {snag.cures.length === 0 ? null : (
        <section aria-label="What would cure it">
          <h2>What would cure it</h2>
          <ul className="cures">
            {snag.cures.map((cure) => (
              <Cure key={cure} snag={snag} words={cure} />
            ))}
          </ul>
        </section>
      )}
      <Advice snag={snag} />
      <SameCause snag={snag} all={judged.snags} />
      <SnagKeys snag={snag} car={car} />
      <OpenedSnag snag={snag} />
      <Accept snag={snag} />
    </article>
  );
}

/** What else comes of its cause: each is accepted by itself. */
function SameCause({ snag, all }: { readonly snag: Snag; readonly all: readonly Snag[] }): ReactNode {
  const cause = byCause(openSnags(all)).find(({ lead, more }) => [lead, ...more].some(({ id }) => id === snag.id));
  const others = cause === undefined ? [] : [cause.lead, ...cause.more].filter(({ id }) => id !== snag.id);
  if (cause === undefined || others.length === 0) return null;
  return (
    <details className="same-cause">
      <summary>{moreWords(others.length, cause.how)}</summary>
      <ul className="snag-list">
        {others.map((one) => (
          <li key={one.id}>
            <SnagRow snag={one} />
          </li>
        ))}
      </ul>
    </details>
  );
}

/** What may help but is not worked out, with the reason. */
function Advice({ snag }: { readonly snag: Snag }): ReactNode {
  return snag.advice === undefined ? null : (
    <section aria-label="Advice, not worked out">
      <h2>Advice, not worked out</h2>
      <ul className="soft">
        {snag.advice.map((words) => (
          <Cure key={words} snag={snag} words={words} />
        ))}
      </ul>
    </section>
  );
}

function Cure({ snag, words }: { readonly snag: Snag; readonly words: string }): ReactNode {
  const said = useSnagLanguage(snag);
  return <li>{said.text(words)}</li>;
}

function Numbers({ snag }: { readonly snag: Snag }): ReactNode {
  const said = useSnagLanguage(snag);
  const { value, limit, unit, atMm } = snag;
  return (
    <dl className="snag-numbers">
      {value === undefined ? null : (
        <>
          <dt>Found</dt>
          <dd>
            <strong>{said.number(value, unit)}</strong>
          </dd>
        </>
      )}
      {limit === undefined ? null : (
        <>
          <dt>Limit</dt>
          <dd>
            <strong>{said.number(limit, unit)}</strong>
          </dd>
        </>
      )}
      <dt>{limit === undefined ? 'Source' : 'Limit from'}</dt>
      <dd>{said.text(snag.source)}</dd>
      {atMm === undefined ? null : (
        <>
          <dt>Place</dt>
          <dd>{`${said.place(atMm)}, marked on the car`}</dd>
        </>
      )}
    </dl>
  );
}
