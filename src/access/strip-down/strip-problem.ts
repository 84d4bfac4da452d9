/** A set of things, a bit each by their place in the list. */
export type Things = bigint;

/** Sums of minutes differ by rounding. */
export const SAME_COST = 1e-9;

/** Any one of these sets off is enough. */
export type Clause = readonly Things[];

const bits: Things[] = [];
export const bit = (place: number): Things => (bits[place] ??= 1n << BigInt(place));
export const isWithin = (few: Things, many: Things): boolean => (few & ~many) === 0n;
export const isMet = (clause: Clause, off: Things): boolean => clause.some((set) => isWithin(set, off));

/** The places of the bits of a set, in order; looked at 32 at a time. */
export function placesOf(set: Things): number[] {
  const places: number[] = [];
  for (let from = 0, rest = set; rest !== 0n; from += 32, rest >>= 32n) {
    for (let word = Number(rest & 0xffffffffn) | 0; word !== 0; word &= word - 1)
      places.push(from + 31 - Math.clz32(word & -word));
  }
  return places;
}

/** Something in the way. */
export interface InTheWay {
  /** The thing that may go along instead of coming off first; absent: it may not. */
  readonly along?: number;
  /** The line that it is a stretch of: it is not in the way where the line goes along. */
  readonly line?: number;
  /** What has to be off for it to be out of the way; empty: nothing helps. */
  readonly cleared: Clause;
}

/** One thing that may come off: a part, a panel, a line, one end of a line undone, a hand that gets somewhere. */
export interface Thing {
  readonly id: string;
  readonly staysOn: boolean;
  /** What taking it off costs, its fastenings aside. */
  readonly cost: number;
  /** What sits on it: off before it, or along with it. */
  readonly carries: readonly number[];
  /** What is undone of itself when this comes off, where it does not go along: its ends of lines; with their costs. */
  readonly undoes: readonly number[];
  /** Goes along unopened where all of these do: a line whose ends are on parts that move together. */
  readonly hangsBetween?: readonly number[];
  /** What must be off before it, one of each. */
  readonly needs: readonly Clause[];
}

/** What holds two things together, or one thing to the car (`b` below 0). */
export interface Bond {
  readonly id: string;
  readonly a: number;
  readonly b: number;
  readonly cost: number;
  /** What must be off for it to be undone, one of each. */
  readonly needs: readonly Clause[];
}

/** What there is to take off, and how. What is asked of it lazily is asked only of things that matter for the goal. */
export interface StripProblem {
  readonly things: readonly Thing[];
  readonly bonds: readonly Bond[];
  /** Ways in which a thing comes off, by their keys; a thing without one never comes off by itself. */
  readonly waysOf: (thing: number) => readonly string[];
  /** What is in its way; undefined: it cannot go that way. */
  readonly inTheWay: (thing: number, way: string) => readonly InTheWay[] | undefined;
  /** What may have this in its way and take it along: all that does, perhaps more. */
  readonly takersOf: (thing: number) => readonly number[];
  /** All of these must be off. */
  readonly goal: Things;
  /** These must also be apart from what they came off with. */
  readonly alone?: Things;
  /** Times the least is looked for before it is given up. */
  readonly most?: number;
}

/** One step: a group that comes off as one. */
export interface StripMove {
  readonly root: number;
  readonly way: string;
  readonly group: readonly number[];
  /** Ends of lines undone in it. */
  readonly ends: readonly number[];
  readonly undone: readonly Bond[];
  /** Undone on the bench, to get what is wanted apart from the rest of the group. */
  readonly onBench: readonly Bond[];
  readonly cost: number;
}

/** Moves that lead to the goal, in order. */
export interface Plan {
  readonly moves: readonly StripMove[];
  readonly cost: number;
}

/** The cheapest way to the goal by the ways given, or why there is none. */
export type StripAnswer =
  | {
      readonly kind: 'found';
      readonly moves: readonly StripMove[];
      readonly cost: number;
      /** False: the search was cut short, a cheaper one may be left. */
      readonly isProved: boolean;
      /** Where it is not proved: no plan costs less than this. */
      readonly atLeast?: number;
    }
  | { readonly kind: 'none' };

/** A row changed in some of what it says; what it works out only when asked stays unasked. */
export const changedRow = <T extends object>(row: T, to: Partial<T>): T =>
  Object.create(
    row,
    Object.fromEntries(Object.entries(to).map(([key, value]) => [key, { value, enumerable: true }])),
  ) as T;
