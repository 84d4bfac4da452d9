import { TextInput } from '@mantine/core';
import { type ReactNode, useMemo, useState } from 'react';
import type { BoxRow } from '#car';
import type { Order, OrderRow } from '#stock';
import { Key } from '../frame/key.tsx';
import { useLengths } from '../tape/lengths.ts';
import { amount, savedText } from './amount.ts';
import { boxFromCsv, boxToCsv } from './box-csv.ts';
import { countedRows, type Counting, overtaken, withCount, withList } from './counted-box.ts';
import { CsvFile } from './csv-file.tsx';

interface Wish {
  /** As it is kept. */
  readonly had: readonly BoxRow[];
  readonly order: Order;
  /** Name of the file that it is saved as. */
  readonly file: string;
  /** Whose the newest change is, where that is known. */
  readonly by?: string | undefined;
  readonly onKeep: (rows: readonly BoxRow[]) => Promise<boolean>;
}

/**
 * A box counted at the shelf: all that the car needs or that was counted before, with + and -; anything else by its id. What another
 * screen counts meanwhile comes in beside it, and is told where it is of the same row.
 */
export function BoxCount({ had, order, file, by, onKeep }: Wish): ReactNode {
  const [counting, setCounting] = useState<Counting>(new Map());
  const [fault, setFault] = useState<string | null>(null);
  const names = useMemo(() => neededRows(order), [order]);
  const rows = countedRows(had, counting);
  const ids = [...new Set([...had.map((row) => row.id), ...counting.keys(), ...order.rows.map((row) => row.id)])];
  const lies = (id: string): number => rows.find((row) => row.id === id)?.qty ?? 0;
  const count = (id: string, more: number): void =>
    setCounting((was) => {
      const lying = was.get(id)?.qty ?? had.find((row) => row.id === id)?.qty ?? 0;
      return withCount(had, was, id, Math.max(0, Math.round((lying + more) * 1e4) / 1e4));
    });
  const isChanged = JSON.stringify(rows) !== JSON.stringify(countedRows(had, new Map()));
  const fromCsv = (text: string): void => {
    const read = boxFromCsv(text);
    setFault(read.fault);
    if (read.fault === null) setCounting((was) => withList(had, was, read.rows));
  };
  const theirs = new Map(overtaken(had, counting).map((row) => [row.id, row.theirs]));
  const takeTheirs = (id: string): void => setCounting((was) => new Map([...was].filter(([other]) => other !== id)));
  return (
    <>
      <div className="keys">
        <Key
          weight="do"
          disabled={!isChanged}
          onClick={() => void onKeep(rows).then((isKept) => isKept && setCounting(new Map()))}
        >
          Keep this count
        </Key>
        <Key onClick={() => savedText(file, boxToCsv(rows))}>Save as CSV</Key>
        <CsvFile onText={fromCsv} />
      </div>
      {fault === null ? null : <p className="warn">{`▲ ${fault}`}</p>}
      {theirs.size === 0 ? null : (
        <p className="warn" role="status">
          {`▲ ${by ?? 'Another screen'} counted ${[...theirs.keys()].join(', ')} otherwise since you began. Yours still stands here, and goes in place of theirs when you keep it.`}
        </p>
      )}
      <ul className="box-list">
        {ids.map((id) => (
          <BoxLine
            key={id}
            id={id}
            row={names.get(id)}
            qty={lies(id)}
            theirs={theirs.get(id)}
            onCount={(more) => count(id, more)}
            onTheirs={() => takeTheirs(id)}
          />
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
  /** How many another screen counted of it since. */
  readonly theirs: number | undefined;
  readonly onCount: (by: number) => void;
  readonly onTheirs: () => void;
}

/** Whoever works in inches counts hose by the foot. */
const METRES_PER_FOOT = 0.3048;

function BoxLine({ id, row, qty, theirs, onCount, onTheirs }: BoxLineWish): ReactNode {
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
        {theirs === undefined ? null : (
          <Key onClick={onTheirs}>{`Take their count: ${amount(theirs, unit, lengths)}`}</Key>
        )}
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
