import { box, capsule, cylinder, type Solid } from '#geometry';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../test/flow/fluids-for-tests.ts';
import { type Crank, pinAt } from './crank.ts';
import { type LeverPiece, notchBox, SWEPT_KNOWN_MM, sweptGap } from './swept-gap.ts';

const crank = (low: number, high: number): Crank => ({
  id: 'k',
  name: 'k',
  pivotMm: [0, 0, 0],
  axis: [0, 1, 0],
  turnRad: [low, high],
});

const stick: LeverPiece = { fromMm: [0, 0, 0], toMm: [0, 0, 200], radiusMm: 8 };

/** Every half degree and every millimetre. */
function brute(piece: LeverPiece, swing: Crank, solid: Solid): number {
  const [low, high] = swing.turnRad;
  let least = Infinity;
  for (let k = 0; k <= 200; k++)
    for (let i = 0; i <= 200; i++) {
      const share = i / 200;
      const at = pinAt(
        swing,
        [
          piece.fromMm[0] + (piece.toMm[0] - piece.fromMm[0]) * share,
          piece.fromMm[1] + (piece.toMm[1] - piece.fromMm[1]) * share,
          piece.fromMm[2] + (piece.toMm[2] - piece.fromMm[2]) * share,
        ],
        low + ((high - low) * k) / 200,
      );
      least = Math.min(least, solid.distance(...at) - piece.radiusMm);
    }
  return least;
}

describe('the gap of a swinging lever', () => {
  it('is what a rule says beside a plane (hand: tip at 200 sin 30 + 8 from a wall at 150)', () => {
    const wall = box([150, -500, -500], [160, 500, 500]);
    const found = sweptGap([stick], crank(0, Math.PI / 6), wall, 1000)!;
    expect(found.gapMm).toBeGreaterThanOrEqual(150 - 100 - 8 - 1e-9);
    expect(found.gapMm).toBeLessThan(150 - 100 - 8 + SWEPT_KNOWN_MM);
    expect(found.turnRad).toBeCloseTo(Math.PI / 6, 1);
  });

  it('finds what stands in the middle of the swing and is clear at both ends', () => {
    const post = cylinder([0, 50, 190], [0, 60, 190], 5);
    const ends = [-0.5, 0.5].map((turn) => sweptGap([stick], crank(turn, turn), post, 1000)!.gapMm);
    expect(Math.min(...ends)).toBeGreaterThan(80);
    expect(sweptGap([stick], crank(-0.5, 0.5), post, 1000)!.gapMm).toBeCloseTo(42, 0);
  });

  it('is never more than a quarter of a millimetre above the least of 40 000 places (second: brute force, seed 31)', () => {
    const rng = seeded(31);
    const at = (mm: number): [number, number, number] => [(rng() - 0.5) * mm, (rng() - 0.5) * mm, (rng() - 0.5) * mm];
    for (let n = 0; n < 12; n++) {
      const low = at(500);
      const solid =
        n % 2 === 0
          ? box(low, [low[0] + 20 + 80 * rng(), low[1] + 20 + 80 * rng(), low[2] + 20 + 80 * rng()])
          : capsule(low, at(500), 5 + 20 * rng());
      const piece = { fromMm: at(40), toMm: at(400), radiusMm: 4 + 10 * rng() };
      const swing = crank(-0.3 - rng(), 0.3 + rng());
      const found = sweptGap([piece], swing, solid, 2000)!.gapMm;
      const least = brute(piece, swing, solid);
      expect(found).toBeLessThanOrEqual(least + SWEPT_KNOWN_MM);
      // Brute force stands on a grid: it may miss the least by half a step of a degree and a millimetre, 2 mm at most.
      expect(found).toBeGreaterThanOrEqual(least - 2.5);
    }
  });

  it('is not worked out beyond what is asked', () => {
    expect(sweptGap([stick], crank(0, 0.2), box([500, 0, 0], [510, 10, 10]), 50)).toBeUndefined();
  });

  it('cuts a notch as wide as the lever and its gap (hand: a tip of 16 mm through a plate, 5 mm round it)', () => {
    const plate = box([-300, -300, 150], [300, 300, 153]);
    const notch = notchBox([stick], crank(0, 0), plate, 5)!;
    expect([notch.min[1], notch.max[1]]).toEqual([-13, 13]);
    expect([notch.min[2], notch.max[2]]).toEqual([150, 153]);
    const swung = notchBox([stick], crank(0, 0.3), plate, 5)!;
    // Where the centreline crosses the plate at 0.3 rad: 150 tan 0.3.
    expect(swung.max[0]).toBeGreaterThan(150 * Math.tan(0.3) + 13);
    expect(swung.max[0]).toBeLessThan(153 * Math.tan(0.3) + 13 / Math.cos(0.3) + 8);
    expect(notchBox([stick], crank(0, 0.3), box([-300, -300, 250], [300, 300, 253]), 5)).toBeUndefined();
  });
});
