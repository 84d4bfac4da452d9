/**
 * Entry n turns a shelf file of format n into one of format n + 1; an empty file is format 0. Never change an entry that
 * builders have files of: add one.
 */
export const SHELF_FORMATS: readonly string[] = [
  `
  CREATE TABLE document (
    id TEXT PRIMARY KEY, kind TEXT NOT NULL, revision INTEGER NOT NULL, name TEXT NOT NULL, parts INTEGER NOT NULL,
    lines INTEGER NOT NULL, undo_top INTEGER, redo_top INTEGER, changed_at_ms INTEGER NOT NULL, away_at_ms INTEGER,
    away_by TEXT, hash TEXT NOT NULL, text TEXT NOT NULL
  ) STRICT;
  CREATE TABLE step (
    document TEXT NOT NULL REFERENCES document (id), revision INTEGER NOT NULL, kind TEXT NOT NULL, of INTEGER, under INTEGER,
    who TEXT NOT NULL, at_ms INTEGER NOT NULL, hash TEXT NOT NULL, edits TEXT NOT NULL, done TEXT NOT NULL,
    inverse TEXT NOT NULL, text TEXT, PRIMARY KEY (document, revision)
  ) STRICT;
  CREATE INDEX step_with_text ON step (document, revision) WHERE text IS NOT NULL;
  CREATE TABLE point (
    document TEXT NOT NULL REFERENCES document (id), revision INTEGER NOT NULL, name TEXT NOT NULL,
    PRIMARY KEY (document, revision)
  ) STRICT;
  CREATE TABLE blob (hash TEXT PRIMARY KEY, bytes INTEGER NOT NULL) STRICT;
  CREATE TABLE blob_piece (
    hash TEXT NOT NULL REFERENCES blob (hash), place INTEGER NOT NULL, piece BLOB NOT NULL, PRIMARY KEY (hash, place)
  ) STRICT;
  CREATE TABLE scan (
    number INTEGER PRIMARY KEY, document TEXT NOT NULL REFERENCES document (id), file TEXT NOT NULL,
    hash TEXT NOT NULL REFERENCES blob (hash), bytes INTEGER NOT NULL, at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX scan_of ON scan (document);
  `,
];
