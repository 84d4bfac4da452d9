import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Edit } from '#car';
import { useSignal } from '../bench/signal.ts';
import { Form } from '../tape/form.tsx';
import { TakeOut } from '../tape/take-out.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { lawOf, type RowDraft, rowDraft, rowFrom } from './row-draft.ts';
import { RowFieldShown } from './row-fields.tsx';
import { isUnitless } from './is-unitless.ts';
import type { RowField, RowPlan } from './row-plan.ts';

export type Row = Readonly<Record<string, unknown>>;

interface Wish {
  readonly plan: RowPlan;
  /** What it is called in the head, where it is there already. */
  readonly name: string | null;
  readonly was: Row;
  /** The edits that keep a row; none where nothing was changed. */
  readonly edits: (row: Row) => readonly Edit[];
  /** The edits that take it out; absent where it is new. */
  readonly away?: readonly Edit[];
  readonly onLeave: () => void;
  /** What belongs to it beside its own fields. */
  readonly children?: ReactNode;
  /** What comes of it as it is typed; null as long as it cannot be read. */
  readonly asTyped?: (row: Row | null) => ReactNode;
}

/** A row of the car file as a form: which of several it is by one choice, the fields of that, what it may have besides. */
export function RowForm({ plan, name, was, edits, away, onLeave, children, asTyped }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const isInch = unit === 'in';
  const [draft, setDraft] = useState(() => rowDraft(plan, was, isInch));
  const made = rowFrom(plan, draft, was, isInch, unit);
  const title = name === null ? `${plan.title}: a new one` : `${plan.title}: ${name}`;
  return (
    <Form
      title={title}
      below={plan.below}
      isUnitless={isUnitless(plan)}
      keepWords="Keep it"
      made={
        made.ok
          ? {
              ok: true,
              value: { edits: edits(made.value), done: `${plan.title} ${name === null ? 'put in' : 'changed'}` },
            }
          : made
      }
      onKept={onLeave}
      onLeave={onLeave}
      others={
        away === undefined ? null : <TakeOut edits={away} done={`${name ?? plan.title} taken out`} onGone={onLeave} />
      }
    >
      {(isAsked) => (
        <>
          <Fields plan={plan} draft={draft} isAsked={isAsked} isInch={isInch} onDraft={setDraft} />
          {children}
          {asTyped?.(made.ok ? made.value : null)}
        </>
      )}
    </Form>
  );
}

interface FieldsWish {
  readonly plan: RowPlan;
  readonly draft: RowDraft;
  readonly isAsked: boolean;
  readonly isInch: boolean;
  readonly onDraft: (draft: RowDraft) => void;
}

/** What every row of the kind has, which of several it is with the fields of that, what it may have besides. */
function Fields({ plan, draft, isAsked, isInch, onDraft }: FieldsWish): ReactNode {
  const law = lawOf(plan, draft.law);
  const fields = (rows: readonly RowField[]): ReactNode => (
    <div className="flow-figures">
      {rows.map((field) => (
        <RowFieldShown
          key={field.at}
          field={field}
          text={draft.texts[field.at] ?? ''}
          isAsked={isAsked}
          isInch={isInch}
          onText={(text) => onDraft({ ...draft, texts: { ...draft.texts, [field.at]: text } })}
        />
      ))}
    </div>
  );
  return (
    <>
      {fields(plan.fields)}
      {plan.laws === null ? null : (
        <NativeSelect
          label={plan.laws.label}
          value={draft.law}
          data={plan.laws.of.map(({ id, words }) => ({ value: id, label: words }))}
          onChange={(event) => onDraft({ ...draft, law: event.currentTarget.value })}
        />
      )}
      {law === undefined ? null : fields(law.fields)}
      {plan.more.length === 0 ? null : (
        <section className="flow-section" aria-label="Besides">
          <h2>Besides, where it is known</h2>
          {fields(plan.more)}
        </section>
      )}
    </>
  );
}
