import type { Catalogue } from '#standards';
import type { Pen, Shape, Spot } from './drawing.ts';
import type { FlatBody, StripItem } from './make-up-parts.ts';
import { ahead, band, beside, lengthOf, type Pose, turnOf, walked } from './unrolled.ts';

/** How large a strip draws: drawing units to the millimetre, and its pens. */
export interface StripScale {
  readonly scale: number;
  readonly pen: Pen;
  readonly thin: Pen;
}

export type FittingItem = Extract<StripItem, { kind: 'fitting' }>;

export interface DrawnFitting {
  readonly shapes: readonly Shape[];
  readonly end: Pose;
  /** The middle of the fitting, for its number. */
  readonly middle: Pose;
  readonly halfWidth: number;
}

/** A turn less than this is a straight stretch [rad]. */
const BENT_RAD = 0.05;

/** A fitting drawn from the hose outwards to its port; `bodies` in that order, bends to `side`. */
export function drawnFitting(
  item: FittingItem,
  bodies: readonly FlatBody[],
  from: Pose,
  side: 1 | -1,
  look: StripScale,
  catalogue: Catalogue,
): DrawnFitting {
  const row = [...catalogue.adapters, ...catalogue.bulkheadFittings].find((r) => r.id === item.row);
  const isSoft = row?.a.type === 'hose-bore' && item.part === 'adapter';
  // A spigot with a hose over either end comes as three stretches.
  const isJoiner = item.part === 'adapter' && bodies.length === 3;
  const shapes: Shape[] = [];
  let pose = from;
  const walks = bodies.map((body) => {
    const walk = walked(pose, body.steps, look.scale, side);
    const stretch = { body, spots: walk.spots, from: pose, end: walk.end };
    pose = walk.end;
    return stretch;
  });
  for (const [i, walk] of walks.entries()) {
    const width = walk.body.odMm * look.scale;
    if (item.part === 'hose-end') shapes.push(...hoseEndPart(walk, i, walks.length, width, look));
    else if (isSoft || isJoiner)
      shapes.push(outline(walk.spots, width, look.pen, isJoiner && i === 1 ? 'steel' : 'soft', width));
    else if (turnOf(walk.body.steps) > BENT_RAD) shapes.push(...elbow(walk, width, look));
    else shapes.push(...straightBody(walk, width, look));
  }
  const widest = Math.max(...bodies.map((body) => body.odMm)) * look.scale;
  if (row !== undefined && 'restrictorMm' in row && row.restrictorMm !== undefined)
    shapes.push(...restrictor(walks[0]!.from, pose, widest, look));
  if (row?.clock === 'banjo')
    shapes.push({ kind: 'circle', centre: pose.at, radius: widest / 2, fill: 'steel', pen: look.pen });
  if (item.part === 'bulkhead-fitting') shapes.push(...wall(midway(from, pose), widest, look));
  return { shapes, end: pose, middle: middleOf(walks), halfWidth: widest / 2 };
}

interface Walk {
  readonly body: FlatBody;
  readonly spots: readonly Spot[];
  readonly from: Pose;
  readonly end: Pose;
}

const midway = (a: Pose, b: Pose): Pose => ({
  at: [(a.at[0] + b.at[0]) / 2, (a.at[1] + b.at[1]) / 2],
  headingRad: b.headingRad,
});

/** The number of a hose end hangs on its nut, that of anything else in its middle. */
function middleOf(walks: readonly Walk[]): Pose {
  const last = walks.at(-1)!;
  if (walks.length > 1) return midway(last.from, last.end);
  const total = turnOf(last.body.steps);
  if (total <= BENT_RAD) return midway(last.from, last.end);
  let turned = 0;
  const half = last.body.steps.findIndex((step) => (turned += step.turnRad) >= total / 2);
  return { at: last.spots[half]!, headingRad: last.from.headingRad + turnedBy(last) / 2 };
}

const turnedBy = (walk: Walk): number => walk.end.headingRad - walk.from.headingRad;

