import type { ReactNode } from 'react';
import type { Lever } from '#car';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { lengthWords } from './panel-numbers.ts';

interface Thing {
  readonly row: string;
  readonly title: string;
  readonly below: string;
}

const kinds = [
  ['rod', 'rods', 'a rod'],
  ['cable', 'cables', 'a cable'],
  ['cylinder', 'cylinders', 'a cylinder'],
] as const;

/** Where its cables go through parts. */
const waysThrough = (lever: Lever, isInch: boolean): readonly Thing[] =>
  (lever.cables ?? []).flatMap(({ id, name, crossing }) =>
    (crossing ?? []).map(
      ({ part, holeMm }, n): Thing => ({
        row: `crossing/${id}/${n}`,
        title: `${name ?? id} through ${part}`,
        below: holeMm === undefined ? 'its hole is worked out' : `a hole of ${lengthWords(holeMm, isInch)} there`,
      }),
    ),
  );

/** What hangs on a lever, what it is made of, what carries it: each with its numbers by form, and one more. */
export function Hangs({ lever, isInch }: { readonly lever: Lever; readonly isInch: boolean }): ReactNode {
  const things: readonly Thing[] = [
    ...kinds.flatMap(([kind, list, words]) =>
      (lever[list] ?? []).map(
        ({ id, name, arm }): Thing => ({
          row: `${kind}/${id}`,
          title: `${id} ${name ?? ''}`.trim(),
          below: `${words} on arm ${arm}`,
        }),
      ),
    ),
    ...waysThrough(lever, isInch),
    ...(lever.shapes ?? []).map(
      ({ pointsMm, radiusMm }, i): Thing => ({
        row: `piece/${i}`,
        title: `Piece ${i + 1}`,
        below: `${pointsMm.length === 1 ? 'a ball' : 'round'}, radius ${lengthWords(radiusMm, isInch)}`,
      }),
    ),
    ...(lever.bracket === undefined
      ? []
      : [{ row: 'bracket/', title: 'Bracket', below: `${lengthWords(lever.bracket.thicknessMm, isInch)} plate` }]),
  ];
  const opens = (row: string) => () => open({ kind: 'cut', id: `hangs/${lever.id}/${row}` });
  return (
    <section className="cut-section no-print" aria-label="What hangs on it">
      <h2>What hangs on it</h2>
      <ul>
        {things.map(({ row, title, below }) => (
          <li className="cut-thing" key={row}>
            <span>
              <strong>{title}</strong>
              <span className="small soft cut-below">{below}</span>
            </span>
            <Key weight="bare" aria-label={`Its numbers, ${title}`} onClick={opens(row)}>
              Its numbers
            </Key>
          </li>
        ))}
      </ul>
      <div className="keys">
        {kinds.map(([kind, , words]) => (
          <Key key={kind} onClick={opens(`${kind}/`)}>{`Put ${words} in`}</Key>
        ))}
        {(lever.cables ?? []).map(({ id, name }) => (
          <Key key={id} onClick={opens(`crossing/${id}/`)}>{`Way of ${name ?? id} through a part`}</Key>
        ))}
        <Key onClick={opens('piece/')}>Put a piece in</Key>
        {lever.bracket === undefined ? <Key onClick={opens('bracket/')}>Put its bracket in</Key> : null}
        <Key onClick={opens('worked/')}>Force, stops, wheel</Key>
      </div>
    </section>
  );
}
