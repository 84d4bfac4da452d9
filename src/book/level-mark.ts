import type { Role, Shape, Spot } from './drawing.ts';

export type Level = 'stop' | 'fix' | 'note';
export const levelRole = { stop: 'stop', fix: 'fix', note: 'soft' } as const satisfies Record<Level, Role>;
export const levelWord = { stop: 'Stop', fix: 'Fix', note: 'Note' } as const;

/** The shape that says how bad a point is, beside its first row: triangle, diamond, dot. `at` is the left end of the baseline. */
export function levelMark(level: Level, [x, y]: Spot, size: number): Shape {
  const fill = levelRole[level];
  const [left, right, middle] = [x, x + size * 0.7, x + size * 0.35];
  if (level === 'stop')
    return {
      kind: 'polyline',
      points: [
        [middle, y - size * 0.66],
        [right, y],
        [left, y],
      ],
      isClosed: true,
      fill,
    };
  if (level === 'fix')
    return {
      kind: 'polyline',
      points: [
        [left, y - size * 0.33],
        [middle, y - size * 0.68],
        [right, y - size * 0.33],
        [middle, y + size * 0.02],
      ],
      isClosed: true,
      fill,
    };
  return { kind: 'circle', centre: [middle, y - size * 0.3], radius: size * 0.18, fill };
}
