import { Board, type Work } from './board.kernel.ts';
import { layoutCost, type Laid, type Layout, type SheetSize } from './nest-layout.ts';
import type { ShapedPart } from './nest-parts.ts';

/** How one trial lays its parts. */
interface Trial {
  readonly order: readonly number[];
  /** Share of a part's length that counts where it is put: 1 its far end, 0 its near one. */
  readonly lean: number;
}

export interface SearchWish {
  readonly slabMm: number;
  /** Row checks that may be spent. */
  readonly mostChecks: number;
  readonly seed: number;
  readonly watch?: (done: number, total: number) => boolean;
}

/** Trials in which a worse layout than the one before last may still be taken. */
const LATE = 12;

/** Lays parts in many orders and keeps the best: one part after another as far left as it goes, holes between others filled. */
export function searchedLayout(
  parts: readonly ShapedPart[],
  sheets: readonly SheetSize[],
  wish: SearchWish,
  start?: Layout,
): Layout {
  const work: Work = { checks: 0 };
  const most = parts.reduce((sum, part) => sum + Math.max(...part.poses.map((pose) => spansInRow(pose.grown))), 1);
  const boards = sheets.map(
    (sheet) => new Board(Math.floor(sheet.widthMm / wish.slabMm + 1e-9), sheet.lengthMm, most, work),
  );
  const laidBy = (trial: Trial): Layout => laidInOrder(parts, boards, trial, wish.slabMm);
  const chance = chanceFrom(wish.seed);
  let best = start;
  let bestCost = start === undefined ? Infinity : layoutCost(start, parts, sheets);
  const keep = (layout: Layout): number => {
    const cost = layoutCost(layout, parts, sheets);
    if (cost < bestCost) [best, bestCost] = [layout, cost];
    return cost;
  };
  const firsts = firstOrders(parts).flatMap((order) => [1, 0.6].map((lean): Trial => ({ order, lean })));
  const tried = firsts.map((trial) => ({ trial, cost: keep(laidBy(trial)) })).sort((a, b) => a.cost - b.cost);
  let { trial, cost } = tried[0]!;
  const late = new Array<number>(LATE).fill(cost);
  for (let n = 0; work.checks < wish.mostChecks; n++) {
    if (wish.watch?.(Math.min(work.checks, wish.mostChecks), wish.mostChecks) === false) break;
    const next = changed(trial, chance);
    const nextCost = keep(laidBy(next));
    if (nextCost <= cost || nextCost <= late[n % LATE]!) [trial, cost] = [next, nextCost];
    late[n % LATE] = cost;
    if (parts.length < 2) break;
  }
  return best!;
}

function spansInRow({ starts, rows }: { readonly starts: Int32Array; readonly rows: number }): number {
  let most = 1;
  for (let r = 0; r < rows; r++) most = Math.max(most, starts[r + 1]! - starts[r]!);
  return most;
}

/** Orders to begin with: by area, by length, by height, by what is long and thin. */
function firstOrders(parts: readonly ShapedPart[]): number[][] {
  const by = (size: (part: ShapedPart) => number): number[] =>
    parts.toSorted((a, b) => size(b) - size(a) || a.index - b.index).map((part) => parts.indexOf(part));
  return [
    by((part) => part.areaMm2),
    by((part) => part.longMm),
    by((part) => part.poses[0]!.highMm * part.poses[0]!.wideMm),
    by((part) => Math.min(part.poses[0]!.highMm, part.poses[0]!.wideMm)),
  ];
}

/** Another order near this one: two parts change places, or one is taken out and put in elsewhere; now and then another lean. */
function changed(trial: Trial, chance: () => number): Trial {
  const order = [...trial.order];
  const place = (): number => Math.floor(chance() * order.length);
  const steps = chance() < 0.3 ? 2 : 1;
  for (let k = 0; k < steps; k++) {
    const [i, j] = [place(), place()];
    if (chance() < 0.5) [order[i], order[j]] = [order[j]!, order[i]!];
    else order.splice(j, 0, order.splice(i, 1)[0]!);
  }
  return { order, lean: chance() < 0.15 ? 0.4 + 0.6 * chance() : trial.lean };
}

/** Numbers from a seed, 0 to 1. */
function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

function laidInOrder(parts: readonly ShapedPart[], boards: readonly Board[], trial: Trial, slabMm: number): Layout {
  for (const board of boards) board.clear();
  const free = boards.map((board) => board.lengthMm * board.rows * slabMm);
  const laid: Laid[] = [];
  const left: number[] = [];
  for (const index of trial.order) {
    const part = parts[index]!;
    const found = boards.some((board, sheet) => {
      if (free[sheet]! < part.areaMm2) return false;
      const spot = spotOn(board, part, trial.lean);
      if (spot === undefined) return false;
      const pose = part.poses[spot.pose]!;
      board.take(pose.grown, spot.row, spot.x);
      free[sheet]! -= part.areaMm2;
      laid.push({ part: index, pose: spot.pose, sheet, at: [spot.x, spot.row * slabMm] });
      return true;
    });
    if (!found) left.push(index);
  }
  return { laid, left: left.sort((a, b) => a - b) };
}

interface Spot {
  readonly pose: number;
  readonly row: number;
  readonly x: number;
}

/** Where on a board a part lies furthest left over all its poses, and of those as low as it goes. */
function spotOn(board: Board, part: ShapedPart, lean: number): Spot | undefined {
  let best: Spot | undefined;
  let bestEnd = Infinity;
  for (const [index, pose] of part.poses.entries()) {
    const fits = board.lengthMm - pose.wideMm;
    if (fits < 0) continue;
    for (let row = 0; row <= board.rows - pose.bare.rows; row++) {
      const x = board.leastX(pose.bare, row, Math.min(fits, bestEnd - lean * pose.wideMm - 1e-9));
      if (x === Infinity) continue;
      const end = x + lean * pose.wideMm;
      if (end < bestEnd) [best, bestEnd] = [{ pose: index, row, x }, end];
    }
  }
  return best;
}
