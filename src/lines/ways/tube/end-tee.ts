import { type Solid, type Vec, addScaled, distance, scale } from '#geometry';
import type { Line, Through } from '#car';
import type { HoseRow } from '#standards';
import { type LinesWorld, portOf } from '../../world.ts';
import { type PlacedJoint, directionOf } from '../joints.ts';
import { restOf } from '../near-items.ts';
import type { SpanEnd } from '../span.ts';

/** A tee that is a part of the car and sits straight on the port where the line ends. */
export interface EndTee {
  readonly joint: PlacedJoint;
  /** The tee's spigot that faces the line. */
  readonly at: Vec;
  readonly faces: Vec;
  readonly through: Through;
}

/** A tee counts as sitting on a port within this [mm]. */
const ON_PORT_MM = 8;
const REACH_MM = 400;
const FEEL_MM = 0.25;

/**
 * The tee at the end of a line, if there is one: the last thing it is led through, whose far side meets the line's port. The
 * line's last hose goes on its near spigot; the tee itself is joined to the port butt to butt.
 */
export function endTee(world: LinesWorld, line: Line): EndTee | null {
  const through = line.through.at(-1);
  if (through === undefined || through.kind !== 'tee' || through.atMm === undefined || through.faces === undefined)
    return null;
  const part = world.bay.partById.get(through.part);
  if (part === undefined) return null;
  const direction = directionOf(through.faces);
  const solid = part.solids.find((s) => s.distance(...through.atMm!) <= 0);
  if (solid === undefined) return null;
  const near = surfaceAlong(solid, through.atMm, scale(direction, -1));
  const far = surfaceAlong(solid, through.atMm, direction);
  if (near === null || far === null || distance(far, portOf(world, line.to).at) > ON_PORT_MM) return null;
  const port = portOf(world, line.to);
  const lengthMm = distance(near, port.at);
  const odMm = port.end.odMm ?? line.boreMm ?? 0;
  return {
    joint: {
      kind: 'tee',
      label: `${line.id} tee`,
      part: part.id,
      at: addScaled(near, direction, lengthMm / 2),
      direction,
      row: {
        id: part.id,
        name: part.name,
        a: port.end,
        b: port.end,
        lengthMm,
        angleDeg: 0,
        bodyOdMm: odMm,
        hexMm: 0,
        boreMm: line.boreMm ?? odMm,
        clock: 'none',
        seals: [],
        source: 'builder',
        measure: true,
        panelMaxMm: 0,
        holeMm: 0,
      },
      holeRadiusMm: odMm / 2,
    },
    at: near,
    faces: scale(direction, -1),
    through,
  };
}

/** Where a ray from inside leaves a solid: stepped, then halved. */
function surfaceAlong(solid: Solid, from: Vec, along: Vec): Vec | null {
  let inside = 0;
  for (let s = 0; s <= REACH_MM; s += FEEL_MM) {
    if (solid.distance(...addScaled(from, along, s)) <= 0) {
      inside = s;
      continue;
    }
    let out = s;
    for (let n = 0; n < 30; n++) {
      const mid = (inside + out) / 2;
      if (solid.distance(...addScaled(from, along, mid)) <= 0) inside = mid;
      else out = mid;
    }
    return addScaled(from, along, inside);
  }
  return null;
}

/** The tee's spigot as an end of the line's last piece: the port's own make-ups, the tee's place. */
export function teeEnd(portEnd: SpanEnd, tee: EndTee, world: LinesWorld, line: Line): SpanEnd {
  const part = world.bay.partById.get(tee.joint.part)!;
  const own = part.solids.map((solid) => ({ part: part.id, solid, keepOffMm: 0, own: true }));
  const nearItems = [
    ...own,
    ...portEnd.nearItems.map((n) => ({ ...n, own: false, keepOffMm: Math.max(0, n.keepOffMm) })),
  ];
  return {
    ...portEnd,
    label: tee.joint.label,
    at: tee.at,
    faces: tee.faces,
    partId: part.id,
    moverId: part.moverId,
    nearItems,
    rest: restOf(world, line, nearItems),
  };
}

/** What joins the tee to the port: said on the card, as the line's pieces end on the tee. */
export const teeJointText = (line: Line, tee: EndTee, hose: HoseRow, insertMm: number): string =>
  `${tee.joint.part} is joined to ${line.to} butt to butt: ${Math.ceil(2 * insertMm)} mm of ${hose.name} over both spigots, a clamp on each`;
