import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { MemoryStore } from './memory-store.ts';
import { openSqliteStore } from './sqlite-store.ts';
import type { DocumentRow, StepRow, Store, WholeDocument } from './store.ts';

const folder = mkdtempSync(join(tmpdir(), 'fairlead-store-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let files = 0;

function document(id: string, revision = 1): DocumentRow {
  const head = {
    id,
    kind: 'car',
    revision,
    name: `Wagen "${id}" ü`,
    parts: 3,
    lines: 2,
    undoTop: null,
    redoTop: 7,
  } as const;
  return {
    ...head,
    changedAtMs: 1.7e12 + revision,
    away: null,
    hash: `hash ${revision}`,
    text: `{"ü\\u0000": ${revision}}\n`,
  };
}

function step(revision: number, text: string | null = null): StepRow {
  const lists = { edits: '[{"do":"set-name"}]', done: '[1]', inverse: '[2]' };
  const tops = { of: revision === 1 ? null : revision - 1, under: null };
  return {
    revision,
    kind: 'change',
    ...lists,
    ...tops,
    who: 'Bench 1',
    atMs: revision,
    hash: `hash ${revision}`,
    text,
  };
}

function whole(id: string): WholeDocument {
  return { document: document(id), steps: [step(1, 'first')], points: [], scans: [] };
}

describe.each<readonly [string, () => Store]>([
  ['in memory', () => new MemoryStore()],
  ['in a file', () => openSqliteStore(join(folder, `${files++}.db`))],
])('a store %s', (_name, open) => {
  it('gives back what was put in, and nothing for what was not', async () => {
    const store = open();
    expect(await store.documents()).toEqual([]);
    expect(await store.document('a')).toBeUndefined();
    expect(await store.add(whole('a'))).toBe(true);
    expect(await store.add({ ...whole('a'), steps: [] })).toBe(false);
    expect(await store.document('a')).toEqual(document('a'));
    const { text: _text, ...head } = document('a');
    expect(await store.documents()).toEqual([head]);
    expect(await store.steps('a', 1, 9)).toEqual([step(1, 'first')]);
    expect(await store.steps('b', 1, 9)).toEqual([]);
    await store.close();
  });

  it('takes a step only on the revision before it, and both or neither', async () => {
    const store = open();
    await store.add(whole('a'));
    expect(await store.append(document('a', 3), step(3))).toBe(false);
    expect(await store.append(document('a', 1), step(1))).toBe(false);
    expect(await store.append(document('b', 2), step(2))).toBe(false);
    expect(await store.append(document('a', 2), step(2))).toBe(true);
    expect(await store.append(document('a', 2), step(2))).toBe(false);
    expect(await store.append(document('a', 3), step(3, 'third'))).toBe(true);
    expect(await store.document('a')).toEqual(document('a', 3));
    expect((await store.steps('a', 1, 9)).map((row) => row.revision)).toEqual([1, 2, 3]);
    expect((await store.steps('a', 2, 2)).map((row) => row.revision)).toEqual([2]);
    expect(await store.textFrom('a', 1)).toEqual({ revision: 1, text: 'first' });
    expect(await store.textFrom('a', 2)).toEqual({ revision: 3, text: 'third' });
    expect(await store.textFrom('a', 4)).toBeUndefined();
    await store.close();
  });

  it('keeps a car put away through later steps', async () => {
    const store = open();
    await store.add(whole('a'));
    const away = { atMs: 5, by: 'Bench 2' };
    await store.setAway('a', away);
    await store.append(document('a', 2), step(2));
    expect((await store.document('a'))?.away).toEqual(away);
    await store.setAway('a', null);
    expect((await store.documents())[0]?.away).toBeNull();
    await store.close();
  });

  it('names points, renames them and takes them away', async () => {
    const store = open();
    await store.add({ ...whole('a'), points: [{ revision: 1, name: 'start' }] });
    await store.append(document('a', 2), step(2));
    await store.namePoint('a', { revision: 2, name: 'before the dyno' });
    await store.namePoint('a', { revision: 2, name: 'dyno' });
    expect(await store.points('a')).toEqual([
      { revision: 1, name: 'start' },
      { revision: 2, name: 'dyno' },
    ]);
    await store.namePoint('a', { revision: 1, name: '' });
    expect(await store.points('a')).toEqual([{ revision: 2, name: 'dyno' }]);
    expect(await store.points('b')).toEqual([]);
    await store.close();
  });

  it('keeps bytes by their hash: none, some, and more than one piece of them', async () => {
    const store = open();
    await store.add(whole('a'));
    const large = Uint8Array.from({ length: 9_000_001 }, (_, i) => (i * 31 + (i >> 8)) % 256);
    for (const [hash, bytes] of [
      ['none', new Uint8Array(0)],
      ['some', Uint8Array.of(0, 255, 0, 10)],
      ['large', large],
    ] as const) {
      await store.putBlob(hash, bytes);
      await store.putBlob(hash, bytes);
      const back = (await store.blob(hash))!;
      expect(Buffer.compare(back, bytes)).toBe(0);
    }
    expect(await store.blob('other')).toBeUndefined();
    const link = (file: string, hash: string, atMs: number) => ({ file, hash, bytes: 4, atMs });
    await store.linkScan('a', link('scans/b.stl', 'some', 1));
    await store.linkScan('a', link('scans/a.stl', 'none', 2));
    await store.linkScan('a', link('scans/b.stl', 'large', 3));
    expect(await store.scans('a')).toEqual([
      link('scans/b.stl', 'some', 1),
      link('scans/a.stl', 'none', 2),
      link('scans/b.stl', 'large', 3),
    ]);
    await store.close();
  });

  it('does not share memory with those who put in or take out', async () => {
    const store = open();
    const bytes = Buffer.of(1, 2, 3);
    await store.putBlob('some', bytes);
    bytes.fill(9);
    (await store.blob('some'))!.fill(9);
    expect([...(await store.blob('some'))!]).toEqual([1, 2, 3]);
    await store.close();
  });

  it('copies itself whole into a new file, and never over one that stands there', async () => {
    const store = open();
    await store.putBlob('some', Uint8Array.of(1, 2));
    const scans = [{ file: 'a.stl', hash: 'some', bytes: 2, atMs: 1 }];
    await store.add({ ...whole('a'), scans, points: [{ revision: 1, name: 'start' }] });
    const file = join(folder, `copy-${files++}.db`);
    await store.copyTo(file);
    await store.append(document('a', 2), step(2));
    await expect(store.copyTo(file)).rejects.toMatchObject({ code: 'refused' });
    const copy = openSqliteStore(file);
    expect(await copy.document('a')).toEqual(document('a'));
    expect(await copy.steps('a', 1, 9)).toEqual([step(1, 'first')]);
    expect(await copy.points('a')).toEqual([{ revision: 1, name: 'start' }]);
    expect(await copy.scans('a')).toEqual(scans);
    expect([...(await copy.blob('some'))!]).toEqual([1, 2]);
    await copy.close();
    await store.close();
  });
});
