import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { type Car, readCar } from '#car';
import { linesWorld } from '#lines';
import { describe, expect, it } from 'vitest';
import { stripFindings } from './strip-findings.ts';
import { stripNames, undoneWords } from './strip-names.ts';
import { stripOf } from './strip-of.ts';

/** The demo with its ways taken; its scanned gearbox is left out, which is in none of these jobs' way. */
const packed = readFileSync(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));
const reading = readCar(gunzipSync(packed).toString());
if (!reading.ok) throw new Error('fellside-taken is no car');
const world = linesWorld(reading.car, new Map());

/** Common practice, no source: what a mechanic undoes for these jobs, read off the demo's parts list. */
describe('the jobs of the demo', () => {
  it('oil filter between runs: the canister spun off by hand with what it holds, the head and its joints left alone', () => {
    const canister = stripOf(world, [], 'filter-canister');
    const names = canister.steps.map(({ what }) => what);
    expect(names.at(-1)).toBe('filter-canister');
    expect(canister.steps.at(-1)!.undo).toMatchObject([{ id: 'filter-canister/thread', isReached: true }]);
    expect(canister.steps.at(-1)!.spillsL).toBe(0.35);
    const opened = canister.steps.flatMap(({ opens }) => opens).reduce((sum, { litres }) => sum + litres, 0);
    expect(canister.litres).toBeCloseTo(0.35 + opened, 9);
    expect(names).not.toContain('filter');
    expect(names).not.toContain('charge-cooler');
    expect(canister.breaks).toMatchObject([{ name: 'Between two runs', fits: true }]);
  });

  it('oil filter head: both -12 joints, four caps and plugs, its two screws', () => {
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

  it('turbo: the cover, then both bands, wastegate and compressor, its oil and water joints, its pot with the drain', () => {
    const turbo = stripOf(world, [], 'turbo', { crew: 2, wins: true });
    const names = turbo.steps.flatMap(({ what, along }) => [what, ...along]);
    const undone = turbo.steps.flatMap(({ undo, onBench }) => [...undo, ...onBench]).map(({ id }) => id);
    expect([turbo.found, turbo.isProved]).toEqual(['found', true]);
    expect(names).toEqual(expect.arrayContaining(['wastegate', 'turbo', 'turbo-pot', 'O7']));
    expect(undone).toEqual(
      expect.arrayContaining(['turbo/band', 'compressor/band', 'C6@to', 'O6@from', 'O8@to', 'C7@from']),
    );
    expect(names.filter((id) => ['block', 'manifold', 'turbine', 'transaxle'].includes(id))).toEqual([]);
    expect(turbo.steps.every(({ lift }) => lift?.by !== 'hoist')).toBe(true);
    // The pot's 0.35 L runs into the line to the pump, not out of it; what stands in the bores is little.
    expect(turbo.litres).toBeGreaterThan(0);
    expect(turbo.litres).toBeLessThan(0.35);
    expect(turbo.caps.find(({ id }) => id.endsWith('-10'))?.qty).toBe(1);
    // Hand: a joint of -10 takes 1.5 min off, a dry-break 0.1; on again 1.3 times as long.
    const coupled = turbo.wins.find(({ words }) => words.endsWith('O6 at turbo-pot.out'));
    expect(coupled?.savedMin).toBeCloseTo((1.5 - 0.1) * (1 + 1.3), 6);
    // Turbo, charge air and boost signal get none.
    expect(turbo.wins.filter(({ words }) => /turbo\.|compressor|wastegate/u.test(words))).toEqual([]);
  });

  it('pump: the tank drained first, the belt off before it, seven joints with a cap and a plug each, four screws', () => {
    const pump = stripOf(world, [], 'pump');
    expect([pump.found, pump.isProved]).toEqual(['found', true]);
    expect(pump.drainFirst.map(({ part }) => part)).toEqual(['tank']);
    const last = pump.steps.at(-1)!;
    expect(last.what).toBe('pump');
    expect(last.undo.filter(({ id }) => id.startsWith('pump/'))).toHaveLength(4);
    expect(last.opens.map(({ port }) => port).toSorted()).toEqual([
      'pump.feed',
      'pump.pressure',
      'pump.scavenge-1',
      'pump.scavenge-2',
      'pump.scavenge-3',
      'pump.scavenge-out',
      'pump.turbo-out',
    ]);
    expect(pump.steps.map(({ what }) => what).indexOf('belt')).toBeLessThan(pump.steps.length - 1);
    expect(pump.fitBefore).toContainEqual(expect.objectContaining({ first: 'pump', second: 'belt' }));
  });

  it('hand: a line that is opened at both ends loses no more than it holds; what is not stated is named', () => {
    // C1: pi/4 x 34.8^2 mm2 over its 2183 mm, all of it above the radiator's end; the head's end loses nothing more.
    const { steps, litres, uncounted } = stripOf(world, [], 'C1');
    const rows = steps.flatMap(({ opens }) => opens.map(({ port, litres: runs }) => [port, runs] as const));
    const [head, radiator] = ['head.water-out', 'radiator.in'].map((port) => rows.find(([of]) => of === port)![1]);
    expect(radiator).toBeCloseTo((Math.PI / 4) * 0.348 ** 2 * 21.83, 3);
    expect(head).toBeCloseTo(0, 9);
    expect(litres).toBeCloseTo(radiator!, 9);
    expect(uncounted).toEqual(['Cylinder head', 'Radiator']);
    // The tank's fill is stated; the pump holds a little that is not.
    const feed = stripOf(world, [], 'O1');
    expect(feed.uncounted).toEqual(['Oil pump']);
    // pi 90^2 mm2 x 30 mm stay below its mouth of 8 L; 442 mm of 22.2 mm bore stand over it.
    expect(feed.litres).toBeCloseTo(8 - Math.PI * 0.9 ** 2 * 0.3 + (Math.PI / 4) * 0.222 ** 2 * 4.42, 2);
  });

  it('says like with like, with the tool, and things by name; a part by its name up to the comma where that is enough', () => {
    const { steps, onAgain, fitBefore } = stripOf(world, [], 'turbo');
    const last = steps.at(-1)!;
    expect(last.words).toBe('take Turbo centre housing out, right; with it: Turbo catch pot; O7 Turbo drain');
    expect(undoneWords(last.onBench)).toEqual([
      '2 M6 hexagon bolts, socket 10 mm: screw-1, screw-2 of Turbo catch pot',
    ]);
    expect(undoneWords(last.undo)).toContain('C6 at turbo.water-in');
    const shut = { id: 'a', words: 'a', is: { one: 'nut', more: 'nuts' }, minutes: 1, isReached: false };
    expect(undoneWords([shut, { ...shut, id: 'b', words: 'b', isReached: true }])).toEqual([
      'nut: a (no hand found a straight way)',
      'nut: b',
    ]);
    // What is to be said of several alike is said once, and of each.
    const tool = { words: 'no tool goes on' } as never;
    const two = ['a', 'b'].map((id) => ({ ...shut, id, words: `${id} of Bell`, isReached: true, tool }));
    expect(undoneWords([...two, { ...two[0]!, id: 'c', words: 'c of Head' }])).toEqual([
      '3 nuts: a of Bell, b of Bell, c of Head (each: no tool goes on)',
    ]);
    expect(undoneWords(two)).toEqual(['2 nuts: a, b of Bell (each: no tool goes on)']);
    expect([onAgain[0], onAgain.at(-1)]).toEqual([
      'Turbo centre housing',
      'PN2R Right upper closing panel over the turbo side',
    ]);
    expect(fitBefore.map(({ words }) => words)).toContain('Turbo centre housing before Wastegate actuator');
    const both = [{ id: 'left', name: 'Cooler, left' }, { id: 'right', name: 'Cooler, right' }, { id: 'bare' }];
    const { short, full } = stripNames({ parts: both, lines: [] } as unknown as Car);
    expect(['left', 'bare'].map(short)).toEqual(['Cooler, left', 'bare']);
    expect(full('right')).toBe('Cooler, right');
    expect(stripOf(world, [], 'filter-canister').onAgain).toContain('O3 at filter.out');
  });

  it('a job that takes longer than its break is a snag with the minutes, the break and what would win', () => {
    expect(stripFindings(world, []).filter(({ code }) => code === 'job-longer-than-break')).toEqual([]);
    const workshop = { ...reading.car.workshop, breaks: [{ name: 'Between two runs', minutes: 10, jobs: ['O6'] }] };
    const hurried = linesWorld({ ...reading.car, workshop }, new Map());
    const line = stripFindings(hurried, []).find(({ code }) => code === 'job-longer-than-break')!;
    const { crewMinutes } = stripOf(hurried, [], 'O6');
    expect([line.value, line.limit, line.unit]).toEqual([Math.round(crewMinutes), 10, 'min']);
    expect(line.cures[0]).toMatch(/^a dry-break where O6 at /u);
  });

  it('a strip-down that is stopped says so', () => {
    expect(stripOf(linesWorld(reading.car, new Map()), [], 'radiator', { watch: () => false }).found).toBe('stopped');
  });

  it('what is marked to stay on is said to stay on', () => {
    expect(stripOf(world, [], 'floor').found).toBe('stays-on');
  });
});
