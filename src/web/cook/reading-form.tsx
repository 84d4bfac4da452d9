import { Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Car, HeatReading } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { FigureField } from '../flow/figure-field.tsx';
import { Form } from '../tape/form.tsx';
import { TakeOut } from '../tape/take-out.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { heatAddress } from './heat-place.ts';
import { figuresAsked, MEANS, type ReadingDraft, readingDraft, readingEdits, readingFigures } from './reading-draft.ts';

/** A temperature that was read on the car: a new one where none is named. */
export function ReadingForm({ id, caseId }: { readonly id: string; readonly caseId: string | undefined }): ReactNode {
  const car = useCar()!;
  const isInch = useSignal(tapeUnit) === 'in';
  const was = car.heatReadings?.find((one) => one.id === id);
  const [draft, setDraft] = useState(() => readingDraft(was ?? {}, caseId, isInch));
  if (id !== '' && was === undefined) return <p className="paper">{`There is no reading ${id} any more.`}</p>;
  const made = readingEdits(car, draft, was, isInch);
  const back = (): void =>
    open({
      kind: 'cook',
      id: heatAddress({ caseId: draft.caseId === '' ? caseId : draft.caseId, about: { kind: 'lines' } }),
    });
  return (
    <Form
      title={was === undefined ? 'A temperature that was read' : `Temperature ${was.id}`}
      below="What the car says comes before what is worked out. Without a place it is held against the hottest."
      keepWords="Keep it"
      made={made.ok ? { ok: true, value: { edits: made.value.edits, done: 'Reading kept' } } : made}
      onKept={back}
      onLeave={back}
      others={
        was === undefined ? null : (
          <TakeOut
            edits={[{ do: 'remove-heat-reading', reading: was.id }]}
            done={`Reading ${was.id} taken out`}
            onGone={back}
          />
        )
      }
    >
      {(isAsked) => <Fields draft={draft} onDraft={setDraft} isAsked={isAsked} />}
    </Form>
  );
}

interface FieldsWish {
  readonly draft: ReadingDraft;
  readonly onDraft: (draft: ReadingDraft) => void;
  readonly isAsked: boolean;
}

function Fields({ draft, onDraft, isAsked }: FieldsWish): ReactNode {
  const car = useCar()!;
  const isInch = useSignal(tapeUnit) === 'in';
  return (
    <>
      <NativeSelect
        label="Case"
        value={draft.caseId}
        data={[
          { value: '', label: 'choose' },
          ...(car.cases ?? []).map((one) => ({ value: one.id, label: one.name ?? one.id })),
        ]}
        onChange={(event) => onDraft({ ...draft, caseId: event.currentTarget.value })}
      />
      <NativeSelect
        label="Read on"
        value={draft.of}
        data={[{ value: '', label: 'choose' }, ...choices(car)]}
        onChange={(event) => onDraft({ ...draft, of: event.currentTarget.value })}
      />
      <ReadWith draft={draft} onDraft={onDraft} />
      <div className="flow-figures">
        {figuresAsked(car, draft).map((field) => (
          <FigureField
            key={field}
            figure={readingFigures[field]}
            text={draft.texts[field]}
            isAsked={isAsked}
            isInch={isInch}
            onText={(text) => onDraft({ ...draft, texts: { ...draft.texts, [field]: text } })}
          />
        ))}
      </div>
      <TextInput
        label="Day"
        placeholder="2026-11-26"
        value={draft.on}
        maxLength={40}
        autoComplete="off"
        onChange={(event) => onDraft({ ...draft, on: event.currentTarget.value })}
      />
      <TextInput
        label="Remark"
        value={draft.note}
        maxLength={2000}
        autoComplete="off"
        onChange={(event) => onDraft({ ...draft, note: event.currentTarget.value })}
      />
      <Checkbox
        label="What is worked out is corrected by it"
        checked={draft.corrects}
        onChange={(event) => onDraft({ ...draft, corrects: event.currentTarget.checked })}
      />
    </>
  );
}

function ReadWith({ draft, onDraft }: Omit<FieldsWish, 'isAsked'>): ReactNode {
  return (
    <NativeSelect
      label="Read with"
      value={draft.means}
      data={Object.entries(MEANS).map(([value, label]) => ({ value, label }))}
      onChange={(event) => onDraft({ ...draft, means: event.currentTarget.value as HeatReading['means'] })}
    />
  );
}

const choices = (car: Car): readonly { readonly value: string; readonly label: string }[] => [
  ...car.lines.map((line) => ({ value: `line/${line.id}`, label: `${line.id} ${line.name ?? ''}`.trim() })),
  ...(car.bays ?? []).map((bay) => ({ value: `bay/${bay.id}`, label: `air of ${bay.name ?? bay.id}` })),
  ...car.parts.map((part) => ({ value: `part/${part.id}`, label: part.name ?? part.id })),
  ...(car.panels ?? []).map((panel) => ({ value: `panel/${panel.id}`, label: panel.name ?? panel.id })),
];
