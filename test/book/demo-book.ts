import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { bookOf } from '#answers';
import type { BookInput, OffPlan, RulePackSheet } from '#book';
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
  const named = {
    ...input,
    car,
    lines: input.lines.map((own) => ({ ...own, line: car.lines.find(({ id }) => id === own.line.id)! })),
  };
  return withMadeUp(named, long);
}

const offPlan = (id: string, words: string): OffPlan => ({
  id,
  title: `${words} off and on`,
  about: [`Drain ${words} first`],
  steps: Array.from({ length: 24 }, (_, i) => ({
    what: `${words} ${i + 1}`,
    how: `3 nuts M8, ring 13 mm; ${words} straight up 240 mm, two hands`,
    drips: i % 3 === 0 ? '0.8 L of oil; 2 × -12 37-degree cap' : '',
    minutes: 0.5 + (i % 5) * 3,
  })),
  minutesOff: 156,
  minutesOn: 203,
  crew: 2,
  wins: Array.from({ length: 6 }, (_, i) => `${i + 1} min less: a dry-break where ${words} ${i} is opened`),
  caps: ['2 × -12 37-degree cap', words],
  onAgain: [`manifold before tank: ${words}`],
  lines: ['O2'],
});

const rulePack = (id: string, words: string): RulePackSheet => ({
  id,
  name: words,
  year: 2026,
  clauses: (['meets', 'does not meet', 'look'] as const).flatMap((verdict, i) => [
    {
      clause: `${i + 1}.4`,
      text: `${words} is no nearer than 76 mm to anything hot`,
      verdict,
      evidence: Array.from({ length: 9 }, (_, k) => `F${k + 1}: 82 mm to the turbine at X 1640, Y 210, Z 480`),
      wantsPhoto: i !== 1,
      lines: ['F1'],
    },
  ]),
  conflicts: [`${words} asks 51 mm where another pack asks 76 mm`],
});

/** What the rooms for strip-down, rules and lives hand over, made up: many rows, with the words given. */
export const withMadeUp = (input: BookInput, words: string): BookInput => ({
  ...input,
  offPlans: [offPlan('turbo', words)],
  nuts: [
    ...(['no', 'tight'] as const).map((verdict) => ({
      id: `O2 pump.pressure swivel nut ${words}`,
      verdict,
      tool: 'open-end 32 mm',
      freeDeg: 24,
      needDeg: 30,
      why: words,
      ...(verdict === 'no' ? { cure: 'take the plenum off first' } : {}),
      line: 'O2',
    })),
    {
      id: 'O3 filter.out swivel nut',
      verdict: 'yes',
      tool: 'open-end 32 mm',
      freeDeg: 90,
      needDeg: 30,
      why: '',
      isMarkHidden: true,
      line: 'O3',
    },
  ],
  rulePacks: [rulePack('hill', words)],
  lifing: {
    day: '2026-11-26',
    due: [true, false].map((isDue) => ({
      id: 'O2',
      what: words,
      isDue,
      stands: 'made 2021-02, stands 60 months',
      when: 'since 2026-02',
      source: 'common practice, no source',
      lines: ['O2'],
    })),
    spares: [{ what: words, qty: 2, servesLines: ['O2', 'O3'], why: 'no oil pressure', unit: 'm', inBox: 0 }],
  },
});

export const fullInput = (): BookInput => withMadeUp(demoInput(), 'oil pump with its belt');
