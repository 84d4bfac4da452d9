import type { MessagePort } from 'node:worker_threads';
import { type TaskName, tasks } from './tasks.ts';

/** What a thread is asked. `stop` turns non-zero when nobody waits any more. */
export interface Asking {
  readonly task: TaskName;
  readonly input: unknown;
  readonly stop: Int32Array;
}

/** What it says: how far it is, then the answer or why there is none. */
export type Saying =
  | { readonly kind: 'progress'; readonly done: number; readonly total: number }
  | { readonly kind: 'answer'; readonly result: unknown }
  | { readonly kind: 'fault'; readonly message: string; readonly stack: string };

/** Answers one asking after the other; for the worker's side of a thread. */
export function serveTasks(port: MessagePort): void {
  port.on('message', async ({ task, input, stop }: Asking) => {
    const say = (saying: Saying): void => port.postMessage(saying);
    const watch = (done: number, total: number): boolean => {
      say({ kind: 'progress', done, total });
      return Atomics.load(stop, 0) === 0;
    };
    try {
      const work = tasks[task] as (input: unknown, watch: (done: number, total: number) => boolean) => unknown;
      say({ kind: 'answer', result: await work(input, watch) });
    } catch (fault) {
      const error = fault instanceof Error ? fault : new Error(`crew: ${task} threw ${String(fault)}`);
      say({ kind: 'fault', message: error.message, stack: error.stack ?? '' });
    }
  });
}
