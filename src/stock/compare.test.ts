import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Car, readCar } from '#car';
import { compare } from './compare.ts';
import { keptLines, withKept } from './kept-lines.ts';
import {
  type SmallCarWish,
  type WayWish,
  plannedStraight,
  smallCar,
  straightWay,
  twoLines,
  worldOf,
} from './small-car.fixture.ts';

type Wishes = Readonly<Record<string, WayWish>>;

const compared = (before: SmallCarWish, after: SmallCarWish, ways: { a?: Wishes; b?: Wishes } = {}) => {
  const [a, b] = [smallCar(before), smallCar(after)];
  return compare(worldOf(a), plannedStraight(a, ways.a), worldOf(b), plannedStraight(b, ways.b));
};
const verdicts = (result: ReturnType<typeof compared>) =>
  Object.fromEntries(result.lines.map((line) => [line.line, line.verdict]));
const why = (result: ReturnType<typeof compared>, id: string) => result.lines.find((line) => line.line === id)!.why;

/** Lines as they were made: crimped hoses with their ways. */
const made = (wish: SmallCarWish = {}): SmallCarWish => {
  const car = smallCar(wish);
  return {
    ...wish,
    lines: car.lines.map((line) => ({
      ...line,
      state: 'made',
      taken: JSON.parse(JSON.stringify(straightWay(car, line))),
    })),
  };
};

