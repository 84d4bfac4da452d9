import { createHash } from 'node:crypto';
import { type FlowBeside, flowKey, type FlowTried } from '#answers';
import type { Car } from '#car';
import { type CrewJob, type DrivenLaps, type SharedCar, type StandingCrew } from '#crew';
import type { CircuitFlow, FlowAnswer, FlowViews } from '#flow';
import { InPassing, type Passing } from './in-passing.ts';
import type { JobAtWork } from './jobs.ts';
import { RequestFault } from './request-fault.ts';

/** The flow of a car as far as it is known: cases come in one after the other, the one that was asked about first. */
export interface CarFlow {
  readonly flow: FlowAnswer;
  /** Null until the cases asked about first are there. */
  readonly views: FlowViews | null;
}

/** Answers kept: a car of six cases, before and after a few changes. */
const MOST_KEPT = 60;

interface Asked {
  readonly job: CrewJob<FlowAnswer | FlowBeside>;
  /** Those who still wait for it. */
  waiting: number;
}

/** Does it flow, for the cars on the shelf: each case on its own, kept by all that it depends on. */
export class FlowDesk {
  private readonly crew: StandingCrew;
  private readonly shared: (id: string, car: Car) => Promise<SharedCar>;
  private readonly kept = new Map<string, FlowAnswer | FlowBeside>();
  private readonly asked = new Map<string, Asked>();
  private readonly passing = new InPassing<FlowAnswer>();

  constructor(crew: StandingCrew, shared: (id: string, car: Car) => Promise<SharedCar>) {
    this.crew = crew;
    this.shared = shared;
  }

  /** Told of each car whose flow has come in; it was asked about in passing. */
  listen(hear: (id: string) => void): void {
    this.passing.listen(hear);
  }

  /** The flow of a car as far as it is known. What is not known is begun and not waited for; a later car takes its place. */
  inPassing(id: string, input: SharedCar): Passing<FlowAnswer> {
    if (!flows(input.car)) return { state: 'none', answer: null };
    return this.passing.ask(id, keyOf(input, input.car), async (at) =>
      this.ofShared(input, undefined, at).then((found) => found?.flow ?? null),
    );
  }

  /** The case named first, then what is drawn over engine speed and g, then all other cases. */
  async ofCar(id: string, car: Car, first: string | undefined, at: JobAtWork): Promise<CarFlow | null> {
    return this.ofShared(await this.shared(id, car), first, at);
  }

  /** One case alone: what its heat asks, long before the others are there. */
  async ofCase(id: string, car: Car, caseId: string, at: JobAtWork): Promise<FlowAnswer> {
    return this.inCase(await this.shared(id, car), caseId, at);
  }

  private async ofShared(input: SharedCar, first: string | undefined, at: JobAtWork): Promise<CarFlow | null> {
    const cases = input.car.cases ?? [];
    const ids = cases.length === 0 ? [undefined] : cases.map((one) => one.id);
    const inTurn = [...ids.filter((one) => one === first), ...ids.filter((one) => one !== first)];
    const found = new Map<string | undefined, FlowAnswer>();
    let beside: FlowBeside | null = null;
    const total = inTurn.length + 1;
    const soFar = (): CarFlow => ({
      flow: joined(
        ids.flatMap((one) => found.get(one) ?? []),
        beside?.whole ?? null,
      ),
      views: beside?.views ?? null,
    });
    for (const [i, caseId] of inTurn.entries()) {
      if (!at.told(found.size + (beside === null ? 0 : 1), total)) return null;
      found.set(caseId, await this.inCase(input, caseId, at));
      at.early(soFar());
      if (i > 0) continue;
      beside = await this.once(`beside ${keyOf(input, input.car)}`, at, () => this.crew.work('flowBeside', { input }));
      at.early(soFar());
    }
    at.told(total, total);
    return soFar();
  }

  /** A line of the car in another size; nothing is kept. */
  async tried(id: string, car: Car, wish: { line: string; dash: number }, at: JobAtWork): Promise<FlowTried> {
    const { line, dash } = wish;
    const job = this.crew.work('flowTried', { input: await this.shared(id, car), line, dash }, at.told);
    at.onStop(job.stop);
    const tried = await job.answer;
    if ('fault' in tried) throw new RequestFault(422, tried.fault);
    return tried;
  }

  /** A driven log through the dry sumps of the car. */
  async driven(id: string, car: Car, bytes: Uint8Array, at: JobAtWork): Promise<DrivenLaps> {
    const job = this.crew.work('laps', { input: await this.shared(id, car), bytes }, at.told);
    at.onStop(job.stop);
    const laps = await job.answer;
    if ('fault' in laps) throw new RequestFault(422, laps.fault);
    return laps;
  }

  private inCase(input: SharedCar, caseId: string | undefined, at: JobAtWork): Promise<FlowAnswer> {
    const { car } = input;
    const own = { ...car, cases: (car.cases ?? []).filter((one) => one.id === caseId) };
    return this.once(keyOf(input, own), at, () => this.crew.work('flow', { input, caseId }));
  }

  /** Kept, or worked out once for all who ask at the same time: it is ended where none of them waits any more. */
  private async once<T extends FlowAnswer | FlowBeside>(key: string, at: JobAtWork, ask: () => CrewJob<T>): Promise<T> {
    const had = this.kept.get(key) as T | undefined;
    if (had !== undefined) {
      remember(this.kept, key, had, MOST_KEPT);
      return had;
    }
    const asked = this.asked.get(key) ?? { job: ask(), waiting: 0 };
    this.asked.set(key, asked);
    asked.waiting++;
    at.onStop(() => {
      asked.waiting--;
      if (asked.waiting === 0) asked.job.stop();
    });
    try {
      const answer = (await asked.job.answer) as T;
      remember(this.kept, key, answer, MOST_KEPT);
      return answer;
    } finally {
      this.asked.delete(key);
    }
  }
}

/** Has it a circuit to ask about? */
export const flows = ({ circuits = [] }: Car): boolean => circuits.some(({ kind }) => kind !== 'other');

/** Put last; the oldest go where there are too many. */
function remember<T>(known: Map<string, T>, key: string, value: T, most: number): void {
  known.delete(key);
  known.set(key, value);
  for (const oldest of known.keys()) {
    if (known.size <= most) break;
    known.delete(oldest);
  }
}

function keyOf({ meshes }: SharedCar, car: Car): string {
  const meshMarks = new Map(meshes.map(({ file, hash }) => [file, hash]));
  return createHash('sha256').update(flowKey({ car, meshMarks })).digest('hex');
}

/** Answers to one case each as one answer, with what holds in all of them. */
function joined(answers: readonly FlowAnswer[], whole: FlowAnswer | null): FlowAnswer {
  const [one] = answers;
  if (one === undefined) return { circuits: [] };
  return {
    circuits: one.circuits.map((circuit): CircuitFlow => {
      const same = answers.flatMap(({ circuits }) => circuits.filter((other) => other.circuit === circuit.circuit));
      const about = whole?.circuits.find((other) => other.circuit === circuit.circuit);
      const findings = [...(about?.findings ?? []), ...same.flatMap((other) => other.findings)];
      return { ...circuit, ...about, findings: once(findings), states: same.flatMap(({ states }) => states) };
    }),
  };
}

/** Each said once, though several cases say it. */
const once = (findings: CircuitFlow['findings']): CircuitFlow['findings'] => [
  ...new Map(findings.map((finding) => [JSON.stringify([finding.code, finding.text]), finding])).values(),
];
