import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { bookOf } from '#answers';
import type { BookInput } from '#book';
import { type Car, readCar } from '#car';
import { linesWorld } from '#lines';

const file = (place: string): Buffer => readFileSync(fileURLToPath(new URL(`../../${place}`, import.meta.url)));

const carOf = (text: string): Car => {
  const reading = readCar(text);
  if (!reading.ok) throw new Error(reading.faults.map(({ place }) => place).join(', '));
  return reading.car;
};

/** The demo with the ways that were taken for it, without its scan: what is worked out of it once, for all that is printed of it. */
export const demoCar = (): Car => carOf(gunzipSync(file('test/screen/fellside-taken.json.gz')).toString('utf8'));

let demo: BookInput | undefined;
export function demoInput(): BookInput {
  demo ??= bookOf(linesWorld(demoCar(), new Map()));
  return demo;
}

/** Three ports and a tape: no circuits, no panels, nothing taken. */
export const kitInput = (): BookInput =>
  bookOf(linesWorld(carOf(file('demo/three-ports.json').toString('utf8')), new Map()));

/** The demo with names as long as the car file takes, words without a space, signs of other scripts. */
export function uglyInput(): BookInput {
  const input = demoInput();
  const long = `Wärmetauscherhalterungsverschraubungssatz ${'x'.repeat(60)} ${'ein sehr langer Name '.repeat(5)}`.slice(
    0,
    195,
  );
  const car: Car = {
    ...input.car,
    name: long,
    parts: input.car.parts.map((part) => ({ ...part, name: `${part.id} ${long}`.slice(0, 200) })),
    lines: input.car.lines.map((line) => ({ ...line, name: `${line.id} ${long}`.slice(0, 200) })),
  };
  return {
    ...input,
    car,
    lines: input.lines.map((own) => ({ ...own, line: car.lines.find(({ id }) => id === own.line.id)! })),
  };
}