describe('compare', () => {
  it('a car with itself: all kept, nothing bought, nothing left over', () => {
    const same = compared({}, {});
    expect(verdicts(same)).toEqual({ O1: 'keep', O2: 'keep' });
    expect([same.buy, same.surplus, same.fitsElsewhere]).toEqual([[], [], []]);
  });

  it('two tank ports swapped: both hoses are cut anew, ends and adapters stay', () => {
    const swapped = [
      { ...twoLines[0], to: 'tank.r2' },
      { ...twoLines[1], to: 'tank.r1' },
    ];
    const result = compared({}, { lines: swapped });
    // hand: 600 mm along, now 100 mm across: 608.28 long; 608.28 - 119.44 = 488.8, to 5 mm 490; 480 is more than 5 short of it
    expect(result.lines.map(({ line, verdict }) => [line, verdict])).toEqual([
      ['O1', 'remake'],
      ['O2', 'remake'],
    ]);
    expect(why(result, 'O1')).toContain('cut length 480 → 490 mm');
    expect(why(result, 'O1')).toContain('it now goes to tank.r2, it went to tank.r1');
    // hand: two hoses 10 mm longer: 0.02 m more in all; all else is as before
    expect(result.buy.map((row) => [row.id, row.qty, row.unit])).toEqual([['rubber-braid-16', 0.02, 'm']]);
    expect(result.surplus).toEqual([]);
  });

  it('two lines whose hoses serve each other are exchanged, nothing is bought', () => {
    // O2 starts 100 mm farther back, so it is 100 mm longer; the other car has them the other way round
    const before = made({ secondAtMm: 300 });
    const after = {
      secondAtMm: 300,
      lines: [
        { ...twoLines[0], from: 'cooler.c2', to: 'tank.r2' },
        { ...twoLines[1], from: 'cooler.c1', to: 'tank.r1' },
      ],
    };
    const result = compared(before, after);
    expect(verdicts(result)).toEqual({ O1: 'remake', O2: 'remake' });
    expect(result.fitsElsewhere.map(({ line, fits, how }) => [line, fits, how])).toEqual([
      ['O1', 'O2', 'as it is'],
      ['O2', 'O1', 'as it is'],
    ]);
    // common practice: a joint that is opened gets new rings, four of them here; nothing else is bought
    expect(result.buy.map((row) => [row.id, row.qty])).toEqual([['o-ring-916', 4]]);
    expect(result.surplus).toEqual([]);
  });

  it('-16 to -20: hose, ends and adapters change, the ports do not', () => {
    const bigger = { dash: 20, hose: 'rubber-braid-20' };
    const wish: WayWish = {
      hose: 'rubber-braid-20',
      hoseOdMm: 38.1,
      adapters: ['boss-16-flare-20', 'boss-16-flare-20'],
      hoseEnds: ['end-crimped-rubber-braid-20-0', 'end-crimped-rubber-braid-20-0'],
    };
    const result = compared({}, { lines: [{ ...twoLines[0], ...bigger }, twoLines[1]] }, { b: { O1: wish } });
    expect(verdicts(result)).toEqual({ O1: 'remake', O2: 'keep' });
    expect(why(result, 'O1')).toContain('the line is now a -20, it was a -16');
    expect(why(result, 'O1')).toContain('adapter at tank.r1 boss-16-flare-16 → boss-16-flare-20');
    expect(result.buy.map((row) => [row.id, row.qty])).toEqual([
      ['rubber-braid-20', 0.495],
      ['end-crimped-rubber-braid-20-0', 2],
      ['boss-16-flare-20', 2],
    ]);
    expect(result.surplus.map((row) => [row.id, row.qty, row.from])).toEqual([
      ['rubber-braid-16', 0.495, ['O1 piece 1']],
      ['end-crimped-rubber-braid-16-0', 2, ['O1 at cooler.c1', 'O1 at tank.r1']],
      ['boss-16-flare-16', 2, ['O1 at cooler.c1', 'O1 at tank.r1']],
    ]);
  });

  it('tank moved 120 mm to the left: both hoses are cut anew', () => {
    const result = compared({}, { tankShiftMm: [0, -120, 0] });
    // hand: sqrt(600^2 + 120^2) = 611.88, less 119.44 = 492.4: 490
    expect(verdicts(result)).toEqual({ O1: 'remake', O2: 'remake' });
    expect(why(result, 'O1')).toContain('tank.r1 moved 120 mm');
  });

  it('tank moved 20 mm to the left: the hoses follow', () => {
    // hand: 428 mm of hose carried 20 mm aside is 6/5 x 20^2 / (2 x 428) = 0.6 mm longer, less than the 5 it may be short
    const result = compared({}, { tankShiftMm: [0, -20, 0] });
    expect(verdicts(result)).toEqual({ O1: 'keep', O2: 'keep' });
    expect(why(result, 'O1')).toContain('tank.r1 moved 20 mm; the hose follows, 1 mm tighter');
  });

  it('tank 4 mm farther off: within the allowance; 6 mm: not', () => {
    // hand: cut 480 -5 +15: it may be up to 5 short of what is wanted
    expect(verdicts(compared({}, { tankShiftMm: [4, 0, 0] }))).toEqual({ O1: 'keep', O2: 'keep' });
    expect(why(compared({}, { tankShiftMm: [6, 0, 0] }), 'O1')).toContain('it wants 486 mm, cut to 480');
    expect(verdicts(compared({}, { tankShiftMm: [-14, 0, 0] }))).toEqual({ O1: 'keep', O2: 'keep' });
    expect(why(compared({}, { tankShiftMm: [-20, 0, 0] }), 'O1')).toContain('hangs slack');
  });

  it('the whole lot moved as one: the lines go with it', () => {
    const [a, b] = [smallCar(), smallCar()];
    const shifted = {
      ...b,
      parts: b.parts.map((part) => ({
        ...part,
        shapes: part.shapes.map((shape) => ({ ...shape, atMm: [300, 0, 40] as [number, number, number] })),
        ports: part.ports.map((port) => ({
          ...port,
          atMm: [port.atMm[0] + 300, port.atMm[1], port.atMm[2] + 40] as [number, number, number],
        })),
      })),
    };
    const result = compare(worldOf(a), plannedStraight(a), worldOf(shifted), plannedStraight(shifted));
    // 300 mm is more than a little: planned anew, and the plan asks for the very same hose
    expect(verdicts(result)).toEqual({ O1: 'keep', O2: 'keep' });
    expect(why(result, 'O1')).toContain('the same hose does');
  });

  it('something hot comes near: the line is remade though its ports stay, and the gap is told', () => {
    const hot = (y: number) => [
      {
        id: 'pipe',
        class: 'hot',
        shapes: [{ cylinder: { fromMm: [700, y, 200], toMm: [700, y, 400], radiusMm: 20 } }],
        ports: [],
      },
    ];
    // hand: pipe of 20 mm radius 120 mm beside a hose of 15.62: 84.4 mm apart; bare hot parts want 100
    const result = compared(
      { parts: hot(-400) },
      { parts: hot(-170) },
      {
        b: {
          O1: {
            fails: [
              {
                limit: 'keep-off',
                text: 'passes pipe at 84 mm; it wants 100',
                valueMm: 84.38,
                limitMm: 100,
                part: 'pipe',
              },
            ],
          },
        },
      },
    );
    expect(verdicts(result)).toEqual({ O1: 'remake', O2: 'keep' });
    expect(why(result, 'O1')).toBe(
      'where it lies it passes pipe at 84 mm; wants 100: no way found for it now (passes pipe at 84 mm; it wants 100)',
    );
    // hand: what O1 will be made of is not known, so its parts are neither to buy nor over
    expect([result.withoutWay, result.buy, result.surplus]).toEqual([['O1'], [], []]);
  });

  it('a gap that was no better before does not count against a hose', () => {
    const hot = [
      {
        id: 'pipe',
        class: 'hot',
        shapes: [{ cylinder: { fromMm: [700, -170, 200], toMm: [700, -170, 400], radiusMm: 20 } }],
        ports: [],
      },
    ];
    expect(verdicts(compared({ parts: hot }, { parts: hot }))).toEqual({ O1: 'keep', O2: 'keep' });
  });

  it('a line gone is scrapped and gives its parts back; a line more is new and wants them', () => {
    const less = compared({}, { lines: [twoLines[1]] });
    expect(verdicts(less)).toEqual({ O2: 'keep', O1: 'scrap' });
    expect(why(less, 'O1')).toBe('the second car has no such line');
    expect(less.surplus.map((row) => [row.id, row.qty])).toEqual([
      ['rubber-braid-16', 0.495],
      ['end-crimped-rubber-braid-16-0', 2],
      ['boss-16-flare-16', 2],
      ['o-ring-916', 2],
    ]);
    const more = compared({ lines: [twoLines[1]] }, {});
    expect(verdicts(more)).toEqual({ O1: 'new', O2: 'keep' });
    expect(more.buy.map((row) => [row.id, row.toBuy])).toEqual([
      ['rubber-braid-16', 0.495],
      ['end-crimped-rubber-braid-16-0', 2],
      ['boss-16-flare-16', 2],
      ['o-ring-916', 2],
    ]);
  });

  it('a port changed from taper pipe to O-ring boss: other adapter and seal, the hose itself stays', () => {
    const taper: WayWish = {
      adapters: ['boss-16-flare-16', 'taper-1-flare-16'],
      seals: ['o-ring-916', 'thread-sealant'],
    };
    const result = compared({ tankEnd: { type: 'npt-female', pipe: '1' } }, {}, { a: { O1: taper } });
    expect(why(result, 'O1')).toContain('tank.r1 is now a -16 O-ring boss port (1 5/16-12), it was a');
    expect(why(result, 'O1')).toContain(
      'adapter at tank.r1 taper-1-flare-16 → boss-16-flare-16; the hose itself stays',
    );
    expect(result.buy.map((row) => [row.id, row.qty])).toEqual([
      ['boss-16-flare-16', 1],
      ['o-ring-916', 1],
    ]);
    expect(result.surplus.map((row) => [row.id, row.qty])).toEqual([
      ['taper-1-flare-16', 1],
      ['thread-sealant', 1],
    ]);
  });

  it('only the clock changes on a swivel end: kept, and turned', () => {
    const bent: WayWish = {
      hoseEnds: ['end-crimped-rubber-braid-16-45', 'end-crimped-rubber-braid-16-0'],
      anglesDeg: [45, 0],
    };
    const turned = compared(
      {},
      { tankFaces: [-0.7, 0, 0.7] },
      { a: { O1: { ...bent, clocksDeg: [90, null] } }, b: { O1: { ...bent, clocksDeg: [213, null] } } },
    );
    expect(verdicts(turned)).toEqual({ O1: 'keep', O2: 'keep' });
    expect(turned.lines[0]).toMatchObject({
      why: 'tank.r1 turned 45°: the same hose does, hung otherwise',
      steps: ['turn the end at cooler.c1 from 90° to 213°'],
    });
  });

  it('two crimped elbows: a hose is remade when their angle is more than 3 degrees off', () => {
    const elbows = (endToEndDeg: number, fixing = 'crimped'): WayWish => ({
      hoseEnds: [`end-${fixing}-rubber-braid-16-45`, `end-${fixing}-rubber-braid-16-90`],
      anglesDeg: [45, 90],
      endToEndDeg,
    });
    const turned = { tankFaces: [-0.7, 0, 0.7] as const };
    const at = (deg: number, fixing?: string) =>
      compared({}, turned, { a: { O1: elbows(358, fixing) }, b: { O1: elbows(deg, fixing) } });
    expect(verdicts(at(1))['O1']).toBe('keep');
    expect(why(at(2), 'O1')).toContain('angle between the ends 358° → 2°');
    expect(verdicts(at(90, 'reusable'))['O1']).toBe('keep');
  });

  it('a made crimped hose that must be longer gives back its adapters, not its hose, ends or rings', () => {
    const result = compared(made(), { tankShiftMm: [60, 0, 0] });
    expect(why(result, 'O1')).toContain('cut length 480 → 540 mm');
    // hand: 2 x (540 + 15) mm of hose, four ends, four rings; four adapters are used again
    expect(result.buy.map((row) => [row.id, row.qty])).toEqual([
      ['rubber-braid-16', 1.11],
      ['end-crimped-rubber-braid-16-0', 4],
      ['o-ring-916', 4],
    ]);
    expect(result.surplus).toEqual([]);
  });

  it('a made hose with an end that comes off is cut down', () => {
    const wish: WayWish = { hoseEnds: ['end-reusable-rubber-braid-16-0', 'end-reusable-rubber-braid-16-0'] };
    const car = smallCar({ lines: [twoLines[0]] });
    const before = {
      lines: [
        { ...twoLines[0], state: 'made', taken: JSON.parse(JSON.stringify(straightWay(car, car.lines[0]!, wish))) },
      ],
    };
    const result = compared(before, { lines: [twoLines[0]], tankShiftMm: [-60, 0, 0] }, { b: { O1: wish } });
    expect(result.fitsElsewhere).toMatchObject([{ line: 'O1', fits: 'O1', how: 'cut down' }]);
    expect(result.buy.map((row) => row.id)).toEqual(['o-ring-916']);
  });

  it('crushed-collar ends go on again with a new collar each', () => {
    const end = 'end-crushed-collar-ptfe-smooth-16-0';
    const wish: WayWish = { hose: 'ptfe-steel-16', hoseEnds: [end, end] };
    const car = smallCar({ lines: [twoLines[0]] });
    const before = {
      lines: [
        { ...twoLines[0], state: 'made', taken: JSON.parse(JSON.stringify(straightWay(car, car.lines[0]!, wish))) },
      ],
    };
    const result = compared(before, { lines: [twoLines[0]], tankShiftMm: [60, 0, 0] }, { b: { O1: wish } });
    expect(result.buy.map(({ id, qty }) => [id, qty])).toContainEqual(['collar-ptfe-16', 2]);
    expect(result.buy.map(({ id }) => id)).not.toContain(end);
  });

  it('the box of the second car comes off what is to buy', () => {
    const result = compared({ lines: [twoLines[1]] }, { box: [{ id: 'o-ring-916', qty: 3 }] });
    // hand: O2 takes two of the three already; one is left for O1, which wants two
    expect(result.buy.find((row) => row.id === 'o-ring-916')).toMatchObject({ qty: 2, inBox: 1, toBuy: 1 });
  });

  it('clamps of a hose that follows its port are read off where it now lies', () => {
    const clamps = [{ alongMm: 300, atMm: [700, -50, 300], on: 'floor', bracket: false }] as const;
    const [a, b] = [smallCar(), smallCar({ tankShiftMm: [0, -20, 0] })];
    const { kept } = keptLines(worldOf(a), plannedStraight(a, { O1: { clamps } }), worldOf(b));
    // hand: half way along the hose has gone half of the 20 mm
    const [x, y, z] = kept.get('O1')!.way.clamps![0]!.atMm!;
    expect([Math.round(x), Math.round(y), z]).toEqual([700, -60, 300]);
    expect(kept.get('O1')!.why).toContain('its clamps are set anew');
  });

  it('lines kept stand as made in the second car, for a plan to go round', () => {
    const [a, b] = [smallCar(), smallCar({ tankShiftMm: [4, 0, 0] })];
    const kept = keptLines(worldOf(a), plannedStraight(a), worldOf(b));
    const standing = withKept(b, kept);
    expect(standing.lines.map((line) => [line.id, line.state])).toEqual([
      ['O1', 'made'],
      ['O2', 'made'],
    ]);
    expect(standing.lines[0]!.taken!.bodies.at(-1)!.pathMm.at(-1)).toEqual([1004, -50, 300]);
  });
});

