import type { Cut, Term } from './integer-program.ts';
import { COMMON, hangsIn } from './strip-moves.ts';
import type { StripModel } from './strip-model.ts';
import type { Bonds, Reading } from './strip-reading.ts';
import { bit, type Clause, type InTheWay, isMet, placesOf, type StripProblem, type Things } from './strip-problem.ts';

/** What a load that does not leave waits for: of these sets one, none of which is off by then. */
interface Wait {
  /** The thing of the load that wants it. */
  readonly member: number;
  readonly clause: Clause;
  /** Wanted on the way that it takes: on others something else may be. */
  readonly isOnWay: boolean;
}

/** The way of what nothing hinders. */
const FREE = 'free';

/** Rounds of waiting of which no more than so many things more than of the least are cut at once. */
const MORE = 1;

/**
 * Rows for an answer that sticks: loads wait for each other all round. In any plan one of them leaves otherwise, or something else is off.
 *
 * @param off - what left
 */
export function stuckCuts(
  problem: StripProblem,
  bonds: Bonds,
  model: StripModel,
  reading: Reading,
  off: Things,
): readonly Cut[] {
  const waiting = new Waiting(problem, bonds, model, reading, off);
  const found = placesOf(reading.off & ~off).flatMap((place) => waiting.cutsFrom(place));
  const least = Math.min(...found.map(({ size }) => size));
  return [
    ...new Map(
      found.flatMap((cut) => (cut.size > least + MORE ? [] : [[JSON.stringify(cut.terms), cut] as const])),
    ).values(),
  ];
}

/** A row with how many things it holds. */
type Sized = Cut & { readonly size: number };

class Waiting {
  private readonly problem: StripProblem;
  private readonly bonds: Bonds;
  private readonly model: StripModel;
  private readonly reading: Reading;
  private readonly off: Things;
  private readonly ends: ReadonlySet<number>;
  private readonly waits = new Map<number, Wait | undefined>();
  private readonly loads = new Map<number, Things>();

  constructor(problem: StripProblem, bonds: Bonds, model: StripModel, reading: Reading, off: Things) {
    this.problem = problem;
    this.bonds = bonds;
    this.model = model;
    this.reading = reading;
    this.off = off;
    this.ends = new Set(problem.things.flatMap(({ undoes }) => undoes));
    for (const [place, root] of reading.rootOf)
      if (root !== undefined && !this.ends.has(place)) this.loads.set(root, (this.loads.get(root) ?? 0n) | bit(place));
  }

  /** A row for all that a thing waits for, and one for each other thing that its load waits for. */
  cutsFrom(start: number): readonly Sized[] {
    const node = this.nodeOf(start);
    const first = this.waitOf(node);
    const cuts = this.waitsFor(node).flatMap((wait) => {
      this.waits.set(node, wait);
      return this.cutFrom(node) ?? [];
    });
    this.waits.set(node, first);
    return cuts;
  }

  /** All that a load waits for, and what that waits for, as a row; undefined where it is not known why something does. */
  private cutFrom(start: number): Sized | undefined {
    const nodes = new Set([start]);
    let others = 0n;
    let waited = 0n;
    for (const node of nodes) {
      const wait = this.waitOf(node);
      if (wait === undefined) return undefined;
      for (const set of wait.clause) {
        const outside = placesOf(set & ~this.reading.off)[0];
        const inside = outside === undefined ? placesOf(set & ~this.off)[0] : undefined;
        if (outside !== undefined) others |= bit(outside);
        else if (inside === undefined) return undefined;
        else {
          waited |= bit(inside);
          nodes.add(this.nodeOf(inside));
        }
      }
    }
    const held = new Map<string, readonly Term[]>();
    const hold = (key: string, terms: readonly Term[]): void => {
      const known = held.get(key);
      if (known === undefined || known.length > terms.length) held.set(key, terms);
    };
    const base = this.baseOf(nodes, waited);
    for (const node of nodes) this.holdLoad(node, others | waited, hold, base);
    for (const place of placesOf(waited)) this.holdIn(place, undefined, hold, base);
    const open = placesOf(others).flatMap((place): Term[] => {
      const column = this.model.offColumns.get(place);
      return column === undefined ? [] : [[column, 1]];
    });
    const terms = [...open, ...[...held.values()].flat()].toSorted(([a], [b]) => a - b);
    return { least: 1 - held.size, terms, size: held.size };
  }

