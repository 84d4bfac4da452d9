import type { TakenWay } from '#car';
import type { Way } from '#lines';
import { type Catalogue, type HoseEndRow, fixingRow } from '#standards';
import { makeUpIds } from './part-uses.ts';

/** The last of a make-up, where it is no adapter: what holds the hose; undefined where the hose is pushed over a spigot. */
export function hoseEndId(makeUp: readonly unknown[] | undefined, shelf: Catalogue): string | undefined {
  const last = makeUpIds(makeUp ?? []).at(-1);
  if (last === undefined) return undefined;
  const isAdapter =
    shelf.adapters.some((row) => row.id === last) || shelf.bulkheadFittings.some((row) => row.id === last);
  return isAdapter ? undefined : last;
}

/** The catalogue's rows of the hose ends of a way. */
export function hoseEndRows(
  ends: readonly { readonly makeUp?: readonly unknown[] | undefined }[],
  hoseIds: readonly (string | undefined)[],
  shelf: Catalogue,
): HoseEndRow[] {
  const rows = hoseIds.flatMap((id) => {
    const hose = id === undefined ? undefined : shelf.findHose(id);
    return hose === undefined ? [] : shelf.hoseEndsFor(hose);
  });
  return ends.flatMap((end) => rows.find((row) => row.id === hoseEndId(end.makeUp, shelf)) ?? []);
}

/** Can one of its ends be set anew on the hose, by hand or by undoing it? Then the angle between its elbows is not fixed. */
export function turnsOnHose(way: Way | TakenWay, shelf: Catalogue): boolean {
  return hoseEndRows(
    way.ends,
    way.pieces.map((piece) => piece.hose),
    shelf,
  ).some((row) => row.fixing === 'reusable' || fixingRow(row.fixing).turnsOnHose);
}
