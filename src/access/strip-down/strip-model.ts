import { IntegerProgram, type Term } from './integer-program.ts';
import type { StripBound } from './strip-bound.ts';
import { Columns, joinedOn, type Leaving } from './strip-columns.ts';
import { COMMON } from './strip-moves.ts';
import {
  bit,
  type Bond,
  type Clause,
  type InTheWay,
  placesOf,
  type StripProblem,
  type Things,
} from './strip-problem.ts';

/** Things that leave in one move on this way. */
export interface Together {
  readonly places: readonly number[];
  readonly way: string;
  readonly column: number;
}

/**
 * A strip-down as an integer program: what comes off, in which of its ways, by itself or with what; which fastenings and joints are undone.
 * Its rows say what must be off for that, whenever: the order is not in it. So no plan costs less than its least answer, and one that can be
 * played through in some order is the least plan.
 */
export class StripModel {
  readonly program = new IntegerProgram();
  readonly leavings: Leaving[] = [];
  readonly together: Together[] = [];
  private readonly problem: StripProblem;
  private readonly bound: StripBound;
  private readonly below: number;
  private readonly lists = new Map<string, readonly InTheWay[] | null>();
  private readonly places: readonly number[];
  private readonly movable: Things;
  private readonly ways = new Map<number, Set<string>>();
  private readonly off = new Map<number, number>();
  /** Leaves so; leaves so and is what is taken hold of; a line goes along so, unopened. */
  private readonly goes = new Columns();
  private readonly roots = new Columns();
  private readonly along = new Columns();
  private readonly lineOfEnd = new Map<number, number>();

  /** @param below - only plans that cost less are in it [min] */
  constructor(problem: StripProblem, bound: StripBound, below: number) {
    this.problem = problem;
    this.bound = bound;
    this.below = below;
    const { things } = problem;
    this.places = placesOf(bound.relevant).filter((place) => !things[place]!.staysOn);
    this.movable = this.places.reduce((set, place) => set | bit(place), 0n);
    things.forEach(({ hangsBetween, undoes }, line) => {
      if (hangsBetween !== undefined) for (const end of undoes) this.lineOfEnd.set(end, line);
    });
    this.layColumns(this.findWays());
    for (const place of this.places) this.rowsOfThing(place);
    this.rowsOfBonds();
  }

  /** That a thing is off: its column; undefined: it never is. */
  offColumn(place: number): number | undefined {
    return this.off.get(place);
  }

  /** By thing that may come off: that it is off. */
  get offColumns(): ReadonlyMap<number, number> {
    return this.off;
  }

  /** The line that an end is of. */
  lineOf(end: number): number | undefined {
    return this.lineOfEnd.get(end);
  }

  /** That a thing leaves in this way, however. */
  leaves(place: number, way: string, factor = 1): Term[] {
    return [...this.goes.on(place, way, factor), ...this.along.on(place, way, factor)];
  }

  /** That a line does not go along unopened on any way. */
  staysBehind(line: number): Term[] {
    return this.along.all(line, -1);
  }

  private isMovable(place: number): boolean {
    return place >= 0 && (this.movable & bit(place)) !== 0n;
  }

  /** What is in a thing's way; null: it cannot go so, or in no plan that costs less. */
  private listOn(place: number, way: string): readonly InTheWay[] | null {
    const key = `${place} ${way}`;
    let known = this.lists.get(key);
    if (known === undefined) this.lists.set(key, (known = this.foundOn(place, way)));
    return known;
  }

  private foundOn(place: number, way: string): readonly InTheWay[] | null {
    const list = this.problem.inTheWay(place, way);
    const isClearable = ({ cleared, along, line }: InTheWay): boolean =>
      cleared.some((set) => this.isAllMovable(set)) ||
      (way.startsWith(COMMON) && along !== undefined && this.isMovable(along)) ||
      (line !== undefined && this.isMovable(line));
    if (list?.every(isClearable) !== true) return null;
    let off = this.problem.goal | bit(place);
    for (const { cleared } of list) if (cleared.length === 1) off |= cleared[0]!;
    const all = this.bound.alwaysWith(off);
    return all === null || this.bound.leastCost(all) >= this.below ? null : list;
  }

