import { type MessagePort, receiveMessageOnPort } from 'node:worker_threads';
import { wayAmong } from '#answers';
import { findLine } from '#car';
import { type Body, LineObstacles } from '#geometry';
import type { Ahead, LinesWorld, Way } from '#lines';

/** One end of the way between the thread that plans and the one that helps; `answered` counts the answers sent. */
export interface AheadPort {
  readonly port: MessagePort;
  readonly answered: Int32Array;
}

/** What stands where, by number: bodies are sent once. */
interface AheadAsking {
  readonly line: string;
  readonly placed: readonly { readonly id: string; readonly number: number; readonly bodies?: readonly Body[] }[];
}

/** The planning thread's side: it asks, goes on with its own work, and waits where it needs the answer. */
export class AheadHelp {
  private readonly world: LinesWorld;
  private readonly other: AheadPort;
  private readonly numbers = new WeakMap<readonly Body[], number>();
  private sent = 0;
  private asked = 0;
  private read = 0;
  private readonly answers = new Map<number, Way>();

  constructor(world: LinesWorld, other: AheadPort) {
    this.world = world;
    this.other = other;
  }

  readonly begin: Ahead = (line, placed, isIdle) => {
    if (isIdle) {
      const way = wayAmong(this.world, line, placed);
      return () => way;
    }
    const asking: AheadAsking = { line: line.id, placed: placed.ids.map((id) => this.named(id, placed.bodiesOf(id))) };
    this.other.port.postMessage(asking);
    const number = ++this.asked;
    return () => this.answer(number);
  };

  end(): void {
    this.other.port.close();
  }

  private named(id: string, bodies: readonly Body[]): AheadAsking['placed'][number] {
    const known = this.numbers.get(bodies);
    if (known !== undefined) return { id, number: known };
    const number = ++this.sent;
    this.numbers.set(bodies, number);
    return { id, number, bodies };
  }

  private answer(number: number): Way {
    while (this.read < number) {
      for (let seen = Atomics.load(this.other.answered, 0); seen <= this.read; ) {
        Atomics.wait(this.other.answered, 0, seen);
        seen = Atomics.load(this.other.answered, 0);
      }
      this.answers.set(++this.read, receiveMessageOnPort(this.other.port)!.message as Way);
    }
    const way = this.answers.get(number)!;
    this.answers.delete(number);
    return way;
  }
}

/** The helping thread's side. */
export function helpAhead(world: LinesWorld, { port, answered }: AheadPort): Promise<void> {
  const known = new Map<number, readonly Body[]>();
  return new Promise((done) => {
    port.on('close', done);
    port.on('message', ({ line, placed }: AheadAsking) => {
      const standing = new LineObstacles();
      for (const { id, number, bodies } of placed) {
        if (bodies !== undefined) known.set(number, bodies);
        standing.add(id, known.get(number)!);
      }
      port.postMessage(wayAmong(world, findLine(world.car, line)!, standing));
      Atomics.add(answered, 0, 1);
      Atomics.notify(answered, 0);
    });
  });
}
