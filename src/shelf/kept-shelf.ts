import { createHash } from 'node:crypto';
import type { Car } from '#car';
import { goneBack, keptEdits, redone, undone } from './car-steps.ts';
import { DocumentLog, type Standing } from './document-log.ts';
import { newDocument } from './documents.ts';
import { exportedCar } from './exported-car.ts';
import { importedCar } from './imported-car.ts';
import type { EditWish, KeptCar, KeptOrNot, ScanRow, Shelf, ShelvedCar, Shop, Step } from './shelf.ts';
import { ShelfError } from './shelf-error.ts';
import { carIdFrom, checkedName, checkedScanFile, freeId } from './shelf-names.ts';
import { keptShop, type ShopWish, standingShop } from './shop.ts';
import { standingCar } from './standing-car.ts';
import type { StepRow, Store, WholeDocument } from './store.ts';

/** Largest scan [bytes]; the mesh readers take no larger one either. */
const LARGEST_SCAN_BYTES = 512 * 1024 * 1024;
/** Most steps handed out at a time. */
const MOST_STEPS = 1000;

/** The shelf on top of any store. */
export class KeptShelf implements Shelf {
  private readonly store: Store;
  private readonly log: DocumentLog;

  constructor(store: Store, nowMs: () => number = Date.now) {
    this.store = store;
    this.log = new DocumentLog(store, nowMs);
  }

  async cars(): Promise<readonly ShelvedCar[]> {
    const rows = (await this.store.documents()).filter((row) => row.kind === 'car');
    return rows
      .map(({ id, name, revision, changedAtMs, parts, lines, away }) => {
        return { id, name, revision, changedAtMs, parts, lines, isAway: away !== null };
      })
      .sort((a, b) => Number(a.isAway) - Number(b.isAway) || b.changedAtMs - a.changedAtMs || (a.id < b.id ? -1 : 1));
  }

  async addCar(car: Car, who: string, wantedId?: string): Promise<KeptCar> {
    const by = checkedName(who, 'who');
    const standing = standingCar(car);
    if (!('car' in standing)) throw new ShelfError('refused', `the car does not hold together: ${standing[0]}`);
    return this.put(carIdFrom(wantedId ?? car.name ?? 'car'), (id) => ({
      ...newDocument(id, 'car', standing, by, this.log.nowMs()),
      points: [],
      scans: [],
    }));
  }

  async openCar(id: string): Promise<KeptCar> {
    return this.handedOut(await this.log.car(id));
  }

  async carAt(id: string, revision: number): Promise<Car> {
    const { car } = await this.log.standingAt(await this.log.car(id), revision);
    return structuredClone(car);
  }

  async setAway(id: string, isAway: boolean, who: string): Promise<void> {
    await this.log.car(id);
    await this.store.setAway(id, isAway ? { atMs: this.log.nowMs(), by: checkedName(who, 'who') } : null);
  }

  async keep(id: string, wish: EditWish): Promise<KeptOrNot> {
    const answer = await keptEdits(this.log, id, { ...wish, who: checkedName(wish.who, 'who') });
    return { ...answer, now: await this.handedOut(answer.now) };
  }

  async undo(id: string, who: string): Promise<KeptCar> {
    return this.handedOut(await undone(this.log, id, checkedName(who, 'who')));
  }

  async redo(id: string, who: string): Promise<KeptCar> {
    return this.handedOut(await redone(this.log, id, checkedName(who, 'who')));
  }

  async history(id: string, beforeRevision: number, count: number): Promise<readonly Step[]> {
    await this.log.car(id);
    const last = Math.ceil(beforeRevision) - 1;
    const first = Math.max(1, last - Math.min(Math.floor(count), MOST_STEPS) + 1);
    const names = await this.pointNames(id);
    const rows = last < first ? [] : await this.store.steps(id, first, last);
    return rows.map((row) => stepOf(row, names)).reverse();
  }

  async namePoint(id: string, revision: number, name: string): Promise<void> {
    const { row } = await this.log.car(id);
    if (!Number.isInteger(revision) || revision < 1 || revision > row.revision)
      throw new ShelfError('no-revision', `there is no revision ${revision} of ${id}; it has 1 to ${row.revision}`);
    await this.store.namePoint(id, { revision, name: checkedName(name, 'name of a point') });
  }

