import { laidOn, type NewStep } from './documents.ts';
import { ShelfError } from './shelf-error.ts';
import { carFromText, editedCar, type StandingCar, standingCar } from './standing-car.ts';
import type { DocumentRow, StepRow, Store } from './store.ts';

/** A document as it stands, read. */
export interface Standing {
  readonly row: DocumentRow;
  readonly standing: StandingCar;
}

/** Documents kept in memory as they were read last; a car of 50 kB takes some milliseconds to read and check. */
const REMEMBERED = 16;

/** Documents and their steps: what stands now, what stood then, and one step more. */
export class DocumentLog {
  readonly store: Store;
  readonly nowMs: () => number;
  private readonly read = new Map<string, StandingCar>();

  constructor(store: Store, nowMs: () => number) {
    this.store = store;
    this.nowMs = nowMs;
  }

  async find(id: string): Promise<Standing | undefined> {
    const row = await this.store.document(id);
    if (row === undefined) return undefined;
    const known = this.read.get(id);
    const standing = known?.hash === row.hash ? known : carFromText(row.text, row.hash, `car ${id}`);
    this.remember(id, standing);
    return { row, standing };
  }

  async car(id: string): Promise<Standing> {
    const at = await this.find(id);
    if (at?.row.kind === 'car') return at;
    throw new ShelfError('no-car', `there is no car ${JSON.stringify(String(id).slice(0, 60))} on the shelf`);
  }

  /** One step more, kept; nothing where somebody else kept one first. */
  async append(at: Standing, now: StandingCar, step: NewStep): Promise<Standing | undefined> {
    const next = laidOn(at.row, now, step);
    if (!(await this.store.append(next.document, next.step))) return undefined;
    this.remember(at.row.id, now);
    return { row: next.document, standing: now };
  }

  async step(id: string, revision: number): Promise<StepRow> {
    const [row] = await this.store.steps(id, revision, revision);
    if (row !== undefined) return row;
    throw new ShelfError('broken', `step ${revision} of ${id} is missing on the disk: put a copy of the shelf back`);
  }

  /** The document exactly as it stood at a revision: the nearest whole text after it, and the inverses back from there. */
  async standingAt(at: Standing, revision: number): Promise<StandingCar> {
    const { id } = at.row;
    const newest = at.row.revision;
    if (!Number.isInteger(revision) || revision < 1 || revision > newest)
      throw new ShelfError('no-revision', `there is no revision ${revision} of ${id}; it has 1 to ${newest}`);
    if (revision === newest) return at.standing;
    const whole = await this.store.textFrom(id, revision);
    const from = whole === undefined || whole.revision > newest ? newest : whole.revision;
    const steps = await this.store.steps(id, revision, from);
    const last = steps.at(-1);
    if (last === undefined || steps.length !== from - revision + 1)
      throw new ShelfError('broken', `steps ${revision} to ${from} of ${id} are not all on the disk: put a copy back`);
    let standing = from === newest ? at.standing : carFromText(whole!.text, last.hash, `revision ${from} of ${id}`);
    for (const step of steps.slice(1).reverse()) standing = stepBack(standing, step, id);
    if (standing.hash === steps[0]!.hash) return standing;
    throw new ShelfError('broken', `revision ${revision} of ${id} cannot be brought back exactly`);
  }

  private remember(id: string, standing: StandingCar): void {
    this.read.delete(id);
    this.read.set(id, standing);
    for (const oldest of this.read.keys()) {
      if (this.read.size <= REMEMBERED) break;
      this.read.delete(oldest);
    }
  }
}

/** The document before a step. */
export function stepBack(after: StandingCar, step: StepRow, id: string): StandingCar {
  const edited = editedCar(after.car, JSON.parse(step.inverse));
  const before = 'car' in edited ? standingCar(edited.car) : edited;
  if ('car' in before) return before;
  throw new ShelfError('broken', `step ${step.revision} of ${id} cannot be taken back: ${before[0]}`);
}
