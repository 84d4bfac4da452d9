import { type AdapterRow, type End, endKey, mates } from '#standards';

/** An adapter as it stands in a chain: `flipped` = its b side looks at the port. */
export interface Link {
  readonly row: AdapterRow;
  readonly flipped: boolean;
}

export const entryOf = (link: Link): End => (link.flipped ? link.row.b : link.row.a);
export const exitOf = (link: Link): End => (link.flipped ? link.row.a : link.row.b);

/** Three adapters in a row is the most a builder puts up with; more is a part to have made. */
export const mostAdapters = 3;

export interface ChainWish {
  /** Is this open end what the hose (or its end) goes on? */
  readonly isGoal: (end: End) => boolean;
  /** May this link stand in the chain? */
  readonly allowed: (link: Link) => boolean;
  /** How many elbows the chain has, exactly. */
  readonly elbows: 0 | 1;
}

/**
 * Every shortest chain of adapters that leads from a port's end to an end that `isGoal`, joint by joint as the mating key says
 * (thread, size and seat). Empty when no chain of up to three does; the order is that of the rows.
 */
export function matingChains(from: End, rows: readonly AdapterRow[], wish: ChainWish): readonly (readonly Link[])[] {
  const search = new ChainSearch(rows, wish);
  for (let count = wish.elbows; count <= mostAdapters; count++) {
    const chains = search.chains(from, count, wish.elbows);
    if (chains.length > 0) return chains;
  }
  return [];
}

class ChainSearch {
  private readonly known = new Map<string, readonly (readonly Link[])[]>();
  private readonly rows: readonly AdapterRow[];
  private readonly wish: ChainWish;

  constructor(rows: readonly AdapterRow[], wish: ChainWish) {
    this.rows = rows;
    this.wish = wish;
  }

  /** All chains of exactly `count` adapters with exactly `elbows` elbows; kept, since many chains share their far part. */
  chains(from: End, count: number, elbows: number): readonly (readonly Link[])[] {
    if (count === 0) return elbows === 0 && this.wish.isGoal(from) ? [[]] : [];
    const key = `${endKey(from)} ${count} ${elbows}`;
    const before = this.known.get(key);
    if (before !== undefined) return before;
    const found = linksOn(from, this.rows)
      .filter(this.wish.allowed)
      .flatMap((link) => {
        const left = elbows - (link.row.angleDeg === 0 ? 0 : 1);
        return left < 0 ? [] : this.chains(exitOf(link), count - 1, left).map((rest) => [link, ...rest]);
      });
    this.known.set(key, found);
    return found;
  }
}

/** What screws onto what, per table of adapters: asked again for every port of a car. */
const linksByTable = new WeakMap<readonly AdapterRow[], Map<string, readonly Link[]>>();

/** Every adapter that goes on this open end, either way round, in the order of the rows. */
export function linksOn(end: End, rows: readonly AdapterRow[]): readonly Link[] {
  const byEnd = linksByTable.get(rows) ?? new Map<string, readonly Link[]>();
  linksByTable.set(rows, byEnd);
  const key = endKey(end);
  const before = byEnd.get(key);
  if (before !== undefined) return before;
  const links = rows.flatMap((row) => linksOfRow(row, end));
  byEnd.set(key, links);
  return links;
}

function linksOfRow(row: AdapterRow, end: End): Link[] {
  const links: Link[] = [];
  if (mates(end, row.a).ok) links.push({ row, flipped: false });
  if (endKey(row.a) !== endKey(row.b) && mates(end, row.b).ok) links.push({ row, flipped: true });
  return links;
}
