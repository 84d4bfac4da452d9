import { type Outline, type OutlineCorner, type Point2, straightOutline } from '#geometry';

/** Park and Miller's least standard generator: the same panels for a seed on every machine. */
export function seeded(seed: number): () => number {
  let state = (seed * 2654435761) % 2147483647 || 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** A panel with its first edge along x: tapering, some corners cut, some long edges arched. */
export function seededPanel(seed: number): { outline: Outline; along: { from: Point2; to: Point2 } } {
  const next = seeded(seed);
  const long = 300 + 700 * next();
  const [left, right] = [120 + 300 * next(), 120 + 300 * next()];
  const lean = 80 * (next() - 0.5);
  const corners: OutlineCorner[] = [
    { at: [0, 0] },
    { at: [long, 0] },
    { at: [long + lean, right], bulge: 0.25 * (next() - 0.5) },
    { at: [lean * next(), left] },
  ];
  if (next() < 0.4)
    corners.splice(3, 0, { at: [long * (0.4 + 0.3 * next()), Math.max(left, right) * (0.6 + 0.3 * next())] });
  if (next() < 0.3) corners.splice(2, 0, { at: [long * 0.97, right * 0.5] });
  return { outline: corners, along: { from: [0, 0], to: [long, 0] } };
}

/** A rectangle from the origin. */
export const rectangle = (long: number, high: number): Outline =>
  straightOutline([
    [0, 0],
    [long, 0],
    [long, high],
    [0, high],
  ]);
