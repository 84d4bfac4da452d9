import type { HeatCure } from '../heat-answer.ts';

/** Cures that gain alike within so much of the most are alike for a model that is good for 20 %: then the one that costs less comes first. */
const ALIKE_SHARE = 0.1;
const ALIKE_K = 2;

/** By degrees; of those that gain alike, by parts to buy or make, then grams, then millimetres of room. */
export function rankedCures(cures: readonly HeatCure[]): readonly HeatCure[] {
  const left = cures.toSorted((a, b) => b.gainK - a.gainK);
  const found: HeatCure[] = [];
  while (left.length > 0) {
    const most = left[0]!.gainK;
    const alike = left.filter(({ gainK }) => most - gainK <= Math.max(ALIKE_K, ALIKE_SHARE * most));
    const costs = ({ parts, grams = 0, roomMm = 0 }: HeatCure): readonly number[] => [parts.length, grams, roomMm];
    const [next] = alike.toSorted((a, b) => {
      const [p, q] = [costs(a), costs(b)];
      return p.map((cost, i) => cost - q[i]!).find((apart) => apart !== 0) ?? b.gainK - a.gainK;
    });
    found.push(next!);
    left.splice(left.indexOf(next!), 1);
  }
  return found;
}
