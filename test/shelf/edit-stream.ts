// Runs until it is killed: the server on a real shelf, and seeded edits and undos that it is asked for over HTTP, with points and scans
// beside them. Each line it prints was answered as kept before it was printed.
import { createHash } from 'node:crypto';
import { writeSync } from 'node:fs';
import { carFrom, carText, type Edit, faultLine } from '#car';
import { serve } from '#server';
import type { KeptCar } from '#shelf';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformInt } from 'pure-rand/distribution/uniformInt';

const [folder = '', seed = '1'] = process.argv.slice(2);
const generator = xoroshiro128plus(Number(seed));
const chance = (to: number): number => uniformInt(generator, 0, to);
const say = (words: string): void => void writeSync(1, `${words}\n`);

const box = (id: string, x: number) => ({
  id,
  class: 'fixed',
  shapes: [{ box: { minMm: [x, 0, 0], maxMm: [x + 50, 50, 50] } }],
  ports: [{ id: 'a', atMm: [x, 0, 0], faces: [1, 0, 0], end: { type: 'orb', dash: 8 } }],
});
const reading = carFrom({
  fairlead: 1,
  name: 'Killed',
  parts: Array.from({ length: 40 }, (_, i) => box(`p${i}`, i * 100)),
  lines: [{ id: 'L', from: 'p0.a', to: 'p1.a', duty: 'water' }],
});
if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));

const { shelf, address } = await serve({
  dataFolder: folder,
  webFolder: '',
  port: 0,
  isShared: false,
  isReadied: false,
  demo: () => Promise.reject(new Error('no demo car here')),
  log: say,
});

async function asked(what: string, wish: object): Promise<KeptCar> {
  const answer = await fetch(`${address}/api/cars/${now.id}/${what}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ ...wish, who: 'stream' }),
  });
  if (!answer.ok) throw new Error(`${what}: ${await answer.text()}`);
  const said = (await answer.json()) as KeptCar | { readonly now: KeptCar };
  return 'now' in said ? said.now : said;
}

const there = (await shelf.cars())[0]?.id;
let now = there === undefined ? await shelf.addCar(reading.car, 'stream', 'killed') : await shelf.openCar(there);
say('open');

function edit(): Edit {
  const part = `p${chance(39)}`;
  const name = `n${chance(1e6)}`.repeat(1 + chance(8));
  if (chance(3) > 0) return { do: 'set-part', part, field: 'name', value: name };
  return { do: 'move-part', part, byMm: [chance(9), chance(9), chance(9)] };
}

for (;;) {
  const way = chance(19);
  if (way === 0 && now.undo !== null) now = await asked('undo', {});
  else if (way === 1 && now.redo !== null) now = await asked('redo', {});
  else if (way === 2) {
    const file = `scans/${chance(3)}.stl`;
    const bytes = new Uint8Array(chance(chance(4) === 0 ? 6_000_000 : 60_000)).fill(chance(255));
    const { hash } = await shelf.addScan(now.id, file, bytes);
    say(`scan ${file} ${hash}`);
    continue;
  } else if (way === 3) {
    const name = `point ${chance(1e6)}`;
    await shelf.namePoint(now.id, now.revision, name);
    say(`point ${now.revision} ${name}`);
    continue;
  } else {
    const edits = Array.from({ length: 1 + chance(2) }, edit);
    now = await asked('edits', { base: now.revision, edits });
  }
  say(`kept ${now.revision} ${createHash('sha256').update(carText(now.car)).digest('hex')}`);
}
