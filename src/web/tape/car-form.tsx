import type { ReactNode } from 'react';
import { type Edit, type KeepOff, keepOffDefaults } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { type Row, RowForm } from '../flow/row-form.tsx';
import type { RowField, RowPlan } from '../flow/row-plan.ts';
import { useLengths } from './lengths.ts';

const classes: Readonly<Record<keyof KeepOff, string>> = {
  hot: 'To bare hot parts',
  hotShielded: 'To shielded hot parts',
  moving: 'To moving parts',
  fixed: 'To fixed parts',
  line: 'To other lines',
};
const classNames = Object.keys(classes) as readonly (keyof KeepOff)[];
const MOST_MM = 2000;

/** The car's name, and how far lines keep off each class of thing on it. */
export function CarForm(): ReactNode {
  const car = useCar()!;
  const lengths = useLengths();
  const plan: RowPlan = {
    title: 'The car',
    below:
      'Its name, and the least gap that a line keeps, surface to surface. The usual ones are common practice; an empty field is left to them.',
    fields: [
      { kind: 'words', at: 'name', label: 'Name of the car', most: 200 },
      ...classNames.map(
        (one): RowField => ({
          kind: 'length',
          at: `keepOffMm.${one}`,
          label: `${classes[one]} (usual ${lengths.fine(keepOffDefaults[one])})`,
          fromMm: 0,
          toMm: MOST_MM,
        }),
      ),
    ],
    laws: null,
    more: [],
    groups: {},
  };
  const was: Row = { name: car.name, ...(car.keepOffMm && { keepOffMm: car.keepOffMm }) };
  return (
    <RowForm
      plan={plan}
      name={car.name ?? ''}
      was={was}
      edits={(row) => carEdits(was, row)}
      onLeave={() => open({ kind: 'lines' })}
    />
  );
}

function carEdits(was: Row, now: Row): readonly Edit[] {
  const [before, after] = [was, now].map((row) => (row['keepOffMm'] ?? {}) as KeepOff);
  const edits: Edit[] = classNames.flatMap((one): Edit[] => {
    const mm = after![one];
    if (mm === before![one]) return [];
    return [{ do: 'set-keep-off', class: one, ...(mm === undefined ? {} : { keepOffMm: mm }) }];
  });
  const { name } = now as { readonly name?: string };
  if (name !== was['name']) edits.push({ do: 'set-name', ...(name === undefined ? {} : { name }) });
  return edits.length === 0 ? [] : [{ do: 'several', edits }];
}
