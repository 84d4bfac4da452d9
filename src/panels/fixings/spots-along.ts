/** A stretch of a line that is taken [mm along it]. */
export type Stretch = readonly [from: number, to: number];

const EPSILON = 1e-9;

/**
 * Places along a line from `from` to `to` in equal steps none longer than `pitch`, both ends taken; what falls into a stretch that
 * is taken steps to its nearer side, and where that opens a step longer than the pitch another place is put in.
 */
export function spotsAlong(from: number, to: number, pitch: number, taken: readonly Stretch[]): readonly number[] {
  if (to < from - EPSILON) return spotsAlong((from + to) / 2, (from + to) / 2, pitch, taken);
  const steps = Math.max(to - from > EPSILON ? 1 : 0, Math.ceil((to - from) / pitch - EPSILON));
  const equal = Array.from({ length: steps + 1 }, (_, i) => (steps === 0 ? from : from + ((to - from) * i) / steps));
  const spots = equal.flatMap((s) => {
    const free = stepped(s, from, to, taken);
    return free === undefined ? [] : [free];
  });
  const filled: number[] = [];
  for (const s of [...new Set(spots)].sort((a, b) => a - b)) {
    const last = filled.at(-1);
    if (last !== undefined && s - last > pitch + EPSILON) {
      const between = Math.ceil((s - last) / pitch - EPSILON);
      for (let i = 1; i < between; i++) {
        const put = last + ((s - last) * i) / between;
        if (!taken.some(([a, b]) => put > a + EPSILON && put < b - EPSILON)) filled.push(put);
      }
    }
    filled.push(s);
  }
  return filled;
}

/** The nearest place within the line that nothing takes. */
function stepped(s: number, from: number, to: number, taken: readonly Stretch[]): number | undefined {
  const isFree = (p: number) =>
    p >= from - EPSILON && p <= to + EPSILON && !taken.some(([a, b]) => p > a + EPSILON && p < b - EPSILON);
  const choices = [s, ...taken.flatMap(([a, b]) => [a, b])].filter(isFree);
  return choices.length === 0 ? undefined : choices.reduce((a, b) => (Math.abs(b - s) < Math.abs(a - s) ? b : a));
}
