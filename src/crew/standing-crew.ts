import { Hand } from './hand.ts';
import type { TaskInput, TaskName, TaskResult } from './tasks.ts';

/** A job that was handed to the crew. */
export interface CrewJob<T> {
  readonly answer: Promise<T>;
  /** Ends it at once; its answer then fails with `CrewStopped`. */
  stop(): void;
}

/** The job was stopped before it had an answer. */
export class CrewStopped extends Error {
  constructor() {
    super('crew: stopped');
    this.name = 'CrewStopped';
  }
}

/** `quick`: about a second at most; `long`: somebody waits for it; `behind`: nobody does. */
type Kind = 'quick' | 'long' | 'behind';

interface Waiting {
  readonly kind: Kind;
  /** True where the thread answered, be it with a fault of the job's own. */
  readonly begin: (hand: Hand) => Promise<boolean>;
  /** It is not done. */
  readonly refuse: () => void;
}

/** A thread that stays, and what it is for. */
class Place {
  hand = new Hand();
  isBusy = false;
  readonly kind: Kind;

  constructor(kind: Kind) {
    this.kind = kind;
  }

  /** A thread in the middle of something cannot be asked to forget it: it ends, and a new one takes its place. */
  renew(): void {
    void this.hand.end();
    this.hand = new Hand();
    this.isBusy = false;
  }
}

/**
 * Threads that stay, so that a short question is answered by one that already knows the car. One of them takes all quick questions and
 * nothing else: a builder who drags a part does not wait behind a plan, and nobody waits behind what nobody waits for.
 */
export class StandingCrew {
  private readonly places: readonly Place[];
  private readonly waiting: Waiting[] = [];
  private isEnding = false;

  /** @param heavy - threads for long work, 1 or more; one more is for quick questions, and one for what is worked out behind */
  constructor(heavy = 1) {
    this.places = [new Place('quick'), ...Array.from({ length: heavy }, () => new Place('long')), new Place('behind')];
  }

  /** A question that is answered in about a second at most. */
  ask<N extends TaskName>(task: N, input: TaskInput<N>): CrewJob<TaskResult<N>> {
    return this.take(task, input, 'quick');
  }

  /** Long work; `told` hears how far it is. */
  work<N extends TaskName>(
    task: N,
    input: TaskInput<N>,
    told?: (done: number, total: number) => void,
  ): CrewJob<TaskResult<N>> {
    return this.take(task, input, 'long', told);
  }

  /** Long work that nobody waits for. */
  workBehind<N extends TaskName>(
    task: N,
    input: TaskInput<N>,
    told?: (done: number, total: number) => void,
  ): CrewJob<TaskResult<N>> {
    return this.take(task, input, 'behind', told);
  }

  /** Ends every thread. What was at work or waiting is stopped, and so is what is asked from now on: no thread begins any more. */
  async end(): Promise<void> {
    this.isEnding = true;
    for (const job of this.waiting.splice(0)) job.refuse();
    await Promise.all(this.places.map((place) => place.hand.end()));
  }

  private take<N extends TaskName>(
    task: N,
    input: TaskInput<N>,
    kind: Kind,
    told?: (done: number, total: number) => void,
  ): CrewJob<TaskResult<N>> {
    let refuse: () => void = () => {};
    let at: Hand | null = null;
    let waiting: Waiting | null = null;
    const answer = new Promise<TaskResult<N>>((done, failed) => {
      refuse = () => failed(new CrewStopped());
      waiting = {
        kind,
        refuse,
        begin: async (hand) => {
          at = hand;
          try {
            done(await hand.run(task, input, (n, total) => (told?.(n, total), true)));
            return true;
          } catch (fault) {
            // Who is still waiting when the program ends is stopped, not failed.
            failed(this.isEnding ? new CrewStopped() : fault);
            return false;
          } finally {
            at = null;
          }
        },
      };
      if (this.isEnding) refuse();
      else this.waiting.push(waiting);
    });
    this.next();
    const stop = (): void => {
      refuse();
      const n = this.waiting.findIndex((job) => job === waiting);
      if (n >= 0) this.waiting.splice(n, 1);
      this.places.find(({ hand, isBusy }) => isBusy && hand === at)?.renew();
      this.next();
    };
    return { answer, stop };
  }

  private next(): void {
    for (const place of this.places) {
      const n = place.isBusy ? -1 : this.waiting.findIndex(({ kind }) => kind === place.kind);
      if (n < 0) continue;
      const [job] = this.waiting.splice(n, 1);
      this.start(place, job!);
    }
  }

  private start(place: Place, job: Waiting): void {
    const { hand } = place;
    place.isBusy = true;
    void job.begin(hand).then((isSound) => {
      if (place.hand !== hand) return;
      // A thread that died does no further job, and one whose job threw is not trusted with another.
      if (!isSound) place.renew();
      place.isBusy = false;
      this.next();
    });
  }
}
