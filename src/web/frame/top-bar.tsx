import { Menu, useMantineColorScheme, useComputedColorScheme } from '@mantine/core';
import { type ReactNode, useEffect, useRef } from 'react';
import type { Step } from '#shelf';
import { kept, redo, standing, undo, useCar } from '../bench/bench.ts';
import { goTo, open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { who, rememberWho } from '../bench/who.ts';
import { editWords } from '../history/edit-words.ts';
import { calls } from '../server/calls.ts';
import { rememberUnit, tapeUnit } from '../tape/tape-unit.ts';
import { Key } from './key.tsx';
import { type AskedQuestion, askedQuestions } from './questions.ts';

/** The key's keys, and what it would take back or bring again. */
const stepTitle = (keys: string, step: Step | null | undefined): string =>
  step === null || step === undefined ? keys : `${keys}: ${editWords(step.edits) || step.kind}, ${step.who}`;

export function TopBar(): ReactNode {
  const now = useSignal(kept);
  const { paper } = useSignal(place);
  const isInch = useSignal(tapeUnit) === 'in';
  const row = useRef<HTMLElement>(null);
  // Where not all questions have room, the one at hand is in sight.
  useEffect(() => {
    row.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [paper.kind, now?.id]);
  return (
    <header className="top">
      <div className="top-name">
        <strong>{now?.car.name ?? ' '}</strong>
        <span className="small soft">
          {now === null ? ' ' : `${isInch ? 'inches' : 'mm'} · X rearward, Y right, Z up · change ${now.revision}`}
        </span>
      </div>
      <nav className="top-questions" aria-label="Questions" ref={row}>
        {askedQuestions
          .filter(({ isAsked }) => isAsked === undefined || (now !== null && isAsked(now.car)))
          .map((question) => (
            <button
              key={question.words}
              type="button"
              className="question"
              aria-current={question.kinds.includes(paper.kind) ? 'page' : undefined}
              onClick={() => open(question.paper)}
            >
              <span>{question.words}</span>
              <HowItStands question={question} />
            </button>
          ))}
      </nav>
      <div className="top-does">
        <Key
          weight="bare"
          className="top-step"
          disabled={!now?.undo}
          title={stepTitle('Ctrl+Z', now?.undo)}
          onClick={() => void undo()}
        >
          Undo
        </Key>
        <Key
          weight="bare"
          className="top-step"
          disabled={!now?.redo}
          title={stepTitle('Ctrl+Shift+Z', now?.redo)}
          onClick={() => void redo()}
        >
          Redo
        </Key>
        <More />
      </div>
    </header>
  );
}

/** One line on how the question stands. */
function HowItStands({ question }: { readonly question: AskedQuestion }): ReactNode {
  const judged = useSignal(standing);
  const car = useCar();
  return (
    <span className="small soft">
      {judged === null || car === null ? 'being judged' : question.stands(judged, car)}
    </span>
  );
}

function More(): ReactNode {
  const now = useSignal(kept);
  const name = useSignal(who);
  const { setColorScheme } = useMantineColorScheme();
  const scheme = useComputedColorScheme('light');
  const other = scheme === 'dark' ? 'light' : 'dark';
  const isInch = useSignal(tapeUnit) === 'in';
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
        <Menu.Item onClick={() => open({ kind: 'compare', id: '1..now' })}>What a change cost</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'shop' })}>The shop: box and own catalogue</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'parts' })}>Parts of the car</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'tape', id: 'car' })}>Its name and keep-offs</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'cut', id: 'corners/' })}>Put a panel in</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'cut', id: 'template/' })}>Panel from a photo of a template</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'cut', id: 'new-lever' })}>Put a lever in</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'flow', id: 'circuit..' })}>Put a circuit in</Menu.Item>
        <Menu.Item onClick={() => open({ kind: 'book' })}>The book, to print</Menu.Item>
        <Menu.Item onClick={() => print()}>Print this paper</Menu.Item>
        {now === null ? null : (
          <>
            <Menu.Item component="a" href={calls.wallMapPath(now.id, isInch)} target="_blank" rel="noreferrer">
              Wall map, to print
            </Menu.Item>
            <Menu.Item component="a" href={calls.exportPath(now.id)}>
              Take a copy of this car
            </Menu.Item>
          </>
        )}
        <Menu.Item component="a" href={calls.shelfCopyPath}>
          Take a copy of the whole shelf
        </Menu.Item>
        <Menu.Item onClick={() => rememberUnit(isInch ? 'mm' : 'in')}>
          {isInch ? 'Work in millimetres' : 'Work in inches'}
        </Menu.Item>
        <Menu.Item onClick={() => setColorScheme(other)}>{other === 'dark' ? 'Dark screen' : 'Light screen'}</Menu.Item>
        <Menu.Item onClick={() => goTo({ car: null, paper: { kind: 'lines' } })}>Other cars</Menu.Item>
        {name === '' ? null : (
          <Menu.Item onClick={() => rememberWho('')}>{`Changes are by ${name}; ask again`}</Menu.Item>
        )}
      </Menu.Dropdown>
    </Menu>
  );
}
