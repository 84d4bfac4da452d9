import type { Way } from '../way.ts';

/** Feasible first, of them what touches nothing hot or moving at worst, then cheap first; each says why it stands where it does. */
export function ranked(ways: readonly Way[], count: number): Way[] {
  const order = [...ways].sort(
    (p, q) =>
      Number(q.feasible) - Number(p.feasible) || failing(p) - failing(q) || stops(p) - stops(q) || p.cost - q.cost,
  );
  const best = order[0];
  return order.slice(0, count).map((way, i) => ({ ...way, rank: i + 1, reasons: reasonsFor(way, best!) }));
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
