import type { Point2 } from '#geometry';
import { minus, plus, rightOf, unit2 } from '../flat/lines.ts';

/** Places along a curved edge, so far inside it, in equal steps along the curve: each with the way the edge runs there. */
export function spotsOnCurve(
  curve: readonly Point2[],
  edgeMm: number,
  endMm: number,
  pitchMm: number,
): readonly { readonly at: Point2; readonly along: Point2 }[] {
  const lengths = curve.slice(1).map((p, i) => Math.hypot(p[0] - curve[i]![0], p[1] - curve[i]![1]));
  const whole = lengths.reduce((sum, l) => sum + l, 0);
  const span = Math.max(0, whole - 2 * endMm);
  const steps = Math.max(span > 0 ? 1 : 0, Math.ceil(span / pitchMm - 1e-9));
  return Array.from({ length: steps + 1 }, (_, i) => {
    let left = (whole - span) / 2 + (steps === 0 ? 0 : (span * i) / steps);
    let k = 0;
    while (k < lengths.length - 1 && left > lengths[k]!) left -= lengths[k++]!;
    const along = unit2(minus(curve[k + 1]!, curve[k]!));
    return { at: plus(plus(curve[k]!, along, left), rightOf(along), -edgeMm), along };
  });
}
