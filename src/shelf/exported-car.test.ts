import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { carText, readCar } from '#car';
import { unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { KeptShelf } from './kept-shelf.ts';
import { MemoryStore } from './memory-store.ts';
import { openSqliteStore } from './sqlite-store.ts';
import { partNamed, renamed, smallCar } from './small-car.fixture.ts';

const folder = mkdtempSync(join(tmpdir(), 'fairlead-export-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Files = Record<string, Uint8Array>;

type Row = Record<'revision' | 'of' | 'kind' | 'inverse' | 'who' | 'note' | 'file' | 'bytes', unknown>;
interface LooseHistory {
  fairleadHistory: unknown;
  steps: Row[];
  points: Row[];
  scans: Row[];
}

const engine = Buffer.from('solid engine\nendsolid engine\n'.repeat(2000));
let exported: Uint8Array;
let text: string;

beforeAll(async () => {
  const shelf = new KeptShelf(new MemoryStore(), () => 1_760_000_000_000);
  await shelf.addCar(smallCar('Hill climb'), 'Ann');
  await shelf.keep('hill-climb', { base: 1, edits: [renamed('Zürich')], who: 'Ann' });
  await shelf.keep('hill-climb', { base: 2, edits: [partNamed('tank', 'Tank')], who: 'Ben' });
  await shelf.undo('hill-climb', 'Ann');
  await shelf.namePoint('hill-climb', 2, 'before the dyno');
  await shelf.addScan('hill-climb', 'scans/engine ü.stl', Buffer.from('an older scan'));
  await shelf.addScan('hill-climb', 'scans/engine ü.stl', engine);
  await shelf.addScan('hill-climb', 'tub.ply', new Uint8Array(0));
  exported = await shelf.exportCar('hill-climb');
  text = carText((await shelf.openCar('hill-climb')).car);
});

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The exported car with some of its files other than they were; the sums are made to fit unless one is given. */
function changed(change: (files: Files) => unknown): Uint8Array {
  const { SHA256SUMS: _sums, ...files } = unzipSync(exported) as Files;
  change(files);
  const own = files['SHA256SUMS'];
  const sums = Object.entries(files).map(([name, bytes]) => `${sha256(bytes)}  ${name}\n`);
  return zipSync({ ...files, SHA256SUMS: own ?? Buffer.from(sums.join('')) });
}

function historyChanged(change: (history: LooseHistory) => unknown): Uint8Array {
  return changed((files) => {
    const history = JSON.parse(Buffer.from(files['history.json']!).toString());
    change(history);
    files['history.json'] = Buffer.from(JSON.stringify(history));
  });
}

/** Why a file is not taken, and that nothing of it was kept. */
async function refusal(bytes: Uint8Array): Promise<string> {
  const store = new MemoryStore();
  const shelf = new KeptShelf(store);
  const fault = await shelf.importCar(bytes, 'Ann').then(
    () => 'taken',
    (error: unknown) => error as { code: string; message: string },
  );
  expect(await shelf.cars()).toEqual([]);
  if (fault === 'taken' || typeof fault === 'string') return 'taken';
  expect(fault.code).toBe('refused');
  expect(fault.message).not.toMatch(/\n/);
  return fault.message;
}

describe('an exported car', () => {
  it.skipIf(!systemNeed('python3').isMet)(
    'is a zip that Python reads, with the car file beside its scans and sums that fit',
    () => {
      const file = join(folder, 'car.zip');
      writeFileSync(file, exported);
      const program = `
import hashlib, json, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    bad = z.testzip()
    sums = dict((line[66:], line[:64]) for line in z.read('SHA256SUMS').decode().splitlines())
    print(json.dumps({'bad': bad, 'names': z.namelist(), 'odd': [n for n in sums if hashlib.sha256(z.read(n)).hexdigest() != sums[n]], 'sums': sorted(sums), 'car': z.read('car.json').decode()}))
`;
      const told = JSON.parse(execFileSync('/usr/bin/python3', ['-c', program, file], { encoding: 'utf8' }));
      const replaced = `replaced/${sha256(Buffer.from('an older scan'))}`;
      expect(told).toMatchObject({ bad: null, odd: [], car: text });
      expect(told.names).toEqual(['car.json', 'history.json', 'scans/engine ü.stl', 'tub.ply', replaced, 'SHA256SUMS']);
      expect(told.sums).toEqual(told.names.slice(0, -1).sort());
      expect(readCar(told.car)).toMatchObject({ ok: true });
    },
  );

  it('gives the same bytes each time', async () => {
    const shelf = new KeptShelf(openSqliteStore(join(folder, 'twice.db')));
    const { id } = await shelf.importCar(exported, 'Ann');
    expect(Buffer.compare(await shelf.exportCar(id), exported)).toBe(0);
    await shelf.close();
  });

  it('is taken by another shelf with history, points and scans, twice under two ids', async () => {
    const shelf = new KeptShelf(openSqliteStore(join(folder, 'other.db')));
    const one = await shelf.importCar(exported, 'Cy');
    const two = await shelf.importCar(exported, 'Cy');
    expect([one.id, two.id]).toEqual(['hill-climb', 'hill-climb-2']);
    expect(two).toMatchObject({ revision: 4, undo: { revision: 2 }, redo: { kind: 'undo', of: 3 } });
    expect(carText(two.car)).toBe(text);
    expect(await shelf.points(two.id)).toMatchObject([{ revision: 2, point: 'before the dyno', who: 'Ann' }]);
    expect(Buffer.compare(await shelf.scan(two.id, 'scans/engine ü.stl'), engine)).toBe(0);
    expect((await shelf.redo(two.id, 'Cy')).car.parts[0]!.name).toBe('Tank');
    expect((await shelf.openCar(one.id)).revision).toBe(4);
    await shelf.close();
  });

  it.skipIf(!systemNeed('python3').isMet)('is taken when packed by another program, folders and all', async () => {
    const file = join(folder, 'python.zip');
    writeFileSync(join(folder, 'from.zip'), exported);
    const program = `
import sys, zipfile
a = zipfile.ZipFile(sys.argv[1]); b = zipfile.ZipFile(sys.argv[2], 'w', zipfile.ZIP_DEFLATED)
b.writestr('scans/', '')
for n in a.namelist(): b.writestr(n, a.read(n))
b.close()
`;
    execFileSync('/usr/bin/python3', ['-c', program, join(folder, 'from.zip'), file]);
    const shelf = new KeptShelf(new MemoryStore());
    expect(carText((await shelf.importCar(readFileSync(file), 'Ann')).car)).toBe(text);
  });
});

describe('a file that is no exported car', () => {
  it('is refused for what it is', async () => {
    expect(await refusal(new Uint8Array(0))).toMatch(/cannot be unpacked/);
    expect(await refusal(Buffer.from('PK\u0003\u0004 and then nothing'.repeat(9)))).toMatch(/cannot be unpacked/);
    expect(await refusal(zipSync({ 'a.txt': Buffer.from('a') }))).toMatch(/no "SHA256SUMS"/);
    expect(await refusal(exported.slice(0, -30))).toMatch(/exported car: stands/);
    expect(await refusal(exported.slice(100))).toMatch(/exported car: stands/);
  });

  it('is refused with any byte of it turned over, or taken as the same car, seed 7301', async () => {
    let state = 7301;
    const said = new Set<string>();
    for (let i = 0; i < 60; i++) {
      state = (state * 48271) % 0x7fffffff;
      const bytes = exported.slice();
      bytes[state % bytes.length]! ^= 1 << (i % 8);
      const shelf = new KeptShelf(new MemoryStore());
      const kept = await shelf.importCar(bytes, 'Ann').catch((error: unknown) => error as Error & { code?: string });
      if (kept instanceof Error) {
        expect(kept.code).toBe('refused');
        said.add(kept.message.slice(0, 30));
        expect(await shelf.cars()).toEqual([]);
      } else expect(carText(kept.car)).toBe(text);
    }
    expect(said.size).toBeGreaterThan(2);
  });

  it('is refused with a car that is none, another car, or none', async () => {
    expect(await refusal(changed((files) => (files['car.json'] = Buffer.from('{"fairlead": 1'))))).toMatch(
      /car\.json: line 1/,
    );
    expect(
      await refusal(changed((files) => (files['car.json'] = Buffer.from('{"fairlead": 9, "parts": []}')))),
    ).toMatch(/newer Fairlead/);
    expect(
      await refusal(changed((files) => (files['car.json'] = Buffer.from(text.replace('Zürich', 'Bern'))))),
    ).toMatch(/step 4 with another car/);
    expect(await refusal(changed((files) => void delete files['car.json']))).toMatch(/no "car\.json"/);
    expect(await refusal(changed((files) => (files['car.json'] = Buffer.of(0xff, 0xfe))))).toMatch(/no UTF-8/);
  });

  it('is refused with sums that do not fit', async () => {
    const sums = Buffer.from(unzipSync(exported)['SHA256SUMS']!).toString();
    const wrong = sums.replace(/[0-9a-f]{64} {2}tub/, `${'0'.repeat(64)}  tub`);
    expect(await refusal(changed((files) => (files['SHA256SUMS'] = Buffer.from(wrong))))).toMatch(
      /"tub\.ply" with another sum/,
    );
    expect(await refusal(changed((files) => (files['SHA256SUMS'] = Buffer.from('hello'))))).toMatch(
      /"hello" in SHA256SUMS/,
    );
  });

  it('is refused with a history that does not lead back', async () => {
    expect(await refusal(changed((files) => (files['history.json'] = Buffer.from('{'))))).toMatch(/no JSON/);
    expect(await refusal(historyChanged((h) => (h.fairleadHistory = 2)))).toMatch(/newer Fairlead/);
    expect(await refusal(historyChanged((h) => (h.steps = [])))).toMatch(/history\.json at steps/);
    expect(await refusal(historyChanged((h) => (h.steps[1]!.revision = 7)))).toMatch(/step 2 as "change", revision 7/);
    expect(await refusal(historyChanged((h) => (h.steps[3]!.of = 2)))).toMatch(/step 4, undo of 2/);
    expect(await refusal(historyChanged((h) => (h.steps[1]!.kind = 'redo')))).toMatch(/step 2, redo of null/);
    expect(await refusal(historyChanged((h) => (h.steps[1]!.inverse = [{ do: 'set-name', name: 'x' }])))).toMatch(
      /step 1 with another/,
    );
    expect(await refusal(historyChanged((h) => (h.steps[1]!.inverse = [{ do: 'remove-part', part: 'no' }])))).toMatch(
      /there is no no/,
    );
    expect(await refusal(historyChanged((h) => (h.steps[1]!.inverse = [{ do: 'restore', changes: 5 }])))).toMatch(
      /cannot be read/,
    );
    expect(await refusal(historyChanged((h) => (h.steps[0]!.who = 'A\nB')))).toMatch(/who/);
    expect(await refusal(historyChanged((h) => (h.points[0]!.revision = 5)))).toMatch(/point at revision 5/);
    expect(await refusal(historyChanged((h) => h.points.push(h.points[0]!)))).toMatch(/two points/);
    expect(await refusal(historyChanged((h) => (h.steps[0]!.note = 1)))).toMatch(/history\.json at steps\.0/);
  });

  it('is refused with scans it should not have, or has not', async () => {
    expect(await refusal(historyChanged((h) => (h.scans[0]!.file = '../up.stl')))).toMatch(
      /scan named "\.\.\/up\.stl"/,
    );
    expect(await refusal(historyChanged((h) => (h.scans[2]!.bytes = 1)))).toMatch(
      /"tub\.ply" with another sum or size/,
    );
    expect(await refusal(historyChanged((h) => h.scans.pop()))).toMatch(/"tub\.ply", which no history names/);
    expect(await refusal(changed((files) => void delete files['tub.ply']))).toMatch(/no "tub\.ply"/);
    expect(await refusal(changed((files) => (files['tub.ply'] = Buffer.of(1))))).toMatch(
      /"tub\.ply" with another sum or size/,
    );
    for (const name of ['../up.stl', '/etc/x.stl', 'a/../../b.stl', 'c:\\x.stl', 'extra.txt'])
      expect(await refusal(changed((files) => (files[name] = Buffer.of(1))))).toMatch(/which no history names/);
  });

  it('is refused when it would unpack to more than it may, without unpacking it', async () => {
    // A megabyte of nothing in a kilobyte, and a directory that says it is half a gigabyte and more.
    const bomb = zipSync({ 'car.json': new Uint8Array(1e6) });
    const sizeAt = Buffer.from(bomb).lastIndexOf('PK\u0001\u0002') + 24;
    const told = (bytes: number) => {
      const out = Buffer.from(bomb);
      out.writeUInt32LE(bytes, sizeAt);
      return out;
    };
    expect(await refusal(told(512 * 1024 * 1024 + 1))).toMatch(/at most 512 MB/);
    expect(await refusal(told(400 * 1024 * 1024))).toMatch(/tighter than can be/);
    const many = Object.fromEntries(Array.from({ length: 10_001 }, (_, i) => [`${i}.stl`, new Uint8Array(0)]));
    expect(await refusal(zipSync(many, { level: 0 }))).toMatch(/more than 10000 files/);
    const twice = Buffer.from(zipSync({ 'a.stl': Buffer.of(1), 'b.stl': Buffer.of(1) }));
    twice.write('a.stl', twice.lastIndexOf('b.stl'));
    expect(await refusal(twice)).toMatch(/"a\.stl" twice/);
  });
});
