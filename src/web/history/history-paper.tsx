import { TextInput } from '@mantine/core';
import { type ReactNode, useCallback, useEffect, useState } from 'react';
import type { Step } from '#shelf';
import { goBackTo, kept, say, sayFault } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { dayAndTime } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { calls } from '../server/calls.ts';
import { editWords } from './edit-words.ts';
import './history.css';
import { useLengths } from '../tape/lengths.ts';

/** Fetched at one go. */
const AT_ONCE = 60;

/** Every change back to the beginning; any can be gone back to, and given a name to find it by. */
export function HistoryPaper(): ReactNode {
  const now = useSignal(kept);
  const [steps, setSteps] = useState<readonly Step[]>([]);
  const id = now?.id;
  const revision = now?.revision ?? 0;
  const load = useCallback(() => {
    if (id !== undefined) calls.history(id, revision + 1, AT_ONCE).then(setSteps, sayFault);
  }, [id, revision]);
  useEffect(load, [load]);
  if (id === undefined) return null;
  const oldest = steps.at(-1)?.revision ?? 1;
  const more = (): void => {
    calls.history(id, oldest, AT_ONCE).then((older) => setSteps([...steps, ...older]), sayFault);
  };
  return (
    <article className="paper">
      <PaperHead below="Going back is itself a change: nothing since is lost.">History</PaperHead>
      <ol className="steps">
        {steps.map((step) => (
          <OneStep key={step.revision} step={step} isNow={step.revision === revision} car={id} onNamed={load} />
        ))}
      </ol>
      {oldest > 1 && steps.length > 0 ? (
        <div className="keys">
          <Key onClick={more}>Earlier ones</Key>
        </div>
      ) : null}
    </article>
  );
}

interface Wish {
  readonly step: Step;
  readonly isNow: boolean;
  readonly car: string;
  readonly onNamed: () => void;
}

function StepWords({ step }: Pick<Wish, 'step'>): ReactNode {
  const { text } = useLengths();
  return <span>{step.kind === 'change' ? text(editWords(step.edits)) : step.kind}</span>;
}

function OneStep({ step, isNow, car, onNamed }: Wish): ReactNode {
  const [isNaming, setNaming] = useState(false);
  const [name, setName] = useState(step.point ?? '');
  const nameIt = async (): Promise<void> => {
    try {
      await calls.namePoint(car, step.revision, name.trim());
      setNaming(false);
      say(
        name.trim() === ''
          ? `Change ${step.revision} has no name any more`
          : `Change ${step.revision} is named ${name.trim()}`,
      );
      onNamed();
    } catch (fault) {
      sayFault(fault);
    }
  };
  return (
    <li className="step">
      <span className="step-no">{step.revision}</span>
      <div className="step-what">
        {step.point === null ? null : <strong className="step-point">{step.point}</strong>}
        <StepWords step={step} />
        <span className="small soft">{`${step.who}, ${dayAndTime(step.atMs)}`}</span>
        {isNaming ? (
          <form
            className="step-form"
            onSubmit={(event) => {
              event.preventDefault();
              void nameIt();
            }}
          >
            <TextInput
              label="Name of this point"
              value={name}
              maxLength={80}
              onChange={(event) => setName(event.currentTarget.value)}
            />
            <Key type="submit">Name it</Key>
          </form>
        ) : null}
      </div>
      <div className="step-keys no-print">
        {isNow ? (
          <span className="small">as it stands</span>
        ) : (
          <>
            <Key onClick={() => void goBackTo(step.revision)}>Go back here</Key>
            <Key weight="bare" onClick={() => open({ kind: 'compare', id: `${step.revision}..now` })}>
              What changed since
            </Key>
          </>
        )}
        <Key weight="bare" aria-expanded={isNaming} onClick={() => setNaming(!isNaming)}>
          Name
        </Key>
      </div>
    </li>
  );
}
