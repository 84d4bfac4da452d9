import { describe, expect, it } from 'vitest';
import { type EndMakeUp, endMakeUps } from '#lines';
import { type End, catalogue } from '#standards';
import { cutsCsv, orderCsv } from './order-csv.ts';
import { type Order, order } from './order.ts';
import { partsOfMakeUp } from './parts-of-make-up.ts';
import { plannedStraight, smallCar, straightWay, twoLines, worldOf } from './small-car.fixture.ts';

const orderOf = (car: ReturnType<typeof smallCar>, options = {}): Order =>
  order(car, plannedStraight(car), worldOf(car).shelf, options);
const rowOf = (made: Order, id: string, spare = false) =>
  made.rows.find((row) => row.id === id && (row.spare ?? false) === spare);

describe('order', () => {
  it('two straight lines: four adapters, ends and rings, two cuts of 480 mm from 2 m of hose', () => {
    const made = orderOf(smallCar());
    // hand: 600 mm between ports; 600 - 2 x (35.84 + 21.88 + 28.31 - 26.31) = 480.56, to 5 mm: 480
    expect(made.cuts).toEqual([
      { line: 'O1', hose: 'rubber-braid-16', kind: 'hose', lengthMm: 480, number: 1, allowanceMm: [-5, 15] },
      { line: 'O2', hose: 'rubber-braid-16', kind: 'hose', lengthMm: 480, number: 1, allowanceMm: [-5, 15] },
    ]);
    expect(rowOf(made, 'boss-16-flare-16')).toMatchObject({
      qty: 4,
      inBox: 0,
      toBuy: 4,
      unit: 'each',
      kind: 'adapter',
      usedIn: ['O1 at cooler.c1', 'O1 at tank.r1', 'O2 at cooler.c2', 'O2 at tank.r2'],
    });
    expect(rowOf(made, 'end-crimped-rubber-braid-16-0')).toMatchObject({ qty: 4, kind: 'hose-end' });
    expect(rowOf(made, 'o-ring-916')).toMatchObject({ qty: 4, kind: 'seal', standard: 'AS568' });
    // hand: 2 x (480 + 15) + 3 between + 20 for the ends = 1013: more than one metre, so two
    expect(rowOf(made, 'rubber-braid-16')).toMatchObject({ toBuy: 2, unit: 'm', qty: 1.016 });
    expect(made.hoseByTheMetre[0]).toMatchObject({ id: 'rubber-braid-16', toBuyM: 2, tooLong: [] });
  });

  it('how the hose ends are put on, kind by kind, and where', () => {
    const car = smallCar();
    const hoseEnds = ['end-crimped-rubber-braid-16-0', 'end-reusable-rubber-braid-16-0'] as const;
    const made = order(car, plannedStraight(car, { O2: { hoseEnds } }), worldOf(car).shelf);
    expect(made.makings).toMatchObject(
      [
        { fixing: 'crimped', needs: /press/u, ends: ['O1 at cooler.c1', 'O1 at tank.r1', 'O2 at cooler.c2'] },
        { fixing: 'reusable', needs: /vice/u, ends: ['O2 at tank.r2'] },
      ].map((row) => ({ ...row, needs: expect.stringMatching(row.needs) })),
    );
  });

  it('thread, hex and standard of a part stand in its row', () => {
    // published: -16 O-ring boss and 37-degree flare both take 1 5/16-12, SAE J1926 and J514
    expect(rowOf(orderOf(smallCar()), 'boss-16-flare-16')).toMatchObject({
      thread: expect.stringContaining('1 5/16-12'),
      standard: 'SAE J1926 (ISO 11926), SAE J514 (ISO 8434-2)',
      measure: true,
    });
  });

  it('every part of every make-up is counted once: recounted by walking the plan', () => {
    const car = smallCar();
    const planned = plannedStraight(car, {
      O2: { hoseEnds: ['end-crimped-rubber-braid-16-45', 'end-crimped-rubber-braid-16-90'] },
    });
    const made = order(car, planned, worldOf(car).shelf, { spares: false });
    const counted = new Map<string, number>();
    for (const { taken } of planned.lines)
      for (const end of taken!.ends)
        for (const part of end.parts) counted.set(part.id, (counted.get(part.id) ?? 0) + part.qty);
    const listed = new Map(made.rows.filter((row) => row.unit === 'each').map((row) => [row.id, row.qty]));
    expect(listed).toEqual(counted);
  });

  it('the box comes off, and what is taken from it is shown', () => {
    const made = orderOf(
      smallCar({
        box: [
          { id: 'o-ring-916', qty: 3 },
          { id: 'rubber-braid-16', qty: 1 },
          { id: 'boss-16-flare-16', qty: 9 },
        ],
      }),
    );
    expect(rowOf(made, 'o-ring-916')).toMatchObject({ qty: 4, inBox: 3, toBuy: 1 });
    expect(rowOf(made, 'boss-16-flare-16')).toMatchObject({ qty: 4, inBox: 4, toBuy: 0 });
    // hand: one cut of 495 from the shelf's metre, the other from a new one
    expect(made.hoseByTheMetre[0]!.lengths.map((length) => [length.from, length.lengthMm, length.cuts.length])).toEqual(
      [
        ['box', 1000, 1],
        ['bought', 1000, 1],
      ],
    );
    expect(rowOf(made, 'rubber-braid-16')).toMatchObject({ toBuy: 1 });
    expect(made.remarks.join()).toContain('taken to be one length');
  });

  it('bought and made lines need nothing; refused ones are named', () => {
    const car = smallCar({ lines: [{ ...twoLines[0], state: 'bought' }, twoLines[1]] });
    const fail = { limit: 'reach', text: 'does not reach' } as const;
    const made = order(car, plannedStraight(car, { O2: { fails: [fail] } }), worldOf(car).shelf, { spares: false });
    expect(made.rows).toEqual([]);
    expect(made.withoutWay).toEqual(['O2']);
  });

  it('spares: one of each end, four of each ring, caps and plugs for every open size, a metre of hose', () => {
    const made = orderOf(smallCar());
    expect(rowOf(made, 'end-crimped-rubber-braid-16-0', true)).toMatchObject({ qty: 1, spare: true, usedIn: [] });
    expect(rowOf(made, 'o-ring-916', true)).toMatchObject({ qty: 4 });
    expect(made.rows.filter((row) => row.kind === 'plug').map((row) => row.id)).toEqual([
      'plug-boss-16',
      'cap-flare-16',
      'plug-flare-16',
    ]);
    expect(rowOf(made, 'rubber-braid-16', true)).toMatchObject({ qty: 1, unit: 'm' });
    expect(orderOf(smallCar(), { spares: false }).rows.some((row) => row.spare)).toBe(false);
  });

  it('what is left in the box after the build serves as spares', () => {
    const made = orderOf(smallCar({ box: [{ id: 'o-ring-916', qty: 6 }] }));
    expect(rowOf(made, 'o-ring-916')).toMatchObject({ inBox: 4, toBuy: 0 });
    expect(rowOf(made, 'o-ring-916', true)).toMatchObject({ qty: 4, inBox: 2, toBuy: 2 });
  });

  it("a clip for each clamp of the line's size, on a bracket or not; the grommet takes the place of one", () => {
    const panel = {
      id: 'panel',
      class: 'fixed',
      crossable: ['grommet'],
      shapes: [{ box: { minMm: [700, -200, 0], maxMm: [701, 0, 500] } }],
    };
    const car = smallCar({
      parts: [panel],
      lines: [{ ...twoLines[0], through: [{ part: 'panel', kind: 'grommet' }] }],
    });
    const clamps = [
      { alongMm: 200, atMm: [600, -50, 300], on: 'chassis', bracket: true },
      { alongMm: 300, atMm: [700, -50, 300], on: 'panel', bracket: false },
      { alongMm: 400, atMm: [800, -50, 300], on: 'floor', bracket: false },
    ] as const;
    const made = order(car, plannedStraight(car, { O1: { clamps } }), worldOf(car).shelf, { spares: false });
    // hand: hose of 31.24 mm: clip for 28 to 32, grommet for 29 to 32
    expect(rowOf(made, 'p-clip-32')).toMatchObject({
      qty: 2,
      usedIn: ['O1 at 200 mm on a bracket', 'O1 at 400 mm on floor'],
    });
    expect(rowOf(made, 'grommet-32')).toMatchObject({ qty: 1, usedIn: ['O1 through panel'] });
    expect(made.brackets).toEqual([{ line: 'O1', alongMm: 200, atMm: [600, -50, 300] }]);
  });

  it('a bulkhead fitting comes with its locknut', () => {
    const panel = {
      id: 'panel',
      class: 'fixed',
      crossable: ['bulkhead-fitting'],
      shapes: [{ box: { minMm: [700, -200, 0], maxMm: [701, 0, 500] } }],
    };
    const car = smallCar({
      parts: [panel],
      lines: [{ ...twoLines[0], through: [{ part: 'panel', kind: 'bulkhead-fitting' }] }],
    });
    const way = straightWay(car, car.lines[0]!);
    const fitted = {
      ...way,
      bodies: [
        ...way.bodies,
        {
          part: 'bulkhead-fitting',
          row: 'bulkhead-16',
          pathMm: [
            [670, -50, 300],
            [730, -50, 300],
          ] as const,
          odMm: 44,
        },
      ],
    };
    const made = order(car, { lines: [{ line: 'O1', taken: fitted }] }, worldOf(car).shelf, { spares: false });
    expect(rowOf(made, 'bulkhead-16')).toMatchObject({ qty: 1, usedIn: ['O1 through panel'] });
    // published: SAE J514, -16 takes 1 5/16-12
    expect(rowOf(made, 'bulkhead-nut-16')).toMatchObject({
      qty: 1,
      kind: 'locknut',
      thread: expect.stringContaining('1 5/16-12'),
    });
  });

  it('tube is cut from 2 m and 6 m, or from what the builder can get', () => {
    const car = smallCar();
    const way = straightWay(car, car.lines[0]!);
    const tube = { odMm: 38, wallMm: 1.6, bendRadiusMm: 76 };
    const piped = {
      ...way,
      pieces: [{ ...way.pieces[0]!, hose: undefined, tube, cutLengthMm: 2400, allowanceMm: [0, 20] as const }],
    };
    const planned = { lines: [{ line: 'O1', taken: piped as unknown as typeof way }] };
    // hand: 2420 + 20 does not come from 2 m: 6 m; from lengths of 2.5 m one
    expect(order(car, planned, worldOf(car).shelf).tubes[0]).toMatchObject({ kind: 'tube', toBuyM: 6 });
    expect(order(car, planned, worldOf(car).shelf, { tubeStockMm: [2500] }).tubes[0]).toMatchObject({ toBuyM: 2.5 });
  });

  it("the builder's own part number, supplier and price are in the row, and the sum is told by currency", () => {
    const own = {
      adapters: [
        { id: 'boss-16-flare-16', partNumber: 'A-16', supplier: 'the corner shop', price: 12.5, currency: 'EUR' },
      ],
    };
    const made = orderOf(smallCar({ catalogue: own }), { spares: false });
    expect(rowOf(made, 'boss-16-flare-16')).toMatchObject({
      partNumber: 'A-16',
      supplier: 'the corner shop',
      price: 12.5,
    });
    // hand: 4 x 12.50
    expect(made.cost).toEqual([{ currency: 'EUR', sum: 50 }]);
    expect(made.unpriced).toBe(3);
  });

  it('the list is the same each time and for lines in any order', () => {
    const ids = (lines: readonly object[]) =>
      orderOf(smallCar({ lines })).rows.map((row) => [row.id, row.qty, row.spare ?? false]);
    expect(ids([...twoLines])).toEqual(ids([...twoLines].reverse()));
  });
});

