import type { Panel } from '#car';
import type { Point2 } from '#geometry';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import type { FlatPattern, FoldLine } from './flat-pattern.ts';
import { laidOut } from './laid-out.ts';
import { NOWHERE } from './nowhere.fixture.ts';

/**
 * The folding back in this file knows nothing of how a flat was made: it takes the drawing's own numbers (corners, fold lines with
 * angle, radius and allowance, thickness), bends the sheet about them as a brake does, and compares with what was measured.
 */
type V = [number, number, number];
const add = (a: V, b: V, s = 1): V => [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];
const dot = (a: readonly number[], b: readonly number[]) => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
const cross = (a: V, b: V): V => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const length = (a: V) => Math.sqrt(dot(a, a));
const unit = (a: V): V => add([0, 0, 0], a, 1 / length(a));

/** A point of the outside face after one fold; the side of `still` is held in the brake. Drawing axes, z towards the reader. */
function bent(p: Point2, fold: FoldLine, still: Point2, thicknessMm: number): V {
  const along = [fold.to[0] - fold.from[0], fold.to[1] - fold.from[1]] as const;
  const long = Math.hypot(...along);
  let out: Point2 = [along[1] / long, -along[0] / long];
  const side = (q: Point2) => (q[0] - fold.from[0]) * out[0] + (q[1] - fold.from[1]) * out[1];
  if (side(still) > 0) out = [-out[0], -out[1]];
  const d = side(p) + fold.allowanceMm / 2;
  if (d <= 0) return [p[0], p[1], 0];
  const turn = (fold.turnDeg * Math.PI) / 180;
  const angle = Math.min(d / fold.allowanceMm, 1) * turn;
  const rest = Math.max(0, d - fold.allowanceMm);
  // The outside face is the outer one of a bend away from the reader, the inner one of a bend towards him.
  const radius = fold.way === 'down' ? fold.radiusMm + thicknessMm : fold.radiusMm;
  const forward = radius * Math.sin(angle) + rest * Math.cos(turn);
  const over = radius * (1 - Math.cos(angle)) + rest * Math.sin(turn);
  const foot: Point2 = [p[0] - d * out[0], p[1] - d * out[1]];
  return [foot[0] + forward * out[0], foot[1] + forward * out[1], fold.way === 'down' ? -over : over];
}

/** Drawing to car from three corners that do not move: a turn, never a mirror. */
function placing(from: readonly V[], to: readonly V[]): (p: V) => V {
  const frame = ([a, b, c]: readonly V[]) => {
    const x = unit(add(b!, a!, -1));
    const z = unit(cross(x, add(c!, a!, -1)));
    return { a: a!, axes: [x, cross(z, x), z] as const };
  };
  const [f, t] = [frame(from), frame(to)];
  return (p) => f.axes.reduce<V>((sum, axis, i) => add(sum, t.axes[i]!, dot(add(p, f.a, -1), axis)), t.a);
}

function chance(seed: number) {
  const generator = xoroshiro128plus(seed);
  const between = (low: number, high: number) => low + ((generator.next() >>> 0) / 2 ** 32) * (high - low);
  return { between, pick: <T>(items: readonly T[]): T => items[Math.floor(between(0, items.length - 1e-9))]! };
}

/** A random turn of space: rows are its axes. */
function turnOf(between: (a: number, b: number) => number): readonly [V, V, V] {
  const z = unit([between(-1, 1), between(-1, 1), between(-1, 1) + 1e-3]);
  const x = unit(cross(z, [between(-1, 1), between(-1, 1) + 2, between(-1, 1)]));
  return [x, cross(z, x), z];
}

const FACINGS: readonly V[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];

/** Axes of a sheet that faces exactly along one of the six ways of the car. */
function squareTo(facing: V): readonly [V, V, V] {
  const x: V = Math.abs(facing[0]) > 0.5 ? [0, 1, 0] : [1, 0, 0];
  return [x, cross(facing, x), facing];
}

interface Case {
  readonly panel: Panel;
  readonly points: readonly V[];
  readonly outside: V;
}

