import { createHash } from 'node:crypto';
import type { FlowBeside } from '#answers';
import type { Car } from '#car';
import type { CrewJob, SharedCar, StandingCrew } from '#crew';
import type { CircuitFlow, FlowAnswer, FlowViews } from '#flow';
import type { JobAtWork } from './jobs.ts';

/** The flow of a car as far as it is known: cases come in one after the other, the one that was asked about first. */
export interface CarFlow {
  readonly flow: FlowAnswer;
  /** Null until the cases asked about first are there. */
  readonly views: FlowViews | null;
}

/** Answers kept: a car of six cases, before and after a few changes. */
const MOST_KEPT = 60;

/** Does it flow, for the cars on the shelf: each case on its own, kept by all that it depends on. */
export class FlowDesk {
  private readonly crew: StandingCrew;
  private readonly shared: (id: string, car: Car) => Promise<SharedCar>;
  private readonly kept = new Map<string, FlowAnswer | FlowBeside>();

  constructor(crew: StandingCrew, shared: (id: string, car: Car) => Promise<SharedCar>) {
    this.crew = crew;
    this.shared = shared;
  }

  /** The case named first, then what is drawn over engine speed and g, then all other cases. */
  async ofCar(id: string, car: Car, first: string | undefined, at: JobAtWork): Promise<CarFlow | null> {
    const input = await this.shared(id, car);
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
      beside = await this.once(`beside ${input.key}`, at, () => this.crew.work('flowBeside', { input }));
      at.early(soFar());
    }
    at.told(total, total);
    return soFar();
  }

  private inCase(input: SharedCar, caseId: string | undefined, at: JobAtWork): Promise<FlowAnswer> {
    const { car, meshes } = input;
    const own = { ...car, cases: (car.cases ?? []).filter((one) => one.id === caseId) };
    const hash = createHash('sha256').update(JSON.stringify(own));
    for (const mesh of meshes) hash.update(`\n${mesh.file} ${mesh.hash}`);
    return this.once(hash.digest('hex'), at, () => this.crew.work('flow', { input, caseId }));
  }

  private async once<T extends FlowAnswer | FlowBeside>(key: string, at: JobAtWork, ask: () => CrewJob<T>): Promise<T> {
    const had = this.kept.get(key) as T | undefined;
    this.kept.delete(key);
    const answer = had ?? (await stoppable(ask(), at));
    this.kept.set(key, answer);
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= MOST_KEPT) break;
      this.kept.delete(oldest);
    }
    return answer;
  }
}

function stoppable<T>(job: CrewJob<T>, at: JobAtWork): Promise<T> {
  at.onStop(job.stop);
  return job.answer;
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
