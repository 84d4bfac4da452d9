import { bit, type InTheWay, type StripProblem, type Thing } from '../strip-down/strip-problem.ts';
import { type Lattice, LATTICE_WAYS } from './lattice-assembly.ts';

/** What lets a fastening be undone: that part off, or, where either will do, the next one in the list. */
const lets = (k: number, { parts }: Lattice, either: boolean): readonly number[] =>
  either ? [k, (k + 1) % parts.length] : [k];

/** The assembly as the search takes it: parts first, then each line with its two ends. */
export function latticeProblem(lattice: Lattice, either = false): StripProblem {
  const { parts, lines, bonds } = lattice;
  const n = parts.length;
  const things: Thing[] = parts.map((part, i) => ({
    id: `p${i}`,
    staysOn: part.staysOn,
    cost: part.cost,
    carries: parts.flatMap(({ sitsOn }, k) => (sitsOn.includes(i) ? [k] : [])),
    undoes: lines.flatMap(({ between }, k) => between.flatMap((p, e) => (p === i ? [n + 3 * k + 1 + e] : []))),
    needs: part.after.map((k) => [bit(k)]),
  }));
  lines.forEach((line, k) => {
    const at = n + 3 * k;
    const plain = { staysOn: false, carries: [], undoes: [], needs: [] };
    things.push({ ...plain, id: `l${k}`, cost: line.cost, undoes: [at + 1, at + 2], hangsBetween: line.between });
    for (const e of [0, 1]) things.push({ ...plain, id: `l${k}e${e}`, cost: line.endCosts[e]! });
  });
  const inTheWay = (at: number, way: string): InTheWay[] => {
    if (at >= n) return [];
    const d = LATTICE_WAYS[Number(way.slice(5))]!;
    const ahead = (cells: Lattice['parts'][number]['cells']): boolean =>
      parts[at]!.cells.some((a) =>
        cells.some((b) => {
          const off = [0, 1, 2].map((i) => b[i]! - a[i]!);
          const along = off[0]! * d[0] + off[1]! * d[1] + off[2]! * d[2];
          return along > 0 && Math.hypot(...off) === along;
        }),
      );
    return [
      ...parts.flatMap(({ cells, staysOn }, k): InTheWay[] =>
        k !== at && ahead(cells) ? [staysOn ? { cleared: [] } : { along: k, cleared: [bit(k)] }] : [],
      ),
      ...lines.flatMap(({ cell }, k): InTheWay[] =>
        ahead([cell]) ? [{ line: n + 3 * k, cleared: [0, 1, 2].map((j) => bit(n + 3 * k + j)) }] : [],
      ),
    ];
  };
  return {
    things,
    bonds: bonds.map(({ a, b, cost, needs }, i) => ({
      id: `b${i}`,
      a,
      b,
      cost,
      needs: needs.map((k) => lets(k, lattice, either).map(bit)),
    })),
    waysOf: (at) => (at < n ? LATTICE_WAYS.map((_, i) => `pull ${i}`) : ['free']),
    inTheWay,
    takersOf: (at) => (at < n ? parts.flatMap((_, k) => (k === at ? [] : [k])) : []),
    goal: bit(lattice.goal),
    ...(lattice.alone ? { alone: bit(lattice.goal) } : {}),
  };
}

/** Every group that may go one way, given which parts are off and which lines are loose. */
function groupsOf({ parts, lines }: Lattice): (partsOff: number, looseLines: number, way: number) => readonly number[] {
  const n = parts.length;
  const cellsIn = (set: number) => parts.flatMap(({ cells }, i) => (set & (1 << i) ? cells : []));
  const before = (d: readonly number[], group: number, others: readonly (readonly number[])[]): boolean => {
    const still = new Set(others.map((cell) => cell.join()));
    const cells = cellsIn(group);
    for (let step = 1; step < 6; step++)
      for (const cell of cells) if (still.has(cell.map((c, i) => c + step * d[i]!).join())) return true;
    return false;
  };
  const ridersIn = (group: number, off: number): boolean =>
    parts.every(({ sitsOn }, i) => (group | off) & (1 << i) || !sitsOn.some((c) => group & (1 << c)));
  const pays = new Map<string, readonly number[]>();
  return (partsOff, looseLines, way) => {
    const key = `${partsOff} ${looseLines} ${way}`;
    const known = pays.get(key);
    if (known !== undefined) return known;
    const present = ((1 << n) - 1) & ~partsOff;
    const closed: number[] = [];
    for (let group = present; group > 0; group = (group - 1) & present) {
      if (parts.some(({ staysOn }, i) => staysOn && group & (1 << i)) || !ridersIn(group, partsOff)) continue;
      if (!before(LATTICE_WAYS[way]!, group, cellsIn(present & ~group))) closed.push(group);
    }
    const free = closed.filter((group) => {
      const tight = lines.flatMap(({ cell, between }, k) =>
        looseLines & (1 << k) || between.some((p) => group & (1 << p)) ? [] : [cell],
      );
      if (before(LATTICE_WAYS[way]!, group, tight)) return false;
      return parts.some(
        (_, t) => group & (1 << t) && !closed.some((few) => few !== group && few & (1 << t) && (few & group) === few),
      );
    });
    pays.set(key, free);
    return free;
  };
}

