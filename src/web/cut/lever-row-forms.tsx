import type { ReactNode } from 'react';
import type { Edit, Lever } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { type Row, RowForm } from '../flow/row-form.tsx';
import { newId } from '../tape/new-id.ts';
import {
  bracketOfRow,
  bracketPlan,
  bracketRow,
  cablePlan,
  crossingPlan,
  cylinderOfRow,
  cylinderPlan,
  cylinderRow,
  linkOfRow,
  linkRow,
  piecePlan,
  pieceOfRow,
  pieceRow,
  rodPlan,
  workedFields,
  workedPlan,
  workedRow,
} from './lever-plans.ts';

interface Wish {
  readonly lever: string;
  /** Which of it: "rod/K1r", "cable/" for a new one, "piece/0", "bracket/", "worked/". */
  readonly row: string;
}

/** What hangs on a lever, and what it is beside its places, by form. */
export function LeverRowForm({ lever: id, row }: Wish): ReactNode {
  const lever = useCar()!.levers?.find((one) => one.id === id);
  if (lever === undefined) return <p className="paper">{`There is no lever ${id} any more.`}</p>;
  const [kind = '', ...rest] = row.split('/');
  const which = rest.join('/');
  const back = (): void => open({ kind: 'cut', id: `lever/${id}` });
  if (kind === 'bracket') return <BracketForm lever={lever} onLeave={back} />;
  if (kind === 'worked') return <WorkedForm lever={lever} onLeave={back} />;
  if (kind === 'piece') return <PieceForm lever={lever} which={which} onLeave={back} />;
  if (kind === 'crossing') return <CrossingForm lever={lever} which={which} onLeave={back} />;
  return <LinkForm lever={lever} kind={kind as Kind} which={which} onLeave={back} />;
}

