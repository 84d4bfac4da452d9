import { readFileSync } from 'node:fs';
import { type Car, type Panel, type PanelEdge, readCar } from '#car';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import type { PanelFinding } from '../finding.ts';
import { panelLayouts } from '../panel-layouts.ts';
import { foldCures } from './joint-cures.ts';
import { jointFindings, panelJoints } from './joint-findings.ts';

type V = [number, number, number];
type Edge = Omit<PanelEdge, 'from' | 'to'>;

const carOf = (panels: readonly Panel[]): Car => ({ parts: [], movers: [], panels }) as unknown as Car;
const told = (panels: readonly Panel[]): readonly PanelFinding[] =>
  panelLayouts(carOf(panels))
    .flatMap(({ findings }) => findings)
    .filter(({ code }) => /joint|through/.test(code));

/** Placed anywhere: how two panels meet does not ask where the car has them. */
const asDrawn = (at: V): V => at;

/** Two sheets of 400 by 300 and 1.2 mm, the left one's B-C against the right one's D-A, lifted and moved apart. */
function twoSheets(
  wish: { apart?: number; step?: number; left?: Edge; right?: Edge; knownToMm?: number },
  place: (at: V) => V = asDrawn,
  outside: V = [0, 0, 1],
): readonly [Panel, Panel] {
  const { apart = 0, step = 0, left = {}, right = {}, knownToMm = 0.5 } = wish;
  const sheet = (id: string, x: number, z: number, edges: PanelEdge[]): Panel => ({
    id,
    thicknessMm: 1.2,
    knownToMm,
    outside,
    corners: [
      { id: 'A', atMm: place([x, 0, z]) },
      { id: 'B', atMm: place([x + 400, 0, z]) },
      { id: 'C', atMm: place([x + 400, 300, z]) },
      { id: 'D', atMm: place([x, 300, z]) },
    ],
    edges,
  });
  return [
    sheet('left', 0, 0, [{ from: 'B', to: 'C', joins: 'right', ...left }]),
    sheet('right', 400 + apart, step, [{ from: 'D', to: 'A', ...right }]),
  ];
}

const M5 = { kind: 'screw', size: 'M5' } as const;

describe('two sheets beside each other, by hand', () => {
  it.each([
    // A millimetre is filed or pulled together; butted sheets without fixings want nothing.
    ['1 mm apart', { apart: 1 }, []],
    ['9 mm apart', { apart: 9 }, [['panel-joint-apart', 'stop', 9, 1.5]]],
    // Known to 5 each they may be one edge measured twice: 7.1 together.
    ['8 mm apart, known to 5', { apart: 8, knownToMm: 5 }, [['panel-joint-apart', 'fix', 8, 1.5]]],
    ['12 mm up', { step: 12 }, [['panel-joint-apart', 'stop', 12, 1.5]]],
    ['8 mm over each other, unasked', { apart: -8 }, [['panel-joint-overlaps', 'stop', 8, 1.5]]],
    ['screws, and nothing under them', { left: { fixing: M5 } }, [['panel-joint-nothing-to-fasten', 'note']]],
    ['screws into a tube', { left: { fixing: { ...M5, into: 'tube' } } }, []],
    // Four diameters of M5 are 20.
    ['a lap of 16', { left: { overlapMm: 16, fixing: M5 } }, [['panel-joint-lap-short', 'fix', 16, 20]]],
    ['a lap of 24, row in its middle', { left: { overlapMm: 24, fixing: M5 } }, []],
    // 18 from the left sheet's edge is 6 from the right one's; two diameters are 10.
    [
      'its row 18 in',
      { left: { overlapMm: 24, fixing: { ...M5, edgeMm: 18 } } },
      [['panel-joint-row-off', 'fix', 6, 10]],
    ],
    [
      'two rows',
      { left: { overlapMm: 24, fixing: M5 }, right: { fixing: { ...M5, edgeMm: 12 } } },
      [['panel-joint-two-rows', 'note']],
    ],
    // The lap stands over the right sheet by 6, less 1.2 of metal.
    ['a lap with 6 of step', { step: -6, left: { overlapMm: 24 } }, [['panel-joint-open', 'stop', 4.8, 1.5]]],
    [
      'a lap stepped down by a joggle onto a sheet 1.2 lower is none',
      { left: { joggle: { stepMm: 1.2, landMm: 24, towards: 'outside' }, fixing: M5 } },
      [],
    ],
    [
      'flanges back to back',
      {
        left: { flange: { heightMm: 25, turnDeg: 90, towards: 'inside' }, fixing: M5 },
        right: { flange: { heightMm: 25, turnDeg: 90, towards: 'inside' } },
      },
      [],
    ],
    [
      'flanges back to back, 5 apart',
      {
        apart: 5,
        left: { flange: { heightMm: 25, turnDeg: 90, towards: 'outside' } },
        right: { flange: { heightMm: 25, turnDeg: 90, towards: 'outside' } },
      },
      [['panel-joint-open', 'stop', 5, 1.5]],
    ],
  ] as const)('%s', (_, wish, expected) => {
    const found = told(twoSheets(wish as never)).map(({ code, level, value, limit }) =>
      value === undefined ? [code, level] : [code, level, value, limit],
    );
    expect(found).toEqual(expected);
  });

  it('a panel that is named but stands elsewhere is told; one that nothing names is a note', () => {
    expect(told(twoSheets({ apart: 350 })).map(({ code }) => code)).toEqual(['panel-joint-none']);
    const [left, right] = twoSheets({ apart: 9 });
    expect(told([{ ...left, edges: [] }, right])).toMatchObject([{ code: 'panel-joint-apart', level: 'note' }]);
  });

  it('seed 41: turned and moved anywhere, seen from either side, named by either, the numbers are as built', () => {
    const generator = xoroshiro128plus(41);
    const between = (low: number, high: number) => low + ((generator.next() >>> 0) / 2 ** 32) * (high - low);
    for (let i = 0; i < 15; i++) {
      const wish = { apart: between(-9, 20), step: between(-25, 25) };
      const [a, b, c] = [between(0, 6.28), between(0, 6.28), between(0, 6.28)];
      const turn = ([x, y, z]: V): V => {
        const [p, q] = [x * Math.cos(a) - y * Math.sin(a), x * Math.sin(a) + y * Math.cos(a)];
        const [r, s] = [p * Math.cos(b) - z * Math.sin(b), p * Math.sin(b) + z * Math.cos(b)];
        return [r, q * Math.cos(c) - s * Math.sin(c), q * Math.sin(c) + s * Math.cos(c)];
      };
      const out = i % 2 === 0 ? 1 : -1;
      const move = ([x, y, z]: V): V => [x + 1500, y - 300, z + 400];
      const pair = twoSheets(wish, (at) => move(turn(at)), turn([0, 0, out]));
      const joints = panelJoints(panelLayouts(carOf(i % 3 === 0 ? pair : pair.toReversed())));
      expect(joints).toHaveLength(1);
      const sign = (joints[0]!.first.panel.id === 'left' ? 1 : -1) * out;
      for (const { apartMm, stepMm } of joints[0]!.stations) {
        expect(apartMm).toBeCloseTo(wish.apart, 6);
        expect(stepMm).toBeCloseTo(sign * wish.step, 6);
      }
    }
  });
});

