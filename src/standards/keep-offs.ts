import type { SourceId } from '#sources';

export type KeepOffKind =
  | 'hot'
  | 'hot-shielded'
  | 'turbine'
  | 'fuel-brake-hot'
  | 'belt-shaft'
  | 'moving'
  | 'fixed'
  | 'line';

/** The least gap from a line to a class of thing, surface to surface [mm]; the builder's to change, with a reason. */
export interface KeepOffRow {
  readonly kind: KeepOffKind;
  readonly mm: number;
  readonly text: string;
  readonly source: SourceId;
}

export const keepOffRows = [
  { kind: 'hot', mm: 100, text: 'bare exhaust', source: 'common-practice' },
  { kind: 'hot-shielded', mm: 50, text: 'exhaust behind a shield', source: 'common-practice' },
  { kind: 'turbine', mm: 150, text: 'bare turbine housing', source: 'common-practice' },
  {
    kind: 'fuel-brake-hot',
    mm: 76,
    text: 'fuel and brake lines from any significant heat source, 3 in',
    source: 'builders-reports',
  },
  { kind: 'belt-shaft', mm: 50, text: 'belts and drive shafts', source: 'common-practice' },
  { kind: 'moving', mm: 25, text: 'anything that moves', source: 'common-practice' },
  { kind: 'fixed', mm: 6, text: 'fixed structure, against chafe', source: 'common-practice' },
  { kind: 'line', mm: 3, text: 'line to line, where both are clamped', source: 'common-practice' },
] as const satisfies readonly KeepOffRow[];

/** The keep-off row for a kind of thing. */
export function keepOff(kind: KeepOffKind): KeepOffRow {
  const row = keepOffRows.find((r) => r.kind === kind);
  if (row === undefined)
    throw new RangeError(
      `standards: no keep-off for "${String(kind)}"; there are ${keepOffRows.map((r) => r.kind).join(', ')}`,
    );
  return row;
}