function outline(
  spots: readonly Spot[],
  width: number,
  pen: Pen,
  look: 'steel' | 'card' | 'soft',
  pitch: number,
): Shape {
  return {
    kind: 'polyline',
    points: band(spots, width),
    isClosed: true,
    pen,
    fill: look === 'steel' ? 'steel' : 'card',
    ...(look === 'soft' ? { hatch: { role: 'soft', pitch: pitch * 0.22 } as const } : {}),
  };
}

/** Socket next to the hose, neck, nut next to its seat. */
function hoseEndPart(walk: Walk, i: number, count: number, width: number, look: StripScale): Shape[] {
  if (i === count - 1) return hex(walk.from, walk.end, width, look);
  const plain = outline(walk.spots, width, look.pen, 'card', width);
  if (i > 0) return [plain];
  return [plain, ...[0.35, 0.65].map((share) => across(along(walk.from, walk.end, share), width, look.thin))];
}

const along = (a: Pose, b: Pose, share: number): Pose => ({
  at: [a.at[0] + (b.at[0] - a.at[0]) * share, a.at[1] + (b.at[1] - a.at[1]) * share],
  headingRad: b.headingRad,
});

const across = (pose: Pose, width: number, pen: Pen): Shape => ({
  kind: 'line',
  from: beside(pose, width / 2),
  to: beside(pose, -width / 2),
  pen,
});

/** A hex seen from its side: two edges run along it. */
function hex(from: Pose, to: Pose, width: number, look: StripScale): Shape[] {
  const edge = (share: number): Shape => ({
    kind: 'line',
    from: beside({ ...from, headingRad: to.headingRad }, width * share),
    to: beside(to, width * share),
    pen: look.thin,
  });
  return [outline([from.at, to.at], width, look.pen, 'steel', width), edge(0.25), edge(-0.25)];
}

/** Share of a straight adapter that is hex, at the port's side, and how thick the rest is of it. */
const HEX_SHARE = 0.5;
const NECK_SHARE = 0.68;

function straightBody(walk: Walk, width: number, look: StripScale): Shape[] {
  const from = { ...walk.from, headingRad: walk.end.headingRad };
  const joint = along(from, walk.end, 1 - HEX_SHARE);
  return [
    outline([from.at, joint.at], width * NECK_SHARE, look.pen, 'card', width),
    ...hex(joint, walk.end, width, look),
  ];
}

function elbow(walk: Walk, width: number, look: StripScale): Shape[] {
  const nutLength = Math.min(width * 0.35, lengthOf(walk.body.steps) * look.scale * 0.25);
  const nutFrom: Pose = { at: ahead(walk.end, -nutLength), headingRad: walk.end.headingRad };
  return [outline(walk.spots, width * NECK_SHARE, look.pen, 'steel', width), ...hex(nutFrom, walk.end, width, look)];
}

/** An orifice: the bore drawn down to a small hole. */
function restrictor(from: Pose, to: Pose, width: number, look: StripScale): Shape[] {
  const at = along(from, to, 0.72);
  return [
    across(at, width * 0.72, { ...look.pen, width: look.pen.width * 2.4 }),
    { kind: 'circle', centre: at.at, radius: width * 0.11, fill: 'card', pen: look.thin },
  ];
}

/** The wall that a bulkhead fitting goes through. */
function wall(at: Pose, width: number, look: StripScale): Shape[] {
  const thickness = look.pen.width * 3.2;
  const spots = [beside(at, -width * 1.15), beside(at, width * 1.15)];
  return [
    {
      kind: 'polyline',
      points: band(spots, thickness),
      isClosed: true,
      fill: 'rule',
      pen: look.thin,
      hatch: { role: 'ink', pitch: thickness * 0.7 },
    },
  ];
}

/** The wall of the part with the port, and its boss. */
export function portBoss(at: Pose, width: number, thickness: number, look: StripScale): { shapes: Shape[]; end: Pose } {
  const face = { at: ahead(at, 0), headingRad: at.headingRad };
  const end: Pose = { at: ahead(at, thickness), headingRad: at.headingRad };
  return {
    shapes: [
      {
        kind: 'polyline',
        points: band([face.at, end.at], width),
        isClosed: true,
        fill: 'tape',
        pen: look.pen,
        hatch: { role: 'soft', pitch: thickness * 0.42 },
      },
    ],
    end,
  };
}
