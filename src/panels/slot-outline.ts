import type { Outline, Point2 } from '#geometry';
import type { SlottedHole } from './flat-pattern.ts';

/** Nearer than this to each other the two ends are one drilled hole, filed out [mm]. */
const TWO_DRILLED_MM = 3;

/** Where a slot is punched and drilled: at both ends, or in the middle where it is hardly longer than wide. */
export function slotCentres({ at, wideMm, longMm, turnDeg }: SlottedHole): readonly Point2[] {
  const half = (longMm - wideMm) / 2;
  if (2 * half < TWO_DRILLED_MM) return [at];
  const angle = (turnDeg * Math.PI) / 180;
  const [x, y] = [half * Math.cos(angle), half * Math.sin(angle)];
  return [
    [at[0] - x, at[1] - y],
    [at[0] + x, at[1] + y],
  ];
}

/** A slot's outline, counter-clockwise: two straight sides and two half circles; a circle where it is no longer than wide. */
export function slotOutline({ at, wideMm, longMm, turnDeg }: SlottedHole): Outline {
  const radius = wideMm / 2;
  const half = Math.max(0, longMm / 2 - radius);
  const angle = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const point = (along: number, across: number): Point2 => [
    at[0] + along * c - across * s,
    at[1] + along * s + across * c,
  ];
  if (half === 0)
    return [
      { at: point(radius, 0), bulge: 1 },
      { at: point(-radius, 0), bulge: 1 },
    ];
  return [
    { at: point(-half, -radius) },
    { at: point(half, -radius), bulge: 1 },
    { at: point(half, radius) },
    { at: point(-half, radius), bulge: 1 },
  ];
}
