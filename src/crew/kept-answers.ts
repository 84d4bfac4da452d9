import { createHash, randomBytes } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';

/** An answer worked out before, and when. */
export interface KeptAnswer<T> {
  readonly value: T;
  readonly madeAt: Date;
}

export interface KeepingWish {
  /** Nothing is found; what is worked out is kept all the same. */
  readonly isFresh?: boolean;
  /** Room that kept answers may take [bytes]. */
  readonly mostBytes?: number;
}

/** A plan of the demo car takes some 5 MB with the ways of its lines; this holds dozens [bytes]. */
const USUAL_MOST_BYTES = 256 * 1024 * 1024;
const ENDING = '.kept';
const OURS = /^[0-9a-f]{64}\.kept$/u;
const PART = /^[0-9a-f]{64}\.[0-9a-f]{12}\.part$/u;
/** A half file this old belongs to a program that was killed [ms]. */
const PART_ENDS_MS = 3_600_000;

const hashOf = (data: string | Uint8Array): string => createHash('sha256').update(data).digest('hex');

/**
 * Answers in a folder, each under the hash of all it depends on. One line says what the file is and what its bytes must hash to, so that a
 * broken or foreign file is never taken for an answer; what was not used for longest goes first where room is short.
 */
export class KeptAnswers {
  /** Why the last answer could not be kept, if it could not. */
  fault: string | undefined;
  private readonly folder: string;
  private readonly wish: KeepingWish;

  constructor(folder: string, wish: KeepingWish = {}) {
    this.folder = folder;
    this.wish = wish;
  }

  find<T>(key: string): KeptAnswer<T> | undefined {
    if (this.wish.isFresh === true) return undefined;
    const mark = hashOf(key);
    const file = join(this.folder, mark + ENDING);
    try {
      const bytes = readFileSync(file);
      const end = bytes.indexOf(0x0a);
      const head = JSON.parse(bytes.subarray(0, Math.max(0, end)).toString()) as Partial<Head>;
      const body = bytes.subarray(end + 1);
      const madeAt = new Date(head.madeAt ?? Number.NaN);
      if (head.kept !== mark || head.sha256 !== hashOf(body) || Number.isNaN(madeAt.getTime())) return undefined;
      const value = deserialize(body) as T;
      touched(file);
      return { value, madeAt };
    } catch {
      // Not there, cut short, not ours: then it is worked out, and what stood there is replaced.
      return undefined;
    }
  }

  /** Keeps an answer, whole or not at all. That it cannot is no reason not to give it: `fault` says why. */
  keep(key: string, value: unknown): void {
    const mark = hashOf(key);
    const beside = join(this.folder, `${mark}.${randomBytes(6).toString('hex')}.part`);
    try {
      const body = serialize(value);
      const head: Head = { kept: mark, madeAt: new Date().toISOString(), sha256: hashOf(body) };
      mkdirSync(this.folder, { recursive: true, mode: 0o700 });
      writeFileSync(beside, Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`), body]), {
        flag: 'wx',
        mode: 0o600,
      });
      renameSync(beside, join(this.folder, mark + ENDING));
      this.makeRoom();
      this.fault = undefined;
    } catch (cause) {
      removed(beside);
      this.fault = `${this.folder}: nothing can be kept there (${(cause as NodeJS.ErrnoException).code ?? 'unknown'})`;
    }
  }

  /** Only files that go by our names are touched: the folder may hold others. */
  private makeRoom(): void {
    const now = Date.now();
    const files = readdirSync(this.folder).flatMap((name) => {
      const path = join(this.folder, name);
      const found = statSync(path, { throwIfNoEntry: false });
      if (found?.isFile() !== true) return [];
      if (PART.test(name) && now - found.mtimeMs > PART_ENDS_MS) rmSync(path, { force: true });
      return OURS.test(name) ? [{ path, size: found.size, usedMs: found.mtimeMs }] : [];
    });
    let room = (this.wish.mostBytes ?? USUAL_MOST_BYTES) - files.reduce((sum, file) => sum + file.size, 0);
    for (const { path, size } of files.sort((p, q) => p.usedMs - q.usedMs)) {
      if (room >= 0) return;
      rmSync(path, { force: true });
      room += size;
    }
  }
}

interface Head {
  readonly kept: string;
  readonly madeAt: string;
  readonly sha256: string;
}

/** A half file goes, if it is there. */
function removed(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // Where its folder is no folder it is not there either.
  }
}

/** Notes when it was last used; where that cannot be written it only goes earlier. */
function touched(file: string): void {
  try {
    const now = new Date();
    utimesSync(file, now, now);
  } catch {
    // A folder that may only be read still serves.
  }
}
