import type { ReactNode } from 'react';
import type { PanelFinding } from '#panels';
import { LevelMark } from '../snags/level-mark.tsx';
import { useCutWords } from './cut-words.ts';

interface Wish {
  readonly findings: readonly PanelFinding[];
  /** What is found of this stands first. */
  readonly about?: string | undefined;
}

const weight = { stop: 0, fix: 1, note: 2 } as const;

/** What is wrong with a panel as it is typed, each in a sentence, what the form is about first. */
export function FoundInFlat({ findings, about }: Wish): ReactNode {
  const words = useCutWords();
  if (findings.length === 0) return null;
  const rank = ({ at, level }: PanelFinding): number => (about !== undefined && at === about ? 0 : 3) + weight[level];
  return (
    <ul className="cut-told">
      {findings
        .toSorted((a, b) => rank(a) - rank(b))
        .map(({ code, at, level, text }) => (
          <li key={`${code} ${at ?? ''} ${text}`}>
            <LevelMark level={level} /> {words(text)}
          </li>
        ))}
    </ul>
  );
}
