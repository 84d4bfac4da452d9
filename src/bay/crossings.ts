import {
  add,
  addScaled,
  type Body,
  bodyGap,
  cross,
  dot,
  movedDirection,
  movedPoint,
  norm,
  rotationFromDeg,
  scale,
  sub,
  type Vec,
} from '#geometry';
import type { BayPart } from './bay.ts';
import { lengthAlong, stretch } from './stretch.ts';

/** The flat of a part that lines may cross: a place on its mid-plane, its normal, and what its outline spans. */
export interface CrossingPanel {
  readonly part: string;
  readonly centre: Vec;
  /** Unit vector square to the panel. */
  readonly normal: Vec;
  /** Unit vectors along its two sides. */
  readonly u: Vec;
  readonly v: Vec;
  readonly halfU: number;
  readonly halfV: number;
  readonly thicknessMm: number;
  /** Round (a disc) rather than square-cornered. */
  readonly round: boolean;
  /** The outline's corners, or eight places round a disc. */
  readonly outline: readonly Vec[];
}

/** A shape counts as a panel where its thickness is below this share of its next side. Own choice. */
const THIN_SHARE = 0.2;

/** The flats of a part: one for each thin box or thin cylinder of it; none where it has no such shape. */
export function crossingPanels(part: BayPart): readonly CrossingPanel[] {
  return part.part.shapes.flatMap((shape) => {
    const turn = rotationFromDeg(shape.turnDeg ?? [0, 0, 0]);
    const at = shape.atMm ?? ([0, 0, 0] as Vec);
    const place = (p: Vec): Vec => add(movedPoint(turn, p), at);
    if (shape.box !== undefined) {
      const { minMm: min, maxMm: max } = shape.box;
      const half = scale(sub(max, min), 0.5);
      const axes: readonly Vec[] = [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ];
      const [thin, middle, long] = [0, 1, 2].sort((a, b) => half[a]! - half[b]! || a - b) as [number, number, number];
      if (half[thin]! > THIN_SHARE * half[middle]!) return [];
      const [u, v] = [movedDirection(turn, axes[middle]!), movedDirection(turn, axes[long]!)];
      return [
        panel(part.id, place(scale(add(min, max), 0.5)), u, v, [half[middle]!, half[long]!], 2 * half[thin]!, false),
      ];
    }
    if (shape.cylinder !== undefined) {
      const { fromMm: a, toMm: b, radiusMm: r } = shape.cylinder;
      const axis = sub(b, a);
      if (norm(axis) / 2 > THIN_SHARE * r) return [];
      const n = movedDirection(turn, scale(axis, 1 / norm(axis)));
      const across: Vec = Math.abs(n[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
      const square = cross(n, across);
      const u = scale(square, 1 / norm(square));
      return [panel(part.id, place(scale(add(a, b), 0.5)), u, cross(n, u), [r, r], norm(axis), true)];
    }
    return [];
  });
}

function panel(
  part: string,
  centre: Vec,
  u: Vec,
  v: Vec,
  half: readonly [number, number],
  thicknessMm: number,
  round: boolean,
): CrossingPanel {
  const [halfU, halfV] = half;
  const corner = (a: number, b: number): Vec => addScaled(addScaled(centre, u, a * halfU), v, b * halfV);
  const eighth = (k: number): Vec => corner(Math.cos((k * Math.PI) / 4), Math.sin((k * Math.PI) / 4));
  const outline = round
    ? [0, 1, 2, 3, 4, 5, 6, 7].map(eighth)
    : [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  return { part, centre, normal: cross(u, v), u, v, halfU, halfV, thicknessMm, round, outline };
}

export interface CrossingWants {
  /** The hole, or the flange of the fitting [mm]. */
  readonly holeRadiusMm: number;
  /** Holes there already. */
  readonly taken: readonly { readonly at: Vec; readonly holeRadiusMm: number }[];
  /** Panel left between two holes and between a hole and the edge [mm]; 12 if not said: common practice, no source. */
  readonly webMm?: number;
  /** Spacing of the places tried [mm]; 20 if not said. */
  readonly gridMm?: number;
}

/** Every place of a grid over the panel where a hole leaves enough panel to its edge and to the holes that are there. */
export function crossingPlaces(flat: CrossingPanel, wants: CrossingWants): readonly Vec[] {
  const web = wants.webMm ?? 12;
  const grid = wants.gridMm ?? 20;
  const edge = wants.holeRadiusMm + web;
  const [a, b] = [flat.halfU - edge, flat.halfV - edge];
  if (!(a >= 0 && b >= 0)) return [];
  const out: Vec[] = [];
  for (let i = -Math.floor(a / grid); i * grid <= a; i++) {
    for (let j = -Math.floor(b / grid); j * grid <= b; j++) {
      if (flat.round && Math.hypot(i * grid, j * grid) > a) continue;
      const at = addScaled(addScaled(flat.centre, flat.u, i * grid), flat.v, j * grid);
      if (wants.taken.every((t) => norm(sub(t.at, at)) >= t.holeRadiusMm + wants.holeRadiusMm + web)) out.push(at);
    }
  }
  return out;
}

export interface HoleStretch {
  /** Along the line, from..to: there the part does not count, for the line is in its hole or just out of it [mm]. */
  readonly alongMm: readonly [number, number];
  /** Room between the line and the edge of the hole at its tightest, in the thickness of the panel [mm]; negative: it does not fit. */
  readonly roomMm: number;
}

/** Steps in which a line is followed out of a hole [mm]. */
const STEP_MM = 0.5;

/**
 * The stretch of a line that passes through a hole in a part: from where the line, coming in, can no longer keep off the part
 * as a whole, to where it keeps off again. It ends at most keep-off and two hole radii beyond the panel's faces: a line that
 * turns back along the panel does not take its hole with it. Null where the line does not pass the place.
 *
 * @param at - middle of the hole, on the panel's mid-plane [mm]
 */
export function holeStretch(
  bodies: readonly Body[],
  part: BayPart,
  flat: CrossingPanel,
  at: Vec,
  holeRadiusMm: number,
  keepOffMm: number,
): HoleStretch | null {
  const length = lengthAlong(bodies);
  const places = sampled(bodies);
  const inside = places.filter((p) => Math.abs(dot(sub(p.at, at), flat.normal)) <= flat.thicknessMm / 2 + STEP_MM);
  const through = inside.filter((p) => off(sub(p.at, at), flat.normal) <= holeRadiusMm);
  if (through.length === 0) return null;
  const middle = through.reduce((a, b) =>
    Math.abs(dot(sub(b.at, at), flat.normal)) < Math.abs(dot(sub(a.at, at), flat.normal)) ? b : a,
  );
  const reach = flat.thicknessMm / 2 + keepOffMm + 2 * holeRadiusMm;
  const clear = (s: number): boolean => {
    const slice = stretch(bodies, Math.max(0, s - 0.01), Math.min(length, s + 0.01));
    return slice.every((b) => part.solids.every((solid) => bodyGap(b, solid, keepOffMm + 0.05).gapMm >= keepOffMm));
  };
  const walk = (way: 1 | -1): number => {
    let s = middle.s;
    while (s > 0 && s < length && Math.abs(s - middle.s) < reach && !clear(s)) s += way * STEP_MM;
    return Math.min(length, Math.max(0, s));
  };
  const roomMm = Math.min(...through.map((p) => holeRadiusMm - p.radiusMm - off(sub(p.at, at), flat.normal)));
  return { alongMm: [walk(-1), walk(1)], roomMm };
}

/** Sideways distance from the axis of the hole. */
function off(w: Vec, normal: Vec): number {
  return norm(addScaled(w, normal, -dot(w, normal)));
}

function sampled(
  bodies: readonly Body[],
): readonly { readonly at: Vec; readonly s: number; readonly radiusMm: number }[] {
  const out: { at: Vec; s: number; radiusMm: number }[] = [];
  let start = 0;
  for (const body of bodies) {
    const { path, radiusMm } = body;
    for (let i = 0; i + 5 < path.length; i += 3) {
      const a: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
      const d = sub([path[i + 3]!, path[i + 4]!, path[i + 5]!], a);
      const length = norm(d);
      const steps = Math.max(1, Math.ceil(length / STEP_MM));
      for (let k = 0; k < steps; k++)
        out.push({ at: addScaled(a, d, k / steps), s: start + (length * k) / steps, radiusMm });
      start += length;
    }
  }
  return out;
}
