import type { Cut, Term } from './integer-program.ts';
import { stuckCuts } from './stuck-cuts.ts';
import type { StripModel } from './strip-model.ts';
import { isWithin, type StripProblem, type Things } from './strip-problem.ts';
import type { Bonds, Reading } from './strip-reading.ts';

/**
 * Rows that an answer breaks and no plan does.
 *
 * @param off - what left when it was played through
 */
export function cutsFor(
  problem: StripProblem,
  bonds: Bonds,
  model: StripModel,
  reading: Reading,
  off: Things,
): readonly Cut[] {
  const cuts = [...rounds(model, reading), ...apart(model, reading)];
  return isWithin(problem.goal, off) ? cuts : [...cuts, ...stuckCuts(problem, bonds, model, reading, off)];
}

/** All with the same that is taken hold of. */
const loadOf = ({ rootOf }: Reading, root: number | undefined): Set<number> =>
  new Set([...rootOf].flatMap(([place, of]) => (of === root ? [place] : [])));

/** Things that only go with each other all round: one of them is taken hold of, or goes with something else. */
function rounds(model: StripModel, reading: Reading): Cut[] {
  const cuts: Cut[] = [];
  const done = new Set<number>();
  for (const [start, root] of reading.rootOf) {
    if (root !== undefined || done.has(start)) continue;
    const path: number[] = [];
    for (let at = start; !path.includes(at) && !done.has(at); at = reading.leaving.get(at)!.with!) path.push(at);
    const again = reading.leaving.get(path.at(-1)!)!.with!;
    path.forEach((place) => done.add(place));
    if (!path.includes(again)) continue;
    const round = path.slice(path.indexOf(again));
    const { way } = reading.leaving.get(again)!;
    const all = new Set(round);
    for (let isMore = true; isMore; ) {
      isMore = false;
      for (const [place, row] of reading.leaving)
        if (row.with !== undefined && all.has(row.with) && !all.has(place)) {
          all.add(place);
          isMore = true;
        }
    }
    const out = model.leavings.filter(
      (row) => row.way === way && all.has(row.place) && (row.with === undefined || !all.has(row.with)),
    );
    for (const place of round)
      cuts.push({ least: 0, terms: [...out.map(({ column }): Term => [column, 1]), ...model.leaves(place, way, -1)] });
  }
  return cuts;
}

/** Things said to leave together that are in different loads: they do only where something joins the loads. */
function apart(model: StripModel, reading: Reading): Cut[] {
  return reading.together.flatMap(({ places, way, column }): Cut[] => {
    const roots = new Set(places.map((place) => reading.rootOf.get(place)));
    if (roots.size === 1) return [];
    return [...roots].flatMap((root): Cut[] => {
      if (root === undefined) return [];
      const load = loadOf(reading, root);
      const joins = model.leavings.filter(
        (row) => row.way === way && row.with !== undefined && load.has(row.place) !== load.has(row.with),
      );
      return [{ least: 0, terms: [...joins.map((row): Term => [row.column, 1]), [column, -1]] }];
    });
  });
}
