import { type LineObstacles, type Solid, type Vec, sub, unit } from '#geometry';
import type { LineJoint, LineSpan, Passed } from '../../make-up/line-spans.ts';
import { clearance } from '../clearance.ts';
import { crossings } from '../crossing.ts';
import { farReading } from '../far-reading.ts';
import { type PlacedJoint, directionOf, panelSolid } from '../joints.ts';
import type { SpanEnd } from '../span.ts';
import type { TubeBench } from './hard-tube.ts';

/** A fitting or grommet that a line wants, with what goes through it. */
export interface WantedJoint {
  readonly joint: Passed | (LineJoint & { readonly kind: 'bulkhead-fitting' | 'tee' });
  readonly odMm: number;
  readonly dash: number | undefined;
}

/** Places tried for a crossing that the car file leaves open. */
const CROSSINGS_TRIED = 3;
/** Panel or rubber round what goes through [mm]; common practice, no source. */
const WEB_MM = 4;
/** A fitting's nut across its corners, in diameters of its hose, before its row is known. */
const FITTING_ODS = 0.8;

/** What stands between the pieces of a line, in order; grommets in the pieces they belong to. */
export function wantedJoints(spans: readonly LineSpan[], sizeOf: (n: number) => { odMm: number; dash: number | undefined }): WantedJoint[] {
  return spans.flatMap((span, n) => {
    const passes = span.passes.map((joint): WantedJoint => ({ joint, ...sizeOf(n) }));
    const { to } = span;
    return n < spans.length - 1 && (to.kind === 'bulkhead-fitting' || to.kind === 'tee') ? [...passes, { joint: to, ...sizeOf(n) }] : passes;
  });
}

/** Every set of places for what is wanted: as the car says, or the best few the tool finds. */
export function* placedJoints(bench: TubeBench, wanted: readonly WantedJoint[], a: SpanEnd, b: SpanEnd): Generator<PlacedJoint[]> {
  const found = wanted.map((w) => (w.joint.atMm === undefined ? crossingPlaces(bench, w, a, b) : [fixedPlace(w, a, b)]));
  const most = Math.max(1, ...found.map((places) => places.length));
  for (let n = 0; n < most; n++) {
    const placed = wanted.map((w, i) => {
      const place = found[i]![Math.min(n, found[i]!.length - 1)];
      return place === undefined ? null : placedJoint(bench, w, place, i + 1);
    });
    if (placed.every((p) => p !== null)) yield placed;
  }
}

function placedJoint({ world, line }: TubeBench, { joint, odMm, dash }: WantedJoint, place: { at: Vec; direction: Vec }, n: number): PlacedJoint {
  const row = joint.kind === 'grommet' ? null : (world.shelf.bulkheadFittings.find((r) => r.a.dash === dash) ?? null);
  return { kind: joint.kind, label: `${line.id} joint ${n}`, part: joint.part, ...place, row, holeRadiusMm: (row?.bodyOdMm ?? odMm) / 2 + WEB_MM };
}

function fixedPlace({ joint }: WantedJoint, a: SpanEnd, b: SpanEnd): { at: Vec; direction: Vec } {
  return { at: joint.atMm!, direction: joint.faces === undefined ? unit(sub(b.at, a.at)) : directionOf(joint.faces) };
}

function crossingPlaces(bench: TubeBench, { joint, odMm }: WantedJoint, a: SpanEnd, b: SpanEnd): { at: Vec; direction: Vec }[] {
  const { world, line, placed } = bench;
  const part = world.bay.partById.get(joint.part);
  const solid = part === undefined ? null : panelSolid(part);
  if (solid === null) return [];
  const span = { a, b, odMm, minBendRadiusMm: odMm, far: farReading(world, line, placed, []) };
  const holeRadiusMm = joint.kind === 'grommet' ? odMm / 2 + WEB_MM : odMm * FITTING_ODS + WEB_MM;
  const taken = (placed?.ids ?? []).flatMap((id) => crossedAt(placed!, id, solid));
  return crossings(span, clearance(span), { solid, holeRadiusMm, taken, count: CROSSINGS_TRIED });
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
