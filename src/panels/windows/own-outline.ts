import { cornerReach, type Outline, type OutlineCorner, outlineArea, type Point2, reversedOutline } from '#geometry';

/** An outline of one's own as it is cut: what is drilled at its corners first, and how many stay as they were drawn. */
export interface DrilledOutline {
  readonly outline: Outline;
  /** Middles of the holes, tangent to both sides of their corner. */
  readonly corners: readonly Point2[];
  readonly sharp: number;
}

/** Sides that turn less than this go on into each other [rad]. */
const STRAIGHT = 0.05;

/**
 * Inside corners between straight sides rounded by what they are drilled with. A corner where metal points into the opening, and one at an
 * arc, stays as it was drawn; so does all of it where a side is too short for the drill.
 */
export function drilledOutline(drawn: Outline, radiusMm: number): DrilledOutline {
  const leftward = outlineArea(drawn) < 0 ? reversedOutline(drawn) : drawn;
  const n = leftward.length;
  const at = (i: number): OutlineCorner => leftward[(i + n) % n]!;
  const headingFrom = (i: number): Point2 => {
    const [p, q] = [at(i).at, at(i + 1).at];
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    return [(q[0] - p[0]) / long, (q[1] - p[1]) / long];
  };
  const turns = leftward.map((corner, i) => {
    if ((corner.bulge ?? 0) !== 0 || (at(i - 1).bulge ?? 0) !== 0) return 0;
    const [h, g] = [headingFrom(i - 1), headingFrom(i)];
    const turn = Math.atan2(h[0] * g[1] - h[1] * g[0], h[0] * g[0] + h[1] * g[1]);
    return turn > STRAIGHT ? turn : 0;
  });
  const reaches = turns.map((turn) => cornerReach(turn, radiusMm));
  const isShort = leftward.some((corner, i) => {
    const q = at(i + 1).at;
    const reach = reaches[i]! + reaches[(i + 1) % n]!;
    return reach > 0 && reach > Math.hypot(q[0] - corner.at[0], q[1] - corner.at[1]) - 1e-9;
  });
  const rounded = turns.filter((turn) => turn > 0).length;
  if (isShort) return { outline: leftward, corners: [], sharp: rounded };
  const corners: Point2[] = [];
  const outline = leftward.flatMap((corner, i): OutlineCorner[] => {
    const reach = reaches[i]!;
    if (reach === 0) return [corner];
    const [h, g] = [headingFrom(i - 1), headingFrom(i)];
    const [x, y] = corner.at;
    const begin: Point2 = [x - h[0] * reach, y - h[1] * reach];
    corners.push([begin[0] - h[1] * radiusMm, begin[1] + h[0] * radiusMm]);
    return [{ at: begin, bulge: Math.tan(turns[i]! / 4) }, { at: [x + g[0] * reach, y + g[1] * reach] }];
  });
  return { outline, corners, sharp: 0 };
}
