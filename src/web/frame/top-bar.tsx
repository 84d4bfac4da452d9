import { Menu, useMantineColorScheme, useComputedColorScheme } from '@mantine/core';
import type { ReactNode } from 'react';
import { kept, redo, standing, undo } from '../bench/bench.ts';
import { goTo, open, type Paper, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { who, rememberWho } from '../bench/who.ts';
import { calls } from '../server/calls.ts';
import { counted } from '../snags/counted.ts';
import { Key } from './key.tsx';

/** The questions that have an answer today; each opens its papers beside the same car. */
const questions: readonly {
  readonly words: string;
  readonly paper: Paper;
  readonly kinds: readonly Paper['kind'][];
}[] = [
  {
    words: 'Does it fit?',
    paper: { kind: 'lines' },
    kinds: ['lines', 'line', 'parts', 'part', 'snags', 'snag', 'history', 'tape'],
  },
  { words: 'What do I buy?', paper: { kind: 'buy' }, kinds: ['buy'] },
];

export function TopBar(): ReactNode {
  const now = useSignal(kept);
  const { paper } = useSignal(place);
  return (
    <header className="top">
      <div className="top-name">
        <strong>{now?.car.name ?? ' '}</strong>
        <span className="small soft">
          {now === null ? ' ' : `mm · X rearward, Y right, Z up · change ${now.revision}`}
        </span>
      </div>
      <nav className="top-questions" aria-label="Questions">
        {questions.map((question) => (
          <button
            key={question.words}
            type="button"
            className="question"
            aria-current={question.kinds.includes(paper.kind) ? 'page' : undefined}
            onClick={() => open(question.paper)}
          >
            <span>{question.words}</span>
            <HowItStands kind={question.paper.kind} />
          </button>
        ))}
      </nav>
      <div className="top-does">
        <Key weight="bare" className="top-step" disabled={!now?.undo} title="Ctrl+Z" onClick={() => void undo()}>
          Undo
        </Key>
        <Key weight="bare" className="top-step" disabled={!now?.redo} title="Ctrl+Shift+Z" onClick={() => void redo()}>
          Redo
        </Key>
        <More />
      </div>
    </header>
  );
}

/** One line on how the question stands. */
function HowItStands({ kind }: { readonly kind: Paper['kind'] }): ReactNode {
  const judged = useSignal(standing);
  if (judged === null) return <span className="small soft">being judged</span>;
  if (kind === 'buy') {
    const toBuy = judged.order.rows.filter((row) => row.toBuy > 0 && row.spare !== true).length;
    return <span className="small soft">{`${counted(toBuy, 'row')} to buy`}</span>;
  }
  const open = judged.snags.filter((snag) => snag.accepted === undefined);
  const stops = open.filter((snag) => snag.level === 'stop').length;
  return (
    <span className="small soft">{`${counted(judged.lines.length, 'line')}, ${stops} stop, ${open.filter((snag) => snag.level === 'fix').length} fix`}</span>
  );
}

function More(): ReactNode {
  const now = useSignal(kept);
  const name = useSignal(who);
  const { setColorScheme } = useMantineColorScheme();
  const scheme = useComputedColorScheme('light');
  const other = scheme === 'dark' ? 'light' : 'dark';
  return (
    <Menu position="bottom-end" width={280} transitionProps={{ duration: 0 }}>
      <Menu.Target>
        <Key>More</Key>
      </Menu.Target>
      <Menu.Dropdown>
        <Menu.Item className="only-narrow" disabled={!now?.undo} onClick={() => void undo()}>
          Undo
        </Menu.Item>
        <Menu.Item className="only-narrow" disabled={!now?.redo} onClick={() => void redo()}>
          Redo
        </Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'history' })}>History and named points</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'parts' })}>Parts of the car</Menu.Item>
        <Menu.Item onClick={() => print()}>Print this paper</Menu.Item>
        {now === null ? null : (
          <>
            <Menu.Item component="a" href={calls.wallMapPath(now.id)} target="_blank" rel="noreferrer">
              Wall map, to print
            </Menu.Item>
            <Menu.Item component="a" href={calls.exportPath(now.id)}>
              Take a copy of this car
            </Menu.Item>
          </>
        )}
        <Menu.Item onClick={() => setColorScheme(other)}>{other === 'dark' ? 'Dark screen' : 'Light screen'}</Menu.Item>
        <Menu.Item onClick={() => goTo({ car: null, paper: { kind: 'lines' } })}>Other cars</Menu.Item>
        {name === '' ? null : (
          <Menu.Item onClick={() => rememberWho('')}>{`Changes are by ${name}; ask again`}</Menu.Item>
        )}
      </Menu.Dropdown>
    </Menu>
  );
}
