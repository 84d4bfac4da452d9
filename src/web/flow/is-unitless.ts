import type { RowPlan } from './row-plan.ts';

const UNITLESS: ReadonlySet<string> = new Set([
  'words',
  'part',
  'fluid',
  'choice',
  'yes',
  'ids',
  'option',
  'side',
  'spot',
]);

/** Whether nothing in it is a length, pressure or the like: minutes, counts and words are the same everywhere. */
export function isUnitless({ fields, laws, more }: RowPlan): boolean {
  const all = [...fields, ...(laws?.of ?? []).flatMap((law) => law.fields), ...more];
  return all.every((field) =>
    field.kind === 'figure' ? ['min', ''].includes(field.figure.unit) : UNITLESS.has(field.kind),
  );
}
