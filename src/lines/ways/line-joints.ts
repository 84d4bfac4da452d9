import {
  type LineObstacles,
  type Solid,
  type Vec,
  add,
  addScaled,
  cross,
  distance,
  dot,
  norm,
  scale,
  sub,
  unit,
} from '#geometry';
import type { Line } from '#car';
import type { LineJoint, LineSpan, Passed } from '../make-up/line-spans.ts';
import type { LinesWorld } from '../world.ts';
import { clearance } from './clearance.ts';
import { type Movable, withinLean } from './crossing-search.ts';
import { type CrossingWish, type Hole, crossings, isHoleFree } from './crossing.ts';
import { farReading } from './far-reading.ts';
import { type PlacedJoint, directionOf, panelSolid } from './joints.ts';
import { type MidTee, midTee, teeJoint } from './mid-tee.ts';
import { type NearLine, nearestTo } from './near-line.ts';
import { panelFace } from './panel-face.ts';
import type { SpanEnd } from './span.ts';

/** The line whose joints are placed, among the lines that stand. */
export interface JointBench {
  readonly world: LinesWorld;
  readonly line: Line;
  readonly placed: LineObstacles | null;
  /** How the line lay before: it goes through where it did, where that still does. */
  readonly near?: NearLine | null;
}

/** A fitting or grommet that a line wants, with what goes through it. */
export interface WantedJoint {
  readonly joint: Passed | (LineJoint & { readonly kind: 'bulkhead-fitting' | 'tee' });
  readonly odMm: number;
  readonly dash: number | undefined;
  /** Of a tube: from a port to where it has made one bend, roughly [mm]; undefined for a hose. */
  readonly reachMm?: number | undefined;
}

export type PieceSize = Pick<WantedJoint, 'odMm' | 'dash' | 'reachMm'>;

/** Places tried for a crossing that the car file leaves open. */
const CROSSINGS_TRIED = 3;
/** Panel or rubber round what goes through [mm]; common practice, no source. */
const WEB_MM = 4;
/** A fitting's nut across its corners, in diameters of its hose, before its row is known. */
const FITTING_ODS = 0.8;

/** What stands between the pieces of a line, in order; grommets in the pieces they belong to. */
export function wantedJoints(spans: readonly LineSpan[], sizeOf: (n: number) => PieceSize): WantedJoint[] {
  return spans.flatMap((span, n) => {
    const passes = span.passes.map((joint): WantedJoint => ({ joint, ...sizeOf(n) }));
    const { to } = span;
    return n < spans.length - 1 && (to.kind === 'bulkhead-fitting' || to.kind === 'tee')
      ? [...passes, { joint: to, ...sizeOf(n) }]
      : passes;
  });
}

/** Every set of places for what is wanted: as the car says, or the best few the tool finds. */
export function* placedJoints(
  bench: JointBench,
  wanted: readonly WantedJoint[],
  a: SpanEnd,
  b: SpanEnd,
): Generator<PlacedJoint[]> {
  const found = wanted.map((w, i): readonly PlacedJoint[] => {
    if (w.joint.kind === 'tee') return teesThrough(bench, w, i + 1, a, b);
    const before = w.joint.atMm === undefined ? placeBefore(bench, wanted, i) : null;
    const places =
      before !== null
        ? [before]
        : w.joint.atMm === undefined
          ? crossingPlaces(bench, w, a, b)
          : [fixedPlace(bench, w, a, b)];
    return places.map((place) => placedJoint(bench, w, place, i + 1));
  });
  const most = Math.max(1, ...found.map((joints) => joints.length));
  for (let n = 0; n < most; n++) {
    const placed = found.map((joints) => joints[Math.min(n, joints.length - 1)]);
    if (placed.every((p) => p !== undefined)) yield placed;
  }
}

/** Why a tee that the line wants cannot be run through; null where all can. */
export function unfitTee({ world, line }: JointBench, wanted: readonly WantedJoint[]): string | null {
  const tees = wanted
    .filter((w) => w.joint.kind === 'tee')
    .map((w) => midTee(world, line, w.joint.part, w.joint.faces));
  return tees.flatMap((tee) => ('missing' in tee ? [tee.missing] : []))[0] ?? null;
}