  private isAllMovable(set: Things): boolean {
    return (set & ~this.movable) === 0n;
  }

  /** That a thing leaves in one of these ways. */
  leavesOn(place: number, isWay: (way: string) => boolean, factor: number): Term[] {
    return [...this.ways.get(place)!].filter(isWay).flatMap((way) => this.goes.on(place, way, factor));
  }

  /** True where things that ride on each other on this way, one on the next, lead from one to the other. */
  private areJoined(one: number, other: number, way: string): boolean {
    let joined = this.joined.get(way);
    if (joined === undefined) this.joined.set(way, (joined = joinedOn(this.leavings, way)));
    return joined.get(one) !== undefined && joined.get(one) === joined.get(other);
  }

  private readonly joined = new Map<string, ReadonlyMap<number, number>>();

  private mayLeaveTogether(one: number, other: number): boolean {
    const { bound } = this;
    return one !== other && (bound.earlier(one) & bit(other)) === 0n && (bound.earlier(other) & bit(one)) === 0n;
  }

  /** Finds the ways of each thing: its own, and those of all that it may go with. Returns what it may go with on each, in order. */
  private findWays(): ReadonlyMap<number, ReadonlyMap<string, ReadonlySet<number>>> {
    const { things, waysOf } = this.problem;
    const rides = new Map<number, Map<string, Set<number>>>(this.places.map((place) => [place, new Map()]));
    const open: [place: number, way: string][] = [];
    const add = (place: number, way: string): boolean => {
      const ways = this.ways.get(place)!;
      if (ways.has(way)) return true;
      if (this.listOn(place, way) === null) return false;
      ways.add(way);
      open.push([place, way]);
      return true;
    };
    const ride = (rider: number, way: string, on: number): void => {
      if (!this.isMovable(rider) || !this.mayLeaveTogether(rider, on) || !add(rider, way)) return;
      const byWay = rides.get(rider)!;
      const known = byWay.get(way);
      if (known === undefined) byWay.set(way, new Set([on]));
      else known.add(on);
    };
    for (const place of this.places) this.ways.set(place, new Set());
    for (const place of this.places) for (const way of waysOf(place)) add(place, way);
    for (let row = open.pop(); row !== undefined; row = open.pop()) {
      const [place, way] = row;
      for (const rider of things[place]!.carries) ride(rider, way, place);
      if (way.startsWith(COMMON))
        for (const { along } of this.listOn(place, way)!) if (along !== undefined) ride(along, way, place);
    }
    return rides;
  }

  private layColumns(rides: ReturnType<StripModel['findWays']>): void {
    const { program, problem } = this;
    for (const place of this.places) {
      const isOne = (problem.goal & bit(place)) !== 0n;
      this.off.set(place, program.column(problem.things[place]!.cost, { isWhole: true, isOne }));
      for (const way of this.ways.get(place)!) this.goes.set(place, way, program.column(0));
    }
    const own = this.places.map((place) => new Set(problem.waysOf(place)));
    const mutual = new Map<string, number[]>();
    this.places.forEach((place, i) => {
      for (const way of this.ways.get(place)!) {
        const columns: number[] = [];
        const leaving = (on?: number): number => {
          const column = program.column(0, { isWhole: true });
          this.leavings.push({ place, way, column, ...(on === undefined ? {} : { with: on }) });
          columns.push(column);
          return column;
        };
        if (own[i]!.has(way)) this.roots.set(place, way, leaving());
        for (const on of rides.get(place)!.get(way) ?? []) {
          const column = leaving(on);
          program.atLeast(0, [...this.goes.on(on, way), [column, -1]]);
          const pair = `${Math.min(place, on)} ${Math.max(place, on)} ${way}`;
          mutual.set(pair, [...(mutual.get(pair) ?? []), column]);
        }
        program.equal(0, [...this.goes.on(place, way), ...columns.map((column): Term => [column, -1])]);
      }
    });
    // Neither of two goes with the other and takes it along.
    for (const [pair, columns] of mutual) {
      const [one, other] = pair.split(' ').map(Number);
      const way = pair.split(' ').slice(2).join(' ');
      if (columns.length > 1)
        for (const place of [one!, other!])
          program.atLeast(0, [...this.goes.on(place, way), ...columns.map((column): Term => [column, -1])]);
    }
    for (const place of this.places) {
      const parts = problem.things[place]!.hangsBetween;
      if (parts?.every((part) => this.isMovable(part)) !== true) continue;
      const held = [...new Set(parts)];
      const columns = held.length === 2 ? this.pairInOne(held[0]!, held[1]!) : this.inOneMove(held);
      for (const [way, column] of columns) this.along.set(place, way, column);
    }
  }

