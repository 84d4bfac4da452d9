import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Edit, Workshop } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { type Row, RowForm } from '../flow/row-form.tsx';
import { Key } from '../frame/key.tsx';
import { newId } from '../tape/new-id.ts';
import { addressOf, type OffPaperKind } from './off-address.ts';
import { breakPlan, clausePlan, dayPlan, handPlan, minutesPlan, packPlan, toolName, toolPlan } from './off-plans.ts';
import { RowInList } from '../flow/row-in-list.tsx';
import { thingsOf } from './things-of.ts';

const goTo = (kind: OffPaperKind, which?: string) => (): void => open({ kind: 'off', id: addressOf(kind, which) });
const asRows = (rows: readonly object[] | undefined): readonly Row[] => (rows ?? []) as readonly Row[];

/** The workshop with some of it set anew; what is left empty goes. */
function workshopWith(was: Workshop | undefined, next: Row): readonly Edit[] {
  const value = Object.fromEntries(Object.entries({ ...was, ...next }).filter(([, field]) => !isEmpty(field)));
  return [{ do: 'set-workshop', ...(Object.keys(value).length === 0 ? {} : { value }) } as unknown as Edit];
}
const isEmpty = (field: unknown): boolean =>
  field === undefined || (typeof field === 'object' && field !== null && Object.keys(field).length === 0);

/** Minutes of every kind of work, as the crew clocked them. */
export function MinutesForm(): ReactNode {
  const { workshop } = useCar()!;
  const own: Row = Object.fromEntries((workshop?.minutes ?? []).map(({ work, minutes }) => [work, minutes]));
  return (
    <RowForm
      plan={minutesPlan}
      name="of each kind of work"
      was={own}
      edits={(row) =>
        row === own
          ? []
          : workshopWith(workshop, { minutes: Object.entries(row).map(([work, minutes]) => ({ work, minutes })) })
      }
      onLeave={goTo('crew')}
    />
  );
}

export function HandForm(): ReactNode {
  const { workshop } = useCar()!;
  const was = (workshop?.hand ?? {}) as Row;
  return (
    <RowForm
      plan={handPlan}
      name="of who works"
      was={was}
      edits={(row) => (row === was ? [] : workshopWith(workshop, { hand: row }))}
      onLeave={goTo('crew')}
    />
  );
}

export function ToolForm({ which }: { readonly which: string }): ReactNode {
  const { workshop } = useCar()!;
  return (
    <RowInList
      plan={toolPlan}
      rows={asRows(workshop?.tools)}
      which={which}
      nameOf={(row) => toolName(row['kind'])}
      setTo={(tools) => workshopWith(workshop, { tools })}
      onLeave={goTo('crew')}
    />
  );
}

/** A break with its jobs. */
export function BreakForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const { workshop } = car;
  const [jobs, setJobs] = useState<readonly string[]>(() => workshop?.breaks?.[Number(which)]?.jobs ?? []);
  const things = thingsOf(car);
  const label = (id: string): string => things.find(({ value }) => value === id)?.label ?? id;
  return (
    <RowInList
      plan={breakPlan}
      rows={asRows(workshop?.breaks)}
      which={which}
      nameOf={(row) => String(row['name'])}
      besides={jobs.length === 0 ? {} : { jobs }}
      setTo={(breaks) => workshopWith(workshop, { breaks })}
      onLeave={goTo('crew')}
    >
      <section className="flow-section" aria-label="Its jobs">
        <h2>To be changed in it</h2>
        <NativeSelect
          label="Put a job in"
          value=""
          data={[
            { value: '', label: 'Choose a part, panel or line' },
            ...things.filter(({ value }) => !jobs.includes(value)),
          ]}
          onChange={(event) => {
            const id = event.currentTarget.value;
            if (id !== '') setJobs([...jobs, id]);
          }}
        />
        <div className="keys">
          {jobs.map((id) => (
            <Key key={id} onClick={() => setJobs(jobs.filter((one) => one !== id))}>{`Take ${label(id)} out`}</Key>
          ))}
        </div>
      </section>
    </RowInList>
  );
}

export function DayForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  return (
    <RowInList
      plan={dayPlan}
      rows={asRows(car.runDays)}
      which={which}
      nameOf={(row) => String(row['on'])}
      setTo={(rows) => [{ do: 'set-run-days', rows } as unknown as Edit]}
      onLeave={goTo('due')}
    />
  );
}

const setPacks = (rows: readonly Row[]): readonly Edit[] => [{ do: 'set-rule-packs', rows } as unknown as Edit];

/** What one rule book asks; a new one begins without clauses. */
export function PackForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const packs = asRows(car.rulePacks);
  const isNew = !/^\d+$/u.test(which);
  const ids = packs.map(({ id }) => String(id));
  return (
    <RowInList
      plan={packPlan}
      rows={packs}
      which={which}
      nameOf={(row) => `${String(row['name'])} ${String(row['year'])}`}
      setTo={(rows) =>
        setPacks(
          rows.map((row) =>
            isNew && row['id'] === undefined
              ? { ...row, id: newId(String(row['name'] ?? ''), ids, 'rules'), clauses: [] }
              : row,
          ),
        )
      }
      onLeave={goTo('rules')}
    />
  );
}

/** One clause of a rule book: "0~3", the fourth of the first. */
export function ClauseForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const [pack = '', clause = ''] = which.split('~');
  const packs = asRows(car.rulePacks);
  const at = Number(pack);
  const book = packs[at];
  if (book === undefined) return <p className="paper">There are no such rules any more.</p>;
  return (
    <RowInList
      plan={clausePlan}
      rows={asRows(book['clauses'] as readonly object[]).map(typedLists)}
      which={clause}
      nameOf={(row) => String(row['clause'])}
      setTo={(rows) => setPacks(packs.map((one, i) => (i === at ? { ...one, clauses: rows.map(keptLists) } : one)))}
      onLeave={goTo('rules')}
    />
  );
}

const LISTS = ['duties', 'parts'] as const;

/** Lists of a clause as they are typed, with commas; and as the car file has them. */
function typedLists(row: Row): Row {
  const typed = LISTS.flatMap((name) => (Array.isArray(row[name]) ? [[name, row[name].join(', ')] as const] : []));
  return { ...row, ...Object.fromEntries(typed) };
}
function keptLists(row: Row): Row {
  const listed = LISTS.flatMap((name) => {
    const text = row[name];
    return typeof text === 'string' ? [[name, text.split(/[\s,;]+/u).filter((word) => word !== '')] as const] : [];
  });
  return { ...row, ...Object.fromEntries(listed) };
}
