import { type Vec, cross, dot, scale, sub, unit } from '#geometry';
import type { TubeBend } from '../../way.ts';
import { springbackShare } from './springback.ts';
import { type Corners, bendSide, tubeRun, withoutStraightCorners } from './tube-run.ts';

/** What a tube is cut and bent from. */
export interface BendTable {
  readonly bends: readonly TubeBend[];
  /** Straight at the start, between bends, at the end [mm]. */
  readonly straightsMm: readonly number[];
  /** Length to cut [mm]: straights and arcs along the centreline. */
  readonly lengthMm: number;
}

const DEG = 180 / Math.PI;
const round = (value: number, digits: number): number => Number(value.toFixed(digits));

/**
 * The bend table of a run of corners. The bender always bends to the same side, so before each bend the tube is turned: by
 * `turnDeg` clockwise as seen looking from its start along it. The first bend needs no turn.
 */
export function bendTable(corners: Corners, radiusMm: number, material: string | undefined): BendTable {
  const bent = withoutStraightCorners(corners);
  const { along, straightsMm, bendsRad, lengthMm } = tubeRun(bent, radiusMm);
  const spring = springbackShare(material);
  const bends: TubeBend[] = [];
  let markMm = 0;
  bendsRad.forEach((angle, i) => {
    markMm += straightsMm[i]!;
    const bendDeg = angle * DEG;
    bends.push({
      markMm: round(markMm, 3),
      turnDeg: i === 0 ? 0 : round(turnBefore(along[i - 1]!, along[i]!, along[i + 1]!), 4) % 360,
      bendDeg: round(bendDeg, 4),
      setDeg: round(bendDeg * (1 + spring), 1),
      radiusMm,
    });
    markMm += radiusMm * angle;
  });
  return { bends, straightsMm, lengthMm };
}

/** Clockwise turn, looking along the straight between two bends, that brings the second bend to the side of the first [deg]. */
function turnBefore(before: Vec, along: Vec, after: Vec): number {
  const firstSide = unit(sub(scale(along, dot(before, along)), before));
  const nextSide = bendSide(along, after);
  // Looking along the straight, clockwise is right-handed about it; turning the tube carries the next side back onto the first.
  const clockwise = Math.atan2(dot(cross(firstSide, nextSide), along), dot(firstSide, nextSide));
  return (((-clockwise * DEG) % 360) + 360) % 360;
}