  /** By way: a column that is 1 only where all of these leave in one move on it: none of two each by itself. */
  private inOneMove(places: readonly number[]): ReadonlyMap<string, number> {
    const { program } = this;
    const [first, ...others] = places;
    const shared = [...this.ways.get(first!)!].filter((way) =>
      others.every((one) => this.ways.get(one)!.has(way) && this.areJoined(first!, one, way)),
    );
    return new Map(
      shared.map((way) => {
        const column = program.column(0);
        for (const place of places) {
          program.atLeast(0, [...this.leaves(place, way), [column, -1]]);
          // It rides on something or something rides on it.
          const joins = this.leavings.filter(
            (row) => row.way === way && row.with !== undefined && (row.place === place || row.with === place),
          );
          if (this.along.on(place, way).length === 0)
            program.atLeast(0, [...joins.map((row): Term => [row.column, 1]), [column, -1]]);
        }
        for (const [i, one] of places.entries())
          for (const other of places.slice(i + 1))
            program.atLeast(0, [
              ...[one, other].flatMap((place) => [...this.leaves(place, way), ...this.roots.on(place, way, -1)]),
              [column, -1],
            ]);
        this.together.push({ places, way, column });
        return [way, column];
      }),
    );
  }

  /**
   * Of these one set is off where what the terms say is so.
   *
   * @param on - a way of a thing: what never leaves before it has to leave with it
   */
  private wants(
    clause: Clause,
    terms: readonly Term[],
    otherwise: readonly Term[] = [],
    on?: { readonly place: number; readonly way: string },
  ): void {
    const { program } = this;
    const sets = clause
      .filter((set) => this.isAllMovable(set))
      .flatMap((set): Term[] => {
        const columns = placesOf(set).map((place) =>
          on === undefined || (this.bound.byThen(place) & bit(on.place)) === 0n
            ? this.off.get(place)!
            : this.inOne(place, on.place, on.way),
        );
        if (columns.includes(undefined)) return [];
        if (columns.length === 1) return [[columns[0]!, 1]];
        const all = program.column(0);
        for (const column of columns)
          program.atLeast(0, [
            [column!, 1],
            [all, -1],
          ]);
        return [[all, 1]];
      });
    program.atLeast(0, [...sets, ...otherwise, ...negated(terms)]);
  }

  /** A column that is 1 only where two things leave in one move on this way; undefined: they never do. */
  private inOne(one: number, other: number, way: string): number | undefined {
    if (this.undoneBy.has(one) || !this.mayLeaveTogether(one, other)) return undefined;
    return this.pairInOne(one, other).get(way);
  }

  private pairInOne(one: number, other: number): ReadonlyMap<string, number> {
    const key = one < other ? `${one} ${other}` : `${other} ${one}`;
    let found = this.pairs.get(key);
    if (found === undefined) this.pairs.set(key, (found = this.inOneMove([one, other])));
    return found;
  }
  private readonly pairs = new Map<string, ReadonlyMap<string, number>>();

