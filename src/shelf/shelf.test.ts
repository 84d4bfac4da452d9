import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Car, carText, type Line } from '#car';
import { afterAll, describe, expect, it } from 'vitest';
import { memoryShelf, openShelf, type Shelf } from './index.ts';
import { partNamed, renamed, smallCar } from './small-car.fixture.ts';

const folder = mkdtempSync(join(tmpdir(), 'fairlead-shelf-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let folders = 0;

/** Keeps edits on the car as it stands. */
async function keepNow(shelf: Shelf, id: string, ...edits: Parameters<Shelf['keep']>[1]['edits']) {
  const { revision } = await shelf.openCar(id);
  const kept = await shelf.keep(id, { base: revision, edits, who: 'Bench' });
  expect(kept.kind).toBe('kept');
  return kept.now;
}

describe.each<readonly [string, () => Promise<Shelf>]>([
  ['in memory', memoryShelf],
  ['in a file', () => openShelf(join(folder, String(folders++)))],
])('a shelf %s', (_name, open) => {
  it('lists cars, last changed first, those put away last', async () => {
    const shelf = await open();
    expect(await shelf.cars()).toEqual([]);
    const a = await shelf.addCar(smallCar('Årsta spécial'), 'Ann');
    const b = await shelf.addCar(smallCar('Årsta spécial'), 'Ann');
    const c = await shelf.addCar(smallCar(), 'Ann', 'wanted');
    expect([a.id, b.id, c.id]).toEqual(['arsta-special', 'arsta-special-2', 'wanted']);
    expect(a).toMatchObject({ revision: 1, undo: null, redo: null });
    await new Promise((done) => setTimeout(done, 5));
    await keepNow(shelf, 'arsta-special-2', renamed('Second'));
    await shelf.setAway('wanted', true, 'Ann');
    const rows = await shelf.cars();
    expect(rows.map((row) => [row.id, row.name, row.revision, row.isAway])).toEqual([
      ['arsta-special-2', 'Second', 2, false],
      ['arsta-special', 'Årsta spécial', 1, false],
      ['wanted', 'Small car', 1, true],
    ]);
    expect(rows[0]).toMatchObject({ parts: 2, lines: 1 });
    await shelf.setAway('wanted', false, 'Ann');
    expect((await shelf.cars()).every((row) => !row.isAway)).toBe(true);
    await shelf.close();
  });

  it('keeps edits, each as a step with who and what', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    const now = await keepNow(shelf, 'car', renamed('One'), partNamed('tank', 'Oil tank'));
    expect(now).toMatchObject({ revision: 2, car: { name: 'One' }, redo: null });
    expect(now.undo).toMatchObject({ revision: 2, kind: 'change', who: 'Bench' });
    await keepNow(shelf, 'car', renamed('Two'));
    const history = await shelf.history('car', 9, 9);
    expect(history.map((step) => [step.revision, step.kind, step.who])).toEqual([
      [3, 'change', 'Bench'],
      [2, 'change', 'Bench'],
      [1, 'put on the shelf', 'Ann'],
    ]);
    expect(history[1]!.edits).toEqual([renamed('One'), partNamed('tank', 'Oil tank')]);
    expect((await shelf.history('car', 3, 1)).map((step) => step.revision)).toEqual([2]);
    expect(await shelf.history('car', 1, 5)).toEqual([]);
    await shelf.close();
  });

  it('undoes back to the beginning and redoes to the end; a new change ends the redoing', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    const names = ['Small car', 'One', 'Two', 'Three'];
    for (const name of names.slice(1)) await keepNow(shelf, 'car', renamed(name));
    for (const name of names.slice(0, -1).reverse()) expect((await shelf.undo('car', 'Ann')).car.name).toBe(name);
    await expect(shelf.undo('car', 'Ann')).rejects.toMatchObject({ code: 'nothing-to-undo' });
    for (const name of names.slice(1, -1)) expect((await shelf.redo('car', 'Ann')).car.name).toBe(name);
    const mid = await shelf.openCar('car');
    expect(mid.undo).toMatchObject({ kind: 'redo', edits: [renamed('Two')] });
    expect(mid.redo).toMatchObject({ kind: 'undo', edits: [renamed('Three')], of: 4 });
    expect((await shelf.undo('car', 'Ann')).car.name).toBe('One');
    expect((await keepNow(shelf, 'car', renamed('Other'))).redo).toBeNull();
    await expect(shelf.redo('car', 'Ann')).rejects.toMatchObject({ code: 'nothing-to-redo' });
    expect((await shelf.undo('car', 'Ann')).car.name).toBe('One');
    expect((await shelf.undo('car', 'Ann')).car.name).toBe('Small car');
    await expect(shelf.undo('car', 'Ann')).rejects.toMatchObject({ code: 'nothing-to-undo' });
    expect((await shelf.carAt('car', 1)).name).toBe('Small car');
    expect((await shelf.carAt('car', 4)).name).toBe('Three');
    await shelf.close();
  });

  it('keeps nothing of an edit that breaks the car, or names what is not there', async () => {
    const shelf = await open();
    const { car } = await shelf.addCar(smallCar(), 'Ann', 'car');
    const faultsOf = async (edit: object) => {
      const answer = await shelf.keep('car', { base: 1, edits: [renamed('x'), edit as never], who: 'Ann' });
      return answer.kind === 'faults' ? answer.faults : answer.kind;
    };
    expect(await faultsOf({ do: 'remove-part', part: 'pump' })).toEqual([
      expect.stringMatching(/^lines\[0\]\.to: stands/),
    ]);
    expect(await faultsOf({ do: 'set-part', part: 'tnak', field: 'name', value: 'x' })).toEqual([
      expect.stringMatching(/there is no tnak/),
    ]);
    expect(await faultsOf({ do: 'no-such-edit' })).toEqual([expect.stringMatching(/no edit/)]);
    expect(await faultsOf({ do: 'set-port', port: 7, field: 'name' })).toEqual([
      expect.stringMatching(/cannot be read/),
    ]);
    expect(await faultsOf({ do: 'restore' })).toEqual([expect.stringMatching(/cannot be read/)]);
    expect(await faultsOf({ do: 'set-part', part: 'tank', field: 'knownToMm', value: -1 })).toHaveLength(1);
    const now = await shelf.openCar('car');
    expect(now).toMatchObject({ revision: 1, undo: null });
    expect(carText(now.car)).toBe(carText(car));
    await shelf.close();
  });

  it('merges edits on an older revision, and tells a clash with what and who', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    await shelf.keep('car', { base: 1, edits: [renamed('Hers'), partNamed('pump', 'Pump')], who: 'Ann' });
    const merged = await shelf.keep('car', { base: 1, edits: [partNamed('tank', 'Tank')], who: 'Ben' });
    expect(merged).toMatchObject({ kind: 'kept', now: { revision: 3, car: { name: 'Hers' } } });
    expect(merged.now.car.parts.map((part) => part.name)).toEqual(['Tank', 'Pump']);
    const clash = await shelf.keep('car', { base: 1, edits: [renamed('His')], who: 'Cy' });
    expect(clash).toMatchObject({ kind: 'clash', by: 'Ann', clashes: [{ at: 'name', theirs: renamed('Hers') }] });
    expect(clash.now).toMatchObject({ revision: 3, car: { name: 'Hers' } });
    // The very same again, as after an answer that got lost, is there already.
    const again = await shelf.keep('car', { base: 1, edits: [partNamed('tank', 'Tank')], who: 'Ben' });
    expect(again).toMatchObject({ kind: 'kept', now: { revision: 3 } });
    const moved = { base: 3, edits: [{ do: 'move-part', part: 'pump', byMm: [10, 0, 0] } as const], who: 'Ben' };
    await shelf.keep('car', moved);
    const twice = await shelf.keep('car', moved);
    expect(twice).toMatchObject({ kind: 'kept', now: { revision: 4 } });
    expect(twice.now.car.parts[1]!.ports[0]!.atMm).toEqual([1010, 50, 50]);
    // With something new beside it, only that is done.
    const more = await shelf.keep('car', { ...moved, edits: [...moved.edits, partNamed('pump', 'Moved')] });
    expect(more).toMatchObject({ kind: 'kept', now: { revision: 5, undo: { edits: [partNamed('pump', 'Moved')] } } });
    expect(more.now.car.parts[1]!.ports[0]!.atMm).toEqual([1010, 50, 50]);
    // Both right alone, not together.
    const line = {
      id: 'L2',
      from: 'pump.out',
      to: 'tank.out',
      duty: 'water' as const,
      pieces: [],
      through: [],
      state: 'planned' as const,
    } satisfies Line;
    await shelf.keep('car', { base: 5, edits: [{ do: 'remove-line', line: 'L1' }], who: 'Ann' });
    await shelf.keep('car', { base: 6, edits: [{ do: 'remove-part', part: 'pump' }], who: 'Ann' });
    const broken = await shelf.keep('car', { base: 6, edits: [{ do: 'add-line', line }], who: 'Ben' });
    expect(broken).toMatchObject({ kind: 'faults', now: { revision: 7 } });
    await expect(shelf.keep('car', { base: 9, edits: [], who: 'Ben' })).rejects.toMatchObject({ code: 'no-revision' });
    await shelf.close();
  });

  it('counts what was changed and undone since as not touched', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    await keepNow(shelf, 'car', renamed('Hers'));
    await shelf.undo('car', 'Ann');
    const merged = await shelf.keep('car', { base: 1, edits: [renamed('His')], who: 'Ben' });
    expect(merged).toMatchObject({ kind: 'kept', now: { revision: 4, car: { name: 'His' } } });
    // An undo of what stood at the base is a change of theirs.
    await shelf.undo('car', 'Ann');
    const clash = await shelf.keep('car', { base: 4, edits: [renamed('Again')], who: 'Ben' });
    expect(clash).toMatchObject({ kind: 'clash', by: 'Ann' });
    await shelf.close();
  });

  it('keeps edits handed in at the same time, all of them', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    const wishes = [renamed('One'), partNamed('tank', 'Tank'), partNamed('pump', 'Pump')];
    const kept = await Promise.all(wishes.map((edit) => shelf.keep('car', { base: 1, edits: [edit], who: 'Ann' })));
    expect(kept.map((one) => [one.kind, one.now.revision])).toEqual([
      ['kept', 2],
      ['kept', 3],
      ['kept', 4],
    ]);
    expect((await shelf.openCar('car')).car).toMatchObject({
      name: 'One',
      parts: [{ name: 'Tank' }, { name: 'Pump' }],
    });
    await shelf.close();
  });

  it('goes back to a named point as a new change, which can be undone', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    await keepNow(shelf, 'car', renamed('One'));
    await shelf.namePoint('car', 2, 'before the dyno');
    await keepNow(shelf, 'car', { do: 'remove-line', line: 'L1' }, { do: 'remove-part', part: 'pump' });
    expect(await shelf.points('car')).toMatchObject([{ revision: 2, point: 'before the dyno' }]);
    const back = await shelf.goBack('car', 2, 'Ben');
    expect(back).toMatchObject({ revision: 4, undo: { kind: 'gone back', of: 2 } });
    expect(carText(back.car)).toBe(carText(await shelf.carAt('car', 2)));
    expect((await shelf.undo('car', 'Ben')).car.parts).toHaveLength(1);
    await shelf.namePoint('car', 2, '');
    expect(await shelf.points('car')).toEqual([]);
    await expect(shelf.namePoint('car', 99, 'x')).rejects.toMatchObject({ code: 'no-revision' });
    await expect(shelf.goBack('car', 0, 'Ben')).rejects.toMatchObject({ code: 'no-revision' });
    await shelf.close();
  });

  it('keeps scans by the name the car gives them, by what is in them', async () => {
    const shelf = await open();
    await shelf.addCar(smallCar(), 'Ann', 'car');
    await shelf.addCar(smallCar(), 'Ann', 'other');
    const bytes = Buffer.from('solid a\nendsolid a\n');
    const row = await shelf.addScan('car', 'scans/a.stl', bytes);
    expect(row).toEqual({ file: 'scans/a.stl', hash: createHash('sha256').update(bytes).digest('hex'), bytes: 19 });
    await shelf.addScan('car', 'scans/a.stl', bytes);
    await shelf.addScan('other', 'b.stl', bytes);
    expect(Buffer.from(await shelf.scan('other', 'b.stl'))).toEqual(bytes);
    await shelf.addScan('car', 'scans/a.stl', Buffer.from('other'));
    expect(Buffer.from(await shelf.scan('car', 'scans/a.stl')).toString()).toBe('other');
    expect(await shelf.scans('car')).toHaveLength(1);
    await expect(shelf.scan('car', 'scans/b.stl')).rejects.toMatchObject({ code: 'no-scan' });
    await expect(shelf.addScan('car', '../a.stl', bytes)).rejects.toMatchObject({ code: 'refused' });
    await shelf.close();
  });

  it('keeps one shop for all cars, checked like a car', async () => {
    const shelf = await open();
    expect(await shelf.shop()).toEqual({ revision: 0, box: [], catalogue: {} });
    const box = [{ id: 'hose-12', qty: 3.5 }];
    const hoses = [{ id: 'mine', boreMm: 19, odMm: 27, minBendRadiusMm: 120 }];
    expect(await shelf.keepShop({ base: 0, who: 'Ann', box })).toEqual({
      kind: 'kept',
      now: { revision: 1, box, catalogue: {} },
    });
    expect((await shelf.keepShop({ base: 1, who: 'Ann', catalogue: { hoses } })).now).toEqual({
      revision: 2,
      box,
      catalogue: { hoses },
    });
    expect(await shelf.keepShop({ base: 1, who: 'Ben', box: [] })).toMatchObject({
      kind: 'clash',
      now: { revision: 2 },
    });
    const wrong = shelf.keepShop({ base: 2, who: 'Ben', box: [{ id: 'x', qty: -1 }] });
    await expect(wrong).rejects.toMatchObject({ code: 'refused', message: expect.stringMatching(/box\[0\]\.qty/) });
    expect((await shelf.keepShop({ base: 2, who: 'Ben', catalogue: {} })).now).toMatchObject({ revision: 3, box });
    expect((await shelf.shop()).catalogue.hoses).toBeUndefined();
    expect(await shelf.cars()).toEqual([]);
    await shelf.close();
  });

  it('says which car is not there, and keeps its own copy of those that are', async () => {
    const shelf = await open();
    await expect(shelf.openCar('no')).rejects.toMatchObject({ code: 'no-car', message: expect.stringMatching(/"no"/) });
    await expect(shelf.openCar('shop')).rejects.toMatchObject({ code: 'no-car' });
    await expect(shelf.addCar({ ...smallCar(), name: '' }, 'Ann')).rejects.toMatchObject({ code: 'refused' });
    await expect(shelf.addCar(smallCar(), 'Ann\n')).resolves.toBeDefined();
    await expect(shelf.addCar(smallCar(), 'An\u0000n')).rejects.toMatchObject({ code: 'refused' });
    const mine = await shelf.addCar(smallCar(), 'Ann', 'car');
    (mine.car as { name?: string }).name = 'written over';
    (mine.car.parts as Car['parts'][number][]).pop();
    expect((await shelf.openCar('car')).car).toMatchObject({ name: 'Small car', parts: [{}, {}] });
    await shelf.close();
  });
});
