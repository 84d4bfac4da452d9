/** The name in `names` that `name` was most likely meant to be, or undefined when none is near (more than a third of the letters differ). */
export function nearestName(name: string, names: readonly string[]): string | undefined {
  const typed = name.slice(0, 64).toLowerCase();
  let best: string | undefined;
  let bestEdits = Number.POSITIVE_INFINITY;
  for (const candidate of names) {
    const edits = editsBetween(typed, candidate.toLowerCase());
    const near = Math.max(1, Math.ceil(Math.max(typed.length, candidate.length) / 3));
    if (edits <= near && edits < bestEdits) {
      best = candidate;
      bestEdits = edits;
    }
  }
  return best;
}

/** Letters to put in, take out, change or swap with a neighbour to turn `a` into `b`. */
function editsBetween(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, change);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) least = Math.min(least, (beforeLast[j - 2] ?? 0) + 1);
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? a.length;
}
