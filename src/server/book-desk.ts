import { randomBytes } from 'node:crypto';
import type { Car } from '#car';
import type { BookAsk, BookMade, StandingCrew } from '#crew';
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

/** The papers of the cars on the shelf, made on a thread and kept until they are fetched. */
export class BookDesk {
  private readonly desk: Desk;
  private readonly crew: StandingCrew;
  private readonly kept = new Map<string, { readonly car: string; readonly bytes: Uint8Array }>();

  constructor(desk: Desk) {
    this.desk = desk;
    this.crew = desk.crew;
  }

  async make(id: string, car: Car, wish: Omit<BookAsk, 'day'>, at: JobAtWork): Promise<BookReady> {
    const input = await this.desk.shared(id, car);
    const tried = await this.desk.tried.of(id);
    const ask: BookAsk = { ...wish, day: new Date().toISOString().slice(0, 10) };
    const job = this.crew.work('book', { input, tried: tried.ways, ask }, at.told);
    at.onStop(job.stop);
    const made: BookMade = await job.answer;
    if (made.sheets === 0) throw new RequestFault(422, `the book has no sheet ${wish.only.join(', ')}`);
    const file = randomBytes(9).toString('base64url');
    this.kept.set(file, { car: id, bytes: made.bytes });
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= MOST_KEPT) break;
      this.kept.delete(oldest);
    }
    return { file, sheets: made.sheets, pages: made.pages };
  }

  fetch(id: string, file: string): Uint8Array {
    const found = this.kept.get(file);
    if (found === undefined || found.car !== id)
      throw new RequestFault(404, 'this book is not kept any more: make it again');
    return found.bytes;
  }
}
