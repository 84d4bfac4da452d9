import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { Key } from '../frame/key.tsx';
import { csvOf } from './csv.ts';
import { kindWords, type OwnField, ownFields, type OwnKind } from './own-rows.ts';

/** One row written by hand: it is read as a list of one row is, with the same checks. */
export function OwnRowForm({ onAdd }: { readonly onAdd: (csv: string) => Promise<boolean> }): ReactNode {
  const [kind, setKind] = useState<OwnKind>('hose');
  const [cells, setCells] = useState<Readonly<Record<string, string>>>({});
  const fields: readonly OwnField[] = ownFields[kind];
  const filled = fields.filter(({ column }) => (cells[column] ?? '').trim() !== '');
  const set = (column: string, value: string): void => setCells((was) => ({ ...was, [column]: value }));
  return (
    <details className="opened">
      <summary>Add a row</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const csv = csvOf([
            ['table', ...filled.map(({ column }) => column)],
            [kind, ...filled.map(({ column }) => cells[column]!.trim())],
          ]);
          void onAdd(csv).then((isIn) => isIn && setCells({}));
        }}
      >
        <p className="small soft">
          With the id of a standard row only what differs from it; else all that is marked with *. Ends as “flare37-male
          -12”, “metric-washer M14x1.5”, “bead 38 mm”.
        </p>
        {kind === 'hose-end' ? (
          <p className="small soft">
            Insert or cut factor, one of the two: how far the hose goes into the socket, or its maker’s length from the
            seat to the hose’s cut end. One gives the other.
          </p>
        ) : null}
        <div className="own-fields">
          <NativeSelect
            label="What it is"
            value={kind}
            data={Object.entries(kindWords).map(([value, label]) => ({ value, label }))}
            onChange={(event) => setKind(event.currentTarget.value as OwnKind)}
          />
          {fields.map((field) => (
            <Field
              key={field.column}
              field={field}
              value={cells[field.column] ?? ''}
              onValue={(value) => set(field.column, value)}
            />
          ))}
        </div>
        <div className="keys">
          <Key type="submit" weight="do" disabled={(cells['id'] ?? '').trim() === ''}>
            Put it in
          </Key>
        </div>
      </form>
    </details>
  );
}

interface FieldWish {
  readonly field: OwnField;
  readonly value: string;
  readonly onValue: (value: string) => void;
}

function Field({ field: { label, isWanted, words }, value, onValue }: FieldWish): ReactNode {
  const said = isWanted === true ? `${label} *` : label;
  return words === undefined ? (
    <TextInput label={said} value={value} maxLength={120} onChange={(event) => onValue(event.currentTarget.value)} />
  ) : (
    <NativeSelect
      label={said}
      value={value}
      data={[{ value: '', label: 'not said' }, ...words.map((one) => ({ value: one, label: one }))]}
      onChange={(event) => onValue(event.currentTarget.value)}
    />
  );
}
