import { type Point2, type ReadyOutline, sideCrossings } from '#geometry';
import { between, type FieldQuad, heightAt, isRealQuad, quadMiddle, raised, type Slanted } from './field-quad.ts';

/** Lines across the field by which a side is looked for. */
const LOOKS = 9;
/** A side leans no more than this, 45 degrees: beyond it the corners are too sharp for a drill. Our own. */
const MOST_LEAN = 1;
/** Ends and long sides are found in turn: what one cuts off is no longer in the other's way. */
const TURNS = 3;

/**
 * A field whose ends follow the panel's own, from one with square ends about the same place: each side the line that cuts off least
 * half way along it with no sample of the outline beyond it, an edge distance in. Ends and long sides are found in turn.
 */
export function leaningQuad(quad: FieldQuad, panel: ReadyOutline, edgeMm: number): FieldQuad {
  let now = quad;
  for (let turn = 0; turn < TURNS; turn++) {
    const [left, right] = sidesBetween(now.low, now.high, quadMiddle(now)[0], panel, edgeMm, false);
    const ended = { ...now, left: left ?? now.left, right: right ?? now.right };
    if (!isRealQuad(ended)) return now;
    now = ended;
    const [low, high] = sidesBetween(now.left, now.right, quadMiddle(now)[1], panel, edgeMm, true);
    const sided = { ...now, low: low ?? now.low, high: high ?? now.high };
    if (!isRealQuad(sided)) return now;
    now = sided;
  }
  return now;
}

/** The panel's two sides as seen along lines from one side of the field to the other; `isUp`: those lines run up, not along. */
function sidesBetween(
  from: Slanted,
  to: Slanted,
  middle: number,
  panel: ReadyOutline,
  edgeMm: number,
  isUp: boolean,
): readonly [Slanted | undefined, Slanted | undefined] {
  const ends = Array.from({ length: LOOKS }, (_, k) =>
    endsOn(between(from, to, k / (LOOKS - 1)), middle, panel, isUp),
  ).filter((pair) => pair !== undefined);
  return [
    endLine(
      ends.map(([a]) => a),
      1,
      edgeMm,
    ),
    endLine(
      ends.map(([, b]) => b),
      -1,
      edgeMm,
    ),
  ];
}

/** Where a line leaves the panel on either side of its middle: first how far along the line, then how far over. */
function endsOn(
  line: Slanted,
  middle: number,
  panel: ReadyOutline,
  isUp: boolean,
): readonly [Point2, Point2] | undefined {
  const [first, last] = isUp ? [panel.box[1] - 1, panel.box[3] + 1] : [panel.box[0] - 1, panel.box[2] + 1];
  const at = (along: number): Point2 => (isUp ? [heightAt(line, along), along] : [along, heightAt(line, along)]);
  const whole = { a: at(first), b: at(last) };
  let [before, after] = [-Infinity, Infinity];
  for (const side of panel.sides)
    for (const { one } of sideCrossings(whole, side)) {
      const along = first + one * (last - first);
      if (along <= middle) before = Math.max(before, along);
      else after = Math.min(after, along);
    }
  if (before === -Infinity || after === Infinity) return undefined;
  return [
    [before, heightAt(line, before)],
    [after, heightAt(line, after)],
  ];
}

/** The line through two of a side's samples, or level, that takes least off the field: `way` 1 for its first side. */
function endLine(points: readonly Point2[], way: 1 | -1, edgeMm: number): Slanted | undefined {
  if (points.length < 2) return undefined;
  const half = points.reduce((sum, [, over]) => sum + over, 0) / points.length;
  let best: Slanted | undefined;
  const offer = (slope: number): void => {
    let at0 = -way * Infinity;
    for (const [along, over] of points)
      at0 = way > 0 ? Math.max(at0, along - slope * over) : Math.min(at0, along - slope * over);
    const line = raised({ at0, slope }, way * edgeMm);
    if (best === undefined || way * (heightAt(best, half) - heightAt(line, half)) > 1e-6) best = line;
  };
  offer(0);
  for (const [i, a] of points.entries())
    for (const b of points.slice(i + 1)) {
      const slope = (b[0] - a[0]) / (b[1] - a[1]);
      if (Math.abs(slope) <= MOST_LEAN) offer(slope);
    }
  return best;
}
