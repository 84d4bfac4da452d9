import type { BoxRow, Car, Catalogue } from './schema/car.ts';

/** What a shop has for all its cars. */
export interface ShopStock {
  readonly box: readonly BoxRow[];
  readonly catalogue: Catalogue;
}

/** A car with what the shop has: its box joined (same id: together), its catalogue under the car's own rows (same id: the car's counts). */
export function carWithShop(car: Car, shop: ShopStock): Car {
  const box = joinedBox(car.box ?? [], shop.box);
  const catalogue = joinedCatalogue(car.catalogue ?? {}, shop.catalogue);
  return {
    ...car,
    ...(box.length === 0 ? {} : { box }),
    ...(Object.keys(catalogue).length === 0 ? {} : { catalogue }),
  };
}

/** A car with rows put into its catalogue; one of the same id takes the place of the one that was there. */
export const carWithRows = (car: Car, rows: Catalogue): Car => ({
  ...car,
  catalogue: joinedCatalogue(rows, car.catalogue ?? {}),
});

function joinedBox(own: readonly BoxRow[], shop: readonly BoxRow[]): BoxRow[] {
  const rows = new Map(own.map((row) => [row.id, row]));
  for (const row of shop) {
    const has = rows.get(row.id);
    rows.set(row.id, has === undefined ? row : { ...has, qty: has.qty + row.qty });
  }
  return [...rows.values()];
}

function joinedCatalogue(own: Catalogue, shop: Catalogue): Catalogue {
  const tables = new Set([...Object.keys(own), ...Object.keys(shop)] as (keyof Catalogue)[]);
  const joined: Record<string, unknown> = {};
  for (const table of tables) {
    const ownRows = (own[table] ?? []) as readonly { readonly id: string }[];
    const ids = new Set(ownRows.map((row) => row.id));
    const shopRows = ((shop[table] ?? []) as readonly { readonly id: string }[]).filter((row) => !ids.has(row.id));
    joined[table] = [...ownRows, ...shopRows];
  }
  return joined as Catalogue;
}
