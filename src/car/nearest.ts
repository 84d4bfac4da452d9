/**
 * How many single-character slips part two words: insertions, deletions, exchanges and swaps of neighbours
 * (optimal string alignment).
 */
export function slips(a: string, b: string): number {
  const width = b.length + 1;
  let older = new Array<number>(width).fill(0);
  let old = Array.from({ length: width }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = new Array<number>(width).fill(i);
    for (let j = 1; j < width; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(old[j]! + 1, row[j - 1]! + 1, old[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, older[j - 2]! + 1);
      row[j] = least;
    }
    older = old;
    old = row;
  }
  return old[width - 1]!;
}

/** The known word nearest to what stands there, case set aside; ties go to the first. Absent where there is none. */
export function findNearest(word: string, known: Iterable<string>): string | undefined {
  const cut = word.slice(0, 80).toLowerCase();
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    if (Math.abs(candidate.length - cut.length) >= least) continue;
    const count = slips(cut, candidate.toLowerCase());
    if (count < least) [best, least] = [candidate, count];
  }
  return best;
}