describe('sheets that go through each other, by hand', () => {
  const wall = (holes: Panel['holes'] = []): Panel => ({
    id: 'wall',
    thicknessMm: 1.2,
    knownToMm: 1,
    outside: [1, 0, 0],
    corners: [
      { id: 'A', atMm: [200, 0, -150] },
      { id: 'B', atMm: [200, 300, -150] },
      { id: 'C', atMm: [200, 300, 40] },
      { id: 'D', atMm: [200, 0, 40] },
    ],
    holes,
  });
  const [sheet] = twoSheets({ left: { joins: undefined } as never });

  it('a wall that comes 40 out of a sheet over 300 is told, the wall as the one to trim', () => {
    expect(told([sheet, wall()])).toMatchObject([
      { code: 'panel-through-panel', panel: 'wall', part: 'left', value: 40, level: 'stop' },
    ]);
    expect(told([sheet, wall()])[0]!.text).toContain('over 300 mm');
  });

  it('one that only reaches it, to what both are known to, is not; nor one that goes through a slot', () => {
    const low: Panel = {
      ...wall(),
      corners: wall().corners!.map((corner) => ({
        ...corner,
        atMm: [corner.atMm![0], corner.atMm![1], Math.min(1, corner.atMm![2])] as V,
      })),
    };
    expect(told([sheet, low]).filter(({ code }) => code === 'panel-through-panel')).toEqual([]);
    const slot = { id: 'S', flatMm: [200, 150], sizeMm: [12, 299] } as const;
    const open: Panel = { ...sheet, holes: [{ ...slot, cornerDrillMm: 6 }] as never };
    expect(told([open, wall()])).toEqual([]);
  });
});

