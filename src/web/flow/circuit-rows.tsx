import { type ReactNode, useState } from 'react';
import type { Car, Circuit, Edit } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { Check } from '../tape/check.tsx';
import { newId } from '../tape/new-id.ts';
import { type Row, RowForm } from './row-form.tsx';
import { circuitPlan, fluidPlan, measuredPlan, passagePlan, pumpPlan, type RowPlan, vesselPlan } from './row-plan.ts';

const lists = {
  pumps: { plan: pumpPlan, title: 'Pumps and stages', add: 'Put a pump in' },
  passages: { plan: passagePlan, title: 'Ways through parts', add: 'Put a way through a part in' },
  vessels: { plan: vesselPlan, title: 'Vessels', add: 'Put a vessel in' },
} as const satisfies Record<string, { plan: RowPlan; title: string; add: string }>;
type ListName = keyof typeof lists;
const listNames = Object.keys(lists) as readonly ListName[];

/** Addresses of the forms: `row..oil~pumps~0`, `row..oil~pumps~new`, `circuit..oil`, `fluid..oil-10w60`, `fitting..boss-16-flare-16`. */
export const [ROW, HEAD, FLUID, FITTING] = ['row', 'circuit', 'fluid', 'fitting'];
const go = (what: string, which: string): void => open({ kind: 'flow', id: `${what}..${which}` });

const nameIn = (car: Car, row: Row): string =>
  String(
    row['name'] ?? row['id'] ?? car.parts.find(({ id }) => id === row['part'])?.name ?? row['part'] ?? row['from'],
  );

/** What a circuit consists of, each to be changed or taken out; more to be put in. */
export function CircuitRows({ circuit }: { readonly circuit: Circuit }): ReactNode {
  const car = useCar()!;
  const fluid = car.fluids?.find(({ id }) => id === circuit.fluid);
  return (
    <section className="flow-section" aria-label="What it consists of">
      <h2>What it consists of</h2>
      <div className="keys">
        <Key onClick={() => go(HEAD!, circuit.id)}>{`Kind, fluid and lines: ${circuit.lines.length} lines`}</Key>
        {fluid === undefined ? null : (
          <Key onClick={() => go(FLUID!, fluid.id)}>{`Fluid: ${fluid.name ?? fluid.id}`}</Key>
        )}
        <Key onClick={() => go(FLUID!, '')}>Put a fluid in</Key>
        <Key onClick={() => go(HEAD!, '')}>Put another circuit in</Key>
      </div>
      {listNames.map((list) => (
        <div key={list} className="flow-section">
          <h3>{lists[list].title}</h3>
          <div className="keys">
            {(circuit[list] ?? []).map((row, i) => (
              <Key key={`${nameIn(car, row)} ${i}`} onClick={() => go(ROW!, `${circuit.id}~${list}~${i}`)}>
                {nameIn(car, row)}
              </Key>
            ))}
            <Key onClick={() => go(ROW!, `${circuit.id}~${list}~new`)}>{lists[list].add}</Key>
          </div>
        </div>
      ))}
    </section>
  );
}

/** A pump, a way through a part, or a vessel of a circuit. */
export function CircuitRowForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const [id = '', list = '', at = ''] = which.split('~');
  const circuit = car.circuits?.find((one) => one.id === id);
  if (circuit === undefined || !(list in lists))
    return <p className="paper">{`There is no circuit ${id} any more.`}</p>;
  const rows = (circuit[list as ListName] ?? []) as readonly Row[];
  const index = at === 'new' ? rows.length : Number(at);
  const was = rows[index];
  const setTo = (next: readonly Row[]): readonly Edit[] => [
    { do: 'set-circuit', circuit: id, field: list, value: next } as unknown as Edit,
  ];
  return (
    <RowForm
      key={which}
      plan={lists[list as ListName].plan}
      name={was === undefined ? null : nameIn(car, was)}
      was={was ?? {}}
      edits={(row) => (row === was ? [] : setTo([...rows.slice(0, index), row, ...rows.slice(index + 1)]))}
      {...(was === undefined ? {} : { away: setTo(rows.filter((_, i) => i !== index)) })}
      onLeave={() => go('change-circuit', id)}
    />
  );
}

