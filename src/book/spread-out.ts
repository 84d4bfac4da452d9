/** A label that wants to stand at `at` and takes `width`. */
export interface Wanted {
  readonly at: number;
  readonly width: number;
}

/**
 * Middles of labels in one row, each as near to where it wants to stand as the others and the ends of the row allow, in their order.
 * Labels wider than the row altogether run out of it at its right: ask `fitsRow` first.
 */
export function spreadOut(labels: readonly Wanted[], from: number, to: number, gap: number): number[] {
  const order = labels.map((_, i) => i).sort((a, b) => labels[a]!.at - labels[b]!.at || a - b);
  const middles = labels.map((label) => label.at);
  let edge = from;
  for (const i of order) {
    const half = labels[i]!.width / 2;
    middles[i] = Math.max(middles[i]!, edge + half);
    edge = middles[i] + half + gap;
  }
  let limit = to;
  for (const i of [...order].reverse()) {
    const half = labels[i]!.width / 2;
    middles[i] = Math.min(middles[i]!, limit - half);
    limit = middles[i] - half - gap;
  }
  edge = from;
  for (const i of order) {
    const half = labels[i]!.width / 2;
    middles[i] = Math.max(middles[i]!, edge + half);
    edge = middles[i] + half + gap;
  }
  return middles;
}

/** Whether labels fit one row side by side. */
export const fitsRow = (labels: readonly Wanted[], room: number, gap: number): boolean =>
  labels.reduce((sum, label) => sum + label.width, 0) + gap * Math.max(0, labels.length - 1) <= room;
