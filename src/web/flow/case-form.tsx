import { TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Form } from '../tape/form.tsx';
import { TakeOut } from '../tape/take-out.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { caseDraft, caseEdits, type CaseField, caseFields, caseFigures } from './case-draft.ts';
import { FigureField } from './figure-field.tsx';

const back = (caseId: string): void => open({ kind: 'flow', id: `all..${caseId}` });

function CaseOut({ id, name }: { readonly id: string; readonly name: string }): ReactNode {
  const gone = (): void => open({ kind: 'flow', id: 'all' });
  return <TakeOut edits={[{ do: 'remove-case', case: id }]} done={`Case ${name} taken out`} onGone={gone} />;
}

/** A set of conditions: a new one where none is named. */
export function CaseForm({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const isInch = useSignal(tapeUnit) === 'in';
  const was = car.cases?.find((one) => one.id === id);
  const [draft, setDraft] = useState(() => caseDraft(was ?? {}, isInch));
  if (id !== '' && was === undefined) return <p className="paper">{`There is no case ${id} any more.`}</p>;
  const made = caseEdits(car, draft, was, isInch);
  const set = (field: CaseField, text: string): void =>
    setDraft({ ...draft, texts: { ...draft.texts, [field]: text } });
  return (
    <Form
      title={was === undefined ? 'Another case' : `Case: ${was.name ?? was.id}`}
      below="What the engine does, how hot it is, how the car is pulled about. An empty field is left to what is usual."
      keepWords="Keep it"
      made={
        made.ok
          ? {
              ok: true,
              value: {
                edits: made.value.edits,
                done: `Case ${draft.name.trim()} ${was === undefined ? 'put in' : 'changed'}`,
              },
            }
          : made
      }
      onKept={() => back(made.ok ? made.value.id : id)}
      onLeave={() => back(id)}
      others={was === undefined ? null : <CaseOut id={was.id} name={was.name ?? was.id} />}
    >
      {(isAsked) => (
        <>
          <TextInput
            label="Name"
            value={draft.name}
            maxLength={200}
            autoComplete="off"
            onChange={(event) => setDraft({ ...draft, name: event.currentTarget.value })}
          />
          <div className="flow-figures">
            {caseFields.map((field) => (
              <FigureField
                key={field}
                figure={caseFigures[field]}
                text={draft.texts[field]}
                isAsked={isAsked}
                isInch={isInch}
                onText={(text) => set(field, text)}
              />
            ))}
          </div>
        </>
      )}
    </Form>
  );
}
