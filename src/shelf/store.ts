/**
 * Where documents, their steps and their scans lie: the little that the shelf asks of a database. Whatever a promise answers
 * is durable before it answers, and each call keeps all of what it was given or nothing. Texts hold no U+0000.
 *
 * @throws ShelfError `full`, `read-only`, `broken`, `busy`
 */
export interface Store {
  /** Every document without its text, in no order. */
  documents(): Promise<readonly DocumentHead[]>;
  document(id: string): Promise<DocumentRow | undefined>;
  /** A new document with its history; false where the id is taken. The blobs of its scans are there already. */
  add(whole: WholeDocument): Promise<boolean>;
  /** The document as it stands after one step, in the place of the one at the revision before; false where that is not there. */
  append(document: DocumentRow, step: StepRow): Promise<boolean>;
  setAway(id: string, away: Away | null): Promise<void>;
  /** From the one revision to the other, both with it, lowest first. */
  steps(id: string, from: number, to: number): Promise<readonly StepRow[]>;
  /** The first step at or after a revision that carries the document's whole text. */
  textFrom(id: string, revision: number): Promise<{ readonly revision: number; readonly text: string } | undefined>;
  /** An empty name takes the point away. */
  namePoint(id: string, point: PointRow): Promise<void>;
  points(id: string): Promise<readonly PointRow[]>;
  /** Bytes by their SHA-256; those that are there already are not written again. */
  putBlob(hash: string, bytes: Uint8Array): Promise<void>;
  blob(hash: string): Promise<Uint8Array | undefined>;
  linkScan(id: string, scan: ScanLink): Promise<void>;
  /** Every one ever linked, oldest first: the last of a name counts. */
  scans(id: string): Promise<readonly ScanLink[]>;
  /** A whole copy in a new file. */
  copyTo(file: string): Promise<void>;
  close(): Promise<void>;
}

export interface Away {
  readonly atMs: number;
  readonly by: string;
}

export interface DocumentHead {
  readonly id: string;
  readonly kind: 'car' | 'shop';
  readonly revision: number;
  readonly name: string;
  readonly parts: number;
  readonly lines: number;
  /** The steps that undoing and redoing would act on. */
  readonly undoTop: number | null;
  readonly redoTop: number | null;
  readonly changedAtMs: number;
  readonly away: Away | null;
  /** SHA-256 of the text, in hex. */
  readonly hash: string;
}

export interface DocumentRow extends DocumentHead {
  readonly text: string;
}

export interface StepRow {
  readonly revision: number;
  readonly kind: 'put on the shelf' | 'change' | 'undo' | 'redo' | 'gone back';
  /** What the builder did, as JSON: for undo and redo what is in the step that they took back or brought again. */
  readonly edits: string;
  /** What this step itself did to the document, and what takes it back: lists of edits as JSON. */
  readonly done: string;
  readonly inverse: string;
  /** For undo and redo the step acted on, for gone back the revision gone back to. */
  readonly of: number | null;
  /** The step that was on top of the undo (for an undo: redo) list before this one was laid on it. */
  readonly under: number | null;
  readonly who: string;
  readonly atMs: number;
  /** SHA-256 of the document's text after this step, in hex. */
  readonly hash: string;
  /** That text itself, on some of the steps. */
  readonly text: string | null;
}

export interface PointRow {
  readonly revision: number;
  readonly name: string;
}

export interface ScanLink {
  readonly file: string;
  readonly hash: string;
  readonly bytes: number;
  readonly atMs: number;
}

export interface WholeDocument {
  readonly document: DocumentRow;
  readonly steps: readonly StepRow[];
  readonly points: readonly PointRow[];
  readonly scans: readonly ScanLink[];
}