/**
 * By brute force: the cheapest way over every set of what is off, with every set of parts tried as a group. A group counts where it is
 * the least set about one of its parts that closes over what rides on it and what stands before it: the definition, by trying subsets.
 */
export function leastByTrying(lattice: Lattice, either = false): number {
  const { parts, lines, goal } = lattice;
  const n = parts.length;
  const best = new Float64Array(1 << (n + 3 * lines.length)).fill(Infinity);
  const lineBit = (k: number, j: number) => 1 << (n + 3 * k + j);
  best[0] = 0;
  const open: number[][] = [[0]];
  const put = (cost: number, set: number) => (open[cost] ??= []).push(set);
  const groups = groupsOf(lattice);
  for (let cost = 0; cost < open.length; cost++) {
    for (const off of open[cost] ?? []) {
      if (best[off]! < cost) continue;
      if (off & (1 << goal)) return cost;
      const go = (to: number, price: number) => {
        if (cost + price >= best[to]!) return;
        best[to] = cost + price;
        put(cost + price, to);
      };
      lines.forEach((line, k) => {
        let ends = 0;
        for (const e of [0, 1]) {
          if (off & lineBit(k, 1 + e)) continue;
          ends += line.endCosts[e]!;
          go(off | lineBit(k, 1 + e), line.endCosts[e]!);
        }
        if (!(off & lineBit(k, 0))) go(off | lineBit(k, 0) | lineBit(k, 1) | lineBit(k, 2), line.cost + ends);
      });
      const partsOff = off & ((1 << n) - 1);
      let loose = 0;
      lines.forEach((_, k) => {
        if (off & (lineBit(k, 0) | lineBit(k, 1) | lineBit(k, 2))) loose |= 1 << k;
      });
      for (let way = 0; way < 6; way++)
        for (const group of groups(partsOff, loose, way)) {
          if (parts.some(({ after }, i) => group & (1 << i) && after.some((k) => !(off & (1 << k))))) continue;
          let price = 0;
          let to = off | group;
          parts.forEach((part, i) => {
            if (group & (1 << i)) price += part.cost;
          });
          lines.forEach((line, k) => {
            if (off & lineBit(k, 0)) return;
            if (line.between.every((p) => group & (1 << p))) {
              to |= lineBit(k, 0);
              price += line.cost;
              return;
            }
            for (const e of [0, 1])
              if (group & (1 << line.between[e]!) && !(off & lineBit(k, 1 + e))) {
                price += line.endCosts[e]!;
                to |= lineBit(k, 1 + e);
              }
          });
          const paid = bondsPaid(lattice, group, off, either);
          if (paid !== null) go(to, price + paid);
        }
    }
  }
  return Infinity;
}

/** Minutes for the fastenings that a group leaves; null where one of them cannot be undone yet. */
function bondsPaid(lattice: Lattice, group: number, off: number, either: boolean): number | null {
  const { bonds, goal, alone } = lattice;
  let paid = 0;
  for (const { a, b, cost, needs } of bonds) {
    const [inA, inB] = [Boolean(group & (1 << a)), b >= 0 && Boolean(group & (1 << b))];
    const other = inA ? b : a;
    if (inA && inB && alone && (a === goal || b === goal)) paid += cost;
    if (inA === inB || (other >= 0 && off & (1 << other))) continue;
    if (needs.some((k) => lets(k, lattice, either).every((one) => !(off & (1 << one))))) return null;
    paid += cost;
  }
  return paid;
}