  /**
   * Where all but one of these leave by themselves, that one waits for what is in itself however it leaves: its things held together as far as
   * the least of its own loads that has them all is enough. Undefined: they are held up to what is taken hold of.
   */
  private baseOf(nodes: ReadonlySet<number>, waited: Things): number | undefined {
    const loads = [...nodes].filter((node) => !this.ends.has(node) && this.reading.leaving.get(node)?.way !== FREE);
    if (loads.length !== 1) return undefined;
    const load = this.loads.get(loads[0]!) ?? 0n;
    const held = [this.waitOf(loads[0]!)!.member, ...placesOf(waited & load)];
    if (held.some((place) => !this.reading.leaving.has(place))) return undefined;
    const paths = held.map((place) => this.pathOf(place));
    return paths[0]!.find((place) => paths.every((path) => path.includes(place)));
  }

  /** A thing, what it goes with, and so on. */
  private pathOf(place: number): readonly number[] {
    const path: number[] = [];
    for (let at: number | undefined = place; at !== undefined; at = this.reading.leaving.get(at)?.with) path.push(at);
    return path;
  }

  /** That what keeps a load still does so: its member leaves with it, on a way where something of these hinders it. */
  private holdLoad(
    node: number,
    hindering: Things,
    hold: (key: string, terms: readonly Term[]) => void,
    base: number | undefined,
  ): void {
    const { member, isOnWay } = this.waitOf(node)!;
    if (this.ends.has(node)) {
      hold(`off ${node}`, [[this.model.offColumns.get(node)!, -1]]);
      return;
    }
    const rest = hindering & ~(this.loads.get(node) ?? 0n);
    const isHindered = (way: string): boolean =>
      (this.problem.inTheWay(member, way) ?? []).some((row) => setsOf(row, way).every((set) => (set & rest) !== 0n));
    this.holdIn(member, isOnWay ? isHindered : undefined, hold, base);
  }

  /** That a thing leaves with the load that it is in, all the way up to what is taken hold of. */
  private holdIn(
    place: number,
    isWay: ((way: string) => boolean) | undefined,
    hold: (key: string, terms: readonly Term[]) => void,
    base: number | undefined,
  ): void {
    const { leaving } = this.reading;
    let isOne = isWay;
    for (let at: number | undefined = place; at !== undefined; ) {
      if (this.ends.has(at)) return;
      if (at === base) {
        if (isOne === undefined) hold(`off ${at}`, [[this.model.offColumns.get(at)!, -1]]);
        else hold(`goes ${at}`, this.model.leavesOn(at, isOne, -1));
        return;
      }
      const row = leaving.get(at);
      if (row === undefined) {
        // A line that goes along.
        const columns = this.model.staysBehind(at);
        if (columns.length > 0) hold(`along ${at}`, columns);
        at = this.problem.things[at]!.hangsBetween?.[0];
        continue;
      }
      const from = at;
      const alike = this.model.leavings.filter(
        (other) => other.place === from && other.with === row.with && (isOne === undefined || isOne(other.way)),
      );
      hold(
        `${at} with ${row.with}`,
        alike.map(({ column }): Term => [column, -1]),
      );
      isOne = undefined;
      at = row.with;
    }
  }

  /** What waits as one, by what is taken hold of; an end of a line for itself. */
  private nodeOf(place: number): number {
    if (this.ends.has(place)) return place;
    const root = this.reading.rootOf.get(place);
    if (root !== undefined) return root;
    const part = this.problem.things[place]!.hangsBetween?.[0];
    return part === undefined ? place : (this.reading.rootOf.get(part) ?? place);
  }

  private waitOf(node: number): Wait | undefined {
    if (!this.waits.has(node)) this.waits.set(node, this.found(node));
    return this.waits.get(node);
  }

