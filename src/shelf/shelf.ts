import type { BoxRow, Car, Catalogue, Clash, Edit } from '#car';

/** A car as the list of cars shows it. */
export interface ShelvedCar {
  readonly id: string;
  readonly name: string;
  /** Counts every kept change, undoing and redoing among them; 1 for a car just put on the shelf. */
  readonly revision: number;
  readonly changedAtMs: number;
  readonly parts: number;
  readonly lines: number;
  /** Off the list, with all its history, until it is taken back. */
  readonly isAway: boolean;
}

/** A car as it stands. */
export interface KeptCar {
  readonly id: string;
  readonly revision: number;
  readonly car: Car;
  /** The change that undoing would take back, and the one that redoing would bring again; null where there is none. */
  readonly undo: Step | null;
  readonly redo: Step | null;
}

/** One kept change. */
export interface Step {
  readonly revision: number;
  readonly kind: 'put on the shelf' | 'change' | 'undo' | 'redo' | 'gone back';
  /** For `undo` and `redo` what is in the step that they took back or brought again. */
  readonly edits: readonly Edit[];
  /** For `undo` and `redo` the revision of the step acted on, for `gone back` the one gone back to; else null. */
  readonly of: number | null;
  readonly who: string;
  readonly atMs: number;
  /** Name of the point, where the builder gave this revision one. */
  readonly point: string | null;
}

export interface EditWish {
  /** The revision that the edits were made on. Others may have kept changes since. */
  readonly base: number;
  readonly edits: readonly Edit[];
  readonly who: string;
}

/** `kept`: durable. `clash`: somebody changed the same thing since; `faults`: the car would not hold together. Then nothing is kept. */
export type KeptOrNot =
  | { readonly kind: 'kept'; readonly now: KeptCar }
  | { readonly kind: 'clash'; readonly now: KeptCar; readonly clashes: readonly Clash[]; readonly by: string }
  | { readonly kind: 'faults'; readonly now: KeptCar; readonly faults: readonly string[] };

/** What lies on the shop's shelf and what it can buy, for all cars. */
export interface Shop {
  readonly revision: number;
  readonly box: readonly BoxRow[];
  readonly catalogue: Catalogue;
}

/** A mesh or CAD file of a car, by the name that the car's shapes give it. */
export interface ScanRow {
  readonly file: string;
  readonly hash: string;
  readonly bytes: number;
}

/**
 * Where cars live. Whatever a promise here answers as kept is on the disk before it answers.
 *
 * @throws ShelfError `no-car`, `no-scan`, `nothing-to-undo`, `nothing-to-redo`, `no-revision`, `refused`, `full`, `read-only`,
 * `broken`, `newer`, `busy`
 */
export interface Shelf {
  /** Last changed first; those put away last. */
  cars(): Promise<readonly ShelvedCar[]>;
  /** Puts a car on the shelf; with an id that is taken already, it is given another. */
  addCar(car: Car, who: string, wantedId?: string): Promise<KeptCar>;
  openCar(id: string): Promise<KeptCar>;
  carAt(id: string, revision: number): Promise<Car>;
  setAway(id: string, isAway: boolean, who: string): Promise<void>;
  /**
   * Edits on an older revision are merged with what was kept since. The very same edit that stands among those already counts as
   * kept, so that a wish may be sent again when its answer got lost; so take each next wish's base from the last answer. Edits
   * that change nothing make no step.
   */
  keep(id: string, wish: EditWish): Promise<KeptOrNot>;
  undo(id: string, who: string): Promise<KeptCar>;
  redo(id: string, who: string): Promise<KeptCar>;
  /** Newest first, those before a revision. */
  history(id: string, beforeRevision: number, count: number): Promise<readonly Step[]>;
  /** Gives a revision a name to go back to; an empty name takes it away. */
  namePoint(id: string, revision: number, name: string): Promise<void>;
  points(id: string): Promise<readonly Step[]>;
  /** The car as it stood then, as a new change: nothing since is lost, and it can be undone. */
  goBack(id: string, revision: number, who: string): Promise<KeptCar>;
  addScan(id: string, file: string, bytes: Uint8Array): Promise<ScanRow>;
  scans(id: string): Promise<readonly ScanRow[]>;
  scan(id: string, file: string): Promise<Uint8Array>;
  shop(): Promise<Shop>;
  /** Sets the box, the catalogue or both; refused where the shop has changed since `base`. */
  keepShop(
    wish: { readonly base: number; readonly who: string } & Partial<Pick<Shop, 'box' | 'catalogue'>>,
  ): Promise<{ readonly kind: 'kept' | 'clash'; readonly now: Shop }>;
  /** One file with the car, its whole history and its scans. */
  exportCar(id: string): Promise<Uint8Array>;
  importCar(bytes: Uint8Array, who: string): Promise<KeptCar>;
  /** A copy of the whole shelf in one file, while it is in use. */
  copyTo(file: string): Promise<void>;
  close(): Promise<void>;
}
