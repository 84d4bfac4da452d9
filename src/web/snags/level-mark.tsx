import type { ReactNode } from 'react';
import type { Snag } from '#snags';

const marks = {
  stop: { shape: '▲', word: 'Stop' },
  fix: { shape: '◆', word: 'Fix' },
  note: { shape: '●', word: 'Note' },
} as const satisfies Record<Snag['level'], { shape: string; word: string }>;

/** How bad: a shape and a word, then the colour. */
export function LevelMark({
  level,
  isAccepted = false,
}: {
  readonly level: Snag['level'];
  readonly isAccepted?: boolean;
}): ReactNode {
  const { shape, word } = marks[level];
  return (
    <span className={`level level-${level}`}>
      <span aria-hidden="true">{shape}</span> {word}
      {isAccepted ? ', accepted' : ''}
    </span>
  );
}
