import type { ReactNode } from 'react';
import type { Edit } from '#car';
import { type Row, RowForm } from './row-form.tsx';
import type { RowPlan } from './row-plan.ts';

interface Wish {
  readonly plan: RowPlan;
  readonly rows: readonly Row[];
  /** Its place in the list, "0"; anything else is one more. */
  readonly which: string;
  readonly nameOf: (row: Row) => string;
  readonly setTo: (rows: readonly Row[]) => readonly Edit[];
  readonly onLeave: () => void;
  /** What belongs to a row beside the fields of the form, put in as it is kept. */
  readonly besides?: Row;
  readonly children?: ReactNode;
}

/** One row of a list of the car file as a form, or one more; it may be taken out. */
export function RowInList({ plan, rows, which, nameOf, setTo, onLeave, besides, children }: Wish): ReactNode {
  const at = /^\d+$/u.test(which) ? Number(which) : rows.length;
  const was = rows[at];
  const whole = (row: Row): Row => ({ ...row, ...besides });
  const isSame = (row: Row): boolean => was !== undefined && JSON.stringify(whole(row)) === JSON.stringify(was);
  return (
    <RowForm
      key={`${plan.title} ${which}`}
      plan={plan}
      name={was === undefined ? null : nameOf(was)}
      was={was ?? {}}
      edits={(row) => (isSame(row) ? [] : setTo([...rows.slice(0, at), whole(row), ...rows.slice(at + 1)]))}
      {...(was === undefined ? {} : { away: setTo(rows.filter((_, i) => i !== at)) })}
      onLeave={onLeave}
    >
      {children}
    </RowForm>
  );
}
