import { type Vec, distance, dot, norm, scale, sub, unit } from '#geometry';
import type { BayPort } from '#bay';
import type { Line } from '#car';
import type { LinesWorld } from '../world.ts';
import type { PlacedJoint } from './joints.ts';

/** A part of the car that a line runs through from one of its ports to another. */
export interface MidTee {
  /** The two ports that the line runs through, in its own order where that is fixed. */
  readonly run: readonly [BayPort, BayPort];
  /** The line may run through either way. */
  readonly turnable: boolean;
}

/** Run ports face opposite ways within this [deg], and stand on one axis within this [mm]: a port is measured, not machined here. */
const OPPOSITE_DEG = 5;
const ON_AXIS_MM = 5;

/**
 * The tee that a line runs through: the two ports of the part that face opposite ways on one axis and that no line begins or ends
 * at; the others are its branches. `faces` says which way the line runs through, else it may run either.
 */
export function midTee(world: LinesWorld, line: Line, partId: string, faces?: Vec): MidTee | { missing: string } {
  const used = new Set(world.car.lines.flatMap((other) => [other.from, other.to]));
  const ports = [...world.bay.ports.values()].filter((port) => port.partId === partId && !used.has(port.ref));
  const pairs = ports.flatMap((p, i) => ports.slice(i + 1).map((q): [BayPort, BayPort] => [p, q])).filter(areInLine);
  if (pairs.length === 0)
    return {
      missing: `${line.id}: ${partId} has no two free ports that face opposite ways on one axis: give the tee's run its ports, and end no line there`,
    };
  if (pairs.length > 1)
    return {
      missing: `${line.id}: ${partId} could be run through ${pairs.length} ways; leave it two free ports in line`,
    };
  const [p, q] = pairs[0]!;
  if (faces === undefined) return { run: [p, q], turnable: true };
  return { run: dot(sub(q.at, p.at), faces) >= 0 ? [p, q] : [q, p], turnable: false };
}

function areInLine([p, q]: readonly [BayPort, BayPort]): boolean {
  const over = sub(q.at, p.at);
  if (dot(p.faces, q.faces) > -Math.cos((OPPOSITE_DEG * Math.PI) / 180) || dot(over, q.faces) <= 0) return false;
  return norm(sub(over, scale(q.faces, dot(over, q.faces)))) <= ON_AXIS_MM;
}

/** The tee as a joint of the line, run through from its first port to its second. */
export function teeJoint(world: LinesWorld, line: Line, [p, q]: MidTee['run'], n: number): PlacedJoint {
  const part = world.bay.partById.get(p.partId)!;
  const lengthMm = distance(p.at, q.at);
  const odMm = Math.max(widthOf(p, line), widthOf(q, line));
  return {
    kind: 'tee',
    label: `${line.id} joint ${n}`,
    part: part.id,
    at: [(p.at[0] + q.at[0]) / 2, (p.at[1] + q.at[1]) / 2, (p.at[2] + q.at[2]) / 2],
    direction: unit(sub(q.at, p.at)),
    row: {
      id: part.id,
      name: part.name,
      a: p.end,
      b: q.end,
      lengthMm,
      angleDeg: 0,
      bodyOdMm: odMm,
      hexMm: 0,
      boreMm: odMm,
      clock: 'none',
      seals: [],
      source: 'builder',
      measure: true,
      panelMaxMm: 0,
      holeMm: 0,
    },
    holeRadiusMm: odMm / 2,
    ports: [p.ref, q.ref],
  };
}

/** The tube that a port takes [mm]: the tee's own walls are the part's, and stand in the car already. */
const widthOf = ({ end }: BayPort, line: Line): number =>
  end.odMm ?? (end.dash === undefined ? (line.boreMm ?? 0) : (end.dash * 25.4) / 16);