describe('order as comma-separated text', () => {
  it('one row a part under a heading, quotes where they are needed', () => {
    const made = orderOf(smallCar(), { spares: false });
    const [head, ...rows] = orderCsv(made).trimEnd().split('\r\n');
    expect(head).toBe(
      'id,name,kind,qty,unit,inBox,toBuy,spare,usedIn,partNumber,supplier,price,currency,standard,thread,hexMm,measure',
    );
    expect(rows).toHaveLength(made.rows.length);
    expect(rows.find((row) => row.startsWith('o-ring-916'))).toContain(
      '"O-ring 916 for a -16 boss, rubber to suit fluid and heat",seal,4,each,0,4,,O1 at cooler.c1; O1 at tank.r1; O2 at cooler.c2; O2 at tank.r2,',
    );
    expect(cutsCsv(made)).toBe(
      'line,piece,of,kind,lengthMm,shorterMm,longerMm\r\nO1,1,rubber-braid-16,hose,480,-5,15\r\nO2,1,rubber-braid-16,hose,480,-5,15\r\n',
    );
  });

  it('a cell that a spreadsheet would run is made inert', () => {
    const own = { adapters: [{ id: 'boss-16-flare-16', supplier: '=1+1' }] };
    expect(orderCsv(orderOf(smallCar({ catalogue: own }), { spares: false }))).toContain("'=1+1");
  });
});

