import type { Car, Catalogue, Edit } from '#car';
import type { DocumentLog } from './document-log.ts';
import { newDocument } from './documents.ts';
import type { Shop } from './shelf.ts';
import { ShelfError } from './shelf-error.ts';
import { standingCar, stepped } from './standing-car.ts';

/** Where the shop stands among the documents; no car has this id. */
export const SHOP_ID = 'shop';

export type ShopWish = { readonly base: number; readonly who: string } & Partial<Pick<Shop, 'box' | 'catalogue'>>;

/** The shop is kept as a car that has nothing but a box and a catalogue: the same checks and the same history. */
const EMPTY_SHOP: Car = { fairlead: 1, parts: [], movers: [], lines: [] };

export async function standingShop(log: DocumentLog): Promise<Shop> {
  const at = await log.find(SHOP_ID);
  return at === undefined ? { revision: 0, box: [], catalogue: {} } : shopOf(at.row.revision, at.standing.car);
}

export async function keptShop(
  log: DocumentLog,
  wish: ShopWish,
): Promise<{ readonly kind: 'kept' | 'clash'; readonly now: Shop }> {
  const at = await log.find(SHOP_ID);
  if ((at?.row.revision ?? 0) !== wish.base) return { kind: 'clash', now: await standingShop(log) };
  const from = at?.standing ?? standingCar(EMPTY_SHOP);
  if (!('car' in from)) throw new ShelfError('broken', `an empty shop does not hold together: ${from[0]}`);
  const edits = shopEdits(from.car, wish);
  const step = stepped(from, edits);
  if (!step.ok) throw new ShelfError('refused', `the shop was not kept: ${step.faults[0]}`);
  if (step.now.hash === from.hash) return { kind: 'kept', now: await standingShop(log) };
  if (at === undefined) {
    const first = newDocument(SHOP_ID, 'shop', step.now, wish.who, log.nowMs());
    const isKept = await log.store.add({ ...first, points: [], scans: [] });
    return { kind: isKept ? 'kept' : 'clash', now: await standingShop(log) };
  }
  const done = { edits, done: edits, inverse: [step.inverse], of: null, uncovers: null };
  const kept = await log.append(at, step.now, { kind: 'change', ...done, who: wish.who, atMs: log.nowMs() });
  return { kind: kept === undefined ? 'clash' : 'kept', now: await standingShop(log) };
}

/** A catalogue's tables that are not in the wish go away with it. */
function shopEdits(from: Car, { box, catalogue }: ShopWish): readonly Edit[] {
  const tables = Object.keys({ ...(catalogue && from.catalogue), ...catalogue }) as (keyof Catalogue)[];
  return [
    ...(box === undefined ? [] : [{ do: 'set-box', rows: box } as const]),
    ...tables.map((table) => ({ do: 'set-catalogue', table, rows: catalogue?.[table] }) as Edit),
  ];
}

function shopOf(revision: number, car: Car): Shop {
  return { revision, box: structuredClone(car.box ?? []), catalogue: structuredClone(car.catalogue ?? {}) };
}
