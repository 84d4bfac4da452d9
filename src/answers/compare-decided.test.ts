import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { type Car, carFrom } from '#car';
import { linesWorld } from '#lines';
import { order } from '#stock';
import { compareDecided } from './compare-decided.ts';

/** The demo car with its ways taken; without its scans, which no hose of this test comes near. */
const car: Car = (() => {
  const file = fileURLToPath(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));
  const reading = carFrom(JSON.parse(gunzipSync(readFileSync(file)).toString('utf8')));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  const parts = reading.car.parts.map((part) => ({
    ...part,
    shapes: part.shapes.filter((one) => one.mesh === undefined),
  }));
  return { ...reading.car, parts, box: [] };
})();
const world = (made: Car) => linesWorld(made, new Map());
const withLines = (change: (line: Car['lines'][number]) => Car['lines'][number] | null): Car => ({
  ...car,
  lines: car.lines.flatMap((line) => change(line) ?? []),
});
const without = (id: string): Car => withLines((line) => (line.id === id ? null : line));
const verdictOf = (result: ReturnType<typeof compareDecided>, id: string) =>
  result.lines.find((line) => line.line === id)!;

/** What is needed of each part that is counted by the piece, spares aside: another room's way of counting it. */
function needed(made: Car): ReadonlyMap<string, number> {
  const { lines } = made;
  const planned = { lines: lines.map((line) => ({ line: line.id, taken: line.taken ?? null })) };
  const w = world(made);
  const rows = order(made, planned, w.shelf).rows.filter((row) => row.spare !== true && row.unit === 'each');
  return new Map(rows.map((row) => [row.id, row.qty]));
}

describe('two points of a car’s history, by what was decided at each', () => {
  it('keeps every line of a car that did not change, and buys and leaves nothing', () => {
    const same = compareDecided(world(car), world(structuredClone(car)));
    expect(new Set(same.lines.map((line) => line.verdict))).toEqual(new Set(['keep']));
    expect([same.buy, same.surplus]).toEqual([[], []]);
  });

  it('counts as many parts bought or left over as the two orders differ by', () => {
    const less = without('O8');
    const [was, is] = [needed(car), needed(less)];
    const gone = compareDecided(world(car), world(less));
    expect(verdictOf(gone, 'O8').verdict).toBe('scrap');
    const expected = [...was].flatMap(([id, qty]) =>
      qty === (is.get(id) ?? 0) ? [] : [[id, qty - (is.get(id) ?? 0)]],
    );
    expect(expected.length).toBeGreaterThan(2);
    const left = gone.surplus.filter((row) => row.unit === 'each' && expected.some(([id]) => id === row.id));
    expect(left.map((row) => [row.id, row.qty]).sort()).toEqual(expected.sort());
    // The other way round the same parts are bought.
    const back = compareDecided(world(less), world(car));
    expect(verdictOf(back, 'O8').verdict).toBe('new');
    const bought = back.buy.filter((row) => row.unit === 'each' && expected.some(([id]) => id === row.id));
    expect(bought.map((row) => [row.id, row.qty]).sort()).toEqual(expected.sort());
  });

  it('holds a line that has another way against that way, though its old hose would do', () => {
    const longer = withLines((line) =>
      line.id === 'O1' && line.taken
        ? {
            ...line,
            taken: {
              ...line.taken,
              pieces: line.taken.pieces.map((one) => ({ ...one, cutLengthMm: one.cutLengthMm! + 100 })),
            },
          }
        : line,
    );
    const told = verdictOf(compareDecided(world(car), world(longer)), 'O1');
    expect(told.verdict).toBe('remake');
    expect(told.why).toMatch(/cut length/u);
  });

  it('says of swapped ports without new ways that both are to be made again, how not being known', () => {
    const ends = { O10: 'tank.return-inner', O11: 'tank.return-outer' } as Readonly<Record<string, string>>;
    const swapped = withLines((line) => (ends[line.id] === undefined ? line : { ...line, to: ends[line.id]! }));
    const told = compareDecided(world(car), world(swapped));
    for (const id of ['O10', 'O11']) {
      expect(verdictOf(told, id).verdict).toBe('remake');
      expect(verdictOf(told, id).why).toMatch(/no way is taken for it now/u);
    }
    expect(told.withoutWay).toEqual(['O10', 'O11']);
    expect(told.buy).toEqual([]);
  });
});
