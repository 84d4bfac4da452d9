import { bookNuts, orderOf, planCar, planSnagsOf, type Watch, wayAlone, waysOf } from '#answers';
import { findLine } from '#car';
import type { Planned, Way } from '#lines';
import type { Snag } from '#snags';
import { compare, type Comparison, keptLines, type KeptLines, type Order } from '#stock';
import { AheadHelp, type AheadPort, helpAhead } from './ahead.ts';
import { type CarInput, worldOf } from './car-input.ts';
import { standingTasks } from './standing-tasks.ts';

/** A plan with all that is read off it. */
export interface PlanAnswer {
  readonly planned: Planned;
  readonly snags: readonly Snag[];
  readonly order: Order;
}

interface ComparedInput {
  readonly from: CarInput;
  readonly plannedFrom: Planned;
  readonly to: CarInput;
  readonly planned: Planned;
  readonly kept: KeptLines;
}

/** The heavy jobs: each a pure function of what it is handed. */
export const tasks = {
  ways: ({ input, line, count }: { input: CarInput; line: string; count: number }): Way[] =>
    waysOf(worldOf(input), line, count),
  alone: ({ input, line }: { input: CarInput; line: string }): Way =>
    wayAlone(worldOf(input), findLine(input.car, line)!),
  /** Works lines out ahead for the thread at the other end of the port, until it closes it. */
  helpAhead: ({ input, port }: { input: CarInput; port: AheadPort }): Promise<void> => helpAhead(worldOf(input), port),
  plan: (
    { input, alone, help }: { input: CarInput; alone: ReadonlyMap<string, Way>; help: AheadPort | null },
    watch: Watch,
  ): PlanAnswer => {
    const world = worldOf(input);
    const ahead = help === null ? null : new AheadHelp(world, help);
    const planned = planCar(world, watch, { alone, ...(ahead === null ? {} : { ahead: ahead.begin }) });
    ahead?.end();
    return { planned, snags: planSnagsOf(world, planned), order: orderOf(world, planned) };
  },
  /** Which lines of the first car still do in the second. */
  kept: ({ from, plannedFrom, to }: { from: CarInput; plannedFrom: Planned; to: CarInput }): KeptLines =>
    keptLines(worldOf(from), plannedFrom, worldOf(to)),
  compare: ({ from, plannedFrom, to, planned, kept }: ComparedInput): Comparison =>
    compare(worldOf(from), plannedFrom, worldOf(to), planned, kept),
  /** Nuts that no tool goes on well, for the book. */
  bookNuts: ({ input }: { input: CarInput }): ReturnType<typeof bookNuts> => bookNuts(worldOf(input)),
  ...standingTasks,
} as const;

export type TaskName = keyof typeof tasks;
export type TaskInput<N extends TaskName> = Parameters<(typeof tasks)[N]>[0];
export type TaskResult<N extends TaskName> = Awaited<ReturnType<(typeof tasks)[N]>>;
