import { type ReactNode, useState } from 'react';
import { cautionsFor, type Question, questions, type Snag } from '#snags';
import { useCar, useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Cautions } from '../frame/cautions.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { counted } from './counted.ts';
import { WorkedOutBehind } from './worked-out-behind.tsx';
import { LevelMark } from './level-mark.tsx';
import { openSnags } from './open-snags.ts';
import { SnagCure, SnagSource, SnagWords } from './snag-words.tsx';

type Shown = Question | 'all' | 'accepted';

/** Every open point, worst first; by question, or those that somebody accepted. */
export function SnagsPaper(): ReactNode {
  const car = useCar();
  const judged = useStanding();
  const [shown, setShown] = useState<Shown>('all');
  if (judged === null) return <p className="soft">The taken ways are being judged.</p>;
  const still = openSnags(judged.snags);
  const accepted = judged.snags.filter((snag) => snag.accepted !== undefined && !snag.accepted.isWorse);
  const listed =
    shown === 'all' ? still : shown === 'accepted' ? accepted : still.filter((snag) => snag.question === shown);
  const asked = (Object.keys(questions) as Question[]).filter((question) =>
    still.some((snag) => snag.question === question),
  );
  const choices: readonly (readonly [Shown, string])[] = [
    ['all', `All ${still.length}`],
    ...asked.map(
      (question) =>
        [question, `${questions[question]} ${still.filter((snag) => snag.question === question).length}`] as const,
    ),
    ...(accepted.length > 0 ? [['accepted', `Accepted ${accepted.length}`] as const] : []),
  ];
  return (
    <article className="paper">
      <PaperHead below="Worst first. Stop: a limit is broken as drawn. Fix: broken only at worst case, or relaxed near a port.">
        {counted(still.length, 'snag')} open
      </PaperHead>
      <WorkedOutBehind isLong />
      <div className="keys" role="group" aria-label="Which snags">
        {choices.map(([key, words]) => (
          <Key key={key} aria-pressed={shown === key} onClick={() => setShown(key)}>
            {words}
          </Key>
        ))}
      </div>
      <ul className="snag-list">
        {listed.map((snag) => (
          <li key={snag.id}>
            <Row snag={snag} />
          </li>
        ))}
      </ul>
      {car === null ? null : <Cautions words={cautionsFor(car)} />}
    </article>
  );
}

function Row({ snag }: { readonly snag: Snag }): ReactNode {
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
