import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import type { Coming } from '#access';
import { readCar } from '#car';
import { linesWorld } from '#lines';
import type { StripOf } from './strip-answer.ts';
import { stripOf } from './strip-of.ts';

type V = readonly [number, number, number];
interface Box {
  readonly id: string;
  readonly min: V;
  readonly max: V;
}

/** A part among others thrown about it, none in another; seeded. */
function thrown(seed: number): readonly Box[] {
  const random = xoroshiro128plus(seed);
  const uniform = (low: number, high: number): number => low + ((random.next() >>> 0) / 4294967296) * (high - low);
  const boxes: Box[] = [{ id: 'part', min: [-60, -60, -60], max: [60, 60, 60] }];
  for (let tries = 0; tries < 3000 && boxes.length < 26; tries++) {
    const at = [0, 1, 2].map(() => uniform(-200, 200));
    const half = [0, 1, 2].map(() => uniform(15, 90));
    const min = at.map((c, k) => c - half[k]!) as unknown as V;
    const max = at.map((c, k) => c + half[k]!) as unknown as V;
    const isApart = (other: Box) => [0, 1, 2].some((k) => min[k]! > other.max[k]! + 1 || max[k]! < other.min[k]! - 1);
    if (boxes.every(isApart)) boxes.push({ id: `other-${boxes.length}`, min, max });
  }
  return boxes;
}

const STEP_MM = 3;

/** Where a box has been brought: middle, and its own axes as columns. */
interface Placed {
  readonly middle: V;
  readonly axes: readonly [V, V, V];
}

const middleOf = ({ min, max }: Box): V => [0, 1, 2].map((k) => (min[k]! + max[k]!) / 2) as unknown as V;
const halfOf = ({ min, max }: Box): V => [0, 1, 2].map((k) => (max[k]! - min[k]!) / 2) as unknown as V;
const dots = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const crossed = (a: V, b: V): V => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const square: Placed['axes'] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Two boxes overlap unless one of fifteen axes parts them: their sides' normals and what is square to an edge of each. */
function overlap(a: Box, at: Placed, b: Box): boolean {
  const [ha, hb] = [halfOf(a), halfOf(b)];
  const bMiddle = middleOf(b);
  const between = at.middle.map((c, k) => bMiddle[k]! - c) as unknown as V;
  const axes = [...at.axes, ...square, ...at.axes.flatMap((p) => square.map((q) => crossed(p, q)))];
  return axes.every((axis) => {
    if (dots(axis, axis) < 1e-9) return true;
    const reach =
      at.axes.reduce((sum, own, k) => sum + ha[k]! * Math.abs(dots(own, axis)), 0) +
      square.reduce((sum, own, k) => sum + hb[k]! * Math.abs(dots(own, axis)), 0);
    return Math.abs(dots(between, axis)) < reach;
  });
}

/** A box turned by a unit quaternion about a middle that is shifted: by turning each axis and the arm twice about the quaternion's own. */
function placed(box: Box, about: V, shift: readonly number[], [w, x, y, z]: readonly number[]): Placed {
  const u: V = [x!, y!, z!];
  const turned = (v: V): V => {
    const uv = crossed(u, v);
    const uuv = crossed(u, uv);
    return v.map((c, k) => c + 2 * (w! * uv[k]! + uuv[k]!)) as unknown as V;
  };
  const arm = turned(middleOf(box).map((c, k) => c - about[k]!) as unknown as V);
  return {
    middle: arm.map((c, k) => c + about[k]! + shift[k]!) as unknown as V,
    axes: [turned(square[0]), turned(square[1]), turned(square[2])],
  };
}

/** Every place of a box on its way, no corner of it further than 3 mm from the one before. */
function* placesOn(box: Box, coming: Coming): Generator<Placed> {
  if (coming.how === 'freely') return;
  if (coming.how === 'straight') {
    for (let s = 0; s <= coming.lengthMm; s += STEP_MM)
      yield placed(
        box,
        middleOf(box),
        coming.direction.map((c) => c * s),
        [1, 0, 0, 0],
      );
    return;
  }
  const reach = Math.hypot(...halfOf(box)) + Math.hypot(...middleOf(box).map((c, k) => c - coming.middle[k]!));
  for (const [i, to] of coming.keys.entries()) {
    const from = coming.keys[i - 1];
    if (from === undefined) continue;
    const cosine = from.turn.reduce((sum, c, k) => sum + c * to.turn[k]!, 0);
    const sign = cosine < 0 ? -1 : 1;
    const half = Math.acos(Math.min(1, Math.abs(cosine)));
    const far = Math.hypot(...to.shift.map((c, k) => c - from.shift[k]!)) + 2 * half * reach;
    const looks = Math.ceil(far / STEP_MM);
    for (let n = 1; n <= looks; n++) {
      const t = n / looks;
      const [p, q] =
        half < 1e-9 ? [1 - t, t] : [Math.sin((1 - t) * half), Math.sin(t * half)].map((v) => v / Math.sin(half));
      const turn = from.turn.map((c, k) => p! * c + sign * q! * to.turn[k]!);
      const size = Math.hypot(...turn);
      yield placed(
        box,
        coming.middle,
        from.shift.map((c, k) => (1 - t) * c + t * to.shift[k]!),
        turn.map((c) => c / size),
      );
    }
  }
}

