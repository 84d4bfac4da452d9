import type { ReachFound } from '#answers';
import type { SharedCar, StandingCrew } from '#crew';
import { keyOf, REST_MS } from './heat-desk.ts';
import { InPassing, type Passing } from './in-passing.ts';

/** What no tool reaches and what does not meet the rules, for the cars on the shelf: worked out behind. */
export class ReachDesk {
  private readonly crew: StandingCrew;
  private readonly passing = new InPassing<ReachFound>(REST_MS);

  constructor(crew: StandingCrew) {
    this.crew = crew;
  }

  /** As far as it is known. What is not known is begun and not waited for. */
  inPassing(id: string, input: SharedCar): Passing<ReachFound> {
    if (input.car.parts.length === 0) return { state: 'none', answer: null };
    return this.passing.ask(id, keyOf(input), (at) => {
      const job = this.crew.workBehind('reach', { input });
      at.onStop(job.stop);
      return job.answer;
    });
  }

  /** Told of each car whose answer has come in. */
  listen(hear: (id: string) => void): void {
    this.passing.listen(hear);
  }
}
