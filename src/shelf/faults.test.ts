import { execFile, execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { carText } from '#car';
import Database from 'libsql';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { openShelf, ShelfError } from './index.ts';
import { KeptShelf } from './kept-shelf.ts';
import { partNamed, renamed, smallCar } from './small-car.fixture.ts';
import { SHELF_FORMATS } from './sqlite-formats.ts';
import { openSqliteFile } from './sqlite-file.ts';
import { openSqliteStore } from './sqlite-store.ts';

const root = mkdtempSync(join(tmpdir(), 'fairlead-faults-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folders = 0;
let folder = '';
let file = '';
beforeEach(() => {
  folder = join(root, String(folders++));
  file = join(folder, 'shelf.db');
});

/** The one value that a connection of its own reads from a file. */
function told(sql: string, of = file): string {
  const db = new Database(of);
  const { _metadata, ...row } = db.prepare(sql).get() as Record<string, unknown>;
  db.close();
  return String(Object.values(row)[0]);
}

/** Something done to a file behind the shelf's back. */
function done(sql: string): void {
  mkdirSync(folder, { recursive: true });
  const db = new Database(file);
  db.exec(sql);
  db.close();
}

const keep = async (shelf: Awaited<ReturnType<typeof openShelf>>, name: string) => {
  const { revision } = await shelf.openCar('car');
  return shelf.keep('car', { base: revision, edits: [renamed(name)], who: 'Ann' });
};

const faultOf = async (promise: Promise<unknown>): Promise<ShelfError> => {
  const error = await promise.catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(ShelfError);
  expect((error as ShelfError).message).toMatch(/^[^\n]{20,300}$/);
  return error as ShelfError;
};

/** A shelf with one car and a few steps, closed. */
async function shelfOnDisk(): Promise<string> {
  const shelf = await openShelf(folder);
  await shelf.addCar(smallCar(), 'Ann', 'car');
  for (const name of ['One', 'Two', 'Three']) await keep(shelf, name);
  const text = carText((await shelf.openCar('car')).car);
  await shelf.close();
  return text;
}

describe('a shelf on the disk', () => {
  it('waits for the disk at each commit, in a folder for its builder alone', async () => {
    const db = openSqliteFile(file);
    expect(db.prepare('PRAGMA synchronous').get()).toMatchObject({ synchronous: 2 });
    expect(db.prepare('PRAGMA journal_mode').get()).toMatchObject({ journal_mode: 'wal' });
    expect(db.prepare('PRAGMA foreign_keys').get()).toMatchObject({ foreign_keys: 1 });
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    db.close();
  });

  it('waits for the disk on the very connection that a change is written with', async () => {
    const prepared = vi.spyOn(Database.prototype, 'prepare');
    const shelf = await openShelf(folder);
    await shelf.addCar(smallCar(), 'Ann', 'car');
    await keep(shelf, 'One');
    const writers = prepared.mock.contexts.filter((_, i) => prepared.mock.calls[i]![0].startsWith('INSERT INTO step'));
    prepared.mockRestore();
    expect(new Set(writers).size).toBe(1);
    expect((writers[0] as Database.Database).prepare('PRAGMA synchronous').get()).toMatchObject({ synchronous: 2 });
    await shelf.close();
  });

  it.skipIf(!systemNeed('python3').isMet)('is one plain SQLite file that Python reads', async () => {
    const text = await shelfOnDisk();
    const program = `
import json, sqlite3, sys
db = sqlite3.connect(sys.argv[1])
one = lambda sql: db.execute(sql).fetchone()[0]
print(json.dumps([one('PRAGMA integrity_check'), db.execute('PRAGMA foreign_key_check').fetchall(), one('PRAGMA user_version'),
  one('PRAGMA journal_mode'), one('SELECT count(*) FROM step'), one("SELECT text FROM document WHERE id = 'car'")]))`;
    const answer = execFileSync('/usr/bin/python3', ['-c', program, file], { encoding: 'utf8' });
    expect(JSON.parse(answer)).toEqual(['ok', [], SHELF_FORMATS.length, 'wal', 4, text]);
  });

  it('is written by two programs in turn, each seeing what the other kept', async () => {
    const [a, b] = [await openShelf(folder), await openShelf(folder)];
    await a.addCar(smallCar(), 'Ann', 'car');
    expect((await b.openCar('car')).revision).toBe(1);
    for (let i = 0; i < 5; i++) {
      await Promise.all([
        a.keep('car', { base: 1, edits: [partNamed('tank', `a${i}`)], who: 'Ann' }),
        b.keep('car', { base: 1, edits: [partNamed('pump', `b${i}`)], who: 'Ben' }),
      ]);
      await a.undo('car', 'Ann');
      await b.undo('car', 'Ben');
    }
    expect(carText((await a.openCar('car')).car)).toBe(carText((await b.openCar('car')).car));
    expect((await b.history('car', 99, 99)).map((step) => step.revision)).toEqual([...Array(21)].map((_, i) => 21 - i));
    await a.close();
    await b.close();
  });

  it('loses no change of two programs that write at once', async () => {
    const shelf = await openShelf(folder);
    await shelf.addCar(smallCar(), 'Ann', 'car');
    const program = (part: string) => `
      import { openShelf } from '${new URL('./index.ts', import.meta.url).href}';
      const shelf = await openShelf(${JSON.stringify(folder)});
      for (let i = 0; i < 15; i++) {
        const { revision } = await shelf.openCar('car');
        const edits = [{ do: 'set-part', part: '${part}', field: 'name', value: 'n' + i }];
        const kept = await shelf.keep('car', { base: revision, edits, who: '${part}' });
        if (kept.kind !== 'kept') throw new Error(kept.kind);
      }`;
    const run = promisify(execFile);
    await Promise.all(
      ['tank', 'pump'].map((part) =>
        run(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', program(part)]),
      ),
    );
    const now = await shelf.openCar('car');
    expect(now.revision).toBe(31);
    expect(now.car.parts.map((part) => part.name)).toEqual(['n14', 'n14']);
    await shelf.close();
  });

  it('is copied whole while it is in use', async () => {
    const shelf = await openShelf(folder);
    await shelf.addCar(smallCar(), 'Ann', 'car');
    await shelf.addScan('car', 'a.stl', Buffer.alloc(5_000_000, 7));
    const copy = join(root, `copy-${folders++}`, 'shelf.db');
    mkdirSync(join(copy, '..'));
    await shelf.copyTo(copy);
    await keep(shelf, 'later');
    await shelf.close();
    expect(told('PRAGMA integrity_check', copy)).toBe('ok');
    expect(readdirSync(join(copy, '..'))).toEqual(['shelf.db']);
    const other = await openShelf(join(copy, '..'));
    expect(await other.openCar('car')).toMatchObject({ revision: 1, car: { name: 'Small car' } });
    expect(await other.scan('car', 'a.stl')).toHaveLength(5_000_000);
    await other.close();
  });
});

describe('a file of another format', () => {
  it('that is newer is refused and left alone, to the byte', async () => {
    await shelfOnDisk();
    done('PRAGMA user_version = 99');
    const before = createHash('sha256').update(readFileSync(file)).digest('hex');
    const fault = await faultOf(openShelf(folder));
    expect(fault.code).toBe('newer');
    expect(fault.message).toMatch(/format 99/);
    expect(createHash('sha256').update(readFileSync(file)).digest('hex')).toBe(before);
  });

  it('that is older is brought up, and kept beside as it was', async () => {
    const text = await shelfOnDisk();
    const next = [
      ...SHELF_FORMATS,
      'ALTER TABLE document ADD COLUMN shelf_mark TEXT; UPDATE document SET shelf_mark = hash;',
    ];
    const shelf = new KeptShelf(openSqliteStore(file, { formats: next }));
    expect(carText((await shelf.openCar('car')).car)).toBe(text);
    await shelf.close();
    expect(told('PRAGMA user_version')).toBe(String(next.length));
    expect(told('SELECT shelf_mark = hash FROM document')).toBe('1');
    const old = `${file}.format-${SHELF_FORMATS.length}`;
    expect(told('PRAGMA user_version', old)).toBe(String(SHELF_FORMATS.length));
    expect(told('SELECT count(*) FROM step', old)).toBe('4');
  });

  it('whose new format fails stays at the old one', async () => {
    const text = await shelfOnDisk();
    const next = [...SHELF_FORMATS, 'ALTER TABLE document ADD COLUMN half TEXT; INSERT INTO nowhere VALUES (1);'];
    expect(() => openSqliteStore(file, { formats: next })).toThrow(/nowhere/);
    expect(told('PRAGMA user_version')).toBe(String(SHELF_FORMATS.length));
    const shelf = await openShelf(folder);
    expect(carText((await shelf.openCar('car')).car)).toBe(text);
    await shelf.close();
  });

  it('that is a database of something else is left alone', async () => {
    done('CREATE TABLE photos (a)');
    expect((await faultOf(openShelf(folder))).code).toBe('broken');
    expect(told('SELECT count(*) FROM sqlite_schema')).toBe('1');
  });
});

describe('a disk that fails', () => {
  it('full: says so, keeps nothing of the change, and goes on when there is room', async () => {
    const text = await shelfOnDisk();
    const pages = Number(told('PRAGMA page_count'));
    const tight = new KeptShelf(openSqliteStore(file, { mostPages: pages + 4 }));
    const scan = await faultOf(tight.addScan('car', 'a.stl', new Uint8Array(9_000_000)));
    expect(scan.code).toBe('full');
    expect(await tight.scans('car')).toEqual([]);
    const long = { do: 'set-part', part: 'tank', field: 'note', value: 'x'.repeat(1900) } as const;
    let revision = 4;
    let fault: ShelfError | undefined;
    for (let i = 0; i < 30 && fault === undefined; i++) {
      const edits = [{ ...long, value: `${i}${long.value}` }];
      await tight.keep('car', { base: revision, edits, who: 'Ann' }).then(
        () => revision++,
        (error: ShelfError) => (fault = error),
      );
    }
    expect(fault).toMatchObject({ code: 'full' });
    expect((await tight.openCar('car')).revision).toBe(revision);
    expect(carText(await tight.carAt('car', 4))).toBe(text);
    await tight.close();
    const roomy = await openShelf(folder);
    expect((await roomy.openCar('car')).revision).toBe(revision);
    expect(await keep(roomy, 'with room')).toMatchObject({ kind: 'kept' });
    await roomy.close();
    expect(told('PRAGMA integrity_check')).toBe('ok');
  });

  it('read-only: says so; what is there is read for as long as that can be done, and nothing is lost', async () => {
    await shelfOnDisk();
    const before = readFileSync(file);
    const bare = join(root, `bare-${folders++}`);
    mkdirSync(bare);
    copyFileSync(file, join(bare, 'shelf.db'));
    for (const suffix of ['-wal', '-shm']) expect(existsSync(`${file}${suffix}`)).toBe(true);
    // The super-user may write everything: then the child becomes nobody, after it has read the program.
    const program = `
      import { chmodSync, chownSync, readdirSync } from 'node:fs';
      import { openShelf } from '${new URL('./index.ts', import.meta.url).href}';
      const isRoot = process.getuid() === 0;
      const folders = ${JSON.stringify([folder, bare])};
      if (isRoot) chmodSync(${JSON.stringify(root)}, 0o755);
      for (const folder of folders) {
        for (const name of readdirSync(folder)) chmodSync(folder + '/' + name, 0o444);
        chmodSync(folder, 0o555);
      }
      if (isRoot) process.setuid(65534);
      for (const folder of [...folders, folders[0] + '/new']) {
        const told = [];
        try {
          const shelf = await openShelf(folder);
          told.push((await shelf.openCar('car')).car.name);
          await shelf.undo('car', 'Ann');
        } catch (error) {
          told.push(error.name, error.code, error.message);
        }
        console.log(told.join(' '));
      }`;
    const args = ['--import', 'tsx', '--input-type=module', '-e', program];
    const said = execFileSync(process.execPath, args, { encoding: 'utf8' }).trim().split('\n');
    execFileSync('chmod', ['-R', 'u+w', folder, bare]);
    expect(said).toEqual([
      expect.stringMatching(/^Three ShelfError read-only .*shelf\.db may only be read/),
      expect.stringMatching(/^ShelfError read-only .*shelf\.db/),
      expect.stringMatching(/^ShelfError read-only .*new/),
    ]);
    expect(Buffer.compare(readFileSync(file), before)).toBe(0);
    const shelf = await openShelf(folder);
    expect(await keep(shelf, 'again')).toMatchObject({ kind: 'kept', now: { revision: 5 } });
    await shelf.close();
  });

  it('with a file where the folder should be: says so', async () => {
    writeFileSync(folder, 'a letter');
    expect(await faultOf(openShelf(folder))).toMatchObject({
      code: 'broken',
      message: expect.stringMatching(/a file stands/),
    });
    expect((await faultOf(openShelf(join(folder, 'in', 'it')))).message).toMatch(/a file stands/);
    expect(readFileSync(folder, 'utf8')).toBe('a letter');
  });

  it('damaged at its head, in its middle or cut short: says so, and changes nothing more', async () => {
    await shelfOnDisk();
    const whole = readFileSync(file);
    const told: string[] = [];
    const damages: readonly ((bytes: Buffer) => Buffer)[] = [
      (bytes) => Buffer.concat([Buffer.alloc(64, 'x'), bytes.subarray(64)]),
      () => Buffer.from('this is a letter, no shelf '.repeat(400)),
      (bytes) => bytes.subarray(0, 4096 * 3),
      ...[1, 2, 3, 4, 5, 6].map(
        (page) => (bytes: Buffer) => Buffer.from(bytes).fill(0xa5, page * 4096, page * 4096 + 4096),
      ),
    ];
    for (const damage of damages) {
      const bytes = damage(whole);
      for (const suffix of ['-wal', '-shm']) rmSync(`${file}${suffix}`, { force: true });
      writeFileSync(file, bytes);
      const answer = await openShelf(folder)
        .then(async (shelf) => {
          const text = carText((await shelf.openCar('car')).car);
          await shelf.carAt('car', 2);
          return `opened ${text.length}`;
        })
        .catch((error: unknown) => (error instanceof ShelfError ? error.code : String(error)));
      told.push(answer.replace(/ \d+$/, ''));
    }
    expect(new Set(told)).toEqual(new Set(['broken', 'opened']));
    expect(told.slice(0, 3)).toEqual(['broken', 'broken', 'broken']);
    expect(told.filter((answer) => answer === 'broken').length).toBeGreaterThan(4);
  });

  it('with a text changed behind its back: says which car', async () => {
    await shelfOnDisk();
    done(`UPDATE document SET text = replace(text, 'Three', 'Throo')`);
    const shelf = await openShelf(folder);
    expect(await faultOf(shelf.openCar('car'))).toMatchObject({
      code: 'broken',
      message: expect.stringMatching(/car car is damaged/),
    });
    await shelf.close();
  });
});

describe('a log torn by a power cut', () => {
  it('gives back a whole car: all that was kept when the log is whole, fewer steps when its end is lost, seed 7401', async () => {
    const shelf = await openShelf(folder);
    await shelf.addCar(smallCar(), 'Ann', 'car');
    const texts = new Map<number, string>();
    for (let i = 0; i < 40; i++) {
      const { now } = await keep(shelf, `n${i}`);
      texts.set(now.revision, carText(now.car));
    }
    const log = `${file}-wal`;
    expect(existsSync(log)).toBe(true);
    const bytes = statSync(log).size;
    let state = 7401;
    const found: number[] = [];
    const files: string[] = [];
    for (let round = 0; round < 16; round++) {
      const torn = join(root, `torn-${folders++}`);
      mkdirSync(torn);
      copyFileSync(file, join(torn, 'shelf.db'));
      copyFileSync(log, join(torn, 'shelf.db-wal'));
      state = (state * 48271) % 0x7fffffff;
      // The first copy is whole; of the others the end is gone, or is what stood on the disk before.
      if (round > 0) {
        const from = Math.floor(bytes * (0.2 + (0.8 * state) / 0x7fffffff));
        if (round % 2 === 0) truncateSync(join(torn, 'shelf.db-wal'), from);
        else writeFileSync(join(torn, 'shelf.db-wal'), Buffer.from(readFileSync(log)).fill(0x5a, from));
      }
      const again = await openShelf(torn);
      const now = await again.openCar('car').catch(() => undefined);
      await again.close();
      files.push(join(torn, 'shelf.db'));
      if (now === undefined) continue;
      expect(carText(now.car)).toBe(texts.get(now.revision) ?? carText(smallCar()));
      found.push(now.revision);
    }
    expect(found[0]).toBe(41);
    expect(Math.min(...found)).toBeLessThan(41);
    expect(found.length).toBeGreaterThan(8);
    expect(new Set(files.map((one) => told('PRAGMA integrity_check', one)))).toEqual(new Set(['ok']));
    await shelf.close();
  });
});
