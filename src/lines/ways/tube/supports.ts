import { type Vec, addScaled } from '#geometry';
import { type Corners, tubeRun } from './tube-run.ts';

/** A tube on soft hose at its end is held within this of the end [mm]; common practice, no source. */
const SOFT_END_MM = 100;
/** A clip wants this much straight on both sides of its middle [mm]. */
const CLIP_MM = 12;

/** Where a tube is held: on its straights, nowhere farther apart than asked unless a bend is in the way. */
export function supportPlaces(
  corners: Corners,
  radiusMm: number,
  spacingMm: number,
  soft: readonly [boolean, boolean],
): Vec[] {
  const { straightsMm, bendsRad, along, lengthMm } = tubeRun(corners, radiusMm);
  const first = soft[0] ? Math.min(SOFT_END_MM, lengthMm / 2) : 0;
  const last = lengthMm - (soft[1] ? Math.min(SOFT_END_MM, lengthMm / 2) : 0);
  const count = Math.max(soft[0] || soft[1] ? 1 : 0, Math.ceil((last - first) / spacingMm - 1e-9));
  const wanted = Array.from({ length: count + 1 }, (_, n) => first + ((last - first) * n) / Math.max(1, count));
  const inner = wanted.filter((_, n) => (n > 0 || soft[0]) && (n < count || soft[1]));
  const straights: { from: number; to: number; at: Vec; along: Vec }[] = [];
  let s = 0;
  along.forEach((d, i) => {
    const tangent = i === 0 ? 0 : radiusMm * Math.tan(bendsRad[i - 1]! / 2);
    straights.push({ from: s, to: s + straightsMm[i]!, at: addScaled(corners[i]!, d, tangent), along: d });
    s += straightsMm[i]! + radiusMm * (bendsRad[i] ?? 0);
  });
  const holding = straights.filter((straight) => straight.to - straight.from > 2 * CLIP_MM);
  const places = inner.flatMap((want) => {
    const onStraight = holding.map((h) => ({ h, s: Math.max(h.from + CLIP_MM, Math.min(h.to - CLIP_MM, want)) }));
    const best = onStraight.sort((p, q) => Math.abs(p.s - want) - Math.abs(q.s - want))[0];
    return best === undefined ? [] : [{ s: best.s, at: addScaled(best.h.at, best.h.along, best.s - best.h.from) }];
  });
  return places.filter((p, i) => i === 0 || p.s - places[i - 1]!.s > CLIP_MM).map((p) => p.at);
}