  async points(id: string): Promise<readonly Step[]> {
    await this.log.car(id);
    const names = await this.pointNames(id);
    const out: Step[] = [];
    for (const revision of names.keys()) out.push(stepOf(await this.log.step(id, revision), names));
    return out.reverse();
  }

  async goBack(id: string, revision: number, who: string): Promise<KeptCar> {
    return this.handedOut(await goneBack(this.log, id, revision, checkedName(who, 'who')));
  }

  async addScan(id: string, file: string, bytes: Uint8Array): Promise<ScanRow> {
    await this.log.car(id);
    checkedScanFile(file);
    if (bytes.length > LARGEST_SCAN_BYTES)
      throw new ShelfError('refused', `${file} has ${bytes.length} bytes; allowed are ${LARGEST_SCAN_BYTES} (512 MB)`);
    const hash = createHash('sha256').update(bytes).digest('hex');
    const row = { file, hash, bytes: bytes.length };
    const standing = (await this.scans(id)).find((scan) => scan.file === file);
    if (standing?.hash === hash) return row;
    await this.store.putBlob(hash, bytes);
    await this.store.linkScan(id, { ...row, atMs: this.log.nowMs() });
    return row;
  }

  async scans(id: string): Promise<readonly ScanRow[]> {
    await this.log.car(id);
    const last = new Map((await this.store.scans(id)).map(({ file, hash, bytes }) => [file, { file, hash, bytes }]));
    return [...last.values()].sort((a, b) => (a.file < b.file ? -1 : 1));
  }

  async scan(id: string, file: string): Promise<Uint8Array> {
    const row = (await this.scans(id)).find((scan) => scan.file === file);
    if (row === undefined)
      throw new ShelfError('no-scan', `car ${id} has no scan ${JSON.stringify(String(file).slice(0, 60))}`);
    const bytes = await this.store.blob(row.hash);
    if (bytes !== undefined && createHash('sha256').update(bytes).digest('hex') === row.hash) return bytes;
    throw new ShelfError('broken', `scan ${file} of ${id} is damaged on the disk: put the file in again`);
  }

  async shop(): Promise<Shop> {
    return standingShop(this.log);
  }

  async keepShop(wish: ShopWish): Promise<{ readonly kind: 'kept' | 'clash'; readonly now: Shop }> {
    return keptShop(this.log, { ...wish, who: checkedName(wish.who, 'who') });
  }

  exportCar(id: string): Promise<Uint8Array> {
    return exportedCar(this.log, id);
  }

  async importCar(bytes: Uint8Array, who: string): Promise<KeptCar> {
    checkedName(who, 'who');
    const car = await importedCar(bytes);
    for (const [hash, read] of car.scans) await this.store.putBlob(hash, read());
    return this.put(carIdFrom(car.id), car.whole);
  }

  copyTo(file: string): Promise<void> {
    return this.store.copyTo(file);
  }

  close(): Promise<void> {
    return this.store.close();
  }

  /** Under the wanted id, or with a number behind it where that is taken. */
  private async put(wantedId: string, whole: (id: string) => WholeDocument): Promise<KeptCar> {
    for (;;) {
      const taken = new Set((await this.store.documents()).map((row) => row.id));
      const id = freeId(wantedId, (one) => taken.has(one));
      if (await this.store.add(whole(id))) return this.openCar(id);
    }
  }

  /** A copy, so that nobody writes to what is remembered here. */
  private async handedOut({ row, standing }: Standing): Promise<KeptCar> {
    const names = await this.pointNames(row.id);
    const top = async (revision: number | null) =>
      revision === null ? null : stepOf(await this.log.step(row.id, revision), names);
    const [undo, redo] = [await top(row.undoTop), await top(row.redoTop)];
    return { id: row.id, revision: row.revision, car: structuredClone(standing.car), undo, redo };
  }

  private async pointNames(id: string): Promise<ReadonlyMap<number, string>> {
    return new Map((await this.store.points(id)).map((point) => [point.revision, point.name]));
  }
}

function stepOf(row: StepRow, names: ReadonlyMap<number, string>): Step {
  const { revision, kind, of, who, atMs } = row;
  return { revision, kind, edits: JSON.parse(row.edits), of, who, atMs, point: names.get(revision) ?? null };
}
