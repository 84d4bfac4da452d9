import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdit, readCar, type TakenWay } from '#car';
import { catalogue } from '#standards';
import { wished } from './wished.ts';

const reading = readCar(readFileSync(new URL('../../../demo/three-ports.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('three-ports.json is no car');
const [first] = reading.car.lines;
/** Its way as far as it matters here: of which hose it is. */
const taken = { ends: [], pieces: [{ hose: 'rubber-braid-16' }], bodies: [] } as unknown as TakenWay;
const line = { ...first!, dash: 16, taken };
const car = { ...reading.car, lines: [line, ...reading.car.lines.slice(1)] };
const shelf = catalogue(car.catalogue);

/** Common practice, no source: a hose of another size is another hose with other ends, and bends otherwise. */
describe('a change tried on a line', () => {
  it('of size drops the way of the old size and has the line worked out with it', () => {
    const { edits, anew } = wished(shelf, line, '12', '');
    expect(anew).toEqual([line.id]);
    const then = applyEdit(car, { do: 'several', edits }).car.lines[0]!;
    expect([then.dash, then.taken]).toEqual([12, undefined]);
  });

  it('to a size that its hose is not made in is none', () => {
    expect(wished(shelf, line, '7', '')).toEqual({ edits: [], anew: [] });
  });

  it('of ports swaps them, and is judged before anything is worked out', () => {
    expect(wished(shelf, line, '', 'a.x b.y')).toEqual({ edits: [{ do: 'swap-ports', a: 'a.x', b: 'b.y' }], anew: [] });
    expect(wished(shelf, line, '', '').edits).toEqual([]);
  });
});
