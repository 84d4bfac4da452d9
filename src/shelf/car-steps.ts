import { type Clash, type Edit, mergeEdits } from '#car';
import { differences } from './differences.ts';
import type { NewStep } from './documents.ts';
import type { DocumentLog, Standing } from './document-log.ts';
import { type NetStep, netSteps } from './net-steps.ts';
import type { EditWish } from './shelf.ts';
import { ShelfError } from './shelf-error.ts';
import { editedCar, stepped } from './standing-car.ts';

export type StepOrNot =
  | { readonly kind: 'kept'; readonly now: Standing }
  | { readonly kind: 'clash'; readonly now: Standing; readonly clashes: readonly Clash[]; readonly by: string }
  | { readonly kind: 'faults'; readonly now: Standing; readonly faults: readonly string[] };

/** A builder's edits as a new step. */
export async function keptEdits(log: DocumentLog, id: string, wish: EditWish): Promise<StepOrNot> {
  return untilKept(async () => {
    const at = await log.car(id);
    const mine = await unmet(log, at, wish);
    if (!('edits' in mine)) return mine;
    const step = stepped(at.standing, mine.edits);
    if (!step.ok) return { kind: 'faults', now: at, faults: step.faults };
    if (step.now.hash === at.standing.hash) return { kind: 'kept', now: at };
    const done = { edits: mine.edits, done: mine.edits, inverse: [step.inverse] };
    const now = await log.append(at, step.now, { ...unfounded(log, wish.who), kind: 'change', ...done });
    return now && { kind: 'kept', now };
  });
}

/** What of a wish is still to be done to the car as it stands; or why it cannot be. */
async function unmet(
  log: DocumentLog,
  at: Standing,
  { base, edits }: EditWish,
): Promise<Exclude<StepOrNot, { kind: 'kept' }> | { readonly edits: readonly Edit[] }> {
  if (base === at.row.revision) return { edits };
  const from = await log.standingAt(at, base);
  const since = netSteps(await log.store.steps(at.row.id, base + 1, at.row.revision));
  const theirs = since.flatMap((step) => step.edits);
  const own = editedCar(from.car, edits);
  if (!('car' in own)) return { kind: 'faults', now: at, faults: own };
  const { clashes } = mergeEdits(from.car, edits, theirs);
  if (clashes.length > 0) return { kind: 'clash', now: at, clashes, by: clashingPeople(since, clashes) };
  // Both did the very same: theirs stands already.
  const standing = new Set(theirs.map((edit) => JSON.stringify(edit)));
  return { edits: edits.filter((edit) => !standing.has(JSON.stringify(edit))) };
}

function clashingPeople(since: readonly NetStep[], clashes: readonly Clash[]): string {
  const theirs = new Set(clashes.map((clash) => clash.theirs));
  const people = since.filter((step) => step.edits.some((edit) => theirs.has(edit))).map((step) => step.who);
  return [...new Set(people)].join(', ');
}

export function undone(log: DocumentLog, id: string, who: string): Promise<Standing> {
  return takenBack(log, id, who, 'undo');
}

export function redone(log: DocumentLog, id: string, who: string): Promise<Standing> {
  return takenBack(log, id, who, 'redo');
}

/** An undo takes the newest change back, a redo the newest undo: both apply the inverse of a step. */
function takenBack(log: DocumentLog, id: string, who: string, kind: 'undo' | 'redo'): Promise<Standing> {
  return untilKept(async () => {
    const at = await log.car(id);
    const top = kind === 'undo' ? at.row.undoTop : at.row.redoTop;
    if (top === null) throw new ShelfError(`nothing-to-${kind}`, `there is nothing to ${kind} on ${id}`);
    const target = await log.step(id, top);
    const done = JSON.parse(target.inverse) as Edit[];
    const step = stepped(at.standing, done);
    if (!step.ok) throw new ShelfError('broken', `step ${top} of ${id} cannot be taken back: ${step.faults[0]}`);
    return log.append(at, step.now, {
      ...unfounded(log, who),
      kind,
      edits: JSON.parse(target.edits) as Edit[],
      done,
      inverse: [step.inverse],
      of: top,
      uncovers: target.under,
    });
  });
}

/** The car as it stood at a revision, as a new step. */
export function goneBack(log: DocumentLog, id: string, revision: number, who: string): Promise<Standing> {
  return untilKept(async () => {
    const at = await log.car(id);
    const then = await log.standingAt(at, revision);
    if (then.hash === at.standing.hash) return at;
    const done = [differences(at.standing.car, then.car)];
    const inverse = [differences(then.car, at.standing.car)];
    return log.append(at, then, {
      ...unfounded(log, who),
      kind: 'gone back',
      edits: done,
      done,
      inverse,
      of: revision,
    });
  });
}

function unfounded(log: DocumentLog, who: string): Pick<NewStep, 'of' | 'uncovers' | 'who' | 'atMs'> {
  return { of: null, uncovers: null, who, atMs: log.nowMs() };
}

/** Once more for as long as somebody else is first. It ends: each time it fails, another's step was kept. */
async function untilKept<T>(attempt: () => Promise<T | undefined>): Promise<T> {
  for (;;) {
    const kept = await attempt();
    if (kept !== undefined) return kept;
  }
}
