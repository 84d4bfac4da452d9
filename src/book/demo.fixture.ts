import { type Car, readCar } from '#car';
import type { Way } from '#lines';

export interface DemoWay {
  readonly line: string;
  readonly isTaken: boolean;
  readonly way: Way;
}

/**
 * The demo car, and a plan of it thinned by scripts/make-book-ways.mjs: frozen, since the pictures are tested here and not the
 * planner. `read` gives the text of a file by its place in the checkout.
 */
export function demoOf(read: (place: string) => string): { readonly car: Car; readonly ways: readonly DemoWay[] } {
  const reading = readCar(read('demo/fellside.json'));
  if (!reading.ok) throw new Error(reading.faults.map((fault) => fault.place).join(', '));
  return { car: reading.car, ways: JSON.parse(read('src/book/corpus/fellside-ways.json')) as readonly DemoWay[] };
}
