import { type MessagePort, Worker } from 'node:worker_threads';
import type { Asking, Saying } from './serve-tasks.ts';
import type { TaskInput, TaskName, TaskResult } from './tasks.ts';
import { threadCode } from './thread-code.mjs';

/** A heavy job on a thread could not be done: the thread died, or the job threw. */
export class CrewError extends Error {
  constructor(what: string, cause?: string) {
    super(`crew: ${what}`);
    this.name = 'CrewError';
    if (cause !== undefined && cause !== '') this.stack = cause;
  }
}

/** One worker thread; it does one task at a time. */
export class Hand {
  private started: Worker | undefined;
  private readonly stop = new Int32Array(new SharedArrayBuffer(4));

  /** Does a task; `told` hears how far it is and may end it with false. */
  run<N extends TaskName>(
    task: N,
    input: TaskInput<N>,
    told?: (done: number, total: number) => boolean,
    handOver: readonly MessagePort[] = [],
  ): Promise<TaskResult<N>> {
    return new Promise((done, failed) => {
      // Its thread begins with its first task: a hand that is never asked costs nothing.
      this.started ??= new Worker(new URL('./worker.mjs', import.meta.url), { workerData: { code: threadCode() } });
      const [worker, stop] = [this.started, this.stop];
      const end = (): void => {
        worker.off('message', hear);
        worker.off('error', broken);
        worker.off('exit', gone);
      };
      const hear = (saying: Saying): void => {
        if (saying.kind === 'progress') {
          if (told?.(saying.done, saying.total) === false) Atomics.store(stop, 0, 1);
          return;
        }
        end();
        if (saying.kind === 'answer') done(saying.result as TaskResult<N>);
        else failed(new CrewError(`${task}: ${saying.message}`, saying.stack));
      };
      const broken = (fault: Error): void => {
        end();
        failed(new CrewError(`${task}: ${fault.message}`, fault.stack));
      };
      const gone = (code: number): void => {
        end();
        failed(new CrewError(`${task}: the thread ended with ${code} before its answer`));
      };
      worker.on('message', hear);
      worker.on('error', broken);
      worker.on('exit', gone);
      worker.postMessage({ task, input, stop } satisfies Asking, [...handOver]);
    });
  }

  /** Whatever it does next is ended at the first chance. */
  callOff(): void {
    Atomics.store(this.stop, 0, 1);
  }

  async end(): Promise<void> {
    await this.started?.terminate();
  }
}
