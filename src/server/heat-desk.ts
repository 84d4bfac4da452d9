import { createHash } from 'node:crypto';
import { hasHeat, heatKey } from '#answers';
import type { Car, Case } from '#car';
import { type CrewJob, type KeptAnswers, type SharedCar, type StandingCrew, toolMark } from '#crew';
import type { FlowAnswer } from '#flow';
import type { HeatAnswer, LineCures } from '#heat';
import { type FlowDesk, flows } from './flow-desk.ts';
import { InPassing, type Passing } from './in-passing.ts';
import type { JobAtWork } from './jobs.ts';

/** Whole answers kept: a car before and after a few changes. */
const MOST_KEPT = 8;
/** What flows is a first part of the way, of as many steps as there are cases beside it. */
const FLOW_STEPS = 1;

/** Seconds of work are begun when the hands have left the car for so long [ms]. */
export const REST_MS = 1500;

type Kept = HeatAnswer | LineCures;

/** Does it cook, for the cars on the shelf: what flows first, then every case along one trace of rays; kept by all that it depends on. */
export class HeatDesk {
  private readonly crew: StandingCrew;
  private readonly flow: FlowDesk;
  private readonly shared: (id: string, car: Car) => Promise<SharedCar>;
  private readonly passing = new InPassing<HeatAnswer>(REST_MS);
  private readonly onDisk: KeptAnswers | undefined;
  private readonly kept = new Map<string, Kept>();
  private readonly asked = new Map<string, { readonly job: CrewJob<Kept>; waiting: number }>();

  constructor(
    crew: StandingCrew,
    flow: FlowDesk,
    shared: (id: string, car: Car) => Promise<SharedCar>,
    onDisk?: KeptAnswers,
  ) {
    this.onDisk = onDisk;
    this.crew = crew;
    this.flow = flow;
    this.shared = shared;
  }

  /** Every case of the car, the hardest that runs first; null where it was stopped while what flows was worked out. */
  async ofCar(id: string, car: Car, at: JobAtWork): Promise<HeatAnswer | null> {
    const input = await this.shared(id, car);
    const key = `heat ${keyOf(input)}`;
    const had = (this.kept.get(key) as HeatAnswer | undefined) ?? this.onDisk?.find<HeatAnswer>(key)?.value;
    if (had !== undefined) return had;
    // Where the whole is at work already, a part would only come later.
    const first = this.asked.has(key) ? undefined : hardest(car.cases ?? []);
    if (first !== undefined) {
      // What flows in the other cases is not waited for.
      const ofFirst = flows(car) ? await this.flow.ofCase(id, car, first.id, this.silent(car, at)) : null;
      at.early(
        await this.once(`${first.id} of ${key}`, at, (told) =>
          this.crew.work('heat', { input, flow: ofFirst, caseId: first.id }, told),
        ),
      );
    }
    const flow = await this.flowOf(id, car, at);
    if (flow === undefined) return null;
    const answer = await this.once(key, at, (told) => this.crew.work('heat', { input, flow }, told));
    this.onDisk?.keep(key, answer);
    return answer;
  }

  /** Every case as far as it is known, once what flows is. What is not known is begun behind and not waited for. */
  inPassing(id: string, input: SharedCar, flow: Passing<FlowAnswer>): Passing<HeatAnswer> {
    if (!hasHeat(input)) return { state: 'none', answer: null };
    if (flow.state === 'waiting') return this.passing.before(id);
    const key = keyOf(input);
    return this.passing.ask(id, key, (at) =>
      this.once(`heat ${key}`, at, (told) => this.crew.workBehind('heat', { input, flow: flow.answer }, told)),
    );
  }

  /** Told of each car whose heat has come in; it was asked about in passing. */
  listen(hear: (id: string) => void): void {
    this.passing.listen(hear);
  }

  /** One case of the car as it would be; what flows is that of the car as it is. */
  async tried(id: string, cars: { now: Car; after: Car }, caseId: string, at: JobAtWork): Promise<HeatAnswer | null> {
    const flow = await this.flowOf(id, cars.now, at);
    if (flow === undefined) return null;
    const input = await this.shared(id, cars.after);
    const key = `try ${caseId} ${keyOf(input)}`;
    return this.once(key, at, (told) => this.crew.work('heat', { input, flow, caseId }, told));
  }

  /** What each cure is worth on one line in a case. */
  async cures(id: string, car: Car, wish: { line: string; case: string }, at: JobAtWork): Promise<LineCures | null> {
    const flow = await this.flowOf(id, car, at);
    if (flow === undefined) return null;
    const input = await this.shared(id, car);
    const { line, case: caseId } = wish;
    const key = `cures ${line} ${caseId} ${keyOf(input)}`;
    return this.once(key, at, (told) => this.crew.work('heatCures', { input, flow, line, caseId }, told));
  }

  /** Null where nothing flows in the car; undefined where it was stopped. */
  private async flowOf(id: string, car: Car, at: JobAtWork): Promise<FlowAnswer | null | undefined> {
    if (!flows(car)) return null;
    const answer = await this.flow.ofCar(id, car, undefined, this.silent(car, at));
    return answer === null ? undefined : answer.flow;
  }

  /** What flows is worked out first, as a part of the way. */
  private silent(car: Car, at: JobAtWork): JobAtWork {
    return {
      told: () => at.told(0, (car.cases ?? []).length + FLOW_STEPS),
      early: () => {},
      onStop: at.onStop,
    };
  }

  /** Kept, or worked out once for all who ask at the same time: it is ended where none of them waits any more. */
  private async once<T extends Kept>(
    key: string,
    at: JobAtWork,
    ask: (told: (done: number, total: number) => void) => CrewJob<T>,
  ): Promise<T> {
    const had = this.kept.get(key) as T | undefined;
    if (had !== undefined) return had;
    const asked = this.asked.get(key) ?? { job: ask((done, total) => void at.told(done, total)), waiting: 0 };
    this.asked.set(key, asked);
    asked.waiting++;
    at.onStop(() => {
      asked.waiting--;
      if (asked.waiting === 0) asked.job.stop();
    });
    try {
      const answer = (await asked.job.answer) as T;
      this.kept.set(key, answer);
      for (const oldest of this.kept.keys()) {
        if (this.kept.size <= MOST_KEPT) break;
        this.kept.delete(oldest);
      }
      return answer;
    } finally {
      this.asked.delete(key);
    }
  }
}

/** The running case of most power, else of most revolutions; none where there is but one to ask. */
function hardest(cases: readonly Case[]): Case | undefined {
  if (cases.length < 2) return undefined;
  const hard = ({ powerKw = 0, engineRpm }: Case): number => powerKw + engineRpm / 1e6;
  return cases.filter(({ engineRpm }) => engineRpm > 0).toSorted((a, b) => hard(b) - hard(a))[0];
}

/** Of all that heat, reach and rules depend on. */
export function keyOf({ car, meshes }: SharedCar): string {
  const meshMarks = new Map(meshes.map(({ file, hash }) => [file, hash]));
  return createHash('sha256')
    .update(heatKey({ car, meshMarks, tool: toolMark() }))
    .digest('hex');
}
