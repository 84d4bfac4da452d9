import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { changedAnswer } from '../src/flow/planted/changed-answer.ts';

const title = "the demo's circuits changed at random: an answer of numbers and sentences, or a refusal with its place";
const SEEDS = 400;
/** Pictures and a driven log are asked of one car in so many. */
const WHOLE_EVERY = 10;

const demo = fileURLToPath(new URL('../test/screen/fellside-taken.json.gz', import.meta.url));

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  const text = gunzipSync(readFileSync(demo)).toString();
  const lines: string[] = [];
  let [passed, failed, refused, unsolved, states, slowestMs, slowest] = [0, 0, 0, 0, 0, 0, 0];
  for (let seed = 1; seed <= SEEDS; seed++) {
    const from = performance.now();
    const answer = changedAnswer(text, seed, seed % WHOLE_EVERY === 0);
    const ms = performance.now() - from;
    if (ms > slowestMs) [slowestMs, slowest] = [ms, seed];
    refused += answer.isRefused ? 1 : 0;
    unsolved += answer.unsolved;
    states += answer.states;
    if (answer.faults.length === 0) passed++;
    else {
      failed++;
      lines.push(`FAILED: seed ${seed} (${answer.changes.join('; ')}): ${answer.faults.slice(0, 3).join('; ')}`);
    }
    watch(seed, SEEDS);
  }
  lines.push(
    `${refused} cars refused by their reader; of the rest ${states} states, ${unsolved} of them refused in words`,
  );
  lines.push(`slowest: seed ${slowest}, ${(slowestMs / 1000).toFixed(1)} s`);
  return { passed, failed, lines };
}

export default { title, run };
