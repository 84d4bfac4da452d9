import { describe, expect, it } from 'vitest';
import { catalogue } from '#standards';
import { lineWays } from '../line-ways.ts';
import { plan } from '../plan.ts';
import type { Way } from '../way.ts';
import { jointBay } from './joint-bay.ts';
import { linePairFaults } from './line-pair-faults.ts';
import { plantedBay } from './planted-bay.ts';
import type { ReadWay } from './read-way.ts';
import { faultsInBay, waysInBay, worldOfBay } from './solved-bay.ts';
import { wayFaults } from './way-faults.ts';

const shelf = catalogue();
const inserts = (id: string): number =>
  shelf.hoses.flatMap((hose) => shelf.hoseEndsFor(hose)).find((end) => end.id === id)!.insertMm;

/** As JSON gives it. */
const written = (way: Way): ReadWay => JSON.parse(JSON.stringify(way));

describe('the checks of ways in planted bays', () => {
  const bay = plantedBay('easy', 1);
  const way = written(waysInBay(bay)[0]!);
  const faultsOf = (looked: ReadWay): string[] => wayFaults(bay.car, bay.meshes, looked, inserts);
  const [piece, end] = [way.pieces[0]!, way.ends[0]!];
  const moved = way.bodies.map((body) => ({ ...body, pathMm: body.pathMm.map(([x, y, z]) => [x + 1, y, z] as const) }));
  it.each<[string, Partial<ReadWay>, RegExp]>([
    ['a clock', { ends: [{ ...end, clockDeg: end.clockDeg! + 6 }, way.ends[1]!] }, /clock .* drawn/u],
    ['the angle of an end', { ends: [{ ...end, angleDeg: end.angleDeg - 30 }, way.ends[1]!] }, /bends .* degrees/u],
    ['a cut length', { pieces: [{ ...piece, cutLengthMm: piece.cutLengthMm + 10 }] }, /cut to/u],
    ['an angle between ends', { pieces: [{ ...piece, endToEndDeg: piece.endToEndDeg! + 20 }] }, /end to end/u],
    ['a bend', { pieces: [{ ...piece, minBendRadiusMm: 2 * piece.tightestBendMm }] }, /bends to/u],
    ['a gap', { gaps: way.gaps.map((gap) => ({ ...gap, gapMm: gap.gapMm + 0.5 })) }, /t2/u],
    ['every body by 1 mm', { bodies: moved }, /1.00 mm off/u],
    ['no fitting way', { feasible: false }, /not feasible/u],
  ])('hand: a way with %s spoiled is found out', (_, spoilt, words) => {
    expect(faultsOf(way)).toEqual([]);
    expect(faultsOf({ ...way, ...spoilt }).join('; ')).toMatch(words);
  });
});

describe('lines planned together', () => {
  it('second: three lines that were planted together are planned clear of things and of each other', () => {
    const bay = jointBay(3, 3, 1);
    const world = worldOfBay(bay);
    const { lines } = plan(world.car, {
      solve: (line, placed, count) => lineWays(world, line, placed, count),
      bodies: ({ bodies }) =>
        bodies.map(({ part, pathMm, odMm }) => ({
          part,
          path: Float64Array.from(pathMm.flat()),
          radiusMm: odMm / 2,
        })),
      made: new Map(),
      lineKeepOffMm: world.lineKeepOffMm,
    });
    expect(lines.length).toBe(3);
    expect(lines.flatMap(({ best }) => faultsInBay(bay, best))).toEqual([]);
    const bodies = new Map(lines.map(({ line, best }) => [line, best.bodies]));
    expect(linePairFaults(bodies, world.lineKeepOffMm)).toEqual([]);
  });

  it('hand: tubes of 12 and 8 mm whose centrelines run 20 mm apart are 10 mm apart', () => {
    const along = (y: number, odMm: number) => ({
      part: 'tube' as const,
      odMm,
      pathMm: [0, 25, 50].map((x) => [x, y, 0] as const),
    });
    const pair = new Map([
      ['P', [along(0, 12)]],
      ['Q', [along(20, 8)]],
    ]);
    expect(linePairFaults(pair, 9.5)).toEqual([]);
    expect(linePairFaults(pair, 11)).toEqual([expect.stringMatching(/^P and Q are (9\.9|10\.0)\d mm apart$/u)]);
  });
});
