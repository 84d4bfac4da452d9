import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { readCar } from '#car';
import { linesWorld } from '#lines';
import { describe, expect, it } from 'vitest';
import { stripOf } from './strip-of.ts';

/** The demo with its ways taken; its scanned gearbox is left out, which is in none of these jobs' way. */
const packed = readFileSync(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));
const reading = readCar(gunzipSync(packed).toString());
if (!reading.ok) throw new Error('fellside-taken is no car');
const world = linesWorld(reading.car, new Map());

/** Common practice, no source: what a mechanic undoes for these jobs, read off the demo's parts list. */
describe('the jobs of the demo', () => {
  it('oil filter: both -12 joints, four caps and plugs, its two screws', () => {
    const filter = stripOf(world, [], 'filter');
    const last = filter.steps.at(-1)!;
    expect(last.what).toBe('filter');
    expect(filter.caps.filter(({ id }) => id.endsWith('-12'))).toMatchObject([{ qty: 2 }, { qty: 2 }]);
    expect(
      last.undo
        .map(({ id }) => id)
        .filter((id) => id.startsWith('filter/'))
        .toSorted(),
    ).toEqual(['filter/low', 'filter/top']);
  });

  it('what is marked to stay on is said to stay on', () => {
    expect(stripOf(world, [], 'floor').found).toBe('stays-on');
  });
});
