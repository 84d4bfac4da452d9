import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { applyEdit, type Car, carFrom, carText, type Edit, faultLine, portRefs } from '#car';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { differences } from './differences.ts';
import { KeptShelf } from './kept-shelf.ts';
import { MemoryStore } from './memory-store.ts';
import { openSqliteStore } from './sqlite-store.ts';
import type { Store } from './store.ts';

const folder = mkdtempSync(join(tmpdir(), 'fairlead-history-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let files = 0;

function carOf(file: object): Car {
  const reading = carFrom(JSON.parse(JSON.stringify(file)));
  if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
  return reading.car;
}

/** Written by hand: keys in no usual order, empty lists written out or left out, measured ports, notes of the builder's own. */
const oddCar = carOf({
  name: 'Odd order',
  lines: [{ to: 'pot.a', from: 'box.a', id: 'L', duty: 'water', 'x-hung': [1, { a: null }] }],
  fairlead: 1,
  origins: [
    {
      id: 'o',
      kind: 'points',
      points: [
        { name: 'a', readMm: [0, 0, 0], atMm: [10, 20, 30] },
        { name: 'b', readMm: [900, 0, 0], atMm: [10, 920, 30] },
        { name: 'c', readMm: [0, 700, 0], atMm: [-690, 20, 30] },
      ],
    },
  ],
  parts: [
    {
      ports: [
        { faces: [1, 0, 0], id: 'a', end: { dash: 12, type: 'orb' }, atMm: [1, 2, 3] },
        { measured: [{ from: 'o', readMm: [5, 6, 7] }], id: 'm', end: { type: 'orb', dash: 6 }, faces: [0, 0, 1] },
      ],
      shapes: [{ knownToMm: 3, box: { maxMm: [9, 9, 9], minMm: [0, 0, 0] } }],
      class: 'hot',
      id: 'box',
    },
    {
      shapes: [],
      id: 'pot',
      ports: [{ id: 'a', atMm: [500, 0, 0], faces: [0, 1, 0], end: { type: 'orb', dash: 12 } }],
      class: 'fixed',
    },
    { id: 'bare', class: 'fixed' },
  ],
  keepOffMm: {},
});

const act = fc.record({ kind: fc.nat(17), a: fc.nat(30), n: fc.integer({ min: -400, max: 400 }) });
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never;

/** An edit out of random numbers; many do not fit, or would break the car. */
function editFor(car: Car, { kind, a, n }: Act, step: number): Edit {
  const part = car.parts[a % Math.max(1, car.parts.length)]?.id ?? 'none';
  const port = portRefs(car)[a % Math.max(1, portRefs(car).length)] ?? 'none.none';
  const line = car.lines[0]?.id ?? 'none';
  const box = { box: { minMm: [0, 0, 0] as [number, number, number], maxMm: [5, 6, 7] as [number, number, number] } };
  const value = n > 0;
  const edits: readonly Edit[] = [
    { do: 'set-name', ...(value ? { name: `n${n}` } : {}) },
    { do: 'set-part', part, field: 'shapes', value: value ? [box] : [] },
    { do: 'set-part', part, field: 'knownToMm', ...(value ? { value: n } : {}) },
    { do: 'set-part', part, field: 'name', ...(value ? { value: 'Pot "ü" \u0000 \ud800' } : {}) },
    { do: 'set-port', port, field: 'atMm', value: [n, a, step] },
    { do: 'set-port', port, field: 'measured', ...(value ? { value: [{ xMm: n }, { yMm: a }, { zMm: 1 }] } : {}) },
    { do: 'set-port', port, field: 'name', value: 'out' },
    { do: 'add-part', part: { id: `new${step}`, class: 'fixed', shapes: [], ports: [] }, index: a % 4 },
    { do: 'remove-part', part },
    { do: 'remove-port', port },
    { do: 'remove-line', line },
    { do: 'move-part', part, byMm: [n, a, 0], ...(value ? { turnDeg: [0, 0, n] } : {}) },
    { do: 'set-keep-off', class: 'hot', ...(value ? { keepOffMm: n } : {}) },
    { do: 'set-box', ...(value ? { rows: [{ id: 'thing', qty: n }] } : {}) },
    { do: 'set-catalogue', table: 'seals', ...(value ? { rows: [{ id: `s${a}` }] } : {}) },
    { do: 'remove-origin', origin: 'o' },
    {
      do: 'add-mover',
      mover: {
        id: `m${a}`,
        slideMm: [
          [0, 0, 0],
          [0, 0, Math.abs(n) + 1],
        ],
      },
    },
    { do: 'set-line', line, field: 'note', ...(value ? { value: 'x' } : {}) },
  ];
  return edits[kind]!;
}

interface Told {
  readonly text: string;
  readonly revision: number;
}

/** Random doings on a shelf that is opened anew now and then; each text as it was answered. */
async function doings(
  store: Store,
  list: readonly (Act & { readonly way: number })[],
): Promise<ReadonlyMap<number, string>> {
  let shelf = new KeptShelf(store);
  const told = new Map<number, string>();
  const tell = ({ text, revision }: Told) => {
    if (told.has(revision)) expect(text).toBe(told.get(revision));
    told.set(revision, text);
  };
  const toldOf = (kept: { readonly car: Car; readonly revision: number }) =>
    tell({ text: carText(kept.car), revision: kept.revision });
  toldOf(await shelf.addCar(oddCar, 'Ann', 'car'));
  for (const [step, one] of list.entries()) {
    const now = await shelf.openCar('car');
    if (one.way === 0) shelf = new KeptShelf(store);
    if (one.way <= 2 && now.undo !== null) toldOf(await shelf.undo('car', 'Ann'));
    else if (one.way <= 4 && now.redo !== null) toldOf(await shelf.redo('car', 'Ann'));
    else if (one.way === 5) toldOf(await shelf.goBack('car', 1 + (one.a % now.revision), 'Ann'));
    else
      toldOf((await shelf.keep('car', { base: now.revision, edits: [editFor(now.car, one, step)], who: 'Ann' })).now);
  }
  return told;
}

/** What a shelf opened anew gives for each revision, and after undoing everything that can be undone. */
async function checkTold(store: Store, id: string, told: ReadonlyMap<number, string>): Promise<void> {
  const shelf = new KeptShelf(store);
  for (const [revision, text] of told) expect(carText(await shelf.carAt(id, revision))).toBe(text);
  const newest = await shelf.openCar(id);
  expect(newest.revision).toBe(told.size);
  let now = newest;
  let undone = 0;
  for (; now.undo !== null; undone++) now = await shelf.undo(id, 'Ann');
  expect(carText(now.car)).toBe(told.get(1));
  for (; undone > 0; undone--) now = await shelf.redo(id, 'Ann');
  expect(carText(now.car)).toBe(carText(newest.car));
}

const lists = (length: number) =>
  fc.array(
    fc.tuple(act, fc.nat(14)).map(([one, way]) => ({ ...one, way })),
    { minLength: length / 2, maxLength: length },
  );

describe('every revision', () => {
  it('stands exactly as it was kept, and undoing goes back to the first, seed 7101', async () => {
    await fc.assert(
      fc.asyncProperty(lists(50), async (list) => {
        const store = new MemoryStore();
        const told = await doings(store, list);
        await checkTold(store, 'car', told);
      }),
      { seed: 7101, numRuns: 8, endOnFailure: true },
    );
  });

  it('is the same from a file that was closed and opened, seed 7102', async () => {
    await fc.assert(
      fc.asyncProperty(lists(50), async (list) => {
        const file = join(folder, `${files++}.db`);
        const store = openSqliteStore(file);
        const told = await doings(store, list);
        await store.close();
        const again = openSqliteStore(file);
        await checkTold(again, 'car', told);
        await again.close();
      }),
      { seed: 7102, numRuns: 1, endOnFailure: true },
    );
  });

  it('comes along when the car is exported and imported, seed 7103', async () => {
    await fc.assert(
      fc.asyncProperty(lists(40), async (list) => {
        const from = new MemoryStore();
        const told = await doings(from, list);
        const to = new MemoryStore();
        const { id } = await new KeptShelf(to).importCar(await new KeptShelf(from).exportCar('car'), 'Ben');
        const { id: _from, ...before } = (await from.document('car'))!;
        const { id: _to, ...after } = (await to.document(id))!;
        expect(after).toEqual(before);
        expect(await to.steps(id, 1, told.size)).toEqual(await from.steps('car', 1, told.size));
        await checkTold(to, id, told);
      }),
      { seed: 7103, numRuns: 3, endOnFailure: true },
    );
  });
});

describe('the differences of two cars', () => {
  it('make the one of the other, key order and all, seed 7104', () => {
    const walked = (list: readonly Act[]) => {
      let car = oddCar;
      for (const [step, one] of list.entries()) {
        try {
          car = applyEdit(car, editFor(car, one, step)).car;
        } catch {
          continue;
        }
      }
      return car;
    };
    fc.assert(
      fc.property(fc.array(act, { maxLength: 12 }), fc.array(act, { maxLength: 12 }), (a, b) => {
        const [from, to] = [walked(a), walked(b)];
        const made = applyEdit(from, differences(from, to)).car;
        expect(JSON.stringify(made)).toBe(JSON.stringify(to));
      }),
      { seed: 7104, numRuns: 150, endOnFailure: true },
    );
  });

  it('bring keys into order where nothing else differs', () => {
    const [box, ...rest] = oddCar.parts;
    const { id, ...fields } = box!;
    const other: Car = { ...oddCar, parts: [{ id, ...fields }, ...rest] };
    expect(JSON.stringify(other)).not.toBe(JSON.stringify(oddCar));
    expect(JSON.stringify(applyEdit(oddCar, differences(oddCar, other)).car)).toBe(JSON.stringify(other));
  });

  it('touch nothing else', () => {
    const other = applyEdit(oddCar, { do: 'set-port', port: 'box.a', field: 'atMm', value: [7, 8, 9] }).car;
    const edit = differences(oddCar, other);
    expect(applyEdit(oddCar, edit).touched).toEqual(['parts/#box/ports/#a/atMm']);
    expect(differences(oddCar, oddCar)).toEqual({ do: 'restore', changes: [] });
  });
});