/** What a circuit is, its fluid and its lines; a new one where none is named. */
export function CircuitHeadForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const was = car.circuits?.find(({ id }) => id === which);
  const [lines, setLines] = useState<ReadonlySet<string>>(() => new Set(was?.lines));
  const inTurn = [
    ...(was?.lines ?? []).filter((id) => lines.has(id)),
    ...[...lines].filter((id) => was?.lines.includes(id) !== true),
  ];
  const isSame = was !== undefined && JSON.stringify(inTurn) === JSON.stringify(was.lines);
  const edits = (row: Row): readonly Edit[] => {
    if (was === undefined) {
      const id = newId(
        String(row['name'] ?? ''),
        (car.circuits ?? []).map((one) => one.id),
        'circuit',
      );
      return [{ do: 'add-circuit', circuit: { ...row, id, lines: inTurn } as unknown as Circuit }];
    }
    const changed = [...new Set([...Object.keys(was), ...Object.keys(row)])].filter(
      (field) => field !== 'lines' && row[field] !== (was as Row)[field],
    );
    const set = (field: string, value: unknown) =>
      ({ do: 'set-circuit', circuit: was.id, field, ...(value === undefined ? {} : { value }) }) as unknown as Edit;
    const all = [...changed.map((field) => set(field, row[field])), ...(isSame ? [] : [set('lines', inTurn)])];
    return all.length === 0 ? [] : [{ do: 'several', edits: all }];
  };
  return (
    <RowForm
      plan={circuitPlan}
      name={was === undefined ? null : (was.name ?? was.id)}
      was={(was ?? {}) as Row}
      edits={edits}
      {...(was === undefined ? {} : { away: [{ do: 'remove-circuit', circuit: was.id }] })}
      onLeave={() => (was === undefined ? open({ kind: 'flow', id: 'all' }) : go('change-circuit', was.id))}
    >
      <section className="flow-section" aria-label="Its lines">
        <h2>Its lines</h2>
        <div className="flow-figures">
          {car.lines.map(({ id, name }) => (
            <Check
              key={id}
              label={[id, name].filter(Boolean).join(', ')}
              checked={lines.has(id)}
              onCheck={(isOn) => setLines(new Set(isOn ? [...lines, id] : [...lines].filter((one) => one !== id)))}
            />
          ))}
        </div>
      </section>
    </RowForm>
  );
}

/** A fluid of the car; a new one where none is named. */
export function FluidForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const fluids = (car.fluids ?? []) as readonly Row[];
  const was = fluids.find(({ id }) => id === which);
  const setTo = (rows: readonly Row[]): readonly Edit[] => [{ do: 'set-fluids', rows } as unknown as Edit];
  const withId = (row: Row): Row => ({
    id: newId(
      String(row['name'] ?? ''),
      fluids.map(({ id }) => String(id)),
      'fluid',
    ),
    ...row,
  });
  return (
    <RowForm
      plan={fluidPlan}
      name={was === undefined ? null : nameIn(car, was)}
      was={was ?? {}}
      edits={(row) => {
        if (was === undefined) return setTo([...fluids, withId(row)]);
        return row === was ? [] : setTo(fluids.map((one) => (one === was ? row : one)));
      }}
      {...(was === undefined ? {} : { away: setTo(fluids.filter((one) => one !== was)) })}
      onLeave={() => open({ kind: 'flow', id: 'all' })}
    />
  );
}

/** What a hose end or adapter was measured to lose: a row of the car's own catalogue. */
export function FittingForm({ which }: { readonly which: string }): ReactNode {
  const car = useCar()!;
  const table =
    (car.catalogue?.adapters ?? []).some(({ id }) => id === which) || !which.startsWith('end-')
      ? 'adapters'
      : 'hoseEnds';
  const rows = (car.catalogue?.[table] ?? []) as readonly Row[];
  const was = rows.find(({ id }) => id === which);
  const setTo = (next: readonly Row[]): readonly Edit[] => [
    { do: 'set-catalogue', table, rows: next as readonly object[] },
  ];
  const { curveLMinKpa: _curve, curveAtC: _at, ...bare } = was ?? {};
  const isOnlyMeasured = Object.keys(bare).length <= 1;
  const others = rows.filter((row) => row !== was);
  return (
    <RowForm
      plan={measuredPlan}
      name={which}
      was={was ?? { id: which }}
      edits={(row) =>
        row === was ? [] : setTo(was === undefined ? [...rows, row] : rows.map((one) => (one === was ? row : one)))
      }
      {...(was?.['curveLMinKpa'] === undefined ? {} : { away: setTo(isOnlyMeasured ? others : [...others, bare]) })}
      onLeave={() => open({ kind: 'flow', id: 'all' })}
    />
  );
}
