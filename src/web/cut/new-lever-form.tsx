import type { ReactNode } from 'react';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { RowForm } from '../flow/row-form.tsx';
import { newId } from '../tape/new-id.ts';
import { leverOfRow, leverPlan } from './new-lever.ts';

const NOTHING = {};

/** A lever or pedal measured on the car. */
export function NewLeverForm(): ReactNode {
  const { levers = [] } = useCar()!;
  return (
    <RowForm
      plan={leverPlan}
      name={null}
      was={NOTHING}
      edits={(row) => {
        const id = newId(
          String(row['name'] ?? ''),
          levers.map((lever) => lever.id),
          'lever',
        );
        return [{ do: 'add-lever', lever: leverOfRow(row, id) }];
      }}
      onLeave={() => open({ kind: 'cut', id: 'all' })}
    />
  );
}
