import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { readCar } from '#car';
import { bodiesOfWay, linesWorld, standingWay } from '#lines';
import { describe, expect, it } from 'vitest';
import { toolCost } from './tool-cost.ts';

const text = gunzipSync(readFileSync(new URL('../../../test/screen/fellside-taken.json.gz', import.meta.url)));
const reading = readCar(text.toString('utf8'));
if (!reading.ok) throw new Error('fellside-taken is no car');
const { car } = reading;
const world = linesWorld(car, new Map());
const others = (but: string) =>
  new Map(car.lines.flatMap(({ id, taken }) => (id === but || !taken ? [] : [[id, bodiesOfWay(taken)] as const])));
const line = (id: string) => car.lines.find((row) => row.id === id)!;
const costOf = (id: string) =>
  toolCost(world.bay, world.shelf, line(id), others(id))(standingWay(world, line(id), line(id).taken!));

describe('what spanner room costs a way', () => {
  it('is nothing where spanners go on all its nuts', () => {
    expect(costOf('F5')).toEqual({ costMm: 0, words: '' });
  });

  it('is 80 mm of line for each nut that takes no tool, and says which', () => {
    // O1 at the pump stands between O4 and the pump: neither its nut nor its adapter takes a tool.
    const { costMm, words } = costOf('O1');
    expect(costMm).toBe(160);
    expect(words).toContain('swivel nut at pump.feed');
  });
});
