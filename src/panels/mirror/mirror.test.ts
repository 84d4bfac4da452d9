import type { Panel } from '#car';
import { describe, expect, it } from 'vitest';
import { laidOut } from '../laid-out.ts';

const side = (id: string, spots: readonly (readonly [number, number, number])[], more: Partial<Panel> = {}): Panel => ({
  id,
  thicknessMm: 1.2,
  knownToMm: 1,
  outside: [0, 0, 1],
  corners: spots.map((atMm, i) => ({ id: 'ABCD'[i]!, atMm: [...atMm] })),
  ...more,
});
const right = side(
  'R',
  [
    [1400, 200, 700],
    [2000, 200, 700],
    [2000, 600, 700],
    [1400, 600, 700],
  ],
  {
    edges: [
      {
        from: 'A',
        to: 'B',
        flange: { heightMm: 20, turnDeg: 90, towards: 'inside', radiusMm: 2 },
        fixing: { kind: 'rivnut', pitchMm: 100 },
      },
    ],
    holes: [
      { id: 'H', flatMm: [100, 150], diameterMm: 40 },
      { id: 'K', atMm: [1900, 500, 700], diameterMm: 30 },
    ],
  },
);
const left = (spots: readonly (readonly [number, number, number])[]) => side('L', spots, { mirrorOf: { panel: 'R' } });
const laid = (panel: Panel) =>
  laidOut(panel, { car: { parts: [], movers: [], panels: [right, panel] }, crossings: [] })[0]!;

describe('left and right from one intent (hand)', () => {
  const exact = laid(
    left([
      [1400, -200, 700],
      [2000, -200, 700],
      [2000, -600, 700],
      [1400, -600, 700],
    ]),
  );

  it('an exact mirror: nothing to tell, and its flat is the mirror image of the master, drawn as seen on its own outside', () => {
    expect(exact.findings.filter(({ code }) => code === 'panel-no-mirror')).toEqual([]);
    expect(exact.mirror!.corners.every(({ offMm, leftMm }) => offMm < 1e-9 && leftMm < 1e-9)).toBe(true);
    const [one, two] = [laid(right).flats[0]!, exact.flats[0]!];
    // x of the master is 600 - x of the mirror; y is the same.
    const spots = (flat: typeof one) => flat.holes.map(({ at, diameterMm }) => [at[0], at[1], diameterMm]);
    const turned = spots(one).map(([x, y, d]) => [600 - x!, y!, d!]);
    for (const hole of spots(two))
      expect(turned.some((other) => hole.every((v, i) => Math.abs(v! - other[i]!) < 1e-6))).toBe(true);
    expect(two.folds[0]!.way).toBe('down');
    expect(two.holes.find(({ for: what }) => what === 'H')!.at).toEqual([
      expect.closeTo(500, 6),
      expect.closeTo(150, 6),
    ]);
    expect(two.holes.find(({ for: what }) => what === 'K')!.at).toEqual([
      expect.closeTo(100, 6),
      expect.closeTo(300, 6),
    ]);
  });

  it('one corner 5 out and 3 up: told by that much; after laying one on the other the rest is shared out', () => {
    const off = laid(
      left([
        [1400, -200, 700],
        [2000, -200, 700],
        [2000, -605, 703],
        [1400, -600, 700],
      ]),
    );
    const told = off.findings.find(({ code }) => code === 'panel-no-mirror')!;
    expect(told.value).toBeCloseTo(Math.hypot(5, 3), 1);
    expect(told.limit).toBeCloseTo(Math.SQRT2, 1);
    expect(told.text).toContain('C 5 mm left, 3 mm up');
    expect(off.mirror!.corners.find(({ id }) => id === 'C')!.leftMm).toBeLessThan(5);
    expect(off.flats[0]!.folds).toHaveLength(1);
  });

  it('a plane beside the middle of the car mirrors about itself', () => {
    // About Y 50 what stands at 200 and 600 stands at -100 and -500.
    const beside = laid(
      side(
        'L',
        [
          [1400, -100, 700],
          [2000, -100, 700],
          [2000, -500, 700],
          [1400, -500, 700],
        ],
        { mirrorOf: { panel: 'R', planeYMm: 50 } },
      ),
    );
    expect(beside.mirror!.corners.every(({ offMm }) => offMm < 1e-9)).toBe(true);
    // The hole that is told on the car comes over the same plane: at Y -400, 300 from A-B.
    expect(beside.flats[0]!.holes.find(({ for: what }) => what === 'K')!.at[1]).toBeCloseTo(300, 6);
  });

  it('the whole side shifted by 4 back: each corner 4 off, nothing left after laying it over', () => {
    const moved = laid(
      left([
        [1404, -200, 700],
        [2004, -200, 700],
        [2004, -600, 700],
        [1404, -600, 700],
      ]),
    );
    expect(moved.mirror!.shiftMm).toBeCloseTo(4, 9);
    expect(moved.mirror!.corners.every(({ offMm, leftMm }) => Math.abs(offMm - 4) < 1e-9 && leftMm < 1e-9)).toBe(true);
  });
});
