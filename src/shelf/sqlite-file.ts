import { chmodSync, closeSync, existsSync, fsyncSync, mkdirSync, openSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'libsql';
import { ShelfError } from './shelf-error.ts';
import { SHELF_FORMATS } from './sqlite-formats.ts';

export type SqliteFile = InstanceType<typeof Database>;

/** How long one writer waits for another [ms]. A write takes some milliseconds, a large scan some seconds. */
const PATIENCE_MS = 10_000;
/** Left of the log after a large scan went through it [bytes]. */
const LOG_KEPT_BYTES = 16 * 1024 * 1024;

/** Opens a shelf file for writing, makes it where there is none, brings an older one up to the newest format. */
export function openSqliteFile(file: string, formats: readonly string[] = SHELF_FORMATS): SqliteFile {
  const folder = dirname(file);
  const isNew = !existsSync(file);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const db = new Database(file, { timeout: PATIENCE_MS } as ConstructorParameters<typeof Database>[1]);
  try {
    refuseNewer(db, file, formats.length);
    if (isNew) chmodSync(file, 0o600);
    // In this order: FULL makes each commit in the write-ahead log wait for the disk (sqlite.org/wal.html).
    db.exec('PRAGMA journal_mode = WAL');
    db.exec('PRAGMA synchronous = FULL');
    // On a Mac the disk may keep a plain fsync in its own memory; elsewhere these two do nothing.
    db.exec('PRAGMA fullfsync = ON');
    db.exec('PRAGMA checkpoint_fullfsync = ON');
    db.exec('PRAGMA foreign_keys = ON');
    db.exec(`PRAGMA journal_size_limit = ${LOG_KEPT_BYTES}`);
    refuseUnlessDurable(db, file);
    migrate(db, file, formats);
    if (isNew) syncFolder(folder);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** A number out of a pragma or a count. */
export function numberFrom(db: SqliteFile, sql: string): number {
  const row = db.prepare(sql).get() as Record<string, unknown>;
  return Number(Object.values(row)[0]);
}

export function inTransaction<T>(db: SqliteFile, work: () => T): T {
  db.exec('BEGIN IMMEDIATE');
  try {
    const out = work();
    db.exec('COMMIT');
    return out;
  } catch (error) {
    // After a full disk SQLite has rolled back by itself.
    if (db.inTransaction) db.exec('ROLLBACK');
    throw error;
  }
}

/** Throws `broken` where SQLite itself finds anything wrong in the file. */
export function refuseDamaged(file: string): void {
  const db = new Database(file);
  const [first] = db.prepare('PRAGMA integrity_check(1)').all() as readonly { integrity_check: string }[];
  db.close();
  if (first?.integrity_check !== 'ok') throw new ShelfError('broken', `${file} is damaged: ${first?.integrity_check}`);
}

function refuseNewer(db: SqliteFile, file: string, newest: number): void {
  const format = numberFrom(db, 'PRAGMA user_version');
  if (format > newest)
    throw new ShelfError(
      'newer',
      `${file} has format ${format}, written by a newer Fairlead; this one knows up to ${newest}, and leaves the file as it is`,
    );
}

function refuseUnlessDurable(db: SqliteFile, file: string): void {
  const mode = (db.prepare('PRAGMA journal_mode').get() as { journal_mode: string }).journal_mode;
  const synchronous = numberFrom(db, 'PRAGMA synchronous');
  if (mode !== 'wal' || synchronous !== 2)
    throw new ShelfError('read-only', `the disk of ${file} cannot keep changes for certain (${mode}, ${synchronous})`);
}

function migrate(db: SqliteFile, file: string, formats: readonly string[]): void {
  const format = numberFrom(db, 'PRAGMA user_version');
  if (format === formats.length) return;
  if (format > 0) keepOldFormat(db, `${file}.format-${format}`);
  inTransaction(db, () => {
    // Another process may have done it meanwhile.
    const now = numberFrom(db, 'PRAGMA user_version');
    if (now === 0 && numberFrom(db, 'SELECT count(*) FROM sqlite_schema') > 0)
      throw new ShelfError('broken', `${file} is a database, but no shelf; it is left as it is`);
    for (const sql of formats.slice(now)) db.exec(sql);
    db.exec(`PRAGMA user_version = ${formats.length}`);
  });
}

/** The file as it was before it is brought up to a newer format, beside it. */
function keepOldFormat(db: SqliteFile, copy: string): void {
  rmSync(copy, { force: true });
  db.prepare('VACUUM INTO ?').run(copy);
}

/** A new file's name is on the disk only when its folder is. */
function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  fsyncSync(handle);
  closeSync(handle);
}