  private rowsOfThing(place: number): void {
    const { program } = this;
    const { carries, undoes, needs } = this.problem.things[place]!;
    const off = this.off.get(place)!;
    const undone = this.undoneBy.get(place) ?? [];
    const ways = this.ways.get(place)!;
    const leaves = [...this.goes.all(place), ...this.along.all(place)];
    if (undone.length === 0) program.equal(0, [[off, 1], ...negated(leaves)]);
    else {
      program.atLeast(0, [[off, 1], ...negated(leaves)]);
      program.atLeast(0, [...leaves, ...undone.map((one): Term => [this.off.get(one)!, 1]), [off, -1]]);
    }
    for (const way of ways)
      for (const { cleared, along, line } of this.listOn(place, way)!) {
        const more: Term[] = [];
        if (along !== undefined && way.startsWith(COMMON) && !cleared.includes(bit(along)) && this.isMovable(along))
          more.push([this.off.get(along)!, 1]);
        if (line !== undefined && !cleared.includes(bit(line))) more.push(...this.along.on(line, way));
        this.wants(cleared, this.goes.on(place, way), more, { place, way });
      }
    for (const rider of carries) this.wants([bit(rider)], [[off, 1]]);
    const { bound } = this;
    const partsOf = undone.length === 0 ? [place] : undone;
    for (const clause of needs) this.wants(bound.before(clause, partsOf), [[off, 1]]);
    // Its ends of lines are undone, but of a line that goes along.
    for (const end of undoes) {
      const line = this.lineOfEnd.get(end);
      this.wants([bit(end)], [[off, 1]], line === undefined ? [] : this.along.all(line));
    }
  }

  private rowsOfBonds(): void {
    const { program } = this;
    const { bonds, alone = 0n } = this.problem;
    const pairs = new Map<string, Bond[]>();
    for (const bond of bonds) {
      const ends = [bond.a, bond.b].filter((place) => this.isMovable(place));
      if (ends.length === 0) continue;
      if (ends.length === 2) {
        const key = ends.toSorted((a, b) => a - b).join(' ');
        const known = pairs.get(key);
        if (known === undefined) pairs.set(key, [bond]);
        else known.push(bond);
        continue;
      }
      const off = this.off.get(ends[0]!)!;
      program.addCost(off, bond.cost);
      for (const clause of bond.needs) this.wants(this.bound.before(clause, ends), [[off, 1]]);
    }
    for (const [key, held] of pairs) {
      const places = key.split(' ').map(Number);
      const cost = held.reduce((sum, bond) => sum + bond.cost, 0);
      // On the car, or on the bench.
      const isApart = places.some((place) => (alone & bit(place)) !== 0n);
      const undone = program.column(isApart ? 0 : cost);
      const paid = isApart ? program.column(cost) : undone;
      const together = this.mayLeaveTogether(places[0]!, places[1]!)
        ? [...this.pairInOne(places[0]!, places[1]!).values()].map((column): Term => [column, 1])
        : [];
      for (const place of places) {
        program.atLeast(0, [[undone, 1], ...together, [this.off.get(place)!, -1]]);
        if (isApart)
          program.atLeast(0, [
            [paid, 1],
            [this.off.get(place)!, -1],
          ]);
      }
      for (const { needs } of held)
        for (const clause of needs) this.wants(this.bound.beforeFirst(clause, places), [[undone, 1]]);
    }
  }

  private get undoneBy(): ReadonlyMap<number, readonly number[]> {
    return (this.undoers ??= this.foundUndoers());
  }
  private undoers: ReadonlyMap<number, readonly number[]> | undefined;

  /** By end of a line: what undoes it as it leaves. */
  private foundUndoers(): ReadonlyMap<number, readonly number[]> {
    const by = new Map<number, number[]>();
    for (const place of this.places)
      for (const end of this.problem.things[place]!.undoes) by.set(end, [...(by.get(end) ?? []), place]);
    return by;
  }
}

const negated = (terms: readonly Term[]): Term[] => terms.map(([column, factor]) => [column, -factor]);
