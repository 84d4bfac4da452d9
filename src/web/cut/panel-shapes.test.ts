import type { Panel } from '#car';
import { describe, expect, it } from 'vitest';
import { cornerTurnsDeg } from './cable-turns.ts';
import { acrossOf } from './crease-pairs.ts';
import { mirrorDrawing } from './mirror-drawing.ts';
import { laidAsTyped } from './panel-draft.ts';

const corners = (...at: readonly (readonly [number, number, number])[]): Panel['corners'] =>
  at.map(([x, y, z], i) => ({ id: 'ABCDEF'[i]!, atMm: [x, y, z], knownToMm: 1 }));

describe('where a panel can be creased', () => {
  it('hand: two ways in four corners, none in three, five in five', () => {
    const four = corners([0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0])!;
    const of = (rows: NonNullable<Panel['corners']>) =>
      acrossOf({ id: 'P', thicknessMm: 1, corners: rows }).map((pair) => pair.join('-'));
    expect(of(four)).toEqual(['A-C', 'B-D']);
    expect(of(four.slice(0, 3))).toEqual([]);
    expect(of([...four, { id: 'E', atMm: [-1, 0.5, 0] }])).toHaveLength(5);
  });
});

describe('how far a cable turns', () => {
  it('hand: a right angle, then an eighth of a turn, at its inner corners only', () => {
    const turns = cornerTurnsDeg([
      [0, 0, 0],
      [100, 0, 0],
      [100, 100, 0],
      [100, 200, 100],
    ]);
    expect(turns.map((deg) => Math.round(deg * 1e6) / 1e6)).toEqual([90, 45]);
  });
});

describe('a panel over the mirror of its master', () => {
  const master: Panel = {
    id: 'R',
    thicknessMm: 1,
    outside: [0, 0, 1],
    corners: corners([0, 200, 0], [800, 200, 0], [800, 600, 0], [0, 600, 0]),
  };
  const left: Panel = {
    id: 'L',
    thicknessMm: 1,
    outside: [0, 0, 1],
    mirrorOf: { panel: 'R' },
    // Mirrored but for C, which stands 4 mm further back: 4 of sqrt(1 + 1) mm allowed.
    corners: corners([0, -200, 0], [800, -200, 0], [804, -600, 0], [0, -600, 0]),
  };

  it('hand: stands off it at C alone, drawn so many times as far that it is seen, and says 4 mm', () => {
    const car = { parts: [], movers: [], lines: [], panels: [master, left] } as unknown as Parameters<
      typeof laidAsTyped
    >[0];
    const { drawing, times } = mirrorDrawing(laidAsTyped(car, left)[0]!, false)!;
    const [dashed, full] = drawing.shapes.flatMap((shape) => (shape.kind === 'polyline' ? [shape.points] : []));
    const apart = full!.map(([x, y], i) => Math.hypot(x - dashed![i]![0], y - dashed![i]![1]));
    const moved = apart.filter((gap) => gap > 0.01);
    expect(moved).toHaveLength(1);
    // 804 mm are as long as the picture less 16 on both sides: 118 units, or what its height leaves.
    expect(times).toBe(10);
    expect(moved[0]! / times / 4).toBeCloseTo(118 / 804, 3);
    expect(drawing.description).toBe('A 0.0 mm, B 0.0 mm, C 4.0 mm, D 0.0 mm');
  });
});