describe('the demo car and its changes, with straight stand-ins for the ways', () => {
  const demo = (name: string): Car => {
    const read = readCar(readFileSync(new URL(`../../demo/${name}.json`, import.meta.url), 'utf8'));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    return read.car;
  };
  const car = demo('fellside');
  const world = worldOf(car);
  const notKept = (name: string): string[] => {
    const other = demo(name);
    const { not } = keptLines(world, plannedStraight(car), worldOf(other));
    return [...not.keys()].sort();
  };
  // hand: read off docs/demo.md and the lines of the car file: only lines on what changed are touched
  it.each([
    ['fellside', []],
    ['fellside-1-swap-tank-returns', ['O10', 'O11']],
    ['fellside-2-header-tank-left', ['C3', 'C4', 'C5', 'C7']],
    ['fellside-3-feed-dash-20', ['O1']],
  ])('%s', (name, lines) => {
    expect(notKept(name)).toEqual(lines);
  });

  it('parts taken off take their lines with them', () => {
    const other = demo('fellside-9-filter-off');
    const result = compare(world, plannedStraight(car), worldOf(other), plannedStraight(other));
    expect(result.lines.filter((line) => line.verdict === 'scrap').map((line) => line.line)).toEqual(['O2', 'O3']);
    expect(result.lines.filter((line) => line.verdict !== 'scrap').every((line) => line.verdict === 'keep')).toBe(true);
    expect(result.buy).toEqual([]);
  });
});
