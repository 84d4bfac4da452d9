import type { ReactNode } from 'react';
import { formatNumber } from '#units';
import { snagOf, useCar, useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useFlowLanguage } from '../flow/flow-language.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import type { Snag } from '#snags';
import { Accept } from './accept.tsx';
import { FlowBehind } from './flow-behind.tsx';
import { LevelMark } from './level-mark.tsx';
import { OpenedSnag } from './opened-snag.tsx';
import { SnagWords, useSnagText } from './snag-words.tsx';

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
      {snag.question === 'flow' ? <FlowBehind isLong /> : null}
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
      <div className="keys">
        {snag.line === undefined ? null : (
          <Key weight="do" onClick={() => open({ kind: 'line', id: snag.line! })}>{`Card of ${snag.line}`}</Key>
        )}
        {snag.circuit === undefined ? null : (
          <Key onClick={() => open({ kind: 'flow', id: `${snag.circuit}..${snag.case ?? ''}` })}>
            How it flows there
          </Key>
        )}
        {snag.panel === undefined ? null : (
          <Key onClick={() => open({ kind: 'cut', id: `panel/${snag.panel}` })}>{`Panel ${snag.panel}`}</Key>
        )}
        {snag.lever === undefined ? null : (
          <Key onClick={() => open({ kind: 'cut', id: `lever/${snag.lever}` })}>{`Lever ${snag.lever}`}</Key>
        )}
        {snag.part === undefined || !car.parts.some((part) => part.id === snag.part) ? null : (
          <Key onClick={() => open({ kind: 'part', id: snag.part! })}>{`Part: ${snag.part}`}</Key>
        )}
        <Key onClick={() => open({ kind: 'snags' })}>All snags</Key>
      </div>
      <OpenedSnag snag={snag} />
      <Accept snag={snag} />
    </article>
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
  const said = useSnagText(snag);
  return <li>{said(words)}</li>;
}

/** One decimal, two where it is small: a bar and a millimetre of a keep-off are told alike. */
const told = (value: number): string =>
  formatNumber(value, value % 1 === 0 ? 0 : Math.abs(value) < 10 ? 2 : 1).replace('-', '−');

function Numbers({ snag }: { readonly snag: Snag }): ReactNode {
  const said = useFlowLanguage();
  const words = (value: number): string =>
    snag.question === 'flow' ? said.number(value, snag.unit) : `${told(value)} ${snag.unit ?? ''}`;
  const place = snag.atMm?.map((mm) => formatNumber(mm)).join(', ');
  return (
    <dl className="snag-numbers">
      {snag.value === undefined ? null : (
        <>
          <dt>Found</dt>
          <dd>
            <strong>{words(snag.value)}</strong>
          </dd>
        </>
      )}
      {snag.limit === undefined ? null : (
        <>
          <dt>Limit</dt>
          <dd>
            <strong>{words(snag.limit)}</strong>
          </dd>
        </>
      )}
      <dt>{snag.limit === undefined ? 'Source' : 'Limit from'}</dt>
      <dd>{snag.source}</dd>
      {place === undefined ? null : (
        <>
          <dt>Place</dt>
          <dd>{place} mm, marked on the car</dd>
        </>
      )}
    </dl>
  );
}
