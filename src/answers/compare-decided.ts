import { type Car, findLine } from '#car';
import type { LinesWorld } from '#lines';
import { compare, type Comparison, keptLines, type PlannedLines } from '#stock';

/**
 * What it costs to come from one car to the other with what the builder decided in each; nothing is planned. A line that has another way
 * in the second is held against that; one that has the same, or none, is kept where its hose still does.
 */
export function compareDecided(a: LinesWorld, b: LinesWorld): Comparison {
  const before = decided(a.car);
  const still = keptLines(a, before, b);
  const isOther = (id: string): boolean => {
    const [was, is] = [findLine(a.car, id)?.taken, findLine(b.car, id)?.taken];
    return is !== undefined && is !== null && JSON.stringify(is) !== JSON.stringify(was);
  };
  const kept = new Map([...still.kept].filter(([id]) => !isOther(id)));
  const lines = decided(b.car).lines.map((row) =>
    // The way of the first car does not do any more, and no other is taken: how it is to be made is not known.
    isOther(row.line) || kept.has(row.line) || !still.not.has(row.line) ? row : { ...row, taken: null },
  );
  return compare(a, before, b, { lines }, { kept, not: still.not });
}

const decided = (car: Car): PlannedLines => ({
  lines: car.lines.map((line) => ({ line: line.id, taken: line.taken ?? null })),
});
