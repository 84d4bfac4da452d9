import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Car, Duty, Line } from '#car';
import { lineOf, useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { dutyOptions } from './duty-words.ts';
import { Form } from './form.tsx';
import { gaugeBar, lineCelsius, type LineDraft, lineDraft, lineEdits, portsFor } from './line-draft.ts';
import { ExtrasFields } from './line-extras-fields.tsx';
import { PiecesFields } from './line-pieces-fields.tsx';
import { LineSizeFields } from './line-size-fields.tsx';
import { ReadField } from './read-field.tsx';
import { ThroughFields } from './line-through-fields.tsx';
import { TakeAway } from './take-away.tsx';
import { tapeUnit } from './tape-unit.ts';
import { NoSuch } from './no-such.tsx';

/** What a line joins, carries and passes through. */
export function LineForm({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const line = lineOf(car, id);
  return line === undefined ? <NoSuch what={`line ${id}`} /> : <Known car={car} line={line} key={id} />;
}

function Known({ car, line }: { readonly car: Car; readonly line: Line }): ReactNode {
  const unit = useSignal(tapeUnit);
  const [draft, setDraft] = useState<LineDraft>(() => lineDraft(line));
  const made = lineEdits(car, line, draft, unit);
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
    <>
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
      </section>
      <PiecesFields
        car={car}
        line={line}
        pieces={draft.pieces}
        isAsked={isAsked}
        onPieces={(pieces) => set({ pieces })}
      />
      <ThroughFields car={car} through={draft.through} isAsked={isAsked} onThrough={(through) => set({ through })} />
      <ExtrasFields draft={draft.extras} isAsked={isAsked} onDraft={(extras) => set({ extras })} />
    </>
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
