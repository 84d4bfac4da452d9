import { outlinePoints, type Point2 } from '#geometry';
import { type FlatPattern, slotOutline } from '#panels';
import { CAPITAL, textWidth } from './text-width.ts';

/** Lines are looked at by points no further apart than this [mm]. */
const SAMPLE_MM = 3;
/** Candidates for a place stand this far apart [mm]. */
const STEP_MM = 5;
/** Kept clear round what is placed [mm]. */
const CLEAR_MM = 3;

const between = (from: Point2, to: Point2): Point2[] => {
  const n = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / SAMPLE_MM));
  return Array.from({ length: n + 1 }, (_, i) => [
    from[0] + ((to[0] - from[0]) * i) / n,
    from[1] + ((to[1] - from[1]) * i) / n,
  ]);
};

const ring = (points: readonly Point2[]): Point2[] =>
  points.flatMap((p, i) => between(p, points[(i + 1) % points.length]!));

/** Points along all that is drawn of a pattern, words counted by their middle line. */
export function drawnPoints(pattern: FlatPattern): Point2[] {
  return [
    ...[
      pattern.outline,
      ...pattern.cutOuts.map((cut) => cut.outline),
      ...pattern.slots.map((slot) => slotOutline(slot)),
    ].flatMap((outline) => ring(outlinePoints(outline, 0.2))),
    ...pattern.holes.flatMap(({ at, diameterMm }) => {
      const n = Math.max(4, Math.ceil((Math.PI * diameterMm) / SAMPLE_MM));
      const rim = Array.from({ length: n }, (_, i): Point2 => {
        const angle = (2 * Math.PI * i) / n;
        return [at[0] + (diameterMm / 2) * Math.cos(angle), at[1] + (diameterMm / 2) * Math.sin(angle)];
      });
      return [at, ...rim, [at[0] + diameterMm * 0.35 + 4, at[1] + diameterMm * 0.35 + 3] as const];
    }),
    ...[...pattern.folds, ...pattern.marks].flatMap(({ from, to }) => between(from, to)),
    ...pattern.words.flatMap(({ at, text, heightMm, turnDeg }) => {
      const length = textWidth(text, heightMm / CAPITAL, 'bold');
      const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
      const rowAt = (up: number): Point2[] =>
        between([at[0] - s * up, at[1] + c * up], [at[0] + c * length - s * up, at[1] + s * length + c * up]);
      return [...rowAt(0), ...rowAt(heightMm)];
    }),
  ];
}

function isInside([x, y]: Point2, ring_: readonly Point2[]): boolean {
  let inside = false;
  for (const [i, a] of ring_.entries()) {
    const b = ring_[(i + 1) % ring_.length]!;
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
}

/** Whether the outline holds a point. */
export const holdsPoint = (pattern: FlatPattern, point: Point2): boolean =>
  isInside(point, outlinePoints(pattern.outline, 0.2));

/** Middle of a rectangle on bare sheet, clear of every line, nearest to the middle of the panel; undefined if there is none. */
export function freePlace(pattern: FlatPattern, width: number, height: number): Point2 | undefined {
  const ringPoints = outlinePoints(pattern.outline, 0.2);
  const holes = pattern.cutOuts.map((cut) => outlinePoints(cut.outline, 0.2));
  const points = drawnPoints(pattern);
  const xs = ringPoints.map((p) => p[0]);
  const ys = ringPoints.map((p) => p[1]);
  const [minX, maxX, minY, maxY] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [midX, midY] = [(minX + maxX) / 2, (minY + maxY) / 2];
  let best: { at: Point2; far: number } | undefined;
  for (let x = minX + width / 2; x <= maxX - width / 2; x += STEP_MM)
    for (let y = minY + height / 2; y <= maxY - height / 2; y += STEP_MM) {
      const far = Math.hypot(x - midX, y - midY);
      if (best !== undefined && far >= best.far) continue;
      const isHit = points.some(
        (p) => Math.abs(p[0] - x) < width / 2 + CLEAR_MM && Math.abs(p[1] - y) < height / 2 + CLEAR_MM,
      );
      if (isHit || !isInside([x, y], ringPoints) || holes.some((hole) => isInside([x, y], hole))) continue;
      best = { at: [x, y], far };
    }
  return best?.at;
}
