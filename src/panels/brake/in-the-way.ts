import type { Point2 } from '#geometry';
import { dot2, lineThrough, long2, minus, plus, rightOf } from '../flat/lines.ts';
import type { LaidStrip } from '../flat/strip.ts';
import type { BrakeTool } from './brake-tool.ts';

/** A fold to make: its strip, and which edge it belongs to. */
export interface Fold {
  readonly edge: string;
  readonly strip: LaidStrip;
}

/** What of an earlier fold stands where the tool is. */
export interface InTheWay {
  readonly fold: Fold;
  /** Over the nose's depth, its height, on the bed, or at both ends of the bend. */
  readonly how: 'nose' | 'beam' | 'bed' | 'ends';
  /** What there is and what the tool wants [mm]. */
  readonly valueMm: number;
  readonly limitMm: number;
}

/** Beyond this from anti-parallel another fold does not stand across the clamped sheet but beside it [cosine of 60 degrees]. */
const ACROSS = 0.5;
/** Places along another fold that are looked at. */
const LOOKS = 9;

/** What stands in the way of folding one strip, its sheet clamped, when others are up already; undefined: nothing. */
export function inTheWay(fold: Fold, up: readonly Fold[], tool: BrakeTool): InTheWay | undefined {
  const across = up.flatMap((other) => clashAcross(fold, other, tool));
  return across[0] ?? clashAtEnds(fold, up, tool);
}

const tangent = ({ start, end }: LaidStrip): readonly [Point2, Point2] => [start[0]!, end[0]!];

/** Another fold across the sheet: its profile against the nose and the beam over it, or against the bed. */
function clashAcross(fold: Fold, other: Fold, tool: BrakeTool): InTheWay[] {
  const [a, b] = tangent(fold.strip);
  const line = lineThrough(a, b);
  const long = long2(minus(b, a));
  if (dot2(line.along, other.strip.base.along) > -ACROSS) return [];
  const [p, q] = tangent(other.strip);
  const behind = Array.from({ length: LOOKS }, (_, k) => plus(p, minus(q, p), k / (LOOKS - 1))).flatMap((at) => {
    const along = dot2(minus(at, line.at), line.along);
    // In from the bend, to the left of its line.
    return along < 0 || along > long ? [] : [-dot2(minus(at, line.at), rightOf(line.along))];
  });
  if (behind.length === 0) return [];
  const from = Math.min(...behind);
  for (const [x, y] of profile(other.strip, isSameWay(fold, other))) {
    const [deep, high] = [from + x, y];
    if (high > 0 && high <= tool.highMm && deep < tool.noseMm - 1e-6)
      return [{ fold: other, how: 'nose', valueMm: deep, limitMm: tool.noseMm }];
    if (high > tool.highMm && deep < tool.beamMm - 1e-6)
      return [{ fold: other, how: 'beam', valueMm: heightOf(other.strip), limitMm: tool.highMm }];
    if (high < 0 && deep < tool.bedMm - 1e-6) return [{ fold: other, how: 'bed', valueMm: deep, limitMm: tool.bedMm }];
  }
  return [];
}

/** Folds beside the bend: one may hang off the end of the brake, with two only a finger goes between them. */
function clashAtEnds(fold: Fold, up: readonly Fold[], tool: BrakeTool): InTheWay | undefined {
  const [a, b] = tangent(fold.strip);
  const long = long2(minus(b, a));
  const way = lineThrough(a, b).along;
  const beside = up.filter(({ strip }) => Math.abs(dot2(way, strip.base.along)) <= ACROSS);
  const [before, after] = ([1, -1] as const).map((sign) =>
    beside.find(({ strip }) => sign * (way[0] * strip.base.along[1] - way[1] * strip.base.along[0]) < 0),
  );
  if (before === undefined || after === undefined) return undefined;
  const [low] = [before, after].filter((one) => !isSameWay(fold, one));
  if (low !== undefined) return { fold: low, how: 'bed', valueMm: 0, limitMm: tool.bedMm };
  const high = [before, after].toSorted((p, q) => heightOf(q.strip) - heightOf(p.strip))[0]!;
  if (tool.fingerMm === 0 || long < tool.fingerMm)
    return { fold: high, how: 'ends', valueMm: tool.fingerMm === 0 ? 0 : long, limitMm: tool.fingerMm };
  return heightOf(high.strip) > tool.highMm
    ? { fold: high, how: 'beam', valueMm: heightOf(high.strip), limitMm: tool.highMm }
    : undefined;
}

const isSameWay = (one: Fold, other: Fold): boolean => firstBend(one.strip) === firstBend(other.strip);
const firstBend = ({ steps }: LaidStrip): 'up' | 'down' | undefined =>
  steps.flatMap((step) => (step.kind === 'bend' ? [step.way] : []))[0];

/** Points of a fold as it stands, every few millimetres, on the face inside its bend: beyond its tangent line, and over the sheet. */
function profile({ steps }: LaidStrip, isUp: boolean): Point2[] {
  const points: Point2[] = [];
  const first = steps.find((step) => step.kind === 'bend');
  let at: Point2 = [0, 0];
  let turn = 0;
  for (const step of steps) {
    const way = (): Point2 => [Math.cos(turn), (isUp ? 1 : -1) * Math.sin(turn)];
    if (step.kind === 'bend') {
      const own = first?.kind === 'bend' && step.way === first.way ? 1 : -1;
      const half = (step.turnDeg * Math.PI) / 360;
      // To where the faces on the inside of the bend would meet, and as far on.
      at = plus(at, way(), step.radiusMm * Math.tan(half));
      turn += 2 * own * half;
      at = plus(at, way(), step.radiusMm * Math.tan(half));
      points.push(at);
      continue;
    }
    const n = Math.ceil(step.lengthMm / STEP_MM);
    for (let k = 1; k <= n; k++) points.push(plus(at, way(), (step.lengthMm * k) / n));
    at = plus(at, way(), step.lengthMm);
  }
  return points;
}
const STEP_MM = 2;

const heightOf = (strip: LaidStrip): number => Math.max(0, ...profile(strip, true).map(([, y]) => y));
