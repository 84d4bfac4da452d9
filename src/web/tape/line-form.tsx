import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Car, Duty, Line } from '#car';
import { lineOf, useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { dutyOptions } from './duty-words.ts';
import { Form } from './form.tsx';
import { crossingsOf, gaugeBar, lineCelsius, type LineDraft, lineDraft, lineEdits, portsFor } from './line-draft.ts';
import { LineSizeFields } from './line-size-fields.tsx';
import { ReadField } from './read-field.tsx';
import { TakeAway } from './take-away.tsx';
import { tapeUnit } from './tape-unit.ts';

/** What a line joins, carries and passes through. */
export function LineForm({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const line = lineOf(car, id);
  return line === undefined ? (
    <p className="paper">{`There is no line ${id}`}</p>
  ) : (
    <Known car={car} line={line} key={id} />
  );
}

function Known({ car, line }: { readonly car: Car; readonly line: Line }): ReactNode {
  const unit = useSignal(tapeUnit);
  const [draft, setDraft] = useState<LineDraft>(() => lineDraft(line));
  const made = lineEdits(line, draft, unit);
  const back = (): void => open({ kind: 'line', id: line.id });
  return (
    <Form
      title={`Change ${line.id}`}
      below={
        made.ok && made.value.drops
          ? 'The way that is taken no longer holds with this; it is worked out again after.'
          : line.state
      }
      keepWords="Keep it"
      made={made.ok ? { ok: true, value: { edits: made.value.edits, done: `${line.id} changed` } } : made}
      onKept={back}
      onLeave={back}
      others={
        <TakeAway
          what={{ kind: 'line', id: line.id }}
          name={`line ${line.id}`}
          onGone={() => open({ kind: 'lines' })}
        />
      }
    >
      {(isAsked) => <Fields car={car} line={line} draft={draft} onDraft={setDraft} isAsked={isAsked} />}
    </Form>
  );
}

interface FieldsWish {
  readonly car: Car;
  readonly line: Line;
  readonly draft: LineDraft;
  readonly onDraft: (draft: LineDraft) => void;
  readonly isAsked: boolean;
}

function Fields({ car, line, draft, onDraft, isAsked }: FieldsWish): ReactNode {
  const set = (change: Partial<LineDraft>): void => onDraft({ ...draft, ...change });
  const ports = [...portsFor(car, line)];
  return (
    <section className="tape-section" aria-label="The line">
      <TextInput
        label="Name"
        placeholder="may be left out"
        value={draft.name}
        maxLength={60}
        onChange={(event) => set({ name: event.currentTarget.value })}
      />
      <NativeSelect
        label="From"
        value={draft.from}
        data={ports}
        onChange={(event) => set({ from: event.currentTarget.value })}
      />
      <NativeSelect
        label="To"
        value={draft.to}
        data={ports}
        error={draft.to === draft.from ? 'is where it begins; another port is wanted' : undefined}
        onChange={(event) => set({ to: event.currentTarget.value })}
      />
      <NativeSelect
        label="It carries"
        value={draft.duty}
        data={dutyOptions}
        onChange={(event) => set({ duty: event.currentTarget.value as Duty })}
      />
      <LineSizeFields draft={draft.size} isOfPorts={false} isAsked={isAsked} onDraft={(size) => set({ size })} />
      <Conditions draft={draft} onDraft={onDraft} isAsked={isAsked} />
      <Through car={car} through={draft.through} onThrough={(through) => set({ through })} />
    </section>
  );
}

function Conditions({ draft, onDraft, isAsked }: Pick<FieldsWish, 'draft' | 'onDraft' | 'isAsked'>): ReactNode {
  const set = (change: Partial<LineDraft>): void => onDraft({ ...draft, ...change });
  return (
    <div className="pair">
      <ReadField
        label="Working pressure"
        text={draft.pressure}
        placeholder="as usual for it"
        read={gaugeBar}
        told={(bar, text) => (bar === undefined || /bar$/iu.test(text.trim()) ? '' : `= ${bar} bar`)}
        isAsked={isAsked}
        onText={(pressure) => set({ pressure })}
      />
      <ReadField
        label="Hottest it gets inside"
        text={draft.temperature}
        placeholder="as usual for it"
        read={lineCelsius}
        told={(c, text) => (c === undefined || /c$/iu.test(text.trim()) ? '' : `= ${c} °C`)}
        isAsked={isAsked}
        onText={(temperature) => set({ temperature })}
      />
    </div>
  );
}

interface ThroughWish {
  readonly car: Car;
  readonly through: readonly string[];
  readonly onThrough: (through: readonly string[]) => void;
}

/** What it passes through, in order from its start. */
function Through({ car, through, onThrough }: ThroughWish): ReactNode {
  const known = crossingsOf(car);
  if (known.length === 0 && through.length === 0)
    return <p className="small soft">No part of the car lets lines through; a part says so on its own paper.</p>;
  return (
    <fieldset className="through">
      <legend>Passes through</legend>
      <ul className="solid-list">
        {through.map((step, i) => (
          <li key={step}>
            <span>{known.find(({ value }) => value === step)?.label ?? step}</span>
            <Key onClick={() => onThrough(through.filter((_, k) => k !== i))}>Take away</Key>
          </li>
        ))}
      </ul>
      <NativeSelect
        label="One more, after those"
        value=""
        data={[{ value: '', label: 'pick a way through' }, ...known.filter(({ value }) => !through.includes(value))]}
        onChange={(event) => event.currentTarget.value !== '' && onThrough([...through, event.currentTarget.value])}
      />
    </fieldset>
  );
}
