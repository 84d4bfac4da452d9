import type { ReactNode } from 'react';
import type { Question } from '#snags';
import { useStanding } from '../bench/bench.ts';
import type { Behind } from '../server/answers.ts';

const words: Readonly<Record<Behind, { readonly short: string; readonly long: string }>> = {
  flow: { short: 'flow', long: 'what flows' },
  cook: { short: 'heat', long: 'what cooks' },
  off: { short: 'reach and rules', long: 'what a tool reaches and what meets the rules' },
};
const inTurn = ['flow', 'cook', 'off'] as const;

export const isBehind = (question: Question): question is Behind => question in words;

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/**
 * Says what is not among the snags yet, or is that of the car before its last change; nothing where all is up to date.
 *
 * @param of - one question of them; all if absent
 */
export function WorkedOutBehind({
  isLong = false,
  of,
}: {
  readonly isLong?: boolean;
  readonly of?: Behind;
}): ReactNode {
  const behind = useStanding()?.behind;
  if (behind === undefined) return null;
  const asked = of === undefined ? inTurn : [of];
  const named = (is: (question: Behind) => boolean): string =>
    asked
      .filter(is)
      .map((question) => words[question][isLong ? 'long' : 'short'])
      .join(', ');
  const coming = named((question) => behind[question].state === 'waiting' && !behind[question].isOld);
  const anew = named((question) => behind[question].isOld);
  const faults = asked.filter((question) => behind[question].state === 'fault');
  const said = isLong
    ? [
        coming && `${sentence(coming)}: being worked out; the snags of it join these when they are there.`,
        anew && `${sentence(anew)}: being worked out anew; the snags of it here are those from before the last change.`,
        ...faults.map(
          (question) => `${sentence(words[question].long)} could not be worked out: ${behind[question].text ?? ''}`,
        ),
      ]
    : [
        coming && `${coming}: being worked out`,
        anew && `${anew}: anew`,
        ...faults.map((question) => `${words[question].short}: not worked out`),
      ];
  const shown = said.filter((text) => text !== '');
  return shown.length === 0 ? null : (
    <span className="small soft" role="status">
      {shown.join(isLong ? ' ' : '; ')}
    </span>
  );
}
