import { add, addScaled, cross, perpendicular, scale, type Vec } from '#geometry';
import { swings, type ToolKind } from '#standards';
import { type Bar, Directions, blockDirections, type FreeArc, freeArcs, type TurnPlane } from './swing.kernel.ts';
import type { Look, Thing } from './things.ts';
import type { ToolNut } from './tool-nut.ts';
import type { Tools } from './workshop.ts';

/** What a tool has at a nut. */
export interface Swing {
  readonly tool: ToolKind;
  /** Widest stretch that it swings through with a fist round its handle; with fingers alone [deg]. */
  readonly freeDeg: number;
  readonly fingersDeg: number;
  readonly needDeg: number;
  /** Middle of that stretch, from the nut to the hand, and where the hand is [mm]. */
  readonly toward: Vec | null;
  readonly hands: readonly Vec[];
  /** What is in the way, most in the way first. */
  readonly met: readonly Thing[];
  /** Extra words, such as the bar behind a socket. */
  readonly with?: string;
}

/** A tool slimmed by a share, all of it: what `tight` is measured by. */
export type Slim = number;

export const needOf = (kind: ToolKind): number => swings.find((row) => row.kind === kind)?.leastDeg ?? 0;

export const none = (tool: ToolKind, met: Thing | null): Swing => ({
  tool,
  freeDeg: 0,
  fingersDeg: 0,
  needDeg: needOf(tool),
  toward: null,
  hands: [],
  met: met === null ? [] : [met],
});

export const better = (a: Swing | null, b: Swing): Swing =>
  a === null ||
  b.freeDeg > a.freeDeg + 1e-9 ||
  (b.freeDeg > a.freeDeg - 1e-9 && b.fingersDeg > a.fingersDeg + 1e-9) ||
  (b.freeDeg > a.freeDeg - 1e-9 && b.fingersDeg > a.fingersDeg - 1e-9 && a.met.length === 0 && b.met.length > 0)
    ? b
    : a;

export const isEnough = ({ freeDeg, needDeg }: Swing): boolean => freeDeg >= needDeg;

/** The plane across the axis so far along it. */
export function planeAt(nut: Pick<ToolNut, 'at' | 'axis'>, alongMm: number): TurnPlane {
  const e1 = perpendicular(nut.axis);
  return { at: addScaled(nut.at, nut.axis, alongMm), e1, e2: cross(nut.axis, e1) };
}

/** A handle in a plane: from the head out, with the hand at its far end. */
interface Handle {
  readonly plane: TurnPlane;
  readonly fromMm: number;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly thickMm: number;
}

/** Swing of a handle: bare with fingers, and with a fist round its last stretch. What else turns with it is in `blocked`. */
export function handleSwing(
  tool: ToolKind,
  handle: Handle,
  look: Look,
  hand: Tools['hand'],
  slim: Slim,
  turned?: Directions,
): Swing {
  const { plane, fromMm, lengthMm } = handle;
  const blocked = turned ?? new Directions();
  blockDirections(look, plane, barOf(handle, slim), blocked);
  const fingers = freeArcs(blocked);
  const needDeg = needOf(tool);
  const met = tally(blocked);
  const fingersDeg = fingers[0]?.widthDeg ?? 0;
  if (fingersDeg < needDeg) return { ...none(tool, null), fingersDeg, met };
  const fist = new Directions(blocked);
  const halfFist = (hand.thickMm * slim) / 2;
  const wristMm = Math.max(fromMm, lengthMm - hand.acrossMm + halfFist);
  const gripMm = Math.max(fromMm, lengthMm - halfFist);
  const round: Bar = { fromMm: Math.min(wristMm, gripMm), toMm: gripMm, halfWidthMm: 0, halfThickMm: halfFist };
  blockDirections(look, plane, round, fist);
  const free = freeArcs(fist);
  const isFist = (free[0]?.widthDeg ?? 0) >= needDeg;
  const arcs = isFist ? free : fingers;
  return {
    tool,
    freeDeg: free[0]?.widthDeg ?? 0,
    fingersDeg,
    needDeg,
    toward: pointing(plane, middle(arcs[0]!)),
    hands: gripsIn(arcs, needDeg, plane, gripMm),
    met: isFist ? [] : tally(fist),
  };
}

export const barOf = ({ fromMm, lengthMm, widthMm, thickMm }: Handle, slim: Slim): Bar => {
  const halfThickMm = (thickMm * slim) / 2;
  return {
    fromMm: Math.min(fromMm, lengthMm - halfThickMm),
    toMm: Math.max(fromMm, lengthMm - halfThickMm),
    halfWidthMm: Math.max(0, (widthMm * slim) / 2 - halfThickMm),
    halfThickMm,
  };
};

const middle = ({ fromDeg, widthDeg }: FreeArc): number => fromDeg + widthDeg / 2;
const RAD = Math.PI / 180;
export const pointing = ({ e1, e2 }: TurnPlane, deg: number): Vec =>
  add(scale(e1, Math.cos(deg * RAD)), scale(e2, Math.sin(deg * RAD)));

/** Places of the hand through the wide enough stretches, a few of each [mm]. */
function gripsIn(arcs: readonly FreeArc[], needDeg: number, plane: TurnPlane, gripMm: number): Vec[] {
  const EVERY_DEG = 20;
  return arcs
    .filter(({ widthDeg }) => widthDeg >= needDeg)
    .flatMap((arc) => {
      const room = arc.widthDeg - needDeg;
      const count = Math.max(1, Math.round(room / EVERY_DEG));
      return Array.from({ length: count }, (_, n) =>
        addScaled(plane.at, pointing(plane, arc.fromDeg + needDeg / 2 + (room * (n + 0.5)) / count), gripMm),
      );
    });
}

export function tally(blocked: Directions): Thing[] {
  const count = new Map<string, { readonly thing: Thing; n: number }>();
  for (const thing of blocked.by) {
    if (thing === null) continue;
    const row = count.get(thing.id) ?? { thing, n: 0 };
    row.n++;
    count.set(thing.id, row);
  }
  return [...count.values()].sort((a, b) => b.n - a.n || (a.thing.id < b.thing.id ? -1 : 1)).map(({ thing }) => thing);
}

/** Heights at which a head of that thickness still grips half of itself or of the flats [mm]; the middle first. */
export function heightsOn([from, to]: readonly [number, number], thickMm: number): number[] {
  const grip = Math.min(thickMm, to - from) / 2;
  const mid = (from + to) / 2;
  const low = from + grip - thickMm / 2;
  const high = to - grip + thickMm / 2;
  // Resting on what the hexagon stands on, clear of it by what a spanner has.
  const resting = from + thickMm / 2 + 0.3;
  const all = [mid, resting, (mid + high) / 2, (mid + low) / 2, high, low];
  return [...new Set(all.filter((z) => z >= low - 1e-9 && z <= high + 1e-9))];
}

export const cornerMm = (nut: ToolNut): number => nut.acrossFlatsMm / Math.sqrt(3);