describe('the joints of the demo car', () => {
  const read = readCar(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
  if (!('car' in read)) throw new Error('the demo car cannot be read');
  const car = read.car as Car;

  it('PN2R and PN2L lie under the strip, by the heights in the car file: 800 - 780, 815 - 800; 800 - 779, 815 - 801', () => {
    const joints = jointFindings(panelLayouts(car)).filter(({ level }) => level === 'stop');
    expect(joints.map(({ panel, at, code }) => [panel, at, code])).toEqual([
      ['PN2R', 'A-B', 'panel-joint-apart'],
      ['PN2L', 'B-A', 'panel-joint-apart'],
    ]);
    expect(joints[0]!.text).toContain('20 mm at A, 15 mm at B under');
    expect(joints[1]!.text).toContain('14 mm at B, 21 mm at A under');
  });

  it('the cures that are told cure: written into the car file, neither joint has anything left to say', () => {
    const joints = panelJoints(panelLayouts(car)).filter(({ named }) => named);
    expect(joints).toHaveLength(2);
    const written = joints.flatMap((joint) => foldCures(joint)[0]!.written);
    expect(written.length).toBeGreaterThan(2);
    const panels = car.panels!.map((panel) => {
      const own = written.filter(({ of }) => of.panel.id === panel.id);
      const edges = (panel.edges ?? []).map((edge) => ({
        ...edge,
        ...own.find(
          ({ of: { edge: at } }) => [at.from, at.to].toSorted().join() === [edge.from, edge.to].toSorted().join(),
        )?.added,
      }));
      // PN2L has the edges of PN2R, whose flange it is given.
      return { ...panel, ...(panel.edges === undefined ? {} : { edges }) } as Panel;
    });
    const left = told(panels).filter(({ level, code }) => level !== 'note' && code.includes('joint'));
    expect(left.map(({ code }) => code)).toEqual(left.map(() => 'panel-joint-row-off'));
  });
});

describe('an edge on the face of another panel, and along a curve, by hand', () => {
  const corners = (...at: readonly V[]) => at.map((atMm, i) => ({ id: 'ABCD'[i]!, atMm }));
  /** A floor of 400 by 300 at Z 0 and a wall of 200 on it at Y 150, its lower edge `a` and `b` over the floor at either end. */
  const onFloor = (a: number, b: number, edge: Edge = {}, x = 0): readonly Panel[] => [
    {
      id: 'floor',
      thicknessMm: 1.2,
      knownToMm: 0.5,
      outside: [0, 0, 1],
      corners: corners([0, 0, 0], [400, 0, 0], [400, 300, 0], [0, 300, 0]),
    },
    {
      id: 'wall',
      thicknessMm: 1.2,
      knownToMm: 0.5,
      outside: [0, -1, 0],
      corners: corners([x, 150, a], [x + 400, 150, b], [x + 400, 150, 200], [x, 150, 200]),
      edges: [{ from: 'A', to: 'B', joins: 'floor', ...edge }],
    },
  ];
  const flange = (turnDeg: number) => ({ flange: { heightMm: 25, turnDeg, towards: 'inside' as const } });
  const rows = (panels: readonly Panel[]) => told(panels).map(({ code, level, value }) => [code, level, value]);

  it.each([
    ['stands on it', 0, 0, {}, []],
    ['5 mm over it', 5, 5, {}, [['panel-joint-apart', 'stop', 5]]],
    ['8 mm over it at one end', 0, 8, {}, [['panel-joint-apart', 'stop', 8]]],
    ['a flange that lies on it', 0, 0, { ...flange(90), fixing: M5 }, []],
    ['that flange 2 mm over it', 2, 2, { ...flange(90), fixing: M5 }, [['panel-joint-apart', 'fix', 2]]],
    [
      'a flange that does not lie on it',
      0,
      0,
      { ...flange(60), fixing: M5 },
      [['panel-joint-nothing-to-fasten', 'fix', undefined]],
    ],
    ['screws and no flange', 0, 0, { fixing: M5 }, [['panel-joint-nothing-to-fasten', 'note', undefined]]],
  ] as const)('a wall that %s', (_, a, b, edge, expected) => {
    expect(rows(onFloor(a, b, edge))).toEqual(expected);
  });

  it('says where it is open and which flange would lie on it', () => {
    const [open] = told(onFloor(0, 8));
    expect(open!.text).toMatch(/0 mm at A, 8 mm at B/);
    expect(open!.cures[0]).toBe('carry it 0 mm further at A, 8 mm at B');
    expect(told(onFloor(0, 0, { fixing: M5 }))[0]!.cures).toEqual([
      'a flange turned 90 degrees outside, or 90 inside: it lies along floor',
    ]);
    // A face that leans back by 30 degrees: 60 to the one side, 120 to the other.
    const [floor, wall] = onFloor(0, 0, { fixing: M5 });
    const leaning = { ...wall!, corners: corners([0, 150, 0], [400, 150, 0], [400, 250, 173.2], [0, 250, 173.2]) };
    const cure = told([floor!, leaning])[0]!.cures[0]!;
    expect([...cure.matchAll(/(\d+) (degrees )?(in|out)side/g)].map(([, deg]) => Number(deg)).sort()).toEqual([
      120, 60,
    ]);
    // 250 mm beside the floor it meets nothing.
    expect(told(onFloor(0, 0, {}, 650)).map(({ code }) => code)).toEqual(['panel-joint-none']);
  });

  it('curved edges are followed: bowed alike they meet, one bowed more lies over the other, one less stands off', () => {
    /** Two sheets side by side whose joint bows 40 mm to the right in the middle; the left one by `bow`. */
    const bowed = (bow: number): readonly Panel[] => {
      const [left, right] = twoSheets({});
      const through = (x: number): V[] => [[400 + x, 150, 0]];
      return [
        { ...left, edges: [{ from: 'B', to: 'C', joins: 'right', throughMm: through(bow) }] },
        { ...right, edges: [{ from: 'D', to: 'A', throughMm: through(40) }] },
      ];
    };
    expect(rows(bowed(40))).toEqual([]);
    expect(rows(bowed(46))).toEqual([['panel-joint-overlaps', 'stop', 6]]);
    expect(rows(bowed(34))).toEqual([['panel-joint-apart', 'stop', 6]]);
  });
});
