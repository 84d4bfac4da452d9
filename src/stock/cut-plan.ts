/** A length wanted. */
export interface WantedCut {
  readonly id: string;
  readonly lengthMm: number;
}

/** What it is cut from: lengths that lie on the shelf, and lengths that can be bought, as many as are needed. */
export interface CutStock {
  readonly inBoxMm: readonly number[];
  readonly boughtMm: readonly number[];
  /** Lost at each cut [mm]. */
  readonly cutLossMm: number;
  /** Lost once a length: its ends are squared or held [mm]. */
  readonly endsWasteMm: number;
}

export interface CutLength {
  readonly from: 'box' | 'bought';
  readonly lengthMm: number;
  readonly cuts: readonly WantedCut[];
  /** What is left over, losses taken off [mm]. */
  readonly leftMm: number;
}

export interface CutPlan {
  readonly lengths: readonly CutLength[];
  /** Longer than any length there is: a joint is needed, or a longer stock. */
  readonly tooLong: readonly WantedCut[];
}

/** Up to this many cuts the least number of lengths is found by trying; beyond, by the longest first. */
const EXACT_CUTS = 12;
const MOST_TRIES = 50_000;

/**
 * Which cut comes from which length: the shelf's lengths first, filled as full as they go, then the fewest metres bought.
 * Longest cut first into the first length with room: never more than 11/9 of the fewest lengths and one; up to 12 cuts the fewest.
 * No source needed: the property test holds it against trying everything.
 */
export function cutPlan(cuts: readonly WantedCut[], stock: CutStock): CutPlan {
  const sorted = [...cuts].sort((a, b) => b.lengthMm - a.lengthMm || (a.id < b.id ? -1 : 1));
  const room = (lengthMm: number): number => lengthMm - stock.endsWasteMm;
  const longest = Math.max(0, ...[...stock.inBoxMm, ...stock.boughtMm].map(room));
  const tooLong = sorted.filter((cut) => cut.lengthMm > longest);
  let open = sorted.filter((cut) => cut.lengthMm <= longest);
  const lengths: CutLength[] = [];
  for (const lengthMm of [...stock.inBoxMm].sort((a, b) => a - b)) {
    const taken = fullest(open, room(lengthMm), stock.cutLossMm);
    if (taken.length === 0) continue;
    open = open.filter((cut) => !taken.includes(cut));
    lengths.push(written('box', lengthMm, taken, stock));
  }
  const bought = fewestMetres(open, stock);
  const placed = new Set(bought.flatMap((bin) => bin.cuts));
  return { lengths: [...lengths, ...bought], tooLong: [...tooLong, ...open.filter((cut) => !placed.has(cut))] };
}

/** Cuts with a loss between each two. */
const spent = (cuts: readonly WantedCut[], lossMm: number): number =>
  cuts.reduce((sum, cut) => sum + cut.lengthMm, 0) + Math.max(0, cuts.length - 1) * lossMm;

function written(from: CutLength['from'], lengthMm: number, cuts: readonly WantedCut[], stock: CutStock): CutLength {
  const leftMm = Math.max(0, lengthMm - stock.endsWasteMm - spent(cuts, stock.cutLossMm) - stock.cutLossMm);
  return { from, lengthMm, cuts, leftMm };
}

/** The cuts that fill one length the fullest. */
function fullest(cuts: readonly WantedCut[], roomMm: number, lossMm: number): WantedCut[] {
  if (cuts.length > EXACT_CUTS) return firstFit(cuts, roomMm, lossMm)[0] ?? [];
  let best: WantedCut[] = [];
  let bestMm = 0;
  const tryFrom = (i: number, chosen: readonly WantedCut[], usedMm: number): void => {
    if (usedMm > bestMm) [best, bestMm] = [[...chosen], usedMm];
    for (let j = i; j < cuts.length; j++) {
      const next = usedMm + cuts[j]!.lengthMm + (chosen.length === 0 ? 0 : lossMm);
      if (next <= roomMm) tryFrom(j + 1, [...chosen, cuts[j]!], next);
    }
  };
  tryFrom(0, [], 0);
  return best;
}