  /** Of all that a load waits for what the fewest other things could bring. */
  private found(node: number): Wait | undefined {
    return this.waitsFor(node)[0];
  }

  private readonly lists = new Map<number, readonly Wait[]>();
  /** All that a load waits for, first what the fewest other things could bring. */
  private waitsFor(node: number): readonly Wait[] {
    let known = this.lists.get(node);
    if (known === undefined) this.lists.set(node, (known = this.allWaits(node)));
    return known;
  }

  private allWaits(node: number): readonly Wait[] {
    const open = ({ clause }: Wait): number => clause.filter((set) => (set & ~this.reading.off) !== 0n).length;
    const isEnd = this.ends.has(node);
    const waits = isEnd
      ? this.unmet(node, this.problem.things[node]!.needs)
      : this.waitsOf(node, this.reading.leaving.get(node)?.way);
    return waits.toSorted((a, b) => open(a) - open(b));
  }

  private unmet(member: number, needs: readonly Clause[], unless: readonly Things[] = []): Wait[] {
    return needs
      .filter((clause) => !isMet(clause, this.off))
      .map((clause) => ({ member, clause: [...clause, ...unless], isOnWay: false }));
  }

  private waitsOf(node: number, way: string | undefined): Wait[] {
    const load = this.loads.get(node);
    if (load === undefined || way === undefined) return [];
    const lines = this.problem.things.flatMap((thing, place) =>
      hangsIn(thing, load) && (this.off & bit(place)) === 0n ? [place] : [],
    );
    return [...this.waitsOnWay(load, way), ...this.waitsToUndo(load, lines)];
  }

  /** What a load carries that is to leave otherwise, and what is in its way. */
  private waitsOnWay(load: Things, way: string): Wait[] {
    const { problem, off } = this;
    const { things } = problem;
    const members = placesOf(load);
    let loose = off;
    for (const place of members) for (const end of things[place]!.undoes) loose |= bit(end);
    const found: Wait[] = [];
    for (const member of members) {
      for (const rider of things[member]!.carries)
        if (((off | load) & bit(rider)) === 0n) found.push({ member, clause: [bit(rider)], isOnWay: false });
      for (const row of problem.inTheWay(member, way) ?? []) {
        if (isMet(row.cleared, off | load)) continue;
        if (row.line !== undefined && (hangsIn(things[row.line]!, load) || isMet(row.cleared, loose))) continue;
        // What is in the load itself need not be off before it.
        const own = row.line === undefined ? load : load | loose;
        found.push({ member, clause: setsOf(row, way).map((set) => set & ~own), isOnWay: true });
      }
    }
    return found;
  }

  /** What has to be off before its joints and fastenings can be undone. */
  private waitsToUndo(load: Things, lines: readonly number[]): Wait[] {
    const { things } = this.problem;
    const all = lines.reduce((set, line) => set | bit(line), load | this.off);
    const shut = new Set(lines.flatMap((line) => things[line]!.undoes));
    return [...placesOf(load), ...lines].flatMap((member): Wait[] => {
      const ends = things[member]!.undoes.filter((end) => (this.off & bit(end)) === 0n && !shut.has(end));
      const bonds = (this.bonds.get(member) ?? []).map(({ a, b, needs }) => ({ other: a === member ? b : a, needs }));
      return [
        ...this.unmet(member, things[member]!.needs),
        ...ends.flatMap((end) => {
          const line = this.model.lineOf(end);
          return this.unmet(member, things[end]!.needs, line === undefined ? [bit(end)] : [bit(end), bit(line)]);
        }),
        ...bonds.flatMap(({ other, needs }) =>
          other >= 0 && (all & bit(other)) !== 0n ? [] : this.unmet(member, needs, other >= 0 ? [bit(other)] : []),
        ),
      ];
    });
  }
}

/** All that helps with something in the way: off before, or along. */
function setsOf({ cleared, along, line }: InTheWay, way: string): readonly Things[] {
  const more = [way.startsWith(COMMON) ? along : undefined, line].flatMap((place) =>
    place === undefined || cleared.includes(bit(place)) ? [] : [bit(place)],
  );
  return [...cleared, ...more];
}
