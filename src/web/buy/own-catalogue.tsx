import { type ReactNode, useRef, useState } from 'react';
import type { Catalogue } from '#car';
import type { ImportedCatalogue } from '#standards';
import { sayFault } from '../bench/bench.ts';
import { Key } from '../frame/key.tsx';
import { calls } from '../server/calls.ts';
import { counted } from '../snags/counted.ts';
import { savedText } from './amount.ts';
import { csvOf } from './csv.ts';
import { CsvFile } from './csv-file.tsx';
import { OwnRowForm } from './own-row-form.tsx';
import {
  listColumns,
  onlyRow,
  rowCount,
  rowsOf,
  rowWords,
  tableWords,
  withoutRow,
  withRows,
  writtenSince,
} from './own-rows.ts';

interface Wish {
  readonly catalogue: Catalogue;
  readonly onKeep: (catalogue: Catalogue, done: string) => Promise<boolean>;
}

/** The shop's own rows of the catalogue: added one by one or from a list, and taken away. A standard row's id overrides that row. */
export function OwnCatalogue({ catalogue, onKeep }: Wish): ReactNode {
  const [read, setRead] = useState<ImportedCatalogue | null>(null);
  const [away, setAway] = useState<Catalogue | null>(null);
  // As this screen showed it when it was last put into.
  const seen = useRef(catalogue);
  const keep = async (next: Catalogue, done: string): Promise<boolean> => {
    const isKept = await onKeep(next, done);
    if (isKept) seen.current = next;
    return isKept;
  };
  const add = async (text: string): Promise<boolean> => {
    try {
      const found = await calls.readCatalogue(text);
      setRead(found);
      if (found.faults.length > 0) return false;
      return await putIn(found);
    } catch (fault) {
      sayFault(fault);
      return false;
    }
  };
  const putIn = async (found: ImportedCatalogue): Promise<boolean> => {
    const rows = found.own as Catalogue;
    const theirs = writtenSince(seen.current, catalogue, rows);
    seen.current = catalogue;
    if (theirs.length > 0) return toldOf(theirs);
    const isKept = await keep(withRows(catalogue, rows), `${counted(rowCount(rows), 'row')} put in`);
    if (isKept) setRead(null);
    return isKept;
  };
  return (
    <>
      <div className="keys">
        <CsvFile onText={(text) => void add(text)}>A list from CSV</CsvFile>
        <Key onClick={() => savedText('own-parts.csv', csvOf([listColumns]))}>Save an empty list</Key>
        {away === null ? null : (
          <Key
            onClick={() => void keep(withRows(catalogue, away), 'Put back').then((isKept) => isKept && setAway(null))}
          >
            Put back what was taken away
          </Key>
        )}
      </div>
      {read === null || read.faults.length === 0 ? null : (
        <ReadFaults read={read} onTake={() => void putIn(read)} onLeave={() => setRead(null)} />
      )}
      <OwnRows
        catalogue={catalogue}
        onTakeAway={(table, id) =>
          void keep(withoutRow(catalogue, table, id), `${id} taken away`).then((isKept) => {
            if (isKept) setAway(onlyRow(catalogue, table, id));
          })
        }
      />
      <OwnRowForm onAdd={add} />
    </>
  );
}

function toldOf(theirs: readonly string[]): false {
  sayFault(
    `Not kept: ${theirs.join(', ')} was changed on another screen since. What you put in still stands here; put it in again to put it in place of theirs.`,
  );
  return false;
}

interface FaultsWish {
  readonly read: ImportedCatalogue;
  readonly onTake: () => void;
  readonly onLeave: () => void;
}

const MOST_FAULTS = 12;

/** What of a list cannot be read, a line each; the sound rows may be taken without it. */
function ReadFaults({ read, onTake, onLeave }: FaultsWish): ReactNode {
  const sound = rowCount(read.own as Catalogue);
  return (
    <section className="seen" aria-label="What cannot be read" role="alert">
      <p>
        <strong>{`▲ ${counted(read.faults.length, 'fault')}; nothing is kept yet.`}</strong>
      </p>
      <ul className="small">
        {read.faults.slice(0, MOST_FAULTS).map((fault) => (
          <li key={fault}>{fault}</li>
        ))}
        {read.faults.length > MOST_FAULTS ? <li>{`and ${read.faults.length - MOST_FAULTS} more`}</li> : null}
      </ul>
      <div className="keys">
        {sound === 0 ? null : <Key onClick={onTake}>{`Put the ${counted(sound, 'sound row')} in`}</Key>}
        <Key onClick={onLeave}>Leave it</Key>
      </div>
    </section>
  );
}

interface RowsWish {
  readonly catalogue: Catalogue;
  readonly onTakeAway: (table: keyof Catalogue, id: string) => void;
}

function OwnRows({ catalogue, onTakeAway }: RowsWish): ReactNode {
  const tables = rowsOf(catalogue);
  if (tables.length === 0) return <p>No rows of your own yet. The standard rows are there without them.</p>;
  return tables.map(([table, rows]) => (
    <section key={table} aria-label={tableWords[table]}>
      <h2>{`${tableWords[table]}: ${rows.length}`}</h2>
      <ul className="box-list">
        {rows.map((row) => (
          <li key={row.id} className="box-line">
            <span>
              <strong>{row.id}</strong>
              <span className="small soft order-where">{rowWords(row)}</span>
            </span>
            <Key aria-label={`Take away ${row.id}`} onClick={() => onTakeAway(table, row.id)}>
              Take away
            </Key>
          </li>
        ))}
      </ul>
    </section>
  ));
}
