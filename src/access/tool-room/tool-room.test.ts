import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { readCar } from '#car';
import { linesWorld } from '#lines';
import { panelLayouts } from '#panels';
import { describe, expect, it } from 'vitest';
import { toolReachOf } from './tool-reach-of.ts';
import { toolRoom } from './tool-room.ts';

/** A nut on a box, of 19 mm where nothing else is said, with what stands round it, from the car file on. */
function carWith(parts: readonly object[], workshop: object = {}, acrossFlatsMm = 19): ReturnType<typeof roomOf> {
  return roomOf(
    JSON.stringify({
      fairlead: 1,
      name: 'Nut on a box',
      parts: [
        {
          id: 'case',
          class: 'fixed',
          shapes: [{ box: { minMm: [-30, -30, -60], maxMm: [30, 30, -6] } }],
          ports: [],
          fasteners: [{ id: 'f1', atMm: [0, 0, 0], faces: [0, 0, 1], head: 'nut', acrossFlatsMm }],
        },
        ...parts,
      ],
      movers: [],
      lines: [],
      workshop,
    }),
  );
}

function roomOf(text: string) {
  const reading = readCar(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  const { car } = reading;
  const world = linesWorld(car, new Map());
  const ways = new Map(car.lines.flatMap(({ id, taken }) => (taken ? [[id, taken] as const] : [])));
  return toolRoom({ bay: world.bay, shelf: world.shelf, ways, layouts: panelLayouts(car) });
}

const plate = (id: string, minMm: readonly number[], maxMm: readonly number[], more: object = {}) => ({
  id,
  class: 'fixed',
  shapes: [{ box: { minMm, maxMm } }],
  ports: [],
  ...more,
});

describe('a nut', () => {
  it('in the open takes a ratchet all round', () => {
    const [nut] = carWith([]).nuts;
    expect(nut).toMatchObject({ verdict: 'yes', tool: 'ratchet', freeDeg: 360, isInSight: true, coversOff: [] });
  });

  it('under a lid 30 mm over it takes a ring, for a socket of 30 and a ratchet of 26 want 56 (table)', () => {
    const [nut] = carWith([plate('lid', [-200, -200, 36], [200, 200, 40])]).nuts;
    expect(nut).toMatchObject({ verdict: 'yes', tool: 'ring' });
  });

  it('deep between two walls 44 apart takes no head of 46.9 nor 32.5 and a fist, and says which wall', () => {
    // Ring head 1.5 x 19 + 4 = 32.5 goes in; its handle of 17.4 swings asin-wise about 2 x acos(..) less than 30 in a gap of 2 x 22.
    const walls = [plate('left', [-300, -80, -60], [300, -22, 300]), plate('right', [-300, 22, -60], [300, 80, 300])];
    const [nut] = carWith([...walls, plate('lid', [-300, -80, 20], [300, 80, 24])]).nuts;
    expect(nut!.verdict).toBe('no');
    expect(nut!.inTheWay).toContain('left');
  });

  it('with a wall as near as the head is wide is tight within 15 % of it, then not at all (hand: 23.45 mm for 19)', () => {
    const workshop = { tools: [{ kind: 'ratchet', headMm: 400, thickMm: 300 }] };
    const beside = (mm: number) =>
      carWith([plate('wall', [mm, -300, -60], [mm + 20, 300, 600])], {
        ...workshop,
        tools: [...workshop.tools, { kind: 'ring', headMm: 200 }, { kind: 'crow-foot', headMm: 200 }],
      }).nuts[0]!;
    expect(beside(24).verdict).toBe('yes');
    expect(beside(24).tool).toBe('open-end');
    expect(beside(21.5).verdict).toBe('tight');
    expect(beside(19).verdict).toBe('no');
  });

  it('of 13 mm in a square well takes a socket of 1.33 x 13 + 1.5 = 18.8 mm, a tight one down to 16.0 (hand)', () => {
    const well = (half: number) =>
      carWith(
        [
          plate('left', [-40, -40, -6], [-half, 40, 24]),
          plate('right', [half, -40, -6], [40, 40, 24]),
          plate('front', [-half, -40, -6], [half, -half, 24]),
          plate('back', [-half, half, -6], [half, 40, 24]),
        ],
        {},
        13,
      ).nuts[0]!;
    for (const [half, verdict] of [
      [12, 'yes'],
      [9.5, 'yes'],
      [9.3, 'tight'],
      [8.2, 'tight'],
      [7.9, 'no'],
    ] as const)
      expect(well(half), `half width ${half}`).toMatchObject(
        verdict === 'no' ? { verdict } : { verdict, tool: 'ratchet' },
      );
  });

  it('of 13 mm beside a wall takes a ring of 1.5 x 13 + 4 = 23.5 mm, a tight one down to 20.0 (hand)', () => {
    const others = ['ratchet', 'crow-foot', 'open-end'].map((kind) => ({ kind, headMm: 400, thickMm: 300 }));
    const beside = (mm: number) =>
      carWith([plate('wall', [mm, -300, -60], [mm + 20, 300, 600])], { tools: others }, 13).nuts[0]!;
    expect(beside(11.9)).toMatchObject({ verdict: 'yes', tool: 'ring' });
    expect(beside(11.5)).toMatchObject({ verdict: 'tight', tool: 'ring' });
    expect(beside(10.2)).toMatchObject({ verdict: 'tight', tool: 'ring' });
    expect(beside(9.8).verdict).toBe('no');
  });

  it('in a shut chest is reached with its lid off, and the predicate says so', () => {
    const chest = [
      plate('front', [-310, -310, -60], [310, -300, 500], { staysOn: true }),
      plate('back', [-310, 300, -60], [310, 310, 500], { staysOn: true }),
      plate('left', [-310, -310, -60], [-300, 310, 500], { staysOn: true }),
      plate('right', [300, -310, -60], [310, 310, 500], { staysOn: true }),
      plate('base', [-310, -310, -70], [310, 310, -60], { staysOn: true }),
      plate('lid', [-310, -310, 500], [310, 310, 510]),
    ];
    const room = carWith(chest);
    expect(room.nuts[0]).toMatchObject({ verdict: 'no', isHandThere: false, isInSight: false });
    const reach = toolReachOf(room)({ kind: 'fastener', part: 'case', fastener: 'f1' });
    expect(reach).toMatchObject({ reach: 'no' });
    expect(reach!.clearedBy).toContainEqual(['lid']);
    expect(toolReachOf(room)({ kind: 'fastener', part: 'case', fastener: 'f9' })).toBeUndefined();
  });
});

describe('the demo with its ways taken', () => {
  const text = gunzipSync(readFileSync(new URL('../../../test/screen/fellside-taken.json.gz', import.meta.url)));
  const car = readCar(text.toString('utf8'));
  if (!car.ok) throw new Error('fellside-taken is no car');
  const lines = car.car.lines.filter(({ id }) => id === 'O1' || id === 'O8');
  const world = linesWorld(car.car, new Map());
  const ways = new Map(lines.map(({ id, taken }) => [id, taken!] as const));
  const room = toolRoom({ bay: world.bay, shelf: world.shelf, ways, layouts: [] });

  it('has a nut and a hexagon at either end of O1 and O8, in sizes of their dash (published: 1 1/2 and 9/16 in nuts)', () => {
    const of = (line: string) => room.nuts.filter(({ nut }) => nut.line === line).map(({ nut }) => nut);
    expect(of('O1').map(({ id }) => id)).toEqual([
      'O1 tank.out adapter hex',
      'O1 tank.out swivel nut',
      'O1 pump.feed swivel nut',
      'O1 pump.feed adapter hex',
    ]);
    expect(of('O1').map(({ acrossFlatsMm }) => acrossFlatsMm)).toEqual([38.1, 38.1, 38.1, 38.1]);
    expect(
      of('O8')
        .filter(({ role }) => role === 'swivel nut')
        .map(({ acrossFlatsMm }) => acrossFlatsMm),
    ).toEqual([14.29, 14.29]);
  });

  it('lets a spanner on at the tank, where nothing stands round it', () => {
    const nut = room.nuts.find(({ nut: { id } }) => id === 'O1 tank.out swivel nut')!;
    expect(nut.verdict).toBe('yes');
    expect(nut.freeDeg).toBeGreaterThan(30);
  });
});
