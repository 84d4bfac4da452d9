import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { readCar } from '#car';
import { readDriveLog } from '#intake';
import { linesWorld, standingWay } from '#lines';
import { type ReadyCircuit, readyCircuit } from '../src/flow/circuit/circuit-state.ts';
import { drawnCircuit } from '../src/flow/circuit/drawn-circuit.ts';
import { type DrySumpState, drySumpState } from '../src/flow/dry-sump/dry-sump-state.ts';
import { lapOf } from '../src/flow/lap/lap.ts';

const title = "flow: the demo's oil circuit over 60 speeds x 10 temperatures, and a lap of 120 s at 100 Hz through it";
const SPEEDS = 60;
const TEMPERATURES = 10;
const file = (name: string): string => fileURLToPath(new URL(`../${name}`, import.meta.url));

/** The demo's dry sump with its ways taken. */
function demoCircuit(): ReadyCircuit {
  const reading = readCar(gunzipSync(readFileSync(file('test/screen/fellside-taken.json.gz'))).toString());
  if (!('car' in reading) || reading.car === undefined) throw new Error('bench: the demo car is not read');
  const { car } = reading;
  const world = linesWorld(car, new Map());
  const ways = new Map(
    car.lines.flatMap((line) => {
      const way = line.taken === undefined || line.taken === null ? null : standingWay(world, line, line.taken);
      return way === null ? [] : [[line.id, way] as const];
    }),
  );
  const circuit = car.circuits!.find(({ kind }) => kind === 'dry-sump')!;
  return readyCircuit(car, drawnCircuit(car, world.shelf, circuit, ways), new Map());
}

const cpuS = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

/** Every state, each begun from the one before it; with how many steps the pressure side took in all. */
function sweep(ready: ReadyCircuit): { refused: number; iterations: number } {
  let [refused, iterations] = [0, 0];
  for (let t = 0; t < TEMPERATURES; t++) {
    let last: DrySumpState | undefined;
    for (let r = 0; r < SPEEDS; r++) {
      const at = {
        id: 'sweep',
        engineRpm: 500 + (8000 * r) / (SPEEDS - 1),
        oilC: (120 * t) / (TEMPERATURES - 1),
        blowByLMin: 20,
      };
      const state = drySumpState(ready, at, last?.liquid.answer);
      if ('why' in state) refused++;
      else {
        last = state;
        iterations += state.liquid.answer.iterations;
      }
    }
  }
  return { refused, iterations };
}

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const rows: string[][] = [];
  const ready = demoCircuit();
  for (const words of ['first time', 'again']) {
    const from = cpuS();
    const { refused, iterations } = sweep(ready);
    const s = cpuS() - from;
    const states = SPEEDS * TEMPERATURES;
    rows.push([
      `${states} states, ${words}`,
      s.toFixed(2),
      ((1000 * s) / states).toFixed(1),
      `${(iterations / states).toFixed(1)} steps of the pressure side's last round; ${refused} refused`,
    ]);
  }
  const reading = await readDriveLog(file('demo/logs/fellside-lap.csv'));
  if (!reading.ok) throw new Error(reading.fault);
  const laps: number[] = [];
  for (const words of ['first time, the table made', 'again']) {
    const from = cpuS();
    const lap = lapOf(ready, reading.log);
    laps.push(cpuS() - from);
    if ('why' in lap) throw new Error(lap.why);
    rows.push([
      `lap of ${lap.seconds} s, ${words}`,
      laps.at(-1)!.toFixed(2),
      '',
      `${lap.samples} rows, five runs with the cures, ${lap.steps.taken} steps each, ${lap.tablePoints} points of the table`,
    ]);
  }
  return {
    headers: ['what', 'cpu s', 'ms a state', 'of it'],
    rows,
    goal: `a lap of 120 s at 100 Hz in <= 1 s: ${laps[0]!.toFixed(2)} here with its table made, ${laps[1]!.toFixed(2)} again`,
  };
}

export default { title, run };
