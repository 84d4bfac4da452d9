import type { Way } from '../way.ts';

/** What a way costs besides, worked out by whoever knows more of the car: as length of line, with why. */
export interface ExtraCost {
  readonly costMm: number;
  /** Told among its reasons; empty: nothing. */
  readonly words: string;
}

/** Feasible first, of them what touches nothing hot or moving at worst, then cheap first; each says why it stands where it does. */
export function ranked(found: readonly Way[], count: number, extraCost?: (way: Way) => ExtraCost): Way[] {
  const words = new Map<Way, string>();
  const ways = found.map((way) => {
    if (extraCost === undefined) return way;
    const extra = extraCost(way);
    const dearer = { ...way, cost: Number((way.cost + extra.costMm).toFixed(1)) };
    if (extra.words !== '') words.set(dearer, extra.words);
    return dearer;
  });
  const order = ways.toSorted(
    (p, q) =>
      Number(q.feasible) - Number(p.feasible) || failing(p) - failing(q) || stops(p) - stops(q) || p.cost - q.cost,
  );
  const best = order[0];
  return order
    .slice(0, count)
    .map((way, i) => ({ ...way, rank: i + 1, reasons: [...reasonsFor(way, best!), ...[words.get(way) ?? []].flat()] }));
}

const failing = (way: Way): number =>
  way.fails.reduce((sum, f) => sum + 1 + Math.abs((f.valueMm ?? 0) - (f.limitMm ?? 0)) / 100, 0);

const stops = (way: Way): number => way.notes.filter(({ level }) => level === 'stop').length;

function reasonsFor(way: Way, best: Way): string[] {
  if (!way.feasible) return way.fails.map((fail) => fail.text);
  const lengthMm = way.pieces.reduce((sum, piece) => sum + piece.cutLengthMm, 0);
  const least = Math.min(...way.gaps.filter((gap) => !gap.near).map((gap) => gap.gapMm - gap.keepOffMm));
  const clamps = way.clamps.length;
  const words = [`${Math.round(lengthMm)} mm to cut, ${clamps === 1 ? '1 clamp' : `${clamps} clamps`}`];
  if (Number.isFinite(least)) words.push(`least room beyond a keep-off ${least.toFixed(0)} mm`);
  if (way !== best)
    words.push(`${(way.cost - best.cost).toFixed(0)} mm of line worse than the first, ends and clamps counted`);
  return words;
}
