import type { BoxRow } from '#car';
import type { Way } from '#lines';

const counted = { 'hose-end': ['hose end', 'hose ends'], adapter: ['adapter', 'adapters'] } as const;
type Counted = keyof typeof counted;
const isCounted = (kind: string): kind is Counted => Object.hasOwn(counted, kind);

/**
 * What a way needs that does not lie in the box, of the parts that cost most: "1 hose end, 2 adapters to buy". What other lines take out of
 * the box is not counted here; the order does that.
 */
export function partsToBuy(way: Pick<Way, 'ends' | 'joints'>, box: readonly BoxRow[]): string {
  const left = new Map<string, number>();
  for (const { id, qty } of box) left.set(id, (left.get(id) ?? 0) + qty);
  const missing: Record<Counted, number> = { 'hose-end': 0, adapter: 0 };
  for (const { id, kind, qty } of [...way.ends, ...way.joints].flatMap((end) => end.parts)) {
    if (!isCounted(kind)) continue;
    const fromBox = Math.min(qty, left.get(id) ?? 0);
    left.set(id, (left.get(id) ?? 0) - fromBox);
    missing[kind] += qty - fromBox;
  }
  const words = (Object.keys(counted) as Counted[])
    .filter((kind) => missing[kind] > 0)
    .map((kind) => `${missing[kind]} ${counted[kind][missing[kind] === 1 ? 0 : 1]}`);
  return words.length === 0 ? 'ends and adapters are in the box' : `${words.join(', ')} to buy`;
}