/** A flat panel of three to six corners, anywhere, either way round, with flanges on some of its edges. */
function flatCase(seed: number): Case {
  const { between, pick } = chance(seed);
  const count = Math.floor(between(3, 6.999));
  const axes = seed % 2 === 0 ? squareTo(FACINGS[(seed / 2) % 6]!) : turnOf(between);
  const origin: V = [between(0, 2500), between(-700, 700), between(0, 900)];
  const start = between(0, 6);
  const ring = Array.from({ length: count }, (_, i): V => {
    const angle = start + ((i + between(-0.2, 0.2)) * 2 * Math.PI) / count;
    const [u, v] = [between(250, 400) * Math.cos(angle), between(250, 400) * Math.sin(angle)];
    return add(add(origin, axes[0], u), axes[1], v);
  });
  const points = pick([true, false]) ? ring : ring.toReversed();
  const ids = points.map((_, i) => `K${i}`);
  const thicknessMm = pick([0.8, 1, 1.2, 1.6, 2]);
  return {
    points,
    outside: axes[2],
    panel: {
      id: `seed ${seed}`,
      thicknessMm,
      outside: axes[2],
      corners: points.map((atMm, i) => ({ id: ids[i]!, atMm })),
      edges: ids.flatMap((from, i) =>
        between(0, 1) < 0.7
          ? [
              {
                ...(pick([true, false])
                  ? { from, to: ids[(i + 1) % count]! }
                  : { from: ids[(i + 1) % count]!, to: from }),
                flange: {
                  heightMm: between(15, 30),
                  turnDeg: between(20, 120),
                  towards: pick(['inside', 'outside'] as const),
                  radiusMm: between(1, 4),
                },
              },
            ]
          : [],
      ),
    },
  };
}

const middleOf = (flat: FlatPattern): Point2 => {
  const n = flat.corners.length;
  return flat.corners.reduce<Point2>((m, { at }) => [m[0] + at[0] / n, m[1] + at[1] / n], [0, 0]);
};

