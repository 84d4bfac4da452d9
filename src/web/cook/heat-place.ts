/** What lies open of a case: a list of lines, one line, a bay, what is beside them, or the minutes after switching off. */
export type HeatAbout =
  | { readonly kind: 'lines' }
  | { readonly kind: 'line' | 'bay' | 'panel' | 'part'; readonly id: string }
  | { readonly kind: 'soak' }
  | { readonly kind: 'reading' | HeatFormKind; readonly id: string };

/** Forms: how hot a part is; a bay, its openings, what draws from it, what presses on it. */
export type HeatFormKind = 'source' | 'space' | 'opening' | 'intake' | 'pressure';

export interface HeatPlace {
  /** Absent: the case with the least margin. */
  readonly caseId: string | undefined;
  readonly about: HeatAbout;
}

const KINDS = ['line', 'bay', 'panel', 'part', 'reading', 'source', 'space', 'opening', 'intake', 'pressure'] as const;

/** As it stands in the address: `full-load..line..O7`, `full-load..soak`, `all`. */
export function heatPlace(id: string): HeatPlace {
  const [first = '', what = '', which = ''] = id.split('..');
  const caseId = first === 'all' || first === '' ? undefined : first;
  if (what === 'soak') return { caseId, about: { kind: 'soak' } };
  const kind = KINDS.find((one) => one === what);
  if (kind === undefined) return { caseId, about: { kind: 'lines' } };
  return { caseId, about: { kind, id: which } };
}

export function heatAddress({ caseId, about }: HeatPlace): string {
  const first = caseId ?? 'all';
  if (about.kind === 'lines') return first;
  return 'id' in about ? `${first}..${about.kind}..${about.id}` : `${first}..${about.kind}`;
}
