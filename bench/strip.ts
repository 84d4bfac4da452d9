import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { stripOf, strippable } from '#answers';
import { readCar } from '#car';
import { loadCarMeshes } from '#intake';
import { linesWorld } from '#lines';

const title = 'strip-down of every part, panel and line of the demo with its ways taken, one car held';

const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

interface Timed {
  readonly id: string;
  readonly ms: number;
  readonly isProved: boolean;
  readonly found: string;
}

/** One table row: how long these took, in the middle and at worst. */
function row(name: string, timed: readonly Timed[]): (string | number)[] {
  const sorted = timed.toSorted((a, b) => a.ms - b.ms);
  const worst = sorted.at(-1)!;
  return [
    name,
    timed.length,
    timed.filter(({ found }) => found === 'found').length,
    timed.filter(({ found }) => found === 'stays-on').length,
    timed.filter(({ isProved }) => isProved).length,
    (sorted[sorted.length >> 1]!.ms / 1000).toFixed(2),
    (worst.ms / 1000).toFixed(2),
    worst.id,
  ];
}

async function run() {
  const text = gunzipSync(readFileSync(new URL('../test/screen/fellside-taken.json.gz', import.meta.url)));
  const reading = readCar(text.toString('utf8'));
  if (!reading.ok) throw new Error('fellside-taken is no car');
  const { car } = reading;
  const { meshes } = await loadCarMeshes(car, fileURLToPath(new URL('../demo', import.meta.url)));
  const world = linesWorld(car, meshes);
  const timed = (id: string, held = world): Timed => {
    const from = cpuMs();
    const { isProved, found } = stripOf(held, [], id);
    return { id, ms: cpuMs() - from, isProved, found };
  };
  /** Nothing known of the car's ways out yet: each alone on a car just loaded. */
  const first = ['turbo', 'filter', 'pump', 'head'].map((id) => timed(id, linesWorld(car, meshes)));
  const all = strippable({ car }).map((id) => timed(id));
  const only = (ids: readonly string[]): Timed[] => all.filter(({ id }) => ids.includes(id));
  return {
    headers: ['what', 'asked', 'found', 'stays on', 'proved least', 'CPU s, middle', 'worst', 'of'],
    rows: [
      ...first.map((one) => row(`${one.id}, first asked`, [one])),
      row('parts', only(car.parts.map(({ id }) => id))),
      row('panels', only((car.panels ?? []).map(({ id }) => id))),
      row('lines', only(car.lines.map(({ id }) => id))),
    ],
    goal: 'any part in 2 s with the car loaded',
  };
}

export default { title, run };