describe('parts of an end from its ids', () => {
  const shelf = catalogue();
  const ports: readonly End[] = [
    { type: 'orb', dash: 16 },
    { type: 'flare37-male', dash: 16 },
    { type: 'npt-female', pipe: '3/4' },
    { type: 'bspp', pipe: '1' },
    { type: 'metric-washer', thread: 'M16x1.5' },
  ];

  it('second: the seals that the make-up chain lists are found again from the ids alone', () => {
    let seen = 0;
    for (const [dash, port] of [...ports.slice(0, 4).map((p) => [16, p] as const), [8, ports[4]!] as const]) {
      const hose = shelf.hoses.find((row) => row.dash === dash && row.family === 'rubber-braid')!;
      const found = endMakeUps({ end: port }, hose, shelf, {});
      if (!('makeUps' in found)) continue;
      for (const makeUp of found.makeUps as readonly EndMakeUp[]) {
        const ids = makeUp.parts
          .filter((part) => part.kind === 'adapter' || part.kind === 'hose-end')
          .map((part) => part.id);
        expect(partsOfMakeUp(ids, port, hose.id, shelf)).toEqual(makeUp.parts);
        seen++;
      }
    }
    expect(seen).toBeGreaterThan(20);
  });

  it('a banjo takes two washers', () => {
    // common practice, no source: one either side of the eye
    const hose = shelf.hoses.find((row) => row.dash === 6)!;
    const parts = partsOfMakeUp(
      ['banjo-m12x1.5-flare-6'],
      { type: 'metric-washer', thread: 'M12x1.5' },
      hose.id,
      shelf,
    );
    expect(parts[0]).toMatchObject({ id: 'washer-m12x1.5', qty: 2 });
  });
});
