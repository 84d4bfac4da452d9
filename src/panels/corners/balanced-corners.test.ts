import type { Panel } from '#car';
import { distance } from '#geometry';
import { describe, expect, it } from 'vitest';
import { laidOut } from '../laid-out.ts';
import { NOWHERE } from '../nowhere.fixture.ts';
import { balancedCorners } from './balanced-corners.ts';

const square = (more: Partial<Panel>): Panel => ({
  id: 'P',
  thicknessMm: 1,
  knownToMm: 2,
  outside: [0, 0, 1],
  corners: [
    [0, 0],
    [400, 0],
    [400, 300],
    [0, 300],
  ].map(([x, y], i) => ({ id: 'ABCD'[i]!, atMm: [x!, y!, 0] })),
  ...more,
});

describe('tapes and corners by least squares', () => {
  it('a single tape against two corners alike known: the miss is shared by weight (hand)', () => {
    // Tape A-B reads 406 +-2, both corners +-2: the tape and the two ends each give way by a third of the 6.
    const { corners, tapes } = balancedCorners(square({ tapes: [{ from: 'A', to: 'B', mm: 406, knownToMm: 2 }] }));
    expect(corners[0]!.at[0]).toBeCloseTo(-2, 6);
    expect(corners[1]!.at[0]).toBeCloseTo(402, 6);
    expect(tapes[0]!.residualMm).toBeCloseTo(2, 6);
    expect(tapes[0]!.rawMm).toBeCloseTo(6, 9);
    expect(tapes[0]!.rawToleranceMm).toBeCloseTo(Math.sqrt(12), 9);
  });

  it('a tape known twice as well gives way by a quarter of what each end does (hand)', () => {
    // One over the squares: the tape 1, the ends 4 and 4 of the 9 that the 6 are shared out to.
    const { corners, tapes } = balancedCorners(square({ tapes: [{ from: 'A', to: 'B', mm: 406, knownToMm: 1 }] }));
    expect(tapes[0]!.residualMm).toBeCloseTo(6 / 9, 6);
    expect(corners[1]!.at[0]).toBeCloseTo(400 + (4 * 6) / 9, 6);
  });

  it('of six tapes the one misread by 30 is named first, with what the others make it', () => {
    const tapes = [
      ['A', 'B', 400],
      ['B', 'C', 300],
      ['C', 'D', 400],
      ['D', 'A', 300],
      ['A', 'C', 530],
      ['B', 'D', 500],
    ] as const;
    const panel = square({ tapes: tapes.map(([from, to, mm]) => ({ from, to, mm, knownToMm: 1 })) });
    const told = laidOut(panel, NOWHERE)[0]!.findings.filter(({ code }) => code === 'panel-tape-disagrees');
    expect(told[0]).toMatchObject({ at: 'A-C', level: 'stop', value: 30 });
  });

  it('two places tell no plane: the cure is a rough third one, which the tapes put right (hand)', () => {
    const tapes = [
      { from: 'A', to: 'C', mm: 500 },
      { from: 'B', to: 'C', mm: 300 },
      { from: 'A', to: 'D', mm: 300 },
      { from: 'C', to: 'D', mm: 400 },
    ];
    const [a, b] = square({}).corners!;
    const bare = square({ tapes, corners: [a!, b!, { id: 'C' }, { id: 'D' }] });
    const { findings } = laidOut(bare, NOWHERE)[0]!;
    expect(findings).toMatchObject([
      { code: 'panel-corner-untold', cures: [expect.stringMatching(/^give C a place too: .* a rough one does/)] },
    ]);
    // hand: C of 3, 4 and 5 hundred stands at 400, 300; put 30 off, its place pulls with 1 over 50 squared beside 1 over 2 squared.
    const rough = square({ tapes, corners: [a!, b!, { id: 'C', atMm: [380, 322, 0], knownToMm: 50 }, { id: 'D' }] });
    const { corners } = balancedCorners(rough);
    expect(distance(corners[2]!.at, [400, 300, 0])).toBeLessThan(0.3);
    expect(distance(corners[3]!.at, [0, 300, 0])).toBeLessThan(0.3);
  });

  it('a corner without a place stands where its tapes cross, on the side that keeps the corners in order', () => {
    const panel = square({
      tapes: [
        { from: 'A', to: 'D', mm: 300 },
        { from: 'C', to: 'D', mm: 400 },
      ],
    });
    const { atMm: _, ...bare } = panel.corners![3]!;
    const { corners } = balancedCorners({ ...panel, corners: [...panel.corners!.slice(0, 3), bare] });
    expect(distance(corners[3]!.at, [0, 300, 0])).toBeLessThan(1e-6);
  });

  it('tapes alone lay a panel out: 3-4-5', () => {
    const panel = square({
      corners: ['A', 'B', 'C'].map((id) => ({ id })),
      tapes: [
        { from: 'A', to: 'B', mm: 400 },
        { from: 'B', to: 'C', mm: 300 },
        { from: 'A', to: 'C', mm: 500 },
      ],
    });
    const flat = laidOut(panel, NOWHERE)[0]!.flats[0]!;
    expect(flat.corners.map(({ at }) => at.map((v) => Math.round(v) + 0))).toEqual([
      [0, 0],
      [400, 0],
      [400, 300],
    ]);
  });
});
