import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs';
import { ShelfError } from './shelf-error.ts';
import { shelfFault } from './sqlite-fault.ts';
import { inTransaction, openSqliteFile, refuseDamaged, type SqliteFile } from './sqlite-file.ts';
import type { Away, DocumentHead, DocumentRow, PointRow, ScanLink, StepRow, Store, WholeDocument } from './store.ts';

type Row = Readonly<Record<string, string | number | null>>;
type Value = string | number | null | Uint8Array;

/** A blob lies in pieces of this size, so that no single row is huge [bytes]. */
const PIECE_BYTES = 4 * 1024 * 1024;
const HEAD = 'id, kind, revision, name, parts, lines, undo_top, redo_top, changed_at_ms, away_at_ms, away_by, hash';
const STEP = 'revision, kind, of, under, who, at_ms, hash, edits, done, inverse, text';

interface Options {
  readonly mustBeNew?: boolean;
  readonly formats?: readonly string[];
  /** Most pages the file may have, for trying a full disk. */
  readonly mostPages?: number;
}

/** A store in one SQLite file. Several programs may have it open: one writes at a time, the others wait. */
export function openSqliteStore(file: string, { mustBeNew = false, formats, mostPages }: Options = {}): SqliteStore {
  try {
    if (mustBeNew) refuseStanding(file);
    const db = openSqliteFile(file, formats);
    if (mostPages !== undefined) db.exec(`PRAGMA max_page_count = ${mostPages}`);
    return new SqliteStore(file, db);
  } catch (error) {
    throw shelfFault(error, file);
  }
}

class SqliteStore implements Store {
  private readonly file: string;
  private readonly db: SqliteFile;
  private readonly prepared = new Map<string, ReturnType<SqliteFile['prepare']>>();

  constructor(file: string, db: SqliteFile) {
    this.file = file;
    this.db = db;
  }

  documents(): Promise<readonly DocumentHead[]> {
    return this.answer(() => this.rows(`SELECT ${HEAD} FROM document`).map(headOf));
  }

  document(id: string): Promise<DocumentRow | undefined> {
    return this.answer(() => {
      const [row] = this.rows(`SELECT ${HEAD}, text FROM document WHERE id = ?`, id);
      return row === undefined ? undefined : { ...headOf(row), text: String(row['text']) };
    });
  }

  add({ document, steps, points, scans }: WholeDocument): Promise<boolean> {
    return this.keep(() => {
      const values = valuesOf(document);
      const put = `INSERT OR IGNORE INTO document (${HEAD}, text) VALUES (${marks(values)})`;
      if (this.run(put, ...values) === 0) return false;
      for (const step of steps) this.putStep(document.id, step);
      for (const point of points) this.putPoint(document.id, point);
      for (const scan of scans) this.putScan(document.id, scan);
      return true;
    });
  }

  append(document: DocumentRow, step: StepRow): Promise<boolean> {
    return this.keep(() => {
      const { id, revision, name, parts, lines, undoTop, redoTop, changedAtMs, hash, text } = document;
      const changed = this.run(
        `UPDATE document SET revision = ?, name = ?, parts = ?, lines = ?, undo_top = ?, redo_top = ?, changed_at_ms = ?,
           hash = ?, text = ? WHERE id = ? AND revision = ?`,
        ...[revision, name, parts, lines, undoTop, redoTop, changedAtMs, hash, text, id, revision - 1],
      );
      if (changed === 0) return false;
      this.putStep(id, step);
      return true;
    });
  }

  setAway(id: string, away: Away | null): Promise<void> {
    const set = 'UPDATE document SET away_at_ms = ?, away_by = ? WHERE id = ?';
    return this.keep(() => void this.run(set, away?.atMs ?? null, away?.by ?? null, id));
  }

  steps(id: string, from: number, to: number): Promise<readonly StepRow[]> {
    const find = `SELECT ${STEP} FROM step WHERE document = ? AND revision BETWEEN ? AND ? ORDER BY revision`;
    return this.answer(() => this.rows(find, id, from, to).map(stepOf));
  }

  textFrom(id: string, revision: number): Promise<{ revision: number; text: string } | undefined> {
    const find =
      'SELECT revision, text FROM step WHERE document = ? AND revision >= ? AND text IS NOT NULL ORDER BY revision LIMIT 1';
    return this.answer(() => {
      const [row] = this.rows(find, id, revision);
      return row === undefined ? undefined : { revision: Number(row['revision']), text: String(row['text']) };
    });
  }

  namePoint(id: string, point: PointRow): Promise<void> {
    return this.keep(() => {
      if (point.name !== '') this.putPoint(id, point);
      else this.run('DELETE FROM point WHERE document = ? AND revision = ?', id, point.revision);
    });
  }

  points(id: string): Promise<readonly PointRow[]> {
    const find = 'SELECT revision, name FROM point WHERE document = ? ORDER BY revision';
    return this.answer(() =>
      this.rows(find, id).map((row) => ({ revision: Number(row['revision']), name: String(row['name']) })),
    );
  }

  putBlob(hash: string, bytes: Uint8Array): Promise<void> {
    return this.keep(() => {
      if (this.run('INSERT OR IGNORE INTO blob (hash, bytes) VALUES (?, ?)', hash, bytes.length) === 0) return;
      for (let place = 0; place * PIECE_BYTES < bytes.length; place++) {
        const piece = bytes.subarray(place * PIECE_BYTES, (place + 1) * PIECE_BYTES);
        this.run('INSERT INTO blob_piece (hash, place, piece) VALUES (?, ?, ?)', hash, place, piece);
      }
    });
  }

