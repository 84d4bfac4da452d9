import type { ReactNode } from 'react';
import { type Question, questions, type Snag } from '#snags';
import { Key } from '../frame/key.tsx';

export type Shown = Question | 'all' | 'accepted';

interface Wish {
  readonly still: readonly Snag[];
  readonly accepted: readonly Snag[];
  readonly shown: Shown;
  readonly onShown: (shown: Shown) => void;
}

/** Which snags: all, those of one question, those that somebody accepted; each with how many. */
export function QuestionKeys({ still, accepted, shown, onShown }: Wish): ReactNode {
  const choices: readonly (readonly [Shown, string])[] = [
    ['all', `All ${still.length}`],
    ...(Object.keys(questions) as Question[]).flatMap((question) => {
      const count = still.filter((snag) => snag.question === question).length;
      return count === 0 ? [] : [[question, `${questions[question]} ${count}`] as const];
    }),
    ...(accepted.length > 0 ? [['accepted', `Accepted ${accepted.length}`] as const] : []),
  ];
  return (
    <div className="keys" role="group" aria-label="Which snags">
      {choices.map(([key, words]) => (
        <Key key={key} aria-pressed={shown === key} onClick={() => onShown(key)}>
          {words}
        </Key>
      ))}
    </div>
  );
}

export function snagsShown({ still, accepted, shown }: Omit<Wish, 'onShown'>): readonly Snag[] {
  if (shown === 'all') return still;
  return shown === 'accepted' ? accepted : still.filter((snag) => snag.question === shown);
}
