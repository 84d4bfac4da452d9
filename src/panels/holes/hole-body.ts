import {
  depthInOutline,
  isInOutline,
  type Outline,
  type Point2,
  segmentGap,
  straightOutline,
  type ReadyOutline,
} from '#geometry';
import type { PlacedHole } from '../layout.ts';
import { slotOutline } from '../slot-outline.ts';

type Straight = readonly [Point2, Point2];

/** A hole as it lies on the flat: all that is within a radius of some straights. A slot is one straight, a square hole its four sides. */
export interface HoleBody {
  readonly at: Point2;
  readonly straights: readonly Straight[];
  readonly radiusMm: number;
  readonly outline: Outline;
}

type Holed = Pick<PlacedHole, 'at' | 'diameterMm' | 'longMm' | 'turnDeg' | 'sizeMm'>;

export function holeBody({ at, diameterMm, longMm = diameterMm, turnDeg = 0, sizeMm }: Holed): HoleBody {
  const turn = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const put = (x: number, y: number): Point2 => [at[0] + c * x - s * y, at[1] + s * x + c * y];
  if (sizeMm === undefined) {
    const half = Math.max(0, (longMm - diameterMm) / 2);
    const outline = slotOutline({ at, wideMm: diameterMm, longMm, turnDeg, for: '' });
    return { at, straights: [[put(-half, 0), put(half, 0)]], radiusMm: diameterMm / 2, outline };
  }
  const [x, y] = [sizeMm[0] / 2, sizeMm[1] / 2];
  const corners = [put(-x, -y), put(x, -y), put(x, y), put(-x, y)];
  const straights = corners.map((from, i): Straight => [from, corners[(i + 1) % corners.length]!]);
  return { at, straights, radiusMm: 0, outline: straightOutline(corners) };
}

/** From a place to a straight piece [mm]. */
export function toStraight(p: Point2, [a, b]: Straight): number {
  const d = [b[0] - a[0], b[1] - a[1]] as const;
  const square = d[0] * d[0] + d[1] * d[1];
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / square));
  return Math.hypot(p[0] - a[0] - d[0] * t, p[1] - a[1] - d[1] * t);
}

const side = ([a, b]: Straight, p: Point2): number =>
  Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
const cross = (one: Straight, two: Straight): boolean =>
  side(one, two[0]) * side(one, two[1]) < 0 && side(two, one[0]) * side(two, one[1]) < 0;

const betweenStraights = (one: Straight, two: Straight): number =>
  cross(one, two) ? 0 : Math.min(...one.map((p) => toStraight(p, two)), ...two.map((p) => toStraight(p, one)));

const toLine = (body: HoleBody, line: Straight): number =>
  Math.min(...body.straights.map((straight) => betweenStraights(straight, line)));

/** From the rim of a hole to a line; negative: the line runs through it [mm]. */
export const gapToLine = (body: HoleBody, from: Point2, to: Point2): number => toLine(body, [from, to]) - body.radiusMm;

/** Between the rims of two holes; negative: they run into each other [mm]. */
export function gapOfHoles(a: HoleBody, b: HoleBody): number {
  const gap = Math.min(...b.straights.map((straight) => toLine(a, straight)));
  const isInside = isInOutline(a.outline, b.at) || isInOutline(b.outline, a.at);
  return (isInside ? -gap : gap) - a.radiusMm - b.radiusMm;
}

/** From the rim of a hole to the edge of the sheet round it; negative: it runs out of it [mm]. */
export function gapToEdge(body: HoleBody, sheet: ReadyOutline): number {
  const ends = body.straights.flat().map((p) => depthInOutline(sheet, p));
  const along = body.straights.filter(([a, b]) => a[0] !== b[0] || a[1] !== b[1]);
  return Math.min(...ends, ...along.map(([a, b]) => segmentGap(sheet, a, b))) - body.radiusMm;
}
