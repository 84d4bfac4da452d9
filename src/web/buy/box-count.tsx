import { TextInput } from '@mantine/core';
import { type ReactNode, useMemo, useState } from 'react';
import type { BoxRow } from '#car';
import type { Order, OrderRow } from '#stock';
import { Key } from '../frame/key.tsx';
import { useLengths } from '../tape/lengths.ts';
import { amount, savedText } from './amount.ts';
import { boxFromCsv, boxToCsv } from './box-csv.ts';
import { CsvFile } from './csv-file.tsx';

interface Wish {
  /** As it is kept. */
  readonly had: readonly BoxRow[];
  readonly order: Order;
  /** Name of the file that it is saved as. */
  readonly file: string;
  readonly onKeep: (rows: readonly BoxRow[]) => void;
}

/** A box counted at the shelf: all that the car needs or that was counted before, with + and -; anything else by its id. */
export function BoxCount({ had, order, file, onKeep }: Wish): ReactNode {
  const [counts, setCounts] = useState<ReadonlyMap<string, number>>(() => new Map(had.map((row) => [row.id, row.qty])));
  const [fault, setFault] = useState<string | null>(null);
  const names = useMemo(() => neededRows(order), [order]);
  const ids = [...new Set([...counts.keys(), ...order.rows.map((row) => row.id)])];
  const count = (id: string, by: number): void =>
    setCounts((was) => new Map(was).set(id, Math.max(0, Math.round(((was.get(id) ?? 0) + by) * 1e4) / 1e4)));
  const rows: readonly BoxRow[] = [...counts]
    .filter(([, qty]) => qty > 0)
    .map(([id, qty]) => ({ ...had.find((row) => row.id === id), id, qty }));
  const isChanged = JSON.stringify(rows) !== JSON.stringify(had);
  const fromCsv = (text: string): void => {
    const read = boxFromCsv(text);
    setFault(read.fault);
    if (read.fault === null) setCounts(new Map(read.rows.map((row) => [row.id, row.qty])));
  };
  return (
    <>
      <div className="keys">
        <Key weight="do" disabled={!isChanged} onClick={() => onKeep(rows)}>
          Keep this count
        </Key>
        <Key onClick={() => savedText(file, boxToCsv(rows))}>Save as CSV</Key>
        <CsvFile onText={fromCsv} />
      </div>
      {fault === null ? null : <p className="warn">{`▲ ${fault}`}</p>}
      <ul className="box-list">
        {ids.map((id) => (
          <BoxLine key={id} id={id} row={names.get(id)} qty={counts.get(id) ?? 0} onCount={(by) => count(id, by)} />
        ))}
      </ul>
      <AnotherId onAdd={(id) => count(id, 1)} />
    </>
  );
}

function AnotherId({ onAdd }: { readonly onAdd: (id: string) => void }): ReactNode {
  const [id, setId] = useState('');
  return (
    <form
      className="box-another"
      onSubmit={(event) => {
        event.preventDefault();
        if (id.trim() !== '') onAdd(id.trim());
        setId('');
      }}
    >
      <TextInput
        label="Something else, by its id"
        description="As the catalogue or its maker calls it"
        value={id}
        maxLength={80}
        onChange={(event) => setId(event.currentTarget.value)}
      />
      <Key type="submit" disabled={id.trim() === ''}>
        Count one
      </Key>
    </form>
  );
}

interface BoxLineWish {
  readonly id: string;
  readonly row: OrderRow | undefined;
  readonly qty: number;
  readonly onCount: (by: number) => void;
}

/** Whoever works in inches counts hose by the foot. */
const METRES_PER_FOOT = 0.3048;

function BoxLine({ id, row, qty, onCount }: BoxLineWish): ReactNode {
  const lengths = useLengths();
  const unit = row?.unit ?? 'each';
  const by = unit === 'm' ? (lengths.unit === 'in' ? METRES_PER_FOOT : 0.5) : 1;
  const name = row === undefined ? id : lengths.soldAs(row.name);
  return (
    <li className="box-line">
      <span>
        {name}
        <span className="small soft order-where">
          {row === undefined ? `${id}; not needed now` : `${id}; needs ${amount(row.qty, unit, lengths)}`}
        </span>
      </span>
      <span className="box-count" role="group" aria-label={name}>
        <Key aria-label={`One less: ${name}`} disabled={qty === 0} onClick={() => onCount(-by)}>
          −
        </Key>
        <output>{amount(qty, unit, lengths)}</output>
        <Key aria-label={`One more: ${name}`} onClick={() => onCount(by)}>
          +
        </Key>
      </span>
    </li>
  );
}

/** What is needed of each part: built in and spare together. */
function neededRows(order: Order): ReadonlyMap<string, OrderRow> {
  const rows = new Map<string, OrderRow>();
  for (const row of order.rows) {
    const had = rows.get(row.id);
    rows.set(row.id, had === undefined ? row : { ...had, qty: had.qty + row.qty });
  }
  return rows;
}
