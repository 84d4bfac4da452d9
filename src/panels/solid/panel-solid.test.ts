import type { Panel } from '#car';
import { outlineArea, seededOutlinePoints } from './seeded-shapes.fixture.ts';
import { describe, expect, it } from 'vitest';
import { laidOut } from '../laid-out.ts';
import { NOWHERE } from '../nowhere.fixture.ts';
import { panelOpenings, panelSolid, type SolidPiece } from './panel-solid.ts';
import { triangulated } from './triangulated.kernel.ts';

/** Volume by the divergence theorem: right only for a closed surface that looks outwards. */
function volume({ positions: p, indices }: SolidPiece): number {
  let six = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => indices[i + k]! * 3) as [number, number, number];
    six +=
      p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) -
      p[a + 1]! * (p[b]! * p[c + 2]! - p[b + 2]! * p[c]!) +
      p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!);
  }
  return six / 6;
}

/** Every side of a triangle is met by one that goes the other way. */
function isClosed({ indices }: SolidPiece): boolean {
  const sides = new Map<string, number>();
  for (let i = 0; i < indices.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [indices[i + k]!, indices[i + ((k + 1) % 3)]!];
      sides.set(`${a} ${b}`, (sides.get(`${a} ${b}`) ?? 0) + 1);
    }
  return [...sides].every(([key, n]) => n === 1 && sides.get(key.split(' ').reverse().join(' ')) === 1);
}

const tray = (towards: 'inside' | 'outside'): Panel => {
  const ids = ['A', 'B', 'C', 'D'];
  return {
    id: 'tray',
    thicknessMm: 2,
    bendRadiusMm: 3,
    outside: [0, 0, 1],
    corners: [
      [0, 0],
      [400, 0],
      [400, 300],
      [0, 300],
    ].map(([x, y], i) => ({ id: ids[i]!, atMm: [x!, y!, 500] })),
    edges: ids.map((from, i) => ({ from, to: ids[(i + 1) % 4]!, flange: { heightMm: 40, turnDeg: 90, towards } })),
    holes: [
      { id: 'H1', atMm: [200, 150, 500], diameterMm: 100 },
      { id: 'H2', flatMm: [80, 60], sizeMm: [60, 40], cornerDrillMm: 12 },
    ],
  };
};

describe('a folded tray against its outside sizes (hand)', () => {
  it.each(['inside', 'outside'] as const)(
    'flanges folded %s stay within the measured edges and end where they should',
    (towards) => {
      const pieces = panelSolid(laidOut(tray(towards), NOWHERE)[0]!);
      const at = pieces.flatMap(({ positions }) =>
        Array.from({ length: positions.length / 3 }, (_, i) => positions.subarray(3 * i, 3 * i + 3)),
      );
      const span = (k: number) => [Math.min(...at.map((p) => p[k]!)), Math.max(...at.map((p) => p[k]!))];
      expect(span(0)[0]).toBeCloseTo(0, 6);
      expect(span(0)[1]).toBeCloseTo(400, 6);
      expect(span(1)[0]).toBeCloseTo(0, 6);
      expect(span(1)[1]).toBeCloseTo(300, 6);
      // Folded inside: 40 over all below the outside face. Outside: 40 above it, and the sheet's own 2 below.
      expect(span(2)).toEqual(
        towards === 'inside'
          ? [expect.closeTo(460, 6), expect.closeTo(500, 6)]
          : [expect.closeTo(498, 6), expect.closeTo(540, 6)],
      );
      expect(pieces.every(isClosed)).toBe(true);
      expect(pieces.every((piece) => volume(piece) > 0)).toBe(true);
    },
  );

  it('weighs what the sheet weighs: web less its openings, and flanges', () => {
    const [layout] = laidOut(tray('inside'), NOWHERE);
    const web = volume(panelSolid(layout!)[0]!);
    // Set back by 5 on each side; a round opening of 100 and one of 60 by 40 with corners of 6.
    const area = 390 * 290 - Math.PI * 50 ** 2 - (60 * 40 - (4 - Math.PI) * 36);
    expect(Math.abs(web / 2 / area - 1)).toBeLessThan(1e-3);
    const openings = panelOpenings(layout!);
    expect(openings.map(({ name }) => name).sort()).toEqual(['H1', 'H2']);
    expect(openings.find(({ name }) => name === 'H1')!.areaMm2).toBeCloseTo(Math.PI * 2500, 6);
    expect(
      openings.every(({ normal, outline }) => normal[2] === 1 && outline.every((p) => Math.abs(p[2] - 500) < 1e-9)),
    ).toBe(true);
  });
});

it('triangles of 100 seeded shapes with openings cover just what the shape covers', () => {
  for (let seed = 1; seed <= 100; seed++) {
    const { outside, openings } = seededOutlinePoints(seed);
    const all = [outside, ...openings].flat();
    const triangles = triangulated(
      outside.flat(),
      openings.map((hole) => hole.flat()),
    );
    let sum = 0;
    let least = Infinity;
    for (let i = 0; i < triangles.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => all[triangles[i + k]!]!) as [
        [number, number],
        [number, number],
        [number, number],
      ];
      const twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
      least = Math.min(least, twice);
      sum += twice / 2;
    }
    expect(
      sum / (outlineArea(outside) + openings.reduce((s, hole) => s + outlineArea(hole), 0)),
      `seed ${seed}`,
    ).toBeCloseTo(1, 9);
  }
});
