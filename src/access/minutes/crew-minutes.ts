/** One step of a job: what can be done by several at once, and what takes everyone. */
export interface CrewStep {
  readonly each: readonly number[];
  readonly together: number;
}

/**
 * Minutes of a job for a crew: steps one after another; within a step the longest task first, each to whoever is free. Never less than a
 * crew could do it in that waits for each other between steps.
 *
 * @param crew - how many work on the car, 1 or more
 */
export function crewMinutes(steps: readonly CrewStep[], crew: number): number {
  return steps.reduce((sum, { each, together }) => {
    const free = new Array<number>(Math.max(1, crew)).fill(0);
    for (const task of each.toSorted((a, b) => b - a)) {
      const next = free.indexOf(Math.min(...free));
      free[next] = free[next]! + task;
    }
    return sum + Math.max(...free) + together;
  }, 0);
}
