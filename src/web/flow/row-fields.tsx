import { NativeSelect, Textarea, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car } from '#car';
import { useCar } from '../bench/bench.ts';
import { Check } from '../tape/check.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { FigureField } from './figure-field.tsx';
import { useSignal } from '../bench/signal.ts';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { readField } from './row-draft.ts';
import type { RowField } from './row-plan.ts';
import { formatNumber, inchesFromMm } from '#units';

interface Wish {
  readonly field: RowField;
  readonly text: string;
  readonly isAsked: boolean;
  readonly isInch: boolean;
  readonly onText: (text: string) => void;
}

/** One field of a row, in the way that its kind is said; what is wrong stands by it. */
export function RowFieldShown({ field, text, isAsked, isInch, onText }: Wish): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const read = readField(field, text, isInch, unit);
  const fault = !read.ok && (isAsked || text.trim() !== '') ? read.fault : undefined;
  switch (field.kind) {
    case 'figure':
      return <FigureField figure={field.figure} text={text} isAsked={isAsked} isInch={isInch} onText={onText} />;
    case 'place':
    case 'length':
    case 'lengths':
      return (
        <ReadField
          label={field.kind === 'place' && field.isDirection !== true ? `${field.label} [mm]` : field.label}
          text={text}
          isAsked={isAsked}
          onText={onText}
          read={(typed) => readField(field, typed, isInch, unit)}
          told={toldLength}
        />
      );
    case 'sizes':
    case 'points':
      return <Lines field={field} text={text} fault={fault} onText={onText} />;
    case 'ids':
    case 'outline':
      return <ListField field={field} text={text} fault={fault} onText={onText} />;
    case 'yes':
      return <Check label={field.label} checked={text === 'yes'} onCheck={(isOn) => onText(isOn ? 'yes' : '')} />;
    case 'words':
      return (
        <TextInput
          label={field.label}
          value={text}
          maxLength={field.most}
          autoComplete="off"
          onChange={(event) => onText(event.currentTarget.value)}
        />
      );
    default:
      return (
        <NativeSelect
          label={field.label}
          value={text}
          error={fault}
          data={[{ value: '', label: isOptional(field) ? 'none' : 'choose' }, ...choicesFor(car, field, text)]}
          onChange={(event) => onText(event.currentTarget.value)}
        />
      );
  }
}

interface ListWish {
  readonly field: Extract<RowField, { kind: 'ids' | 'outline' }>;
  readonly text: string;
  readonly fault: string | undefined;
  readonly onText: (text: string) => void;
}

/** Several things in one field; how they are written stands under its label. */
function ListField({ field, text, fault, onText }: ListWish): ReactNode {
  const example =
    field.kind === 'outline'
      ? field.example
      : field.of
          .map(([id]) => id)
          .slice(0, 2)
          .join(', ');
  return (
    <TextInput
      label={field.label}
      description={`Such as ${example}`}
      value={text}
      maxLength={2000}
      autoComplete="off"
      error={fault}
      onChange={(event) => onText(event.currentTarget.value)}
    />
  );
}

interface LinesWish {
  readonly field: Extract<RowField, { kind: 'points' | 'sizes' }>;
  readonly text: string;
  readonly fault: string | undefined;
  readonly onText: (text: string) => void;
}

/** Pairs of numbers, one after the other. */
function Lines({ field, text, fault, onText }: LinesWish): ReactNode {
  return (
    <Textarea
      label={field.kind === 'sizes' ? field.label : `${field.label} [${field.pairs.units}; ...]`}
      description={`Such as ${field.kind === 'sizes' ? field.example : field.pairs.example}`}
      value={text}
      rows={2}
      error={fault}
      onChange={(event) => onText(event.currentTarget.value)}
    />
  );
}

const isOptional = ({ kind }: RowField): boolean => kind === 'option' || kind === 'side';

const toldLength = (value: unknown, typed: string): string =>
  typeof value === 'number' ? toldAs(typed, value) : Array.isArray(value) ? toldLengths(value, typed) : '';

const toldLengths = (mm: readonly number[], typed: string): string =>
  tapeUnit.get() === 'in'
    ? `= ${mm.map((one) => formatNumber(inchesFromMm(one), 2)).join(' × ')} in`
    : /mm\s*$/u.test(typed.trim())
      ? ''
      : `= ${mm.map((one) => Math.round(one * 10) / 10).join(' × ')} mm`;

type Choice = { readonly value: string; readonly label: string };

function choicesFor(car: Car, field: RowField, now: string): Choice[] {
  const all = choicesOf(car, field);
  // What stands there stays to be seen, though the car has no such thing any more.
  return now === '' || all.some(({ value }) => value === now)
    ? all
    : [...all, { value: now, label: `${now}, not there` }];
}

function choicesOf(car: Car, field: RowField): Choice[] {
  if (field.kind === 'choice' || field.kind === 'option' || field.kind === 'side')
    return field.of.map(([value, label]) => ({ value, label }));
  if (field.kind === 'fluid') return (car.fluids ?? []).map(({ id, name }) => ({ value: id, label: name ?? id }));
  if (field.kind === 'part') return car.parts.map(({ id, name }) => ({ value: id, label: name ?? id }));
  return car.parts
    .filter(({ ports }) => ports.length > 0)
    .flatMap((row) => [
      { value: row.id, label: `inside of ${row.name ?? row.id}` },
      ...row.ports.map(({ id, name }) => ({
        value: `${row.id}.${id}`,
        label: `${name ?? id} of ${row.name ?? row.id}`,
      })),
    ]);
}
