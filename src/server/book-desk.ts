import { randomBytes } from 'node:crypto';
import type { Car } from '#car';
import type { BookKnown } from '#answers';
import type { BookAsk, BookMade, SharedCar, StandingCrew } from '#crew';
import type { Desk } from './desk.ts';
import type { JobAtWork } from './jobs.ts';
import { RequestFault } from './request-fault.ts';

/** Books kept for whoever fetches them. */
const MOST_KEPT = 8;

/** A book that is ready: what to fetch it by. */
export interface BookReady {
  readonly file: string;
  readonly sheets: number;
  readonly pages: number;
}

interface BookWork {
  readonly input: SharedCar;
  readonly known: BookKnown;
  readonly ask: BookAsk;
  readonly earlier?: { readonly name: string; readonly input: SharedCar };
}

/** The papers of the cars on the shelf, made on a thread and kept until they are fetched. */
export class BookDesk {
  private readonly desk: Desk;
  private readonly crew: StandingCrew;
  private readonly kept = new Map<string, { readonly car: string; readonly bytes: Uint8Array }>();

  constructor(desk: Desk) {
    this.desk = desk;
    this.crew = desk.crew;
  }

  /** @param wish - `since`: only the sheets that are otherwise than at that change of the car, and what the change cost */
  async make(
    id: string,
    car: Car,
    { since, ...wish }: Omit<BookAsk, 'day'> & { readonly since?: number | undefined },
    at: JobAtWork,
  ): Promise<BookReady> {
    const input = await this.desk.shared(id, car);
    const earlier =
      since === undefined
        ? undefined
        : {
            name: `change ${since}`,
            input: await this.desk.shared(id, await this.desk.shelf.carAt(id, since)),
          };
    const tried = await this.desk.tried.of(id);
    const ask: BookAsk = { ...wish, day: new Date().toISOString().slice(0, 10) };
    const known = { tried: tried.ways, ...(await this.halves(input, wish.only, at)) };
    const made = await this.made({ input, known, ask, ...(earlier === undefined ? {} : { earlier }) }, at);
    if (made.sheets === 0)
      throw new RequestFault(
        422,
        since === undefined
          ? `the book has no sheet ${wish.only.join(', ')}`
          : `no sheet is otherwise than at change ${since}`,
      );
    const file = randomBytes(9).toString('base64url');
    this.kept.set(file, { car: id, bytes: made.bytes });
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= MOST_KEPT) break;
      this.kept.delete(oldest);
    }
    return { file, sheets: made.sheets, pages: made.pages };
  }

  private made(asked: BookWork, at: JobAtWork): Promise<BookMade> {
    const job = this.crew.work('book', asked, at.told);
    at.onStop(job.stop);
    return job.answer;
  }

  /** Room for tools on one thread, what flows and comes off on another: a whole book wants them all, a card none of them at once. */
  private async halves(input: SharedCar, only: readonly string[], at: JobAtWork): Promise<BookKnown> {
    if (only.length > 0) return {};
    const tools = this.crew.work('bookTools', { input });
    const beside = this.crew.work('bookBeside', { input });
    at.onStop(() => {
      tools.stop();
      beside.stop();
    });
    const [nuts, rest] = await Promise.all([tools.answer, beside.answer]);
    return { nuts, ...rest };
  }

  fetch(id: string, file: string): Uint8Array {
    const found = this.kept.get(file);
    if (found === undefined || found.car !== id)
      throw new RequestFault(404, 'this book is not kept any more: make it again');
    return found.bytes;
  }
}