/** A tee run through; where either way would do, first the one that has the shorter way to its ports. */
function teesThrough(
  { world, line }: JointBench,
  { joint }: WantedJoint,
  n: number,
  a: SpanEnd,
  b: SpanEnd,
): PlacedJoint[] {
  const tee = midTee(world, line, joint.part, joint.faces);
  if ('missing' in tee) return [];
  const [p, q] = tee.run;
  const runs: MidTee['run'][] = tee.turnable
    ? [
        [p, q],
        [q, p],
      ]
    : [[p, q]];
  const lengthMm = ([from, to]: MidTee['run']): number => distance(a.at, from.at) + distance(to.at, b.at);
  return runs.sort((r, s) => lengthMm(r) - lengthMm(s)).map((run) => teeJoint(world, line, run, n));
}

function placedJoint(
  { world, line }: JointBench,
  { joint, odMm, dash }: WantedJoint,
  place: { at: Vec; direction: Vec },
  n: number,
): PlacedJoint {
  const row = joint.kind === 'grommet' ? null : (world.shelf.bulkheadFittings.find((r) => r.a.dash === dash) ?? null);
  return {
    kind: joint.kind,
    label: `${line.id} joint ${n}`,
    part: joint.part,
    ...place,
    row,
    holeRadiusMm: (row?.bodyOdMm ?? odMm) / 2 + WEB_MM,
  };
}

/** A place that the car file fixes; without a direction the line runs square through the panel there, towards its end. */
function fixedPlace(bench: JointBench, wanted: WantedJoint, a: SpanEnd, b: SpanEnd): Crossed {
  const { faces, atMm } = wanted.joint;
  const at = atMm!;
  if (faces !== undefined) return { at, direction: directionOf(faces) };
  const over = unit(sub(b.at, a.at));
  const face = crossingWish(bench, wanted)?.face;
  const normal = face?.placeAt(...face.coordinates(at))?.normal;
  if (normal === undefined) return { at, direction: over };
  return { at, direction: dot(normal, over) >= 0 ? normal : scale(normal, -1) };
}

/** Where the line went through before; null where it did not, or there is no room for it now. */
function placeBefore(bench: JointBench, wanted: readonly WantedJoint[], n: number): Crossed | null {
  const near = bench.near ?? null;
  const wish = near === null ? null : crossingWish(bench, wanted[n]!);
  if (near === null || wish === null) return null;
  const { kind } = wanted[n]!.joint;
  const before = wanted.slice(0, n).filter((w) => w.joint.kind !== 'grommet');
  const fitting = before.filter((w) => w.joint.kind === kind).length;
  const hose = near.hoses[before.length];
  const solid = panelSolid(bench.world.bay.partById.get(wanted[n]!.joint.part)!)!;
  const lay =
    kind !== 'grommet'
      ? near.fittings[fitting]
      : hose && nearestTo(hose, (x, y, z) => Math.abs(solid.distance(x, y, z)));
  if (lay === undefined) return null;
  const place = wish.face.placeAt(...wish.face.coordinates(lay.at));
  if (place === null || !isHoleFree(wish, place)) return null;
  const direction = dot(place.normal, lay.direction) >= 0 ? place.normal : scale(place.normal, -1);
  return { at: place.at, direction: kind === 'grommet' ? withinLean(direction, lay.direction) : direction };
}

/** The joints that the tool may move: those whose place the car file leaves open. */
export const movables = (bench: JointBench, wanted: readonly WantedJoint[]): Movable[] =>
  wanted.flatMap((w, n) => {
    const wish = w.joint.atMm === undefined && w.joint.kind !== 'tee' ? crossingWish(bench, w) : null;
    return wish === null ? [] : [{ n, wish }];
  });

/** What a place for a joint on its panel must leave free; null where the part has no sheet to cross. */
export function crossingWish(bench: JointBench, { joint, odMm }: WantedJoint): CrossingWish | null {
  const { world, placed } = bench;
  const part = world.bay.partById.get(joint.part);
  const solid = part === undefined ? null : panelSolid(part);
  if (solid === null) return null;
  const holeRadiusMm = joint.kind === 'grommet' ? odMm / 2 + WEB_MM : odMm * FITTING_ODS + WEB_MM;
  const taken = [
    ...(placed?.ids ?? []).flatMap((id) => crossedAt(placed!, id, solid)),
    ...fixedHoles(bench, joint.part),
  ];
  return { face: panelFace(solid), holeRadiusMm, taken, count: CROSSINGS_TRIED };
}

/** Where the car file has other lines cross this part. */
function fixedHoles({ world, line }: JointBench, part: string): Hole[] {
  return world.car.lines
    .filter((other) => other.id !== line.id)
    .flatMap((other) =>
      other.through
        .filter((t) => t.part === part && t.atMm !== undefined && t.kind !== 'tee')
        .map((t) => ({ at: t.atMm!, holeRadiusMm: FITTING_ODS * widthMm(other) + WEB_MM })),
    );
}

