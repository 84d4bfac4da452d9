import { moveOf, offAfter } from './strip-moves.ts';
import type { Leaving } from './strip-columns.ts';
import type { StripModel, Together } from './strip-model.ts';
import { replayed } from './some-plan.ts';
import {
  bit,
  type Bond,
  isWithin,
  placesOf,
  SAME_COST,
  type StripMove,
  type StripProblem,
  type Things,
} from './strip-problem.ts';

/** An answer of the model as what leaves with what. */
export interface Reading {
  readonly off: Things;
  /** By thing: how it leaves. */
  readonly leaving: ReadonlyMap<number, Leaving>;
  readonly together: readonly Together[];
  /** By thing: what is taken hold of where it goes; undefined in a round of things that go with each other. */
  readonly rootOf: ReadonlyMap<number, number | undefined>;
}

/** What of an answer could be played through. */
interface Played {
  readonly moves: readonly StripMove[];
  readonly off: Things;
}

/** Fastenings by what they hold. */
export type Bonds = ReadonlyMap<number, readonly Bond[]>;

export function readingOf(model: StripModel, values: Float64Array): Reading {
  const isOne = ({ column }: { readonly column: number }): boolean => values[column]! > 0.5;
  const leaving = new Map(model.leavings.filter(isOne).map((row) => [row.place, row]));
  const rootOf = new Map<number, number | undefined>();
  for (const place of leaving.keys()) {
    const seen = new Set<number>();
    let at: number | undefined = place;
    while (at !== undefined && !seen.has(at)) {
      seen.add(at);
      const next: number | undefined = leaving.get(at)?.with;
      if (next === undefined) break;
      at = next;
    }
    rootOf.set(place, leaving.get(at)?.with === undefined ? at : undefined);
  }
  return { off: offIn(model, values, 0.5), leaving, together: model.together.filter(isOne), rootOf };
}

/** What is off in an answer by more than a part of it. */
export function offIn({ offColumns }: StripModel, values: Float64Array, part: number): Things {
  let off: Things = 0n;
  for (const [place, column] of offColumns) if (values[column]! > part) off |= bit(place);
  return off;
}

/** An answer played through: each thing that is taken hold of leaves as soon as it can with nothing that is to leave otherwise. */
export function played(problem: StripProblem, bonds: Bonds, { off: wanted, leaving, rootOf }: Reading): Played {
  const moves: StripMove[] = [];
  let off: Things = 0n;
  const { things } = problem;
  const isLine = (place: number): boolean => things[place]!.hangsBetween !== undefined;
  const ends = new Set(things.flatMap(({ undoes }) => undoes));
  const roots = [...leaving.values()].filter((row) => row.with === undefined);
  const next = (): StripMove | undefined => {
    for (const { place, way } of roots) {
      if ((off & bit(place)) !== 0n || ends.has(place)) continue;
      const move = moveOf(problem, bonds, off, place, way);
      if (move?.group.every((one) => isLine(one) || rootOf.get(one) === place) === true) return move;
    }
    // Ends last: most are undone as something leaves.
    for (const end of placesOf(wanted & ~off)) {
      if (!ends.has(end)) continue;
      for (const way of problem.waysOf(end)) {
        const move = moveOf(problem, bonds, off, end, way);
        if (move?.group.length === 1) return move;
      }
    }
    return undefined;
  };
  while (!isWithin(problem.goal, off)) {
    const move = next();
    if (move === undefined) break;
    moves.push(move);
    off = offAfter(off, move);
  }
  return isWithin(problem.goal, off) ? withoutEnds(problem, bonds, moves, ends) : { moves, off };
}

/** Less the ends that need not be opened before what opens them as it leaves. */
function withoutEnds(
  problem: StripProblem,
  bonds: Bonds,
  moves: readonly StripMove[],
  ends: ReadonlySet<number>,
): Played {
  let kept = { moves, off: moves.reduce(offAfter, 0n) };
  for (const { root } of moves) {
    if (!ends.has(root)) continue;
    const fewer = replayed(
      problem,
      bonds,
      kept.moves.filter((move) => move.root !== root),
    );
    if (isWithin(problem.goal, fewer.off) && costOf(fewer.moves) < costOf(kept.moves) + SAME_COST) kept = fewer;
  }
  return kept;
}

const costOf = (moves: readonly StripMove[]): number => moves.reduce((sum, { cost }) => sum + cost, 0);
