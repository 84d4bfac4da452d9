import type { Outline, Point2 } from '#geometry';
import type { SlottedHole } from './flat-pattern.ts';

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
