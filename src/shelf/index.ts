// Where do cars live, so that no change a builder made is ever lost?
import { join } from 'node:path';
import { KeptShelf } from './kept-shelf.ts';
import { MemoryStore } from './memory-store.ts';
import type { Shelf } from './shelf.ts';
import { openSqliteStore } from './sqlite-store.ts';

export { dataFolder } from './data-folder.ts';
export type { EditWish, KeptCar, KeptOrNot, ScanRow, Shelf, ShelvedCar, Shop, Step } from './shelf.ts';
export { ShelfError, type ShelfFault } from './shelf-error.ts';
export { checkedScanFile } from './shelf-names.ts';

/** The shelf in a folder: one SQLite file, shelf.db, made where there is none. */
export async function openShelf(folder: string): Promise<Shelf> {
  return new KeptShelf(openSqliteStore(join(folder, 'shelf.db')));
}

/** A shelf that ends with the program. */
export async function memoryShelf(): Promise<Shelf> {
  return new KeptShelf(new MemoryStore());
}