/** Each step of a strip-down carried out among the boxes: what it runs into that is still on; and in how many ways things came out. */
function carriedOut(
  boxes: readonly Box[],
  answer: StripOf,
): { hits: string[]; left: string[]; ways: Record<string, number> } {
  const on = new Map(boxes.map((box) => [box.id, box]));
  const hits: string[] = [];
  const ways: Record<string, number> = {};
  for (const { what, along, coming } of answer.steps) {
    const carried = [what, ...along].map((id) => on.get(id)!);
    for (const box of carried) on.delete(box.id);
    const isTurned = coming.how === 'turning' && coming.keys.some(({ turn }) => Math.abs(turn[0]) < 0.999);
    const way = coming.how === 'turning' && !isTurned ? 'two pulls' : coming.how;
    ways[way] = (ways[way] ?? 0) + 1;
    for (const box of carried)
      for (const place of placesOn(box, coming))
        for (const other of on.values()) if (overlap(box, place, other)) hits.push(`${box.id} into ${other.id}`);
  }
  return { hits: [...new Set(hits)], left: [...on.keys()], ways };
}

function strippedOf(boxes: readonly Box[], staying: readonly string[] = []): StripOf {
  const read = readCar(
    JSON.stringify({
      fairlead: 1,
      parts: boxes.map(({ id, min, max }) => ({
        id,
        class: 'fixed',
        ports: [],
        shapes: [{ box: { minMm: min, maxMm: max } }],
        ...(staying.includes(id) ? { staysOn: true } : {}),
      })),
      movers: [],
      lines: [],
    }),
  );
  if (!read.ok) throw new RangeError(JSON.stringify(read.faults));
  return stripOf(linesWorld(read.car, new Map()), [], 'part', { aim: 'remove' });
}

/** A bar in a chest whose lid leaves a gap at one end, too short for the bar lying flat: it has to be tipped. */
function chest(barMm: number, gapMm: number): readonly Box[] {
  return [
    { id: 'part', min: [-barMm / 2, -20, 10], max: [barMm / 2, 20, 50] },
    { id: 'floor', min: [-260, -120, -20], max: [260, 120, 0] },
    { id: 'front', min: [-280, -120, 0], max: [-260, 120, 240] },
    { id: 'rear', min: [260, -120, 0], max: [280, 120, 240] },
    { id: 'left', min: [-260, -140, 0], max: [260, -120, 240] },
    { id: 'right', min: [-260, 120, 0], max: [260, 140, 240] },
    { id: 'lid', min: [-260 + gapMm, -120, 240], max: [260, 120, 260] },
  ];
}

describe('the ways out of a strip-down, against dense sampling by code that shares nothing with it', () => {
  it('hold on 5 heaps of 26 boxes (seeds 1 to 5): nothing carried out runs into what is still on', () => {
    const tally: Record<string, number> = {};
    for (let seed = 1; seed <= 5; seed++) {
      const boxes = thrown(seed);
      const answer = strippedOf(boxes);
      const { hits, left, ways } = carriedOut(boxes, answer);
      expect([seed, answer.found, hits, left.includes('part')]).toEqual([seed, 'found', [], false]);
      for (const [way, count] of Object.entries(ways)) tally[way] = (tally[way] ?? 0) + count;
    }
    expect(tally['straight']).toBeGreaterThan(5);
    expect(tally['two pulls']).toBeGreaterThan(0);
  });

  it('hold where a part has to be turned: a bar tipped out through a gap shorter than itself', () => {
    for (const [bar, gap] of [
      [300, 230],
      [260, 200],
      [320, 260],
    ] as const) {
      const boxes = chest(bar, gap);
      const answer = strippedOf(boxes, ['floor', 'front', 'rear', 'left', 'right', 'lid']);
      const { hits, ways } = carriedOut(boxes, answer);
      expect([bar, answer.found, hits, ways]).toEqual([bar, 'found', [], { turning: 1 }]);
    }
  });
});