  blob(hash: string): Promise<Uint8Array | undefined> {
    return this.answer(() => {
      const [row] = this.rows('SELECT bytes FROM blob WHERE hash = ?', hash);
      if (row === undefined) return undefined;
      const out = new Uint8Array(Number(row['bytes']));
      const find = this.statement('SELECT piece FROM blob_piece WHERE hash = ? AND place = ?');
      for (let place = 0; place * PIECE_BYTES < out.length; place++) {
        const found = find.get([hash, place]) as { readonly piece: Uint8Array } | undefined;
        if (found === undefined) throw new ShelfError('broken', `${this.file} has lost part of a scan (${hash})`);
        out.set(found.piece, place * PIECE_BYTES);
      }
      return out;
    });
  }

  linkScan(id: string, scan: ScanLink): Promise<void> {
    return this.keep(() => this.putScan(id, scan));
  }

  scans(id: string): Promise<readonly ScanLink[]> {
    const find = 'SELECT file, hash, bytes, at_ms FROM scan WHERE document = ? ORDER BY number';
    return this.answer(() =>
      this.rows(find, id).map((row) => ({
        file: String(row['file']),
        hash: String(row['hash']),
        bytes: Number(row['bytes']),
        atMs: Number(row['at_ms']),
      })),
    );
  }

  async copyTo(file: string): Promise<void> {
    const half = `${file}.half`;
    try {
      refuseStanding(file);
      rmSync(half, { force: true });
      this.db.prepare('VACUUM INTO ?').run([half]);
      refuseDamaged(half);
      syncFile(half);
      renameSync(half, file);
    } catch (error) {
      rmSync(half, { force: true });
      throw shelfFault(error, file);
    }
  }

  close(): Promise<void> {
    return this.answer(() => {
      // So that the one file holds everything, for whoever copies it by hand.
      this.db.prepare('PRAGMA wal_checkpoint(TRUNCATE)').get();
      this.db.close();
    });
  }

  private async answer<T>(work: () => T): Promise<T> {
    try {
      return work();
    } catch (error) {
      throw shelfFault(error, this.file);
    }
  }

  private keep<T>(work: () => T): Promise<T> {
    return this.answer(() => inTransaction(this.db, work));
  }

  private putStep(id: string, step: StepRow): void {
    const { revision, kind, of, under, who, atMs, hash, edits, done, inverse, text } = step;
    const values = [id, revision, kind, of, under, who, atMs, hash, edits, done, inverse, text];
    this.run(`INSERT INTO step (document, ${STEP}) VALUES (${marks(values)})`, ...values);
  }

  private putPoint(id: string, { revision, name }: PointRow): void {
    this.run('INSERT OR REPLACE INTO point (document, revision, name) VALUES (?, ?, ?)', id, revision, name);
  }

  private putScan(id: string, { file, hash, bytes, atMs }: ScanLink): void {
    this.run(
      'INSERT INTO scan (document, file, hash, bytes, at_ms) VALUES (?, ?, ?, ?, ?)',
      id,
      file,
      hash,
      bytes,
      atMs,
    );
  }

  private statement(sql: string): ReturnType<SqliteFile['prepare']> {
    const known = this.prepared.get(sql) ?? this.db.prepare(sql);
    this.prepared.set(sql, known);
    return known;
  }

  private rows(sql: string, ...values: readonly Value[]): readonly Row[] {
    return this.statement(sql).all([...values]) as readonly Row[];
  }

  private run(sql: string, ...values: readonly Value[]): number {
    return this.statement(sql).run([...values]).changes;
  }
}

const marks = (values: readonly unknown[]): string => values.map(() => '?').join(', ');

const orNull = (value: string | number | null | undefined): number | null => (typeof value === 'number' ? value : null);

function valuesOf(d: DocumentRow): readonly Value[] {
  const head = [d.id, d.kind, d.revision, d.name, d.parts, d.lines, d.undoTop, d.redoTop, d.changedAtMs];
  return [...head, d.away?.atMs ?? null, d.away?.by ?? null, d.hash, d.text];
}

function headOf(row: Row): DocumentHead {
  const awayAtMs = orNull(row['away_at_ms']);
  return {
    id: String(row['id']),
    kind: row['kind'] as DocumentHead['kind'],
    revision: Number(row['revision']),
    name: String(row['name']),
    parts: Number(row['parts']),
    lines: Number(row['lines']),
    undoTop: orNull(row['undo_top']),
    redoTop: orNull(row['redo_top']),
    changedAtMs: Number(row['changed_at_ms']),
    away: awayAtMs === null ? null : { atMs: awayAtMs, by: String(row['away_by']) },
    hash: String(row['hash']),
  };
}

function stepOf(row: Row): StepRow {
  const { edits, done, inverse, who, hash, text } = row as Readonly<Record<string, string>>;
  return {
    revision: Number(row['revision']),
    kind: row['kind'] as StepRow['kind'],
    edits: edits!,
    done: done!,
    inverse: inverse!,
    of: orNull(row['of']),
    under: orNull(row['under']),
    who: who!,
    atMs: Number(row['at_ms']),
    hash: hash!,
    text: text ?? null,
  };
}

function refuseStanding(file: string): void {
  if (existsSync(file))
    throw new ShelfError('refused', `${file} stands there already; give the copy a name that is free`);
}

function syncFile(file: string): void {
  const handle = openSync(file, 'r+');
  fsyncSync(handle);
  closeSync(handle);
}
