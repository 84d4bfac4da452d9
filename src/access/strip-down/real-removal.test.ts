import { readCar } from '#car';
import { linesWorld } from '#lines';
import { minutesOf } from '../minutes/minutes-of.ts';
import { describe, expect, it } from 'vitest';
import { motionOf, poseBetween } from '../removal/pose.ts';
import { swingReach } from '../tool-room/swing-reach.ts';
import { type CarProblem, carProblem } from './car-problem.ts';
import { type StripFound, type StripStep, stripPlan } from './strip-plan.ts';

type V = readonly [number, number, number];
/** A box by its corners [mm]. */
type Box = readonly [V, V];
interface Piece {
  readonly id: string;
  readonly boxes: readonly Box[];
  readonly more?: object;
}

const carOf = (pieces: readonly Piece[]): CarProblem => {
  const text = JSON.stringify({
    fairlead: 1,
    name: 'Boxes',
    parts: pieces.map(({ id, boxes, more = {} }) => ({
      id,
      class: 'fixed',
      shapes: boxes.map(([minMm, maxMm]) => ({ box: { minMm, maxMm } })),
      ports: [],
      ...more,
    })),
    movers: [],
    lines: [],
  });
  const reading = readCar(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  const { car } = reading;
  const { bay, shelf } = linesWorld(car, new Map());
  const ways = new Map<string, never>();
  return carProblem({
    ...{ car, bay, shelf, ways },
    meshes: new Map(),
    bodies: new Map(),
    toolReach: swingReach({ bay, shelf, ways }),
  });
};

const wall = (a: V, b: V): Box => [a, b];

type Found = Extract<StripFound, { readonly kind: 'found' }>;
const found = (car: CarProblem, id: string): Found => {
  const plan = stripPlan(car, id, 'remove');
  if (plan.kind !== 'found') throw new Error(`${id}: ${plan.kind}`);
  return plan;
};
const offBy = ({ steps }: Found): string[][] => steps.map(({ what, along }) => [what, ...along].toSorted());

/** A trough open at its +x end, in which two hooks clasp each other; `turn` lays its axes along others of the car. */
function trough(turn: (v: V) => V, capped: boolean): readonly Piece[] {
  const box = (a: V, b: V): Box => {
    const [p, q] = [turn(a), turn(b)];
    const pick = (of: (x: number, y: number) => number): V => [0, 1, 2].map((i) => of(p[i]!, q[i]!)) as unknown as V;
    return [pick(Math.min), pick(Math.max)];
  };
  return [
    {
      id: 'trough',
      more: { staysOn: true },
      boxes: [
        box([-40, -80, -40], [-20, 80, 100]),
        box([-20, -80, -40], [300, 80, -10]),
        box([-20, -80, 70], [300, 80, 100]),
        box([-20, -80, -10], [300, -50, 70]),
        box([-20, 50, -10], [300, 80, 70]),
      ],
    },
    // Each has a lip before the other's, along x; across y and z the trough holds them.
    { id: 'hook', boxes: [box([0, -40, 0], [120, 0, 60]), box([80, 0, 0], [120, 20, 60])] },
    {
      id: 'eye',
      boxes: [box([20, 20, 0], [200, 40, 60]), box([20, 0, 0], [60, 20, 60]), box([140, 0, 0], [180, 20, 60])],
    },
    ...(capped ? [{ id: 'cap', boxes: [box([310, -60, -20], [330, 60, 80])] }] : []),
  ];
}

const turns: readonly (readonly [string, (v: V) => V])[] = [
  ['+x', (v) => v],
  ['-x', ([x, y, z]) => [-x, -y, z]],
  ['+y', ([x, y, z]) => [-y, x, z]],
  ['-y', ([x, y, z]) => [y, -x, z]],
  ['+z', ([x, y, z]) => [-z, y, x]],
  ['-z', ([x, y, z]) => [z, y, -x]],
];

const AXES: readonly V[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];

/** True where one box, pulled along an axis for ever, runs into another; faces that slide on each other do not. */
const runsInto = ([a0, a1]: Box, d: V, [b0, b1]: Box): boolean =>
  [0, 1, 2].every((k) => {
    const low = d[k]! < 0 ? -Infinity : a0[k]!;
    const high = d[k]! > 0 ? Infinity : a1[k]!;
    return low < b1[k]! && b0[k]! < high;
  });

/**
 * By trying, apart from the code under test: over every set of what is off, every set of parts as a group, pulled each of six ways; the
 * fewest parts that must be off for `goal` to be.
 */
function leastOff(pieces: readonly Piece[], goal: string, mostAtOnce = pieces.length): number {
  const loose = pieces.filter(({ more }) => more === undefined || !('staysOn' in more));
  const bits = (set: number): readonly Piece[] => loose.filter((_, i) => set & (1 << i));
  const all = (1 << loose.length) - 1;
  const seen = new Set<number>([0]);
  const open = [0];
  let least = Infinity;
  for (let off = open.pop(); off !== undefined; off = open.pop()) {
    if (bits(off).some(({ id }) => id === goal)) {
      least = Math.min(least, bits(off).length);
      continue;
    }
    for (let group = 1; group <= all; group++) {
      if (group & off || bits(group).length > mostAtOnce || seen.has(group | off)) continue;
      const still = pieces.filter((piece) => !bits(group | off!).includes(piece)).flatMap(({ boxes }) => boxes);
      const goes = AXES.some((d) =>
        bits(group).every(({ boxes }) => boxes.every((a) => !still.some((b) => runsInto(a, d, b)))),
      );
      if (!goes) continue;
      seen.add(group | off);
      open.push(group | off);
    }
  }
  return least;
}

/** Oriented boxes by the separating axes of both and of their edges: how deep they stand in each other, 0 or less apart [mm]. */
function deepIn(a: Box, rows: readonly V[], shift: V, b: Box): number {
  const half = ([p, q]: Box): number[] => [0, 1, 2].map((i) => (q[i]! - p[i]!) / 2);
  const middle = ([p, q]: Box): number[] => [0, 1, 2].map((i) => (q[i]! + p[i]!) / 2);
  const dot = (u: readonly number[], v: readonly number[]): number => u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!;
  const own = [0, 1, 2].map((k) => rows.map((row) => row[k]!));
  const car = [0, 1, 2].map((k) => [0, 1, 2].map((i) => (i === k ? 1 : 0)));
  const at = rows.map((row, i) => dot(row, middle(a)) + shift[i]!);
  const off = middle(b).map((v, i) => v - at[i]!);
  const cross = (u: number[], v: number[]): number[] => [
    u[1]! * v[2]! - u[2]! * v[1]!,
    u[2]! * v[0]! - u[0]! * v[2]!,
    u[0]! * v[1]! - u[1]! * v[0]!,
  ];
  let deep = Infinity;
  for (const axis of [...own, ...car, ...own.flatMap((u) => car.map((v) => cross(u, v)))]) {
    const size = Math.hypot(...axis);
    if (size < 1e-9) continue;
    const reach =
      own.reduce((sum, u, k) => sum + half(a)[k]! * Math.abs(dot(u, axis)), 0) +
      car.reduce((sum, v, k) => sum + half(b)[k]! * Math.abs(dot(v, axis)), 0);
    deep = Math.min(deep, (reach - Math.abs(dot(off, axis))) / size);
  }
  return deep;
}

/** Each step's way walked in small steps: how deep anything that moves comes to stand in anything that is still on [mm]. */
function deepestOnTheWay(pieces: readonly Piece[], steps: readonly StripStep[], stepMm: number): number {
  const on = new Set(pieces.map(({ id }) => id));
  let deepest = -Infinity;
  for (const { what, along, coming } of steps) {
    const group = pieces.filter(({ id }) => id === what || along.includes(id));
    for (const { id } of group) on.delete(id);
    const still = pieces.filter(({ id }) => on.has(id)).flatMap(({ boxes }) => boxes);
    const look = (rows: readonly V[], shift: V): void => {
      for (const a of group.flatMap(({ boxes }) => boxes))
        for (const b of still) deepest = Math.max(deepest, deepIn(a, rows, shift, b));
    };
    if (coming.how === 'straight')
      for (let t = 0; t <= coming.lengthMm; t += stepMm)
        look(
          AXES.filter((_, i) => i % 2 === 0),
          coming.direction.map((c) => c * t) as unknown as V,
        );
    if (coming.how === 'turning')
      coming.keys.slice(1).forEach((to, i) => {
        const from = coming.keys[i]!;
        const way = Math.hypot(...[0, 1, 2].map((k) => to.shift[k]! - from.shift[k]!)) + 300;
        for (let k = 0; k <= way / stepMm; k++) {
          const { rows, shift } = motionOf(poseBetween(from, to, Math.min(1, (k * stepMm) / way)), coming.middle);
          look(rows, shift);
        }
      });
  }
  return deepest;
}

/** A part is taken to have this much play where it touches [mm]: `docs/strip-down.md`. */
const PLAY_MM = 1;

describe('parts as they are drawn', () => {
  it.each(turns)('that clasp each other come out together or not at all, %s, as trying every group says', (_, turn) => {
    for (const capped of [false, true]) {
      const pieces = trough(turn, capped);
      const car = carOf(pieces);
      for (const goal of ['hook', 'eye']) {
        expect(leastOff(pieces, goal, 1)).toBe(Infinity);
        const plan = found(car, goal);
        expect(offBy(plan).at(-1)).toEqual(['eye', 'hook']);
        expect(plan.steps.reduce((sum, { along }) => sum + 1 + along.length, 0)).toBe(leastOff(pieces, goal));
        expect(plan.isProved).toBe(true);
        expect(deepestOnTheWay(pieces, plan.steps, 2)).toBeLessThanOrEqual(PLAY_MM);
        // Counted apart from the search: each by hand, and 0.05 min for one more thing.
        const each = minutesOf(car.scene.world.car, 'part-by-hand').minutes + 0.05;
        expect(plan.cost).toBeCloseTo(each * leastOff(pieces, goal), 9);
      }
    }
  });

  it('that only a turn brings out are found so, and the way looked at every millimetre touches nothing', () => {
    // A bar lies along a box whose lid is open for less than the bar's length: it has to be tipped.
    const pieces: readonly Piece[] = [
      {
        id: 'case',
        more: { staysOn: true },
        boxes: [
          wall([-40, -80, -50], [340, 80, -40]),
          wall([-50, -80, -50], [-40, 80, 280]),
          wall([340, -80, -50], [350, 80, 280]),
          wall([-40, -80, -40], [340, -70, 280]),
          wall([-40, 70, -40], [340, 80, 280]),
          wall([140, -70, 270], [340, 70, 280]),
        ],
      },
      {
        id: 'bar',
        boxes: [
          [
            [0, -10, 0],
            [200, 10, 20],
          ],
        ],
      },
    ];
    expect(leastOff(pieces, 'bar')).toBe(Infinity);
    const plan = found(carOf(pieces), 'bar');
    expect(plan.steps.map(({ coming }) => coming.how)).toEqual(['turning']);
    expect(deepestOnTheWay(pieces, plan.steps, 1)).toBeLessThanOrEqual(0);
  });

  it('that are shut in on all sides have no way found', () => {
    const shut: readonly Piece[] = [
      {
        id: 'case',
        more: { staysOn: true },
        boxes: [
          wall([-20, -20, -20], [120, 120, -10]),
          wall([-20, -20, 110], [120, 120, 120]),
          wall([-20, -20, -10], [-10, 120, 110]),
          wall([110, -20, -10], [120, 120, 110]),
          wall([-10, -20, -10], [110, -10, 110]),
          wall([-10, 110, -10], [110, 120, 110]),
        ],
      },
      {
        id: 'core',
        boxes: [
          [
            [0, 0, 0],
            [100, 100, 100],
          ],
        ],
      },
    ];
    expect(leastOff(shut, 'core')).toBe(Infinity);
    expect(stripPlan(carOf(shut), 'core', 'remove')).toEqual({ kind: 'none' });
  });

  it('are told alike whatever was asked before', () => {
    const pieces = trough(turns[0]![1], true);
    const held = carOf(pieces);
    const first = new Map(['hook', 'cap', 'eye'].map((id) => [id, stripPlan(held, id, 'replace')]));
    for (const [id, plan] of first) {
      expect(stripPlan(held, id, 'replace')).toEqual(plan);
      expect(stripPlan(carOf(pieces), id, 'replace')).toEqual(plan);
    }
  });
});

/** A nut of 19 mm on a box; a guard stands so near before it that neither spanner nor socket goes on. */
const nutBehind = (guardScrews: number): readonly Piece[] => [
  {
    id: 'frame',
    more: { staysOn: true },
    boxes: [
      [
        [-200, -200, -160],
        [200, 200, -100],
      ],
    ],
  },
  {
    id: 'case',
    boxes: [
      [
        [-30, -30, -100],
        [30, 30, -6],
      ],
    ],
    more: { fasteners: [{ id: 'nut', atMm: [0, 0, 0], faces: [0, 0, 1], head: 'nut', acrossFlatsMm: 19, minutes: 2 }] },
  },
  {
    id: 'guard',
    boxes: [
      [
        [11.2, -150, -5],
        [26, 150, 90],
      ],
      [
        [-26, -150, -5],
        [-11.2, 150, 90],
      ],
      [
        [-26, 11.2, -5],
        [26, 25, 90],
      ],
      [
        [-26, -25, -5],
        [26, -11.2, 90],
      ],
    ],
    more: {
      fasteners: Array.from({ length: guardScrews }, (_, i) => ({
        ...{ id: `s${i}`, atMm: [0, 100 + 4 * i, 120], faces: [0, 0, 1], head: 'hand', minutes: 1 },
      })),
    },
  },
];

describe('spanner room in a strip-down', () => {
  it('a nut that a guard bars wants the guard off first, or a tool made for it where that costs less', () => {
    // By hand: a guard with one screw of 1 min is off for less than the 5 min that a ground spanner counts for, one with twelve is not.
    const few = found(carOf(nutBehind(1)), 'case');
    expect(offBy(few).flat()).toEqual(['guard', 'case']);
    expect(few.steps.at(-1)!.undone).toMatchObject([{ id: 'case/nut' }]);
    expect(few.steps.at(-1)!.undone[0]!.tool).toBeUndefined();
    const many = found(carOf(nutBehind(12)), 'case');
    expect(offBy(many).flat()).toEqual(['case']);
    expect(many.steps[0]!.undone).toMatchObject([{ id: 'case/nut', minutes: 2, tool: { goes: 'none' } }]);
    expect(many.cost - many.minutesOff).toBeCloseTo(5 + 0.05, 9);
  });
});
