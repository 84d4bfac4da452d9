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
import type { LineJoint, LineSpan, Passed } from '../../make-up/line-spans.ts';
import { clearance } from '../clearance.ts';
import { crossings, panelFlat } from '../crossing.ts';
import { farReading } from '../far-reading.ts';
import { type PlacedJoint, directionOf, panelSolid } from '../joints.ts';
import type { SpanEnd } from '../span.ts';
import type { TubeBench } from './hard-tube.ts';

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
  bench: TubeBench,
  wanted: readonly WantedJoint[],
  a: SpanEnd,
  b: SpanEnd,
): Generator<PlacedJoint[]> {
  const found = wanted.map((w) =>
    w.joint.atMm === undefined ? crossingPlaces(bench, w, a, b) : [fixedPlace(w, a, b)],
  );
  const most = Math.max(1, ...found.map((places) => places.length));
  for (let n = 0; n < most; n++) {
    const placed = wanted.map((w, i) => {
      const place = found[i]![Math.min(n, found[i]!.length - 1)];
      return place === undefined ? null : placedJoint(bench, w, place, i + 1);
    });
    if (placed.every((p) => p !== null)) yield placed;
  }
}

function placedJoint(
  { world, line }: TubeBench,
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

function fixedPlace({ joint }: WantedJoint, a: SpanEnd, b: SpanEnd): { at: Vec; direction: Vec } {
  return { at: joint.atMm!, direction: joint.faces === undefined ? unit(sub(b.at, a.at)) : directionOf(joint.faces) };
}

function crossingPlaces(
  bench: TubeBench,
  { joint, odMm, reachMm }: WantedJoint,
  a: SpanEnd,
  b: SpanEnd,
): { at: Vec; direction: Vec }[] {
  const { world, line, placed } = bench;
  const part = world.bay.partById.get(joint.part);
  const solid = part === undefined ? null : panelSolid(part);
  if (solid === null) return [];
  const span = { a, b, odMm, minBendRadiusMm: odMm, far: farReading(world, line, placed, []) };
  const holeRadiusMm = joint.kind === 'grommet' ? odMm / 2 + WEB_MM : odMm * FITTING_ODS + WEB_MM;
  const taken = (placed?.ids ?? []).flatMap((id) => crossedAt(placed!, id, solid));
  const found = crossings(span, clearance(span), { solid, holeRadiusMm, taken, count: CROSSINGS_TRIED });
  const first = found[0];
  if (joint.kind !== 'grommet' || reachMm === undefined || first === undefined) return found;
  const isOpen = (at: Vec): boolean =>
    solid.distance(...at) <= ON_PANEL_MM &&
    taken.every((t) => distance(t.at, at) >= t.holeRadiusMm + holeRadiusMm + HOLES_APART_MM);
  const lined = [a, b].flatMap((end) => [
    ...found.slice(0, LINED_UP).map((place) => linedUp(place, end)),
    ...REACHES.map((k) => oneBendOff(first, end, k * reachMm)),
  ]);
  const good = lined.filter((p) => isOpen(p.at) && isInside(solid, p.at, holeRadiusMm));
  return [...good, ...found].filter((p, i, all) => all.findIndex((q) => distance(p.at, q.at) < SAME_PLACE_MM) === i);
}

const SAME_PLACE_MM = 6;
/** How far out of the port the one bend is tried, in reaches. */
const REACHES = [1, 1.4] as const;

/** The crossing that one bend so far out of the end leads to; straight out where the end faces the panel. */
export function oneBendOff(place: Crossed, end: Pick<SpanEnd, 'at' | 'faces'>, reachMm: number): Crossed {
  const { at, direction } = place;
  const corner = addScaled(end.at, end.faces, norm(cross(direction, end.faces)) < PARALLEL ? 0 : reachMm);
  return { at: addScaled(corner, direction, dot(sub(at, corner), direction)), direction };
}

/** Crossings moved into line with the ends, to save a bend. */
const LINED_UP = 2;
const ON_PANEL_MM = 0.01;
/** Panel left between two holes, and between a hole and the edge [mm]: common practice, no source. */
const HOLES_APART_MM = 12;

/** The crossing moved across the panel until one bend leads from it to the end's axis, or none where the two are parallel. */
export function linedUp(place: Crossed, end: Pick<SpanEnd, 'at' | 'faces'>): Crossed {
  const { at, direction } = place;
  const square = cross(direction, end.faces);
  const off = sub(end.at, at);
  if (norm(square) < PARALLEL) {
    const sideways = sub(off, scale(direction, dot(off, direction)));
    return { at: add(at, sideways), direction };
  }
  const w = unit(square);
  return { at: addScaled(at, w, dot(off, w)), direction };
}

const PARALLEL = 1e-3;

/** The hole with its web lies on the panel: looked at all round. */
function isInside(solid: Solid, at: Vec, holeRadiusMm: number): boolean {
  const flat = panelFlat(solid);
  const r = holeRadiusMm + HOLES_APART_MM;
  for (let n = 0; n < LOOKS; n++) {
    const angle = (2 * Math.PI * n) / LOOKS;
    const p = addScaled(addScaled(at, flat.u, r * Math.cos(angle)), flat.v, r * Math.sin(angle));
    if (solid.distance(...p) > ON_PANEL_MM) return false;
  }
  return true;
}

const LOOKS = 8;

interface Crossed {
  readonly at: Vec;
  readonly direction: Vec;
}

/** Path points stand 3 mm apart: one within this of a thin panel is in it. */
const THROUGH_MM = 2;

/** Where a placed line goes through a solid. */
function crossedAt(placed: LineObstacles, id: string, solid: Solid): { at: Vec; holeRadiusMm: number }[] {
  const out: { at: Vec; holeRadiusMm: number }[] = [];
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
