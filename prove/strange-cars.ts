import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { runMain } from '../src/cli/run-main.fixture.ts';
import { type Raw, type RawCar, strangeCar } from '../test/cars/strange-car.ts';

const title = 'cars nobody has seen, put through every command: it ends 0 or 1, says no NaN, and prints its papers';
const SEEDS = 24;
/** So many of a hundred keep the ways they have; the rest is planned anew, which takes longer. */
const PLANNED_EVERY = 4;
const root = fileURLToPath(new URL('..', import.meta.url));

/** What no sentence and no number may come out as. */
const NO_ANSWER = /\bNaN\b|\bundefined\b|\[object |\bInfinity\b/u;
/** Of the ends with 2, those that are an answer: a car whose breaks name no job, a panel that a change left without a flat. */
const NO_FLAT = /names no job|cannot be laid flat/u;

const given = (car: RawCar, key: string): Raw[] => (car[key] ?? []) as Raw[];

/** Every command that asks of a car, once in words or as JSON, in mm or inches. */
function asked(car: RawCar, folder: string, isPlanned: boolean, seed: number): string[][] {
  const file = join(folder, 'car.json');
  const on = isPlanned ? join(folder, 'taken.json') : file;
  const part = car.parts[seed % Math.max(1, car.parts.length)];
  const line = car.lines[seed % Math.max(1, car.lines.length)];
  const commands = [
    ...(isPlanned ? [['plan', file, '--out', on]] : []),
    ...['snags', 'order', 'flow', 'heat'].map((command) => [command, on, '--json']),
    ...['heat', 'reach', 'due', 'rules'].map((command) => [command, on, '--inches']),
    ...[part, line].flatMap((one) => (one === undefined ? [] : [['strip', on, one.id]])),
    ...(line === undefined ? [] : [['heat', on, '--cures', line.id]]),
    ...given(car, 'panels').flatMap(({ id }) => [
      ['panel', on, id, '--inches'],
      ['panel', on, id, '--out', join(folder, `${id}.${['pdf', 'dxf', 'svg'][seed % 3]}`)],
    ]),
    ...given(car, 'levers').flatMap(({ id }) => [
      ['lever', on, id, '--inches'],
      ['lever', on, id, '--json'],
    ]),
    ['book', on, '--out', join(folder, 'book.pdf')],
    ['cards', on, '--out', join(folder, 'papers')],
  ];
  return commands;
}

/** What is wrong with how a command ended; null: nothing. */
async function faultOf(words: string[]): Promise<string | null> {
  const { code, out, err } = await runMain(words, { env: { FAIRLEAD_THREADS: '1' } }).catch((fault: unknown) => ({
    code: 3,
    out: '',
    err: fault instanceof Error ? fault.message : String(fault),
  }));
  const said = NO_ANSWER.exec(out) ?? NO_ANSWER.exec(err);
  if (said !== null)
    return `${words[0]!} says ...${said.input.slice(Math.max(0, said.index - 60), said.index + 40)}...`;
  if (code === 0 || code === 1 || (code === 2 && NO_FLAT.test(err))) return null;
  return `${words.join(' ')} ends ${code}: ${err.slice(0, 200)}`;
}

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  const taken = gunzipSync(readFileSync(join(root, 'test/screen/fellside-taken.json.gz'))).toString();
  const bare = readFileSync(join(root, 'demo/fellside.json'), 'utf8');
  const folder = mkdtempSync(join(tmpdir(), 'fairlead-cars-'));
  const lines: string[] = [];
  let [passed, failed, commands] = [0, 0, 0];
  try {
    for (let seed = 1; seed <= SEEDS; seed++) {
      const isPlanned = seed % PLANNED_EVERY === 0;
      const whole = JSON.parse(isPlanned ? bare : taken) as RawCar;
      const strange = strangeCar(whole, seed, { lines: isPlanned ? 0.12 : 0.3, parts: 0.35 });
      const faults: string[] = [];
      if (strange !== null) {
        const at = join(folder, `${seed}`);
        mkdirSync(at);
        cpSync(join(root, 'demo/scans'), join(at, 'scans'), { recursive: true });
        writeFileSync(join(at, 'car.json'), JSON.stringify(strange.car));
        for (const words of asked(strange.car, at, isPlanned, seed)) {
          commands++;
          const fault = await faultOf(words);
          if (fault !== null) faults.push(fault.replaceAll(at, ''));
        }
        rmSync(at, { recursive: true });
      }
      if (faults.length === 0) passed++;
      else {
        failed++;
        lines.push(`FAILED: seed ${seed}`, ...faults.map((fault) => `  ${fault}`));
      }
      watch(seed, SEEDS);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { passed, failed, lines: [...lines, `${commands} commands`] };
}

export default { title, run };
