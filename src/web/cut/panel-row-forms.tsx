import type { ReactNode } from 'react';
import type { Edit, Panel, SheetStock } from '#car';
import type { PanelLayout } from '#panels';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { type Row, RowForm } from '../flow/row-form.tsx';
import { useSignal } from '../bench/signal.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { AsTyped } from './as-typed.tsx';
import { setPanel } from './panel-edits.ts';
import { useCutWords } from './cut-words.ts';
import { fieldWords } from './panel-tables.tsx';
import { brakePlan, edgePlan, holePlan, sheetPlan, windowPlan } from './panel-plans.ts';

interface Wish {
  readonly panel: string;
  /** The row's id, "A B" of an edge; nothing for a new one. */
  readonly row: string;
}

const back = (panel: string): void => open({ kind: 'cut', id: `panel/${panel}` });

const gone = (what: string): ReactNode => <p className="paper">{`There is no ${what} any more.`}</p>;

/** The rows with one in the place of what it was, or behind them where it is new. */
const among = (rows: readonly object[], was: object | undefined, made: Row): readonly unknown[] =>
  was === undefined ? [...rows, made] : rows.map((one) => (one === was ? made : one));

interface TypedWish {
  readonly panel: Panel;
  readonly field: 'edges' | 'windows' | 'holes';
  readonly rows: readonly unknown[] | null;
  readonly about: string;
}

/** The panel with its rows as they are typed. */
function Typed({ panel, field, rows, about }: TypedWish): ReactNode {
  const car = useCar()!;
  const isInch = useSignal(tapeUnit) === 'in';
  const words = useCutWords();
  const told = (pieces: readonly PanelLayout[]): string => {
    const laid = pieces.flatMap(({ windows }) => windows).find(({ id }) => id === about);
    return laid === undefined
      ? 'Not laid into the flat: what is in its way stands below.'
      : words(fieldWords(laid, isInch));
  };
  return (
    <AsTyped
      car={car}
      panel={rows === null ? null : { ...panel, [field]: rows }}
      about={about}
      {...(field === 'windows' ? { told } : {})}
    />
  );
}

export function EdgeForm({ panel: id, row: ends }: Wish): ReactNode {
  const car = useCar()!;
  const panel = car.panels?.find((one) => one.id === id);
  const [from = '', to = ''] = ends.split(' ');
  if (panel === undefined) return gone(`panel ${id}`);
  const edges = panel.edges ?? [];
  const at = edges.findIndex((edge) => [edge.from, edge.to].every((end) => end === from || end === to));
  const was = at < 0 ? { from, to } : edges[at]!;
  const others = (row: Row): readonly unknown[] => {
    // An edge that nothing is done to needs no row.
    const own = Object.keys(row).length > 2 ? [row] : [];
    return at < 0 ? [...edges, ...own] : [...edges.slice(0, at), ...own, ...edges.slice(at + 1)];
  };
  return (
    <RowForm
      plan={edgePlan(car, panel, 'Edge')}
      name={`${from}-${to}`}
      was={was}
      edits={(row) => setPanel(panel, 'edges', others(row))}
      {...(at < 0 ? {} : { away: setPanel(panel, 'edges', others({ from, to })) })}
      onLeave={() => back(id)}
      asTyped={(row) => (
        <Typed panel={panel} field="edges" rows={row === null ? null : others(row)} about={`${from}-${to}`} />
      )}
    />
  );
}

/** "V1", "V2": the next that is free. */
function nextId(letter: string, rows: readonly { readonly id: string }[]): string {
  for (let n = 1; ; n++) if (!rows.some(({ id }) => id === `${letter}${n}`)) return `${letter}${n}`;
}

export function WindowForm({ panel: id, row }: Wish): ReactNode {
  const car = useCar()!;
  const panel = car.panels?.find((one) => one.id === id);
  if (panel === undefined) return gone(`panel ${id}`);
  const rows = panel.windows ?? [];
  const was = rows.find((one) => one.id === row);
  if (row !== '' && was === undefined) return gone(`window ${row}`);
  const fresh: Row = { id: nextId('V', rows), shape: 'trapezoid', count: 1 };
  const plan = windowPlan(car, panel);
  const set = (next: readonly unknown[]): readonly Edit[] => setPanel(panel, 'windows', next);
  return (
    <RowForm
      plan={plan}
      name={was === undefined ? null : (was.name ?? was.id)}
      was={was ?? fresh}
      edits={(made) => set(among(rows, was, made))}
      {...(was === undefined ? {} : { away: set(rows.filter((one) => one !== was)) })}
      onLeave={() => back(id)}
      asTyped={(made) => (
        <Typed
          panel={panel}
          field="windows"
          rows={made === null ? null : among(rows, was, made)}
          about={`${made?.['id']}`}
        />
      )}
    />
  );
}

export function HoleForm({ panel: id, row }: Wish): ReactNode {
  const car = useCar()!;
  const panel = car.panels?.find((one) => one.id === id);
  if (panel === undefined) return gone(`panel ${id}`);
  const rows = panel.holes ?? [];
  const was = rows.find((one) => one.id === row);
  if (row !== '' && was === undefined) return gone(`hole ${row}`);
  const set = (next: readonly unknown[]): readonly Edit[] => setPanel(panel, 'holes', next);
  return (
    <RowForm
      plan={holePlan(panel)}
      name={was === undefined ? null : (was.for ?? was.id)}
      was={was ?? { id: nextId('H', rows) }}
      edits={(made) => set(among(rows, was, made))}
      {...(was === undefined ? {} : { away: set(rows.filter((one) => one !== was)) })}
      onLeave={() => back(id)}
      asTyped={(made) => (
        <Typed
          panel={panel}
          field="holes"
          rows={made === null ? null : among(rows, was, made)}
          about={`${made?.['id']}`}
        />
      )}
    />
  );
}

/** A sheet at hand, by its place in the list. */
export function SheetForm({ row }: { readonly row: string }): ReactNode {
  const car = useCar()!;
  const rows = car.sheets ?? [];
  const at = row === '' ? -1 : Number(row);
  const was = rows[at];
  if (row !== '' && was === undefined) return gone('such sheet');
  const set = (next: readonly unknown[]): readonly Edit[] => [
    next.length === 0 ? { do: 'set-sheets' } : { do: 'set-sheets', rows: next as readonly SheetStock[] },
  ];
  const leave = (): void => open({ kind: 'cut', id: 'all' });
  return (
    <RowForm
      plan={sheetPlan}
      name={was?.sheet ?? null}
      was={was ?? { sheet: '5052-H32' }}
      edits={(made) => set(was === undefined ? [...rows, made] : rows.map((one, i) => (i === at ? made : one)))}
      {...(was === undefined ? {} : { away: set(rows.filter((_, i) => i !== at)) })}
      onLeave={leave}
    />
  );
}

/** The brake at hand, one of the workshop's tools. */
export function BrakeForm(): ReactNode {
  const { workshop = {} } = useCar()!;
  const { brake: was, ...others } = workshop;
  const leave = (): void => open({ kind: 'cut', id: 'all' });
  const set = (brake: object): readonly Edit[] => {
    const value = Object.keys(brake).length === 0 ? others : { ...others, brake };
    return [Object.keys(value).length === 0 ? { do: 'set-workshop' } : { do: 'set-workshop', value }];
  };
  return (
    <RowForm
      plan={brakePlan}
      name={was === undefined ? null : 'at hand'}
      was={was ?? {}}
      edits={set}
      {...(was === undefined ? {} : { away: set({}) })}
      onLeave={leave}
    />
  );
}
