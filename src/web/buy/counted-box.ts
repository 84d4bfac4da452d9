import type { BoxRow } from '#car';

/** A row that is counted and not kept yet. */
export interface Count {
  readonly qty: number;
  /** What lay there when its counting began. */
  readonly was: number;
  readonly note?: string;
}

/** By the part's id; a row that is not in here is as it is kept. */
export type Counting = ReadonlyMap<string, Count>;

/** Somebody else counted the same row otherwise since. */
export interface Overtaken {
  readonly id: string;
  readonly mine: number;
  readonly theirs: number;
}

const lying = (had: readonly BoxRow[], id: string): number => had.find((row) => row.id === id)?.qty ?? 0;

/** One row set to a count; what lay there at first stays known. */
export function withCount(
  had: readonly BoxRow[],
  counting: Counting,
  id: string,
  qty: number,
  note?: string,
): Counting {
  const was = counting.get(id)?.was ?? lying(had, id);
  return new Map(counting).set(id, { qty, was, ...(note === undefined ? {} : { note }) });
}

/** The whole box counted from a list: what is not on it is not there. */
export function withList(had: readonly BoxRow[], counting: Counting, rows: readonly BoxRow[]): Counting {
  const ids = new Set([...had.map(({ id }) => id), ...counting.keys(), ...rows.map(({ id }) => id)]);
  let next = counting;
  for (const id of ids) {
    const row = rows.find((one) => one.id === id);
    next = withCount(had, next, id, row?.qty ?? 0, row?.note);
  }
  return next;
}

/** The box as it is kept with the counts laid over it: what others counted of other parts stands. */
export function countedRows(had: readonly BoxRow[], counting: Counting): readonly BoxRow[] {
  const ids = [...new Set([...had.map(({ id }) => id), ...counting.keys()])];
  return ids.flatMap((id): readonly BoxRow[] => {
    const [row, count] = [had.find((one) => one.id === id), counting.get(id)];
    const qty = count?.qty ?? row?.qty ?? 0;
    const note = count?.note ?? row?.note;
    return qty === 0 ? [] : [{ ...row, id, qty, ...(note === undefined ? {} : { note }) }];
  });
}

export function overtaken(had: readonly BoxRow[], counting: Counting): readonly Overtaken[] {
  return [...counting].flatMap(([id, { qty, was }]) => {
    const theirs = lying(had, id);
    return theirs === was || theirs === qty ? [] : [{ id, mine: qty, theirs }];
  });
}
