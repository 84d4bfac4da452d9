import { type HoleAxis, holeAxis, type Vec } from '#geometry';
import { formatNumber, type Lengths } from '#units';
import type { Pointed } from './pointing.ts';

/** Where a pointed place leads: the mouth of the hole it is at, or the surface itself. */
export interface Snapped {
  readonly atMm: Vec;
  readonly faces: Vec;
  readonly hole: HoleAxis | null;
}

export function snapped(at: Pointed, toHole: boolean): Snapped {
  const hole = toHole ? (holeAxis(at.mesh, at.triangle, at.atMm, at.towards) ?? null) : null;
  return hole === null ? { atMm: at.atMm, faces: at.normal, hole } : { atMm: hole.centreMm, faces: hole.axis, hole };
}

/** "the middle of a round 27.0 mm across, by its wall, seen 340 deg round, scatter 0.3 mm". */
export function holeWords({ hole }: Snapped, { fine }: Lengths): string {
  if (hole === null) return 'the surface itself: no round hole or spigot is near that place';
  return `the middle of a round ${fine(2 * hole.radiusMm)} across, by its ${hole.by}, seen ${formatNumber(hole.arcDeg)}° round, scatter ${fine(hole.rmsMm)}`;
}