/** About how wide a line is that is not worked out yet [mm]: its dash in sixteenths of an inch, and the wall of a hose. */
const widthMm = (line: Line): number => (line.boreMm ?? ((line.dash ?? 0) * 25.4) / 16) + 2 * HOSE_WALL_MM;
const HOSE_WALL_MM = 3;

function crossingPlaces(bench: JointBench, wanted: WantedJoint, a: SpanEnd, b: SpanEnd): { at: Vec; direction: Vec }[] {
  const { joint, odMm, reachMm } = wanted;
  const wish = crossingWish(bench, wanted);
  if (wish === null) return [];
  const span = { a, b, odMm, minBendRadiusMm: odMm, far: farReading(bench.world, bench.line, bench.placed, []) };
  const found = crossings(span, clearance(span), wish);
  const first = found[0];
  if (joint.kind !== 'grommet' || reachMm === undefined || first === undefined) return found;
  const free = (p: Crossed): Crossed[] => {
    const place = wish.face.placeAt(...wish.face.coordinates(p.at));
    if (place === null || !isHoleFree(wish, place)) return [];
    return [{ at: place.at, direction: dot(place.normal, p.direction) >= 0 ? place.normal : scale(place.normal, -1) }];
  };
  // A hole in the way of such a place is passed beside it, still in line with the end.
  const firstFree = (placeOff: (slideMm: number) => Crossed): Crossed[] =>
    SLIDES_MM.flatMap((slideMm) => free(placeOff(slideMm))).slice(0, 1);
  const good = [a, b].flatMap((end) => [
    ...found.slice(0, LINED_UP).flatMap((place) => firstFree((slideMm) => linedUp(place, end, slideMm))),
    ...REACHES.flatMap((k) => firstFree((slideMm) => oneBendOff(first, end, k * reachMm + slideMm))),
  ]);
  return [...good, ...found].filter((p, i, all) => all.findIndex((q) => distance(p.at, q.at) < SAME_PLACE_MM) === i);
}

const SAME_PLACE_MM = 6;
/** How far out of the port the one bend is tried, in reaches. */
const REACHES = [1, 1.4] as const;
/** Beside a hole in the way such places are tried so far off, the nearest first [mm]. */
const SLIDES_MM = [0, 8, -8, 16, -16, 24, -24, 36, -36, 48, -48, 64, -64, 80, -80] as const;

/** The crossing that one bend so far out of the end leads to; straight out where the end faces the panel. */
export function oneBendOff(place: Crossed, end: Pick<SpanEnd, 'at' | 'faces'>, reachMm: number): Crossed {
  const { at, direction } = place;
  const corner = addScaled(end.at, end.faces, norm(cross(direction, end.faces)) < PARALLEL ? 0 : reachMm);
  return { at: addScaled(corner, direction, dot(sub(at, corner), direction)), direction };
}

/** Crossings moved into line with the ends, to save a bend. */
const LINED_UP = 2;

/** The crossing moved across the panel until one bend leads from it to the end's axis, or none where the two are parallel. */
export function linedUp(place: Crossed, end: Pick<SpanEnd, 'at' | 'faces'>, slideMm = 0): Crossed {
  const { at, direction } = place;
  const square = cross(direction, end.faces);
  const off = sub(end.at, at);
  if (norm(square) < PARALLEL) {
    const sideways = sub(off, scale(direction, dot(off, direction)));
    return { at: add(at, sideways), direction };
  }
  const w = unit(square);
  return { at: addScaled(addScaled(at, w, dot(off, w)), cross(direction, w), slideMm), direction };
}

const PARALLEL = 1e-3;

interface Crossed {
  readonly at: Vec;
  readonly direction: Vec;
}

/** Path points stand 3 mm apart: one within this of a thin panel is in it. */
const THROUGH_MM = 2;

/** Where a placed line goes through a solid. */
function crossedAt(placed: LineObstacles, id: string, solid: Solid): Hole[] {
  const out: Hole[] = [];
  for (const { path, radiusMm } of placed.bodiesOf(id)) {
    for (let i = 0; i + 2 < path.length; i += 3) {
      const at: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
      if (solid.distance(...at) > THROUGH_MM) continue;
      const last = out.at(-1);
      const apart = last === undefined ? Number.POSITIVE_INFINITY : Math.hypot(...sub(at, last.at));
      if (apart > 4 * radiusMm) out.push({ at, holeRadiusMm: radiusMm + WEB_MM });
    }
  }
  return out;
}