describe('flats folded back by code of this test', () => {
  it('300 seeded panels, all six facings and any other, flanges inside and outside: corners and flanges within 0.1 mm', () => {
    let flanges = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const { panel, points, outside } = flatCase(seed);
      const [layout] = laidOut(panel, NOWHERE);
      const flat = layout!.flats[0]!;
      const at = flat.corners.map(({ at: [x, y] }): V => [x, y, 0]);
      const toCar = placing(at.slice(0, 3), points.slice(0, 3));
      at.forEach((p, i) => expect(length(add(toCar(p), points[i]!, -1)), `seed ${seed}`).toBeLessThan(0.1));
      // z of the drawing is what whoever looks at the outside face looks against.
      const reader = add(toCar([0, 0, 1]), toCar([0, 0, 0]), -1);
      expect(dot(reader, outside), `seed ${seed}`).toBeCloseTo(1, 6);
      for (const edge of panel.edges ?? []) {
        const fold = flat.folds.find(
          ({ name }) => name === `${edge.from}-${edge.to}` || name === `${edge.to}-${edge.from}`,
        )!;
        expect(fold, `seed ${seed}`).toBeDefined();
        expect(fold.way, `seed ${seed}`).toBe(edge.flange!.towards === 'inside' ? 'down' : 'up');
        const [a, b] = [edge.from, edge.to].map(
          (id) => points[panel.corners!.findIndex((corner) => corner.id === id)]!,
        ) as [V, V];
        const middle = middleOf(flat);
        const toEdge = unit(add(b, a, -1));
        const outwards = outOfEdge(a, toEdge, reader, toCar([...middle, 0]));
        {
          const p = freeEdge(flat, fold, middle);
          const { turnDeg, heightMm } = edge.flange!;
          const turn = (turnDeg * Math.PI) / 180;
          const stands = add(toCar(bent(p, fold, middle, panel.thicknessMm)), a, -1);
          const [along, over] = [dot(stands, outwards), dot(stands, reader)];
          // Outside face of a flange turned by N that is h high: h cos N out of the edge and h sin N over it, measured from where
          // the outside faces meet: the edge itself for one folded inside, in the sheet's own outside face for one folded outside.
          const sign = edge.flange!.towards === 'inside' ? -1 : 1;
          const back = sign === -1 ? 0 : panel.thicknessMm * Math.tan(turn / 2);
          expect(along, `seed ${seed} along`).toBeCloseTo(heightMm * Math.cos(turn) - back, 1);
          expect(over * sign, `seed ${seed} over`).toBeCloseTo(heightMm * Math.sin(turn), 1);
          flanges++;
        }
      }
    }
    expect(flanges).toBeGreaterThan(500);
  });

  it('300 seeded twisted panels creased from corner to corner: all four corners within 0.1 mm', () => {
    for (let seed = 1001; seed <= 1300; seed++) {
      const { between, pick } = chance(seed);
      const axes = seed % 2 === 0 ? squareTo(FACINGS[(seed / 2) % 6]!) : turnOf(between);
      const lift = between(-50, 50);
      const spots = [
        [0, 0, 0],
        [between(500, 900), between(-40, 40), 0],
        [between(500, 900), between(300, 500), lift],
        [between(-40, 40), between(300, 500), 0],
      ];
      const inOrder = spots.map(
        ([u, v, w]): V => add(add(add([1500, 100, 600], axes[0], u!), axes[1], v!), axes[2], w!),
      );
      const points = pick([true, false]) ? inOrder : inOrder.toReversed();
      const ends = pick([
        ['A', 'C'],
        ['B', 'D'],
      ] as const);
      const panel: Panel = {
        id: 'creased',
        thicknessMm: 1.2,
        bendRadiusMm: pick([0, 1.2, 2]),
        outside: axes[2],
        corners: points.map((atMm, i) => ({ id: 'ABCD'[i]!, atMm })),
        creases: [{ from: ends[0], to: ends[1], kind: 'crease' }],
      };
      const flat = laidOut(panel, NOWHERE)[0]!.flats[0]!;
      const fold = flat.folds[0]!;
      // The first edge's facet is held; the corner beyond the crease is the one that moves.
      const moving = ends[0] === 'A' ? (ends[1] === 'C' ? 'D' : 'B') : 'C';
      const spot = new Map(flat.corners.map(({ id, at }) => [id, at]));
      const held = ['A', 'B', 'C', 'D'].filter((id) => id !== moving);
      const still: Point2 = held
        .map((id) => spot.get(id)!)
        .reduce<Point2>((m, p) => [m[0] + p[0] / 3, m[1] + p[1] / 3], [0, 0]);
      const heldAt = held.map((id): V => [...spot.get(id)!, 0]);
      const toCar = placing(
        heldAt,
        held.map((id) => points['ABCD'.indexOf(id)]!),
      );
      const back = toCar(bent(spot.get(moving)!, fold, still, 1.2));
      expect(length(add(back, points['ABCD'.indexOf(moving)]!, -1)), `seed ${seed}`).toBeLessThan(0.1);
      held.forEach((id, i) =>
        expect(length(add(toCar(heldAt[i]!), points['ABCD'.indexOf(id)]!, -1))).toBeLessThan(0.1),
      );
    }
  });
});

/** Where the line square to a fold through its middle leaves the sheet. */
function freeEdge(flat: FlatPattern, fold: FoldLine, still: Point2): Point2 {
  const m: Point2 = [(fold.from[0] + fold.to[0]) / 2, (fold.from[1] + fold.to[1]) / 2];
  const along = [fold.to[0] - fold.from[0], fold.to[1] - fold.from[1]] as const;
  const side = (q: Point2) => (q[0] - m[0]) * along[0] + (q[1] - m[1]) * along[1];
  const cuts = flat.outline.flatMap(({ at: p }, i): Point2[] => {
    const q = flat.outline[(i + 1) % flat.outline.length]!.at;
    const [s, t] = [side(p), side(q)];
    if (s < 0 === t < 0) return [];
    const share = s / (s - t);
    return [[p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share]];
  });
  return cuts.reduce((a, b) => (beyond(b, fold, still) > beyond(a, fold, still) ? b : a));
}

function beyond(p: Point2, fold: FoldLine, still: Point2): number {
  const along = [fold.to[0] - fold.from[0], fold.to[1] - fold.from[1]] as const;
  const long = Math.hypot(...along);
  const side = (q: Point2) => ((q[0] - fold.from[0]) * along[1] - (q[1] - fold.from[1]) * along[0]) / long;
  return side(p) * (side(still) > 0 ? -1 : 1);
}

/** Square to an edge in the sheet, away from its middle. */
function outOfEdge(at: V, along: V, reader: V, middle: V): V {
  const square = unit(cross(along, reader));
  return dot(add(middle, at, -1), square) > 0 ? add([0, 0, 0], square, -1) : square;
}