/** For each length that can be bought: pack into it, then take each filled one as short as can be bought; the fewest metres win. */
function fewestMetres(cuts: readonly WantedCut[], stock: CutStock): CutLength[] {
  const sizes = [...new Set(stock.boughtMm)].sort((a, b) => a - b);
  let best: CutLength[] = [];
  let bestMm = Number.POSITIVE_INFINITY;
  for (const size of sizes.slice(-MOST_SIZES)) {
    const roomMm = size - stock.endsWasteMm;
    const fitting = cuts.filter((cut) => cut.lengthMm <= roomMm);
    if (fitting.length < cuts.length) continue;
    const bins = packed(fitting, roomMm, stock.cutLossMm).map((bin) =>
      written('bought', shortest(bin, sizes, stock), bin, stock),
    );
    const metres = bins.reduce((sum, bin) => sum + bin.lengthMm, 0);
    if (metres < bestMm || (metres === bestMm && bins.length < best.length)) [best, bestMm] = [bins, metres];
  }
  return best;
}

/** Sizes looked at, the longest ones: hose by the metre has as many sizes as metres. */
const MOST_SIZES = 6;

const shortest = (bin: readonly WantedCut[], sizes: readonly number[], stock: CutStock): number =>
  sizes.find((size) => spent(bin, stock.cutLossMm) <= size - stock.endsWasteMm) ?? sizes.at(-1) ?? 0;

/** Into as few lengths of one size as can be found. */
function packed(cuts: readonly WantedCut[], roomMm: number, lossMm: number): WantedCut[][] {
  const byFit = firstFit(cuts, roomMm, lossMm);
  const total = cuts.reduce((sum, cut) => sum + cut.lengthMm + lossMm, 0);
  const least = Math.ceil(total / (roomMm + lossMm) - 1e-9);
  if (byFit.length <= least || cuts.length > EXACT_CUTS) return byFit;
  return fewest(cuts, roomMm, lossMm, byFit);
}

function firstFit(cuts: readonly WantedCut[], roomMm: number, lossMm: number): WantedCut[][] {
  const bins: WantedCut[][] = [];
  const used: number[] = [];
  for (const cut of cuts) {
    const at = used.findIndex((mm) => mm + lossMm + cut.lengthMm <= roomMm);
    if (at >= 0) {
      bins[at]!.push(cut);
      used[at]! += lossMm + cut.lengthMm;
    } else if (cut.lengthMm <= roomMm) {
      bins.push([cut]);
      used.push(cut.lengthMm);
    }
  }
  return bins;
}

/** Every way to put the longest cut left into a length begun or a new one; stops where it cannot beat the best. */
function fewest(cuts: readonly WantedCut[], roomMm: number, lossMm: number, start: WantedCut[][]): WantedCut[][] {
  let best = start;
  let tries = 0;
  const bins: WantedCut[][] = [];
  const used: number[] = [];
  const place = (i: number): void => {
    if (tries++ > MOST_TRIES || bins.length >= best.length) return;
    if (i === cuts.length) {
      best = bins.map((bin) => [...bin]);
      return;
    }
    const cut = cuts[i]!;
    const seen = new Set<number>();
    for (let b = 0; b < bins.length; b++) {
      const next = used[b]! + lossMm + cut.lengthMm;
      if (next > roomMm || seen.has(used[b]!)) continue;
      seen.add(used[b]!);
      const before = used[b]!;
      bins[b]!.push(cut);
      used[b] = next;
      place(i + 1);
      bins[b]!.pop();
      used[b] = before;
    }
    bins.push([cut]);
    used.push(cut.lengthMm);
    place(i + 1);
    bins.pop();
    used.pop();
  };
  place(0);
  return best;
}
