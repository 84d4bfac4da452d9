import { addScaled, dot, sub, unit } from '#geometry';
import { type Passage, farReading } from '../far-reading.ts';
import type { HosePiece } from '../hose-piece.ts';
import { type TubeBench, type TubeEndAt, straightAt } from './hard-tube.ts';
import { type TubeClear, tubeClear } from './tube-clear.ts';
import type { TubeAsked, TubeRule } from './tube-rule.ts';

/** A tube's end, with the coupler that leads to it where it has one. */
export interface EndChoice {
  readonly end: TubeEndAt;
  readonly coupler: HosePiece | null;
}

/** Ends whose first straight is not in something; all of them where none is clear. */
export function openEnds(
  bench: TubeBench,
  choices: readonly EndChoice[],
  tube: TubeAsked,
  rule: TubeRule,
  passages: readonly Passage[],
): readonly EndChoice[] {
  const far = farReading(bench.world, bench.line, bench.placed, passages);
  const clear = choices.filter(({ end }) => {
    const near = { ...end.from, nearMm: Math.max(end.from.nearMm, end.nearMm) };
    return (
      straightSlack(tubeClear({ a: near, b: near, odMm: tube.odMm, minBendRadiusMm: rule.radiusMm, far }), end, rule) >
      IN_IT_MM
    );
  });
  return clear.length > 0 ? clear : choices;
}

/** The field reads within this of the truth [mm]. */
const IN_IT_MM = -3;
const LOOK_STEP_MM = 6;

/** Least slack along the straight that a tube must begin with [mm]. */
function straightSlack(clear: TubeClear, end: TubeEndAt, rule: TubeRule): number {
  const lengthMm = straightAt(end, rule, false);
  let least = Number.POSITIVE_INFINITY;
  for (let s = 0; s <= lengthMm; s += LOOK_STEP_MM)
    least = Math.min(least, clear.slack(...addScaled(end.pose.at, end.pose.along, s)));
  return least;
}

/** Pairs of ends, cheapest first: of each make-up the clock that points best at the other end. */
export function endPairs(a: readonly EndChoice[], b: readonly EndChoice[]): [EndChoice, EndChoice][] {
  const from = bestClocks(a, b[0]!.end);
  const to = bestClocks(b, a[0]!.end);
  const all = from.flatMap((p) => to.map((q): [EndChoice, EndChoice] => [p, q]));
  return all.sort((p, q) => p[0].end.cost + p[1].end.cost - q[0].end.cost - q[1].end.cost);
}

function bestClocks(choices: readonly EndChoice[], other: TubeEndAt): EndChoice[] {
  const best = new Map<string, { choice: EndChoice; towards: number }>();
  for (const choice of choices) {
    const { pose, fit } = choice.end;
    const key = (fit ?? choice.coupler?.a)?.tail.makeUp.key ?? '';
    const towards = dot(pose.along, unit(sub(other.pose.at, pose.at)));
    const kept = best.get(key);
    if (kept === undefined || towards > kept.towards + 1e-9) best.set(key, { choice, towards });
  }
  return [...best.values()].map((b) => b.choice);
}
