import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { toolRoom } from '#access';
import { readCar } from '#car';
import { linesWorld } from '#lines';
import { panelLayouts } from '#panels';

const title = 'tool room: every nut, screw and fixing of the demo with its ways taken';
const ROUNDS = 3;

const cpuMs = (): number => process.cpuUsage().user / 1000;

function run() {
  const text = gunzipSync(readFileSync(new URL('../test/screen/fellside-taken.json.gz', import.meta.url)));
  const reading = readCar(text.toString('utf8'));
  if (!reading.ok) throw new Error('fellside-taken is no car');
  const { car } = reading;
  const world = linesWorld(car, new Map());
  const ways = new Map(car.lines.flatMap(({ id, taken }) => (taken ? [[id, taken] as const] : [])));
  const ask = { bay: world.bay, shelf: world.shelf, ways, layouts: panelLayouts(car) };
  const times: number[] = [];
  let room = toolRoom(ask);
  for (let n = 0; n < ROUNDS; n++) {
    const from = cpuMs();
    room = toolRoom(ask);
    times.push(cpuMs() - from);
  }
  const median = times.sort((a, b) => a - b)[ROUNDS >> 1]!;
  const count = (verdict: string): number => room.nuts.filter((row) => row.verdict === verdict).length;
  return {
    headers: ['nuts', 'yes', 'tight', 'no', 'CPU s, one thread'],
    rows: [[room.nuts.length, count('yes'), count('tight'), count('no'), (median / 1000).toFixed(2)]],
    goal: 'all nuts in 5 s',
  };
}

export default { title, run };