interface OfLever {
  readonly lever: Lever;
  readonly onLeave: () => void;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** One field of a lever set to a value; with nothing in it, it goes. No edit where nothing changes. */
function setLever(lever: Lever, field: keyof Lever, value: unknown): Edit[] {
  const isEmpty = value === undefined || (Array.isArray(value) && value.length === 0 && field !== 'arms');
  if (same(isEmpty ? undefined : value, lever[field])) return [];
  return [{ do: 'set-lever', lever: lever.id, field, ...(isEmpty ? {} : { value }) } as Edit];
}

const asOne = (edits: readonly Edit[]): readonly Edit[] =>
  edits.length < 2 ? edits : [{ do: 'several', edits: [...edits] }];

type Kind = 'rod' | 'cable' | 'cylinder';
const lists = { rod: 'rods', cable: 'cables', cylinder: 'cylinders' } as const;

function LinkForm({
  lever,
  kind,
  which,
  onLeave,
}: OfLever & { readonly kind: Kind; readonly which: string }): ReactNode {
  const car = useCar()!;
  const field = lists[kind];
  const rows = (lever[field] ?? []) as readonly (Row & { readonly id: string; readonly name?: string })[];
  const was = rows.find((one) => one.id === which);
  if (which !== '' && was === undefined)
    return <p className="paper">{`There is no ${which} on ${lever.id} any more.`}</p>;
  const [rowOf, made, plan] =
    kind === 'cylinder'
      ? [cylinderRow, cylinderOfRow, cylinderPlan(car, lever)]
      : [linkRow, linkOfRow, kind === 'rod' ? rodPlan(car, lever) : cablePlan(car, lever, was === undefined)];
  const firstArm = lever.arms[0]?.id;
  return (
    <RowForm
      plan={plan}
      name={was === undefined ? null : (was.name ?? was.id)}
      was={was === undefined ? (firstArm === undefined ? {} : { arm: firstArm }) : rowOf(was as never)}
      edits={({ pinMm, ...row }) => {
        const taken = [...(lever.rods ?? []), ...(lever.cables ?? []), ...(lever.cylinders ?? [])].map(({ id }) => id);
        const id = was?.id ?? newId(String(row['name'] ?? ''), taken, kind);
        const own = pinMm as Lever['arms'][number]['atMm'] | undefined;
        const arm =
          own === undefined
            ? row['arm']
            : newId(
                `${id} pin`,
                lever.arms.map((one) => one.id),
                'pin',
              );
        const now = made({ ...row, id, arm });
        const arms = own === undefined ? lever.arms : [...lever.arms, { id: String(arm), atMm: own }];
        const next = was === undefined ? [...rows, now] : rows.map((one) => (one === was ? ordered(now, was) : one));
        return asOne([...setLever(lever, 'arms', arms), ...setLever(lever, field, next)]);
      }}
      {...(was === undefined
        ? {}
        : {
            away: setLever(
              lever,
              field,
              rows.filter((one) => one !== was),
            ),
          })}
      onLeave={onLeave}
    />
  );
}

/** What was there in the order it stood in, so that a row in which nothing changed is the same. */
function ordered(now: Row, was: Row): Row {
  const first = Object.keys(was).filter((key) => now[key] !== undefined);
  const rest = Object.keys(now).filter((key) => was[key] === undefined);
  return Object.fromEntries([...first, ...rest].map((key) => [key, now[key]]));
}

function PieceForm({ lever, which, onLeave }: OfLever & { readonly which: string }): ReactNode {
  const rows = lever.shapes ?? [];
  const was = which === '' ? undefined : rows[Number(which)];
  return (
    <RowForm
      plan={piecePlan}
      name={was === undefined ? null : `${Number(which) + 1}`}
      was={was === undefined ? {} : pieceRow(was)}
      edits={(row) => {
        const now = pieceOfRow(row, was);
        return setLever(
          lever,
          'shapes',
          was === undefined ? [...rows, now] : rows.map((one) => (one === was ? now : one)),
        );
      }}
      {...(was === undefined
        ? {}
        : {
            away: setLever(
              lever,
              'shapes',
              rows.filter((one) => one !== was),
            ),
          })}
      onLeave={onLeave}
    />
  );
}

/** Where one cable goes through a part: "K1/0" the first way through of cable K1, "K1/" one more. */
function CrossingForm({ lever, which, onLeave }: OfLever & { readonly which: string }): ReactNode {
  const cut = which.lastIndexOf('/');
  const cable = lever.cables?.find(({ id }) => id === which.slice(0, cut));
  const rows: readonly Row[] = cable?.crossing ?? [];
  const n = which.slice(cut + 1);
  const was = n === '' ? undefined : rows[Number(n)];
  if (cable === undefined || (n !== '' && was === undefined))
    return <p className="paper">{`There is no such way through on ${lever.id} any more.`}</p>;
  const edits = (next: readonly Row[]): Edit[] => {
    const { crossing: _, ...rest } = cable;
    const now = next.length === 0 ? rest : ordered({ ...rest, crossing: next }, cable as unknown as Row);
    return setLever(
      lever,
      'cables',
      lever.cables!.map((one) => (one === cable ? now : one)),
    );
  };
  return (
    <RowForm
      plan={crossingPlan}
      name={was === undefined ? null : `${Number(n) + 1} of ${cable.name ?? cable.id}`}
      was={was ?? {}}
      edits={(row) => edits(was === undefined ? [...rows, row] : rows.map((one) => (one === was ? row : one)))}
      {...(was === undefined ? {} : { away: edits(rows.filter((one) => one !== was)) })}
      onLeave={onLeave}
    />
  );
}

/** As most are: bolts are asked for first. */
const BOLTED: Row = { held: 'bolts', bolts: {} };

function BracketForm({ lever, onLeave }: OfLever): ReactNode {
  const was = lever.bracket;
  return (
    <RowForm
      plan={bracketPlan}
      name={was === undefined ? null : lever.id}
      was={was === undefined ? BOLTED : bracketRow(was)}
      edits={(row) => setLever(lever, 'bracket', ordered(bracketOfRow(row), { ...was }))}
      {...(was === undefined ? {} : { away: setLever(lever, 'bracket', undefined) })}
      onLeave={onLeave}
    />
  );
}

function WorkedForm({ lever, onLeave }: OfLever): ReactNode {
  return (
    <RowForm
      plan={workedPlan}
      name={lever.name ?? lever.id}
      was={workedRow(lever)}
      edits={(row) => asOne(workedFields(row).flatMap(([field, value]) => setLever(lever, field, value)))}
      onLeave={onLeave}
    />
  );
}
