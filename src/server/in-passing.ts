import { CrewStopped } from '#crew';
import type { JobAtWork } from './jobs.ts';

/** How far what was asked about in passing is: nobody waits for it. */
export interface Passing<T> {
  /** `waiting`: worked out behind, `answer` is of the car before its last change if it is there; `none`: there is nothing to ask. */
  readonly state: 'none' | 'waiting' | 'known' | 'fault';
  readonly answer: T | null;
  /** Why there is none. */
  readonly text?: string;
}

/** Whole answers kept: a car before and after a few changes. */
const MOST_KEPT = 20;

interface AtWork {
  readonly key: string;
  readonly stop: () => void;
}

/** Answers about cars that are worked out behind: begun by whoever asks first, dropped where the car changes before they are through. */
export class InPassing<T> {
  private readonly restMs: number;
  private readonly known = new Map<string, Passing<T>>();
  private readonly atWork = new Map<string, AtWork>();
  private readonly last = new Map<string, T>();
  private readonly hearers = new Set<(id: string) => void>();

  /** @param restMs - long work waits until the car has not been changed for so long */
  constructor(restMs = 0) {
    this.restMs = restMs;
  }

  /** Told of each car whose answer has come in. */
  listen(hear: (id: string) => void): void {
    this.hearers.add(hear);
  }

  /** @param key - of all that the answer depends on */
  ask(id: string, key: string, workOut: (at: JobAtWork) => Promise<T | null>): Passing<T> {
    const had = this.known.get(key);
    if (had !== undefined) {
      this.drop(id);
      if (had.answer !== null) this.last.set(id, had.answer);
      return had;
    }
    if (this.atWork.get(id)?.key !== key) {
      this.drop(id);
      this.begin(id, key, workOut);
    }
    return this.before(id);
  }

  /** What was known of a car before its last change, while it cannot be asked anew yet. */
  before(id: string): Passing<T> {
    return { state: 'waiting', answer: this.last.get(id) ?? null };
  }

  private drop(id: string): void {
    const at = this.atWork.get(id);
    this.atWork.delete(id);
    at?.stop();
  }

  private begin(id: string, key: string, workOut: (at: JobAtWork) => Promise<T | null>): void {
    const stops: (() => void)[] = [];
    const mine: AtWork = { key, stop: () => stops.splice(0).forEach((stop) => stop()) };
    this.atWork.set(id, mine);
    const isWanted = (): boolean => this.atWork.get(id) === mine;
    const at: JobAtWork = { told: isWanted, early: () => {}, onStop: (stop) => void stops.push(stop) };
    const run = (): void => void this.finish(id, mine, isWanted, workOut(at));
    if (this.restMs === 0) run();
    else {
      const timer = setTimeout(run, this.restMs);
      stops.push(() => clearTimeout(timer));
      // A program that ends does not wait for what nobody waits for.
      timer.unref();
    }
  }

  private async finish(id: string, { key }: AtWork, isWanted: () => boolean, work: Promise<T | null>): Promise<void> {
    const found = await work.then(
      (answer): Passing<T> | null => (answer === null ? null : { state: 'known', answer }),
      // The program ends, or somebody stopped the same work: the next who asks begins it again.
      (fault: unknown): Passing<T> | null => (fault instanceof CrewStopped ? null : faultOf(fault)),
    );
    if (isWanted()) this.atWork.delete(id);
    if (found === null) return;
    this.known.set(key, found);
    for (const oldest of this.known.keys()) {
      if (this.known.size <= MOST_KEPT) break;
      this.known.delete(oldest);
    }
    for (const hear of this.hearers) hear(id);
  }
}

const faultOf = (fault: unknown): { readonly state: 'fault'; readonly answer: null; readonly text: string } => ({
  state: 'fault',
  answer: null,
  text: fault instanceof Error ? fault.message : String(fault),
});
