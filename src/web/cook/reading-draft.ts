import type { Car, Edit, HeatReading } from '#car';
import type { Parsed } from '#units';
import { type Figure, figureText, readFigure } from '../flow/figure.ts';
import { newId } from '../tape/new-id.ts';

export type ReadingFigure = 'readC' | 'belowC' | 'alongMm' | 'atMin';

export const readingFigures: Readonly<Record<ReadingFigure, Figure>> = {
  readC: { label: 'Read', unit: '°C', from: -60, to: 1500 },
  belowC: { label: 'First mark that did not turn', unit: '°C', from: -60, to: 1500 },
  alongMm: { label: 'Along the line from its start', unit: 'mm', from: 0, to: 100_000 },
  atMin: { label: 'Minutes after switching off', unit: 'min', from: 0, to: 1440 },
};
const figures = Object.keys(readingFigures) as readonly ReadingFigure[];

export const MEANS = {
  strip: 'temperature strip',
  probe: 'probe',
  paint: 'temperature paint',
  pyrometer: 'pyrometer',
} as const;

/** What a reading may be of, in the order that it is asked. */
const OF = ['line', 'part', 'panel', 'bay'] as const;
type Of = (typeof OF)[number];

/** A reading as it is typed. */
export interface ReadingDraft {
  readonly caseId: string;
  /** "line/O7", "bay/engine-bay"; empty: nothing chosen. */
  readonly of: string;
  readonly means: HeatReading['means'];
  readonly corrects: boolean;
  readonly on: string;
  readonly note: string;
  readonly texts: Readonly<Record<ReadingFigure, string>>;
}

export function readingDraft(was: Partial<HeatReading>, caseId: string | undefined, isInch: boolean): ReadingDraft {
  const kind = OF.find((one) => was[one] !== undefined);
  return {
    caseId: was.case ?? caseId ?? '',
    of: kind === undefined ? '' : `${kind}/${was[kind]!}`,
    means: was.means ?? 'strip',
    corrects: was.corrects ?? false,
    on: was.on ?? '',
    note: was.note ?? '',
    texts: Object.fromEntries(
      figures.map((field) => [field, figureText(was[field], readingFigures[field].unit, isInch)]),
    ) as Record<ReadingFigure, string>,
  };
}

/** Which figures go with what is chosen. */
export function figuresAsked(car: Car, draft: ReadingDraft): readonly ReadingFigure[] {
  const isOff = car.cases?.find(({ id }) => id === draft.caseId)?.engineRpm === 0;
  return figures.filter(
    (field) =>
      field === 'readC' ||
      (field === 'belowC' && (draft.means === 'strip' || draft.means === 'paint')) ||
      (field === 'alongMm' && draft.of.startsWith('line/')) ||
      (field === 'atMin' && isOff),
  );
}

/** The edits of a reading: a new one where `was` is none, else what is other than it was. */
export function readingEdits(
  car: Car,
  draft: ReadingDraft,
  was: HeatReading | undefined,
  isInch: boolean,
): Parsed<{ readonly edits: readonly Edit[] }> {
  const no = (fault: string): Parsed<never> => ({ ok: false, fault, ways: [] });
  if (draft.caseId === '') return no('Case: nothing is chosen');
  const [kind = '', id = ''] = draft.of.split('/');
  if (!OF.some((one) => one === kind)) return no('Read on: nothing is chosen');
  const read = valuesOf(car, draft, was, isInch);
  if (!read.ok) return read;
  const values = read.value;
  const next = {
    id:
      was?.id ??
      newId(
        'T',
        (car.heatReadings ?? []).map((row) => row.id.toLowerCase()),
        't',
      ).toUpperCase(),
    case: draft.caseId,
    [kind as Of]: id,
    ...values,
    means: draft.means,
    ...(draft.corrects ? { corrects: true } : {}),
    ...(draft.on.trim() === '' ? {} : { on: draft.on.trim() }),
    ...(draft.note.trim() === '' ? {} : { note: draft.note.trim() }),
    ...(was?.atMm !== undefined && was[kind as Of] === id ? { atMm: was.atMm } : {}),
  } as HeatReading;
  return { ok: true, value: { edits: editsOf(next, was) } };
}

/** The figures that are asked, as the car file has them. */
function valuesOf(
  car: Car,
  draft: ReadingDraft,
  was: HeatReading | undefined,
  isInch: boolean,
): Parsed<Partial<Record<ReadingFigure, number>>> {
  const no = (fault: string): Parsed<never> => ({ ok: false, fault, ways: [] });
  const values: Partial<Record<ReadingFigure, number>> = {};
  const before = was === undefined ? undefined : readingDraft(was, undefined, isInch);
  for (const field of figuresAsked(car, draft)) {
    const read = readFigure(draft.texts[field], readingFigures[field], isInch);
    if (!read.ok) return read;
    // A figure that was not touched stays to its last digit.
    const value = before?.texts[field] === draft.texts[field] ? was?.[field] : read.value;
    if (value !== undefined) values[field] = value;
  }
  if (values.readC === undefined && values.belowC === undefined) return no('Read: nothing stands there');
  if (values.readC !== undefined && values.belowC !== undefined && values.belowC <= values.readC)
    return no('First mark that did not turn: a mark above the last one that turned is wanted');
  return { ok: true, value: values };
}

/** Put in, or each field that is other than it was, in one step. */
function editsOf(next: HeatReading, was: HeatReading | undefined): readonly Edit[] {
  if (was === undefined) return [{ do: 'add-heat-reading', reading: next }];
  const fields = ['case', ...OF, ...figures, 'atMm', 'means', 'corrects', 'on', 'note'] as const;
  const edits = fields
    .filter((field) => JSON.stringify(next[field]) !== JSON.stringify(was[field]))
    .map(
      (field) =>
        ({
          do: 'set-heat-reading',
          reading: was.id,
          field,
          ...(next[field] === undefined ? {} : { value: next[field] }),
        }) as Edit,
    );
  return edits.length === 0 ? [] : [{ do: 'several', edits }];
}
