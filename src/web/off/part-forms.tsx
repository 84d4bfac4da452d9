import type { ReactNode } from 'react';
import type { Edit, Part } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { fieldEdits, valued } from '../flow/field-edits.ts';
import { type Row, RowForm } from '../flow/row-form.tsx';
import { RowInList } from '../flow/row-in-list.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { newId } from '../tape/new-id.ts';
import { wayOfWords, wayWords } from '../tape/way-words.ts';
import { addressOf, type OffPaperKind } from './off-address.ts';
import { fastenerPlan, headWords, partOffPlan } from './part-plans.ts';

const go = (kind: OffPaperKind, which: string): void => open({ kind: 'off', id: addressOf(kind, which) });
const nameOf = ({ id, name }: Part): string => name ?? id;

/** What holds a part and how it comes off, each to be changed. */
export function HeldPaper({ which }: { readonly which: string }): ReactNode {
  const part = useCar()!.parts.find(({ id }) => id === which);
  if (part === undefined) return <p className="paper">{`There is no part ${which} any more.`}</p>;
  return (
    <article className="paper off-paper">
      <PaperHead below="Screws, nuts and clips that hold it; what it hangs on, which way it goes, its dates.">
        {`What holds ${nameOf(part)}`}
      </PaperHead>
      <div className="keys listed">
        {(part.fasteners ?? []).map((row, i) => (
          <Key className="printed" key={row.id} onClick={() => go('fastener', `${which}~${i}`)}>
            {`${row.name ?? row.id}: ${headWords(row.head)}`}
          </Key>
        ))}
        <Key onClick={() => go('fastener', `${which}~new`)}>Put a fastener in</Key>
      </div>
      <div className="keys">
        <Key onClick={() => go('off', which)}>How it comes off, and its dates</Key>
        <Key onClick={() => open({ kind: 'off', id: `replace/${which}` })}>What comes off to change it</Key>
        <Key onClick={() => open({ kind: 'part', id: which })}>Back to the part</Key>
      </div>
    </article>
  );
}

/** A fastener of a part: "turbo~0". */
export function FastenerForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const [id = '', at = ''] = which.split('~');
  const part = car.parts.find((one) => one.id === id);
  if (part === undefined) return <p className="paper">{`There is no part ${id} any more.`}</p>;
  const rows = (part.fasteners ?? []) as readonly Row[];
  const taken = rows.map((row) => String(row['id']));
  const whole = (row: Row): Row => ({
    id: newId(String(row['name'] ?? row['head'] ?? ''), taken, 'fastener'),
    ...row,
    faces: wayOfWords(String(row['faces'])),
  });
  return (
    <RowInList
      plan={fastenerPlan(car)}
      rows={rows.map((row) => ({ ...row, faces: wayWords(row['faces']) }))}
      which={at}
      nameOf={(row) => String(row['name'] ?? row['id'])}
      setTo={(next) => [{ do: 'set-part', part: id, field: 'fasteners', value: next.map(whole) } as unknown as Edit]}
      onLeave={() => go('held', id)}
    />
  );
}

const FIELDS = ['sitsOn', 'comesAfter', 'pulls', 'lifts', 'massKg', 'spillsL', 'gives', 'staysOn', 'life'] as const;

/** How a part comes off and what it has lived through. */
export function PartOffForm({ which }: { readonly which: string }): ReactNode {
  const part = useCar()!.parts.find(({ id }) => id === which);
  if (part === undefined) return <p className="paper">{`There is no part ${which} any more.`}</p>;
  const kept: Row = Object.fromEntries(
    FIELDS.flatMap((field) => (part[field] === undefined ? [] : [[field, part[field]]])),
  );
  return (
    <RowForm
      plan={partOffPlan}
      name={nameOf(part)}
      was={typed(kept)}
      edits={(row) =>
        fieldEdits(kept, meant(row), (field, value) => ({ do: 'set-part', part: which, field, ...valued(value) }))
      }
      onLeave={() => go('held', which)}
    />
  );
}

/** Lists as they are typed, with commas. */
function typed(row: Row): Row {
  const list = (name: string, words: (one: unknown) => string, join = ', '): Row =>
    Array.isArray(row[name]) ? { [name]: row[name].map(words).join(join) } : {};
  return { ...row, ...list('sitsOn', String), ...list('comesAfter', String), ...list('pulls', wayWords, '; ') };
}

function meant(row: Row): Row {
  const list = (name: string, comma: RegExp, of: (word: string) => unknown): Row =>
    typeof row[name] === 'string'
      ? {
          [name]: row[name]
            .split(comma)
            .map((word) => word.trim())
            .filter((word) => word !== '')
            .map(of),
        }
      : {};
  const isPlain = typeof row['pulls'] === 'string' && !/\d/u.test(row['pulls']);
  return {
    ...row,
    ...list('sitsOn', /[\s,;]+/u, String),
    ...list('comesAfter', /[\s,;]+/u, String),
    ...list('pulls', isPlain ? /[\s,;]+/u : /;/u, wayOfWords),
  };
}
