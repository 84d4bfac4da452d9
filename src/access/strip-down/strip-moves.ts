import {
  bit,
  type Bond,
  type Clause,
  isMet,
  isWithin,
  placesOf,
  type StripMove,
  type StripProblem,
  type Thing,
  type Things,
} from './strip-problem.ts';

/** Ways whose key begins so are common to all things: something in the way may go along on them. */
export const COMMON = 'pull ';

/**
 * The move of one thing along one way with all that must go with it: what it carries, and on a common way what stands in the way and
 * can go along. Null where something stands in the way for good, or must be off first.
 */
export function moveOf(
  problem: StripProblem,
  bonds: ReadonlyMap<number, readonly Bond[]>,
  off: Things,
  root: number,
  way: string,
): StripMove | null {
  const group = groupOf(problem, off, root, way);
  if (group === null) return null;
  const { things } = problem;
  let set = 0n;
  for (const place of group) set |= bit(place);
  const along: number[] = [];
  for (let place = 0; place < things.length; place++)
    if (((off | set) & bit(place)) === 0n && hangsIn(things[place]!, set)) along.push(place);
  for (const place of along) set |= bit(place);
  const members = [...group, ...along];
  const ends = endsOf(problem, off, set, members, along);
  for (const place of [...members, ...ends])
    if (!things[place]!.needs.every((clause) => isMet(clause, off))) return null;
  const undone: Bond[] = [];
  for (const place of members)
    for (const bond of bonds.get(place) ?? []) {
      const other = bond.a === place ? bond.b : bond.a;
      if (other >= 0 && ((set | off) & bit(other)) !== 0n) continue;
      if (!bond.needs.every((clause) => isMet(clause, off))) return null;
      undone.push(bond);
    }
  const onBench = benchBonds(problem, bonds, set);
  let cost = 0;
  for (const place of members) cost += things[place]!.cost;
  for (const place of ends) cost += things[place]!.cost;
  for (const bond of undone) cost += bond.cost;
  for (const bond of onBench) cost += bond.cost;
  return { root, way, group: members, ends, undone, onBench, cost };
}

function groupOf({ things, inTheWay }: StripProblem, off: Things, root: number, way: string): number[] | null {
  const group = [root];
  let set = bit(root);
  const lines: [line: number, cleared: Clause][] = [];
  const held: Clause[] = [];
  const isCommon = way.startsWith(COMMON);
  for (let i = 0; i < group.length; i++) {
    const at = group[i]!;
    if (things[at]!.staysOn) return null;
    for (const rider of things[at]!.carries)
      if (((off | set) & bit(rider)) === 0n) {
        group.push(rider);
        set |= bit(rider);
      }
    const list = inTheWay(at, way);
    if (list === undefined) return null;
    for (const { cleared, along, line } of list) {
      if (isMet(cleared, off | set)) continue;
      if (line !== undefined) {
        lines.push([line, cleared]);
        continue;
      }
      if (!isCommon || along === undefined || things[along]!.staysOn) {
        if (cleared.length === 0) return null;
        held.push(cleared);
        continue;
      }
      group.push(along);
      set |= bit(along);
    }
  }
  // What is undone to let the group go swings aside with it.
  let loose = off;
  for (const place of group) for (const end of things[place]!.undoes) loose |= bit(end);
  for (const cleared of held) if (!isMet(cleared, off | set)) return null;
  for (const [line, cleared] of lines) if (!hangsIn(things[line]!, set) && !isMet(cleared, loose)) return null;
  return group;
}

/** A line whose parts are all in a load goes along unopened. */
export const hangsIn = ({ hangsBetween }: Thing, load: Things): boolean =>
  hangsBetween?.every((part) => (load & bit(part)) !== 0n) ?? false;

/** Ends of lines that are undone because what they are on goes without the line, or the line without what it is on. */
function endsOf(
  { things }: StripProblem,
  off: Things,
  set: Things,
  members: readonly number[],
  along: readonly number[],
): number[] {
  const held = new Set(along.flatMap((line) => things[line]!.undoes));
  return [
    ...new Set(
      members
        .filter((place) => !along.includes(place))
        .flatMap((place) => things[place]!.undoes)
        .filter((end) => ((off | set) & bit(end)) === 0n && !held.has(end)),
    ),
  ].toSorted((a, b) => a - b);
}

/** What still holds a thing that is wanted alone to the others of its group. */
function benchBonds({ alone = 0n }: StripProblem, bonds: ReadonlyMap<number, readonly Bond[]>, set: Things): Bond[] {
  const found = new Set<Bond>();
  for (const place of placesOf(alone & set))
    for (const bond of bonds.get(place) ?? []) {
      const other = bond.a === place ? bond.b : bond.a;
      if (other >= 0 && isWithin(bit(other), set)) found.add(bond);
    }
  return [...found];
}

/** What is off once a move is made. */
export const offAfter = (off: Things, { group, ends }: Pick<StripMove, 'group' | 'ends'>): Things => {
  let set = off;
  for (const place of [...group, ...ends]) set |= bit(place);
  return set;
};
