import type { Term } from './integer-program.ts';

/** One way in which something may leave: by itself, or with what carries it or has it in the way. */
export interface Leaving {
  readonly place: number;
  readonly way: string;
  /** What it goes with; undefined: nothing, it is what is taken hold of. */
  readonly with?: number;
  readonly column: number;
}

/** Columns of an integer program by thing and way. */
export class Columns {
  private readonly by = new Map<number, Map<string, number>>();

  set(place: number, way: string, column: number): void {
    const ways = this.by.get(place);
    if (ways === undefined) this.by.set(place, new Map([[way, column]]));
    else ways.set(way, column);
  }

  on(place: number, way: string, factor = 1): Term[] {
    const column = this.by.get(place)?.get(way);
    return column === undefined ? [] : [[column, factor]];
  }

  all(place: number, factor = 1): Term[] {
    return [...(this.by.get(place)?.values() ?? [])].map((column) => [column, factor]);
  }
}

/** By thing: one number for all that are joined on a way. */
export function joinedOn(leavings: readonly Leaving[], way: string): ReadonlyMap<number, number> {
  const by = new Map<number, number>();
  const rides = leavings.filter((row) => row.way === way && row.with !== undefined);
  for (const { place, with: on } of rides) {
    const [a, b] = [by.get(place) ?? place, by.get(on!) ?? on!];
    for (const [thing, number] of by) if (number === b) by.set(thing, a);
    by.set(place, a).set(on!, a);
  }
  return by;
}
