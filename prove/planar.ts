import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { planarWays, type Word } from '../src/geometry/dubins.ts';
import { growthByRadius, shortestRefined, threeTurnCase } from '../src/geometry/planar-ways.fixture.ts';

const title =
  'refined ways against the six planar words in closed form, heavy in three turns with a short first or last one';
const CASES = 6000;
const RADIUS_MM = 100;
const STEP_MM = 2.5;
const TOLERANCE = 1e-3;

type Watch = (done: number, total: number) => boolean;

async function run(watch: Watch): Promise<{ passed: number; failed: number; lines: string[] }> {
  const random = xoroshiro128plus(4711);
  const uniform = (): number => (random.next() >>> 0) / 4294967296;
  const lines: string[] = [];
  const met = new Map<Word, number>();
  let [passed, failed, steep, steepFound] = [0, 0, 0, 0];
  let worst = 0;
  for (let k = 0; k < CASES; k++) {
    const one = threeTurnCase(uniform, RADIUS_MM);
    const best = planarWays(one.from, one.to, RADIUS_MM)[0]!;
    met.set(best.word, (met.get(best.word) ?? 0) + 1);
    const off = Math.abs(shortestRefined(one, RADIUS_MM, STEP_MM) / best.lengthMm - 1);
    watch(k + 1, CASES);
    const growth = growthByRadius(one, RADIUS_MM);
    if (growth > TOLERANCE) {
      steep++;
      if (off <= growth) steepFound++;
      continue;
    }
    if (off <= TOLERANCE) {
      passed++;
      worst = Math.max(worst, off);
    } else {
      failed++;
      const pieces = best.pieces.map((piece) => piece.toFixed(4)).join(' ');
      lines.push(`case ${k}: ${best.word} ${pieces}: off by ${(100 * off).toFixed(2)} %`);
    }
  }
  const words = [...met].map(([word, times]) => `${word} ${times}`).sort();
  lines.unshift(
    `${passed} of ${passed + failed} within 0.1 %, worst of them ${(100 * worst).toFixed(3)} %; ${words.join(', ')}`,
    `${steep} more whose length grows by over 0.1 % for a radius larger by 0.01 %: ${steepFound} of them found within that growth`,
  );
  return { passed, failed, lines };
}

export default { title, run };
