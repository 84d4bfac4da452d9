import { randomBytes } from 'node:crypto';
import { CrewStopped } from '#crew';
import type { NewsDesk } from './news.ts';
import { RequestFault } from './request-fault.ts';

export interface JobNow {
  readonly job: string;
  readonly car: string;
  readonly kind: string;
  readonly state: 'working' | 'done' | 'stopped' | 'fault';
  readonly done: number;
  readonly total: number;
  /** Of what it is counting, where it does several things one after the other. */
  readonly part?: string;
  /** While it works: a first answer, where there is one. */
  readonly answer?: unknown;
  /** Why there is no answer, in one sentence. */
  readonly text?: string;
}

/** What a job is given while it works. */
export interface JobAtWork {
  /** How far it is; false where nobody waits any more. */
  readonly told: (done: number, total: number, part?: string) => boolean;
  /** A first answer, while the work goes on. */
  readonly early: (answer: unknown) => void;
  /** Called once, where the job is stopped. */
  readonly onStop: (stop: () => void) => void;
}

/** Finished jobs kept for their askers. */
const MOST_KEPT = 60;
/** Jobs that may wait or work at one time. */
const MOST_AT_WORK = 12;
/** Progress is told at most this often [ms]. */
const TELL_EVERY_MS = 100;

/** Long work that was asked for: how far it is, its answer, and the way to stop it. */
export class Jobs {
  private readonly jobs = new Map<string, { now: JobNow; stop: () => void }>();
  private readonly news: NewsDesk;

  constructor(news: NewsDesk) {
    this.news = news;
  }

  begin(car: string, kind: string, work: (at: JobAtWork) => Promise<unknown>): string {
    const atWork = [...this.jobs.values()].filter(({ now }) => now.state === 'working').length;
    if (atWork >= MOST_AT_WORK)
      throw new RequestFault(429, `${atWork} jobs are at work already; stop one, or wait for it`);
    const job = randomBytes(9).toString('base64url');
    let isStopped = false;
    let told = 0;
    const stops: (() => void)[] = [];
    const set = (change: Partial<JobNow>): void => {
      const had = this.jobs.get(job);
      if (had !== undefined) had.now = { ...had.now, ...change };
    };
    const stop = (): void => {
      if (isStopped || this.jobs.get(job)?.now.state !== 'working') return;
      isStopped = true;
      set({ state: 'stopped', text: 'stopped' });
      this.tell(job);
      for (const end of stops) end();
    };
    this.jobs.set(job, { now: { job, car, kind, state: 'working', done: 0, total: 0 }, stop });
    const atWorkOn: JobAtWork = {
      told: (done, total, part) => {
        if (isStopped) return false;
        const isNew = part !== undefined && this.jobs.get(job)?.now.part !== part;
        set({ done, total, ...(part === undefined ? {} : { part }) });
        const nowMs = performance.now();
        if (isNew || nowMs - told > TELL_EVERY_MS || done === total) {
          told = nowMs;
          this.tell(job);
        }
        return true;
      },
      early: (answer) => {
        set({ answer });
        this.tell(job);
      },
      onStop: (end) => stops.push(end),
    };
    void work(atWorkOn).then(
      (answer) => this.finish(job, isStopped, { state: 'done', answer }),
      (fault: unknown) => this.finish(job, isStopped || fault instanceof CrewStopped, faultOf(fault)),
    );
    this.drop();
    return job;
  }

  get(job: string): JobNow {
    const found = this.jobs.get(job);
    if (found === undefined) throw new RequestFault(404, 'there is no such job; it may be long finished');
    return found.now;
  }

  stop(job: string): void {
    this.jobs.get(job)?.stop();
  }

  stopAll(): void {
    for (const { stop } of this.jobs.values()) stop();
  }

  private finish(job: string, isStopped: boolean, end: Partial<JobNow>): void {
    const found = this.jobs.get(job);
    if (found === undefined || isStopped) return;
    found.now = { ...found.now, ...end };
    this.tell(job);
  }

  private tell(job: string): void {
    const { now } = this.jobs.get(job) ?? {};
    if (now === undefined) return;
    const { car, state, done, total } = now;
    this.news.tell({ kind: 'job', job, car, state, done, total });
  }

  private drop(): void {
    for (const [job, { now }] of this.jobs) {
      if (this.jobs.size <= MOST_KEPT) break;
      if (now.state !== 'working') this.jobs.delete(job);
    }
  }
}

function faultOf(fault: unknown): Partial<JobNow> {
  return { state: 'fault', text: fault instanceof Error ? fault.message : String(fault) };
}
