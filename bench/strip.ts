import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { stripOf, strippable } from '#answers';
import { readCar } from '#car';
import { loadCarMeshes } from '#intake';
import { type LinesWorld, linesWorld } from '#lines';

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

/** The slowest of all 78 when each is asked first of a car just loaded, the slowest first. */
const SLOWEST = [
  ...['head', 'block', 'plenum', 'water-pump', 'pump', 'turbine', 'tank', 'fuel-cell'],
  ...['transaxle', 'rail', 'PN1', 'turbo', 'compressor', 'filter'],
];

async function run() {
  const text = gunzipSync(readFileSync(new URL('../test/screen/fellside-taken.json.gz', import.meta.url)));
  /** A car just loaded; its panels have names of their own, so that none is found laid out already. */
  const loaded = async (number: number): Promise<LinesWorld> => {
    const reading = readCar(text.toString('utf8'));
    if (!reading.ok) throw new Error('fellside-taken is no car');
    const panels = (reading.car.panels ?? []).map((panel) => ({ ...panel, name: `${panel.id} ${number}` }));
    const car = { ...reading.car, panels };
    const { meshes } = await loadCarMeshes(car, fileURLToPath(new URL('../demo', import.meta.url)));
    return linesWorld(car, meshes);
  };
  const timed = (id: string, world: LinesWorld): Timed => {
    const from = cpuMs();
    const { isProved, found } = stripOf(world, [], id);
    return { id, ms: cpuMs() - from, isProved, found };
  };
  /** The program itself is not yet warm either. */
  const cold = timed('turbo', await loaded(0));
  /** Nothing known of the car's ways out yet: each alone on a car just loaded. */
  const first: Timed[] = [];
  for (const id of SLOWEST) first.push(timed(id, await loaded(first.length + 1)));
  const world = await loaded(first.length + 1);
  const { car } = world;
  const all = strippable({ car }).map((id) => timed(id, world));
  const only = (ids: readonly string[]): Timed[] => all.filter(({ id }) => ids.includes(id));
  return {
    headers: ['what', 'asked', 'found', 'stays on', 'proved least', 'CPU s, middle', 'worst', 'of'],
    rows: [
      row('turbo, first of all', [cold]),
      row('the slowest, each asked first', first),
      ...first.slice(0, 4).map((one) => row(`${one.id}, asked first`, [one])),
      row('parts', only(car.parts.map(({ id }) => id))),
      row('panels', only((car.panels ?? []).map(({ id }) => id))),
      row('lines', only(car.lines.map(({ id }) => id))),
    ],
    goal: 'any part in 2 s with the car loaded',
  };
}

export default { title, run };
