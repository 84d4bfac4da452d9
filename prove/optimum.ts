import { type Vec, addScaled, distance, perpendicular, cross, sub, unit } from '#geometry';
import { type RivalWay, type Task, taskOf, tried } from '../bench/ways/rivals.ts';
import { plantedBay } from '../src/lines/planted/planted-bay.ts';
import { waysInBay, worldOfBay } from '../src/lines/planted/solved-bay.ts';
import { startOfBend } from '../src/lines/ways/tails.ts';

const title = 'the best way against a separate exhaustive search, bays of at most 3 things';
const BAYS = 12;
const MOST_THINGS = 3;
const CLOCKS = 6;
const VIAS = 4;
const MARGINS = [
  { marginMm: 0.5, radiusFactor: 1.015 },
  { marginMm: 3, radiusFactor: 1.12 },
] as const;

const middle = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;

/** Every pair of ends at a grid of clocks, straight and round four ways, with two margins; passed over only where even the chord is too dear. */
function exhaustive(task: Task, below: number): RivalWay | null {
  let best: RivalWay | null = null;
  const starts = (tails: Task['tailsA']) =>
    tails.flatMap((tail) =>
      tail.clocks
        .filter((_, i) => i % Math.max(1, Math.floor(tail.clocks.length / CLOCKS)) === 0)
        .map(({ phiRad }) => ({ tail, phiRad, at: startOfBend(tail, phiRad).point })),
    );
  const all = starts(task.tailsA).flatMap((a) =>
    starts(task.tailsB).map((b) => {
      const fixed = [a, b].reduce(
        (sum, { tail }) => sum + tail.makeUp.lengthMm + tail.makeUp.cost + tail.pose.straightMm,
        0,
      );
      return { a, b, bound: fixed + distance(a.at, b.at) };
    }),
  );
  all.sort((p, q) => p.bound - q.bound);
  for (const { a, b, bound } of all) {
    const limit = Math.min(below, best?.cost ?? Infinity);
    // A turning clock moves its tail by little against the whole: a small share is left for that.
    if (bound > 1.02 * limit) break;
    for (const line of linesBetween(a.at, b.at, task.span.minBendRadiusMm))
      for (const margins of MARGINS) {
        const way = tried(
          task,
          a.tail,
          a.phiRad,
          b.tail,
          b.phiRad,
          line,
          margins,
          Math.min(below, best?.cost ?? Infinity),
        );
        if (way !== null && (best === null || way.cost < best.cost)) best = way;
      }
  }
  return best;
}

function linesBetween(p: Vec, q: Vec, radiusMm: number): Vec[][] {
  const along = unit(sub(q, p));
  const u = perpendicular(along);
  const v = cross(along, u);
  const centre: Vec = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2];
  const vias = Array.from({ length: VIAS }, (_, k) => {
    const angle = (2 * Math.PI * k) / VIAS;
    return addScaled(addScaled(centre, u, radiusMm * Math.cos(angle)), v, radiusMm * Math.sin(angle));
  });
  return [[p, q], ...vias.map((via) => [p, via, q])];
}

async function run(
  watch: (done: number, total: number) => boolean,
): Promise<{ passed: number; failed: number; lines: string[] }> {
  const gaps: number[] = [];
  const worst: string[] = [];
  let seed = 5000;
  while (gaps.length < BAYS) {
    const bay = plantedBay('easy', seed++);
    if (bay.car.parts.length - 2 > MOST_THINGS) continue;
    const way = waysInBay(bay)[0]!;
    const other = exhaustive(taskOf(worldOfBay(bay)), way.feasible ? way.cost : Infinity);
    const best = Math.min(way.feasible ? way.cost : Infinity, other?.cost ?? Infinity);
    const gap = way.feasible ? (100 * way.cost) / best - 100 : 100;
    gaps.push(gap);
    worst.push(`${gap.toFixed(2)} % seed ${seed - 1}`);
    watch(gaps.length, BAYS);
  }
  worst.sort((p, q) => Number.parseFloat(q) - Number.parseFloat(p));
  gaps.sort((p, q) => p - q);
  const [median, p95] = [middle(gaps, 0.5), middle(gaps, 0.95)];
  const good = [median <= 0.5, p95 <= 3];
  return {
    passed: good.filter(Boolean).length,
    failed: good.filter((ok) => !ok).length,
    lines: [
      `over the best known of ${BAYS} bays: median ${median.toFixed(2)} % (0.5 wanted), p95 ${p95.toFixed(2)} % (3 wanted), worst ${gaps.at(-1)!.toFixed(2)} %`,
      `worst: ${worst.slice(0, 4).join(', ')}`,
    ],
  };
}

export default { title, run };
