import type { Edit } from '#car';
import type { StandingCar } from './standing-car.ts';
import type { DocumentRow, StepRow } from './store.ts';

/** Every so many revisions a step carries the whole text, so that no revision is more than this many inverses away. */
const TEXT_EVERY = 16;

/** What a new step says of itself; the rest follows from the document it is laid on. */
export interface NewStep {
  readonly kind: StepRow['kind'];
  readonly edits: readonly Edit[];
  readonly done: readonly Edit[];
  readonly inverse: readonly Edit[];
  readonly of: number | null;
  /** For undo and redo: what lay under the step that they take off its list. */
  readonly uncovers: number | null;
  readonly who: string;
  readonly atMs: number;
}

export function newDocument(
  id: string,
  kind: DocumentRow['kind'],
  standing: StandingCar,
  who: string,
  atMs: number,
): { readonly document: DocumentRow; readonly steps: readonly [StepRow] } {
  const tops = { undoTop: null, redoTop: null };
  const document = { ...headFrom(standing, id), id, kind, revision: 1, ...tops, changedAtMs: atMs, away: null };
  const step: StepRow = {
    revision: 1,
    kind: 'put on the shelf',
    edits: '[]',
    done: '[]',
    inverse: '[]',
    of: null,
    under: null,
    who,
    atMs,
    hash: standing.hash,
    text: standing.text,
  };
  return { document, steps: [step] };
}

/** The document and the step as they are kept together. */
export function laidOn(
  before: DocumentRow,
  now: StandingCar,
  step: NewStep,
): { readonly document: DocumentRow; readonly step: StepRow } {
  const revision = before.revision + 1;
  const { under, undoTop, redoTop } = topsAfter(before, step.kind, revision, step.uncovers);
  const { kind, of, who, atMs } = step;
  return {
    document: { ...before, ...headFrom(now, before.id), revision, undoTop, redoTop, changedAtMs: atMs },
    step: {
      revision,
      kind,
      edits: JSON.stringify(step.edits),
      done: JSON.stringify(step.done),
      inverse: JSON.stringify(step.inverse),
      of,
      under,
      who,
      atMs,
      hash: now.hash,
      text: carriesText(revision) ? now.text : null,
    },
  };
}

export const carriesText = (revision: number): boolean => revision % TEXT_EVERY === 1;

export interface Tops {
  readonly undoTop: number | null;
  readonly redoTop: number | null;
}

/**
 * Undo and redo are two lists through the steps: each step knows the one that was on top before it. A change is laid on the undo
 * list and clears the other; an undo is taken off the one and laid on the other; a redo the other way round.
 */
export function topsAfter(
  before: Tops,
  kind: StepRow['kind'],
  revision: number,
  uncovers: number | null,
): Tops & { readonly under: number | null } {
  if (kind === 'undo') return { under: before.redoTop, undoTop: uncovers, redoTop: revision };
  if (kind === 'redo') return { under: before.undoTop, undoTop: revision, redoTop: uncovers };
  return { under: before.undoTop, undoTop: revision, redoTop: null };
}

/** What the list of cars shows, out of the car. */
export function headFrom({ car, text, hash }: StandingCar, id: string) {
  return { name: car.name ?? id, parts: car.parts.length, lines: car.lines.length, text, hash };
}
