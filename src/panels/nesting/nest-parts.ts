import { type Outline, outlineArea, outlinePoints, type Point2 } from '#geometry';
import { type SlabShape, slabShape } from './slab-shape.kernel.ts';

/** A shape to be nested. */
export interface NestPart {
  readonly id: string;
  readonly outline: Outline;
  /** Openings in which smaller parts may lie; left out, nothing lies in them. */
  readonly openings?: readonly Outline[];
  /** Way of the grain on it [deg from its x]; absent where the grain does not matter. */
  readonly grainDeg?: number;
}

/** A part at one of the turns that it may take. */
export interface Pose {
  readonly turnDeg: number;
  /** Shift that brings the turned part's lowest x and y to 0 [mm]. */
  readonly shift: Point2;
  readonly wideMm: number;
  readonly highMm: number;
  /** As it is, to look for room; and grown by the spacing, to take room. */
  readonly bare: SlabShape;
  readonly grown: SlabShape;
}

export interface ShapedPart {
  /** Place in the list that was given. */
  readonly index: number;
  readonly areaMm2: number;
  readonly longMm: number;
  readonly poses: readonly Pose[];
}

/** Chords stand no further than this off their arcs [mm]; shapes are grown by as much. */
const CHORD_MM = 0.05;

export interface PoseWish {
  readonly slabMm: number;
  readonly spacingMm: number;
  /** Turns besides those by quarters: long edges laid along and across the sheet. */
  readonly isFree: boolean;
}

/** Turns that a part may take: with a grain that matters two, else by quarters, or along its long edges too. */
export function turnsOf(part: NestPart, isFree: boolean): number[] {
  if (part.grainDeg !== undefined) return [-part.grainDeg, 180 - part.grainDeg].map(whole);
  const turns = [0, 90, 180, 270];
  if (!isFree) return turns;
  return [...turns, ...edgeTurns(part.outline).flatMap((turn) => turns.map((quarter) => whole(turn + quarter)))];
}

const whole = (deg: number): number => ((deg % 360) + 360) % 360;

/** Edges at least this much of the longest are laid along the sheet. */
const LONG_SHARE = 0.5;
const MOST_EDGES = 2;

/** Turns that lay a slanting long edge along the sheet [deg]. */
function edgeTurns(outline: Outline): number[] {
  const edges = outline
    .map(({ at }, i) => {
      const next = outline[(i + 1) % outline.length]!.at;
      return {
        length: Math.hypot(next[0] - at[0], next[1] - at[1]),
        deg: (Math.atan2(next[1] - at[1], next[0] - at[0]) * 180) / Math.PI,
      };
    })
    .sort((a, b) => b.length - a.length);
  const turns: number[] = [];
  for (const { length, deg } of edges) {
    const turn = whole(-deg) % 90;
    const isNew = turn > 1 && turn < 89 && turns.every((other) => Math.abs(other - turn) > 1);
    if (length >= LONG_SHARE * edges[0]!.length && isNew && turns.length < MOST_EDGES) turns.push(turn);
  }
  return turns;
}

/** A part in all its poses. */
export function shapedPart(part: NestPart, index: number, wish: PoseWish): ShapedPart {
  const rings = [part.outline, ...(part.openings ?? [])].map((outline) => outlinePoints(outline, CHORD_MM));
  const poses = turnsOf(part, wish.isFree).map((turnDeg) => posed(rings, turnDeg, wish));
  return {
    index,
    areaMm2: Math.abs(outlineArea(part.outline)),
    longMm: Math.max(...poses.map((pose) => Math.max(pose.wideMm, pose.highMm))),
    poses,
  };
}

function posed(rings: readonly (readonly Point2[])[], turnDeg: number, wish: PoseWish): Pose {
  const angle = (turnDeg * Math.PI) / 180;
  const isQuarter = turnDeg % 90 === 0;
  const c = isQuarter ? Math.round(Math.cos(angle)) : Math.cos(angle);
  const s = isQuarter ? Math.round(Math.sin(angle)) : Math.sin(angle);
  const turned = rings.map((ring) => ring.map(([x, y]): Point2 => [x * c - y * s, x * s + y * c]));
  const xs = turned[0]!.map((p) => p[0]);
  const ys = turned[0]!.map((p) => p[1]);
  // Grown by the chords' error, the lowest x and y are a hair above 0.
  const shift: Point2 = [CHORD_MM - Math.min(...xs), CHORD_MM - Math.min(...ys)];
  const laid = turned.map((ring) => ring.map(([x, y]): Point2 => [x + shift[0], y + shift[1]]));
  return {
    turnDeg,
    shift,
    wideMm: Math.max(...xs) - Math.min(...xs) + 2 * CHORD_MM,
    highMm: Math.max(...ys) - Math.min(...ys) + 2 * CHORD_MM,
    bare: slabShape(laid, wish.slabMm, CHORD_MM),
    grown: slabShape(laid, wish.slabMm, wish.spacingMm + CHORD_MM),
  };
}
