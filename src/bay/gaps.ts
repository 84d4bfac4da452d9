import type { Line, PartClass } from '#car';
import {
  type Body,
  bodyGap,
  type BodyGap,
  bodyShape,
  boundsApart,
  type RigidMotion,
  type Solid,
  type Vec,
} from '#geometry';
import type { Bay } from './bay.ts';
import type { BayPart } from './bay-part.ts';
import type { BayPort } from './bay-port.ts';
import { keepOff, type KeepOffRule } from './keep-off.ts';
import { type JointPose, jointPoses } from './movement.ts';
import { bridgedBodies } from './moved-line.ts';
import { type LineEnds, type Region, regions } from './near-port.ts';
import { solidsSeenFrom } from './moved-solids.ts';
import { lengthAlong, stretch } from './stretch.ts';

/** A line as it lies in the bay. */
export interface LineInBay {
  readonly line: Pick<Line, 'duty' | 'keepOffMm'>;
  /** Everything solid on it, from port face to port face, in order. */
  readonly bodies: readonly Body[];
  /** "part.port" of both ends. */
  readonly from: string;
  readonly to: string;
  /** Adapter, hose end and first straight at either port [mm]; at least 60 counts. */
  readonly nearMm: readonly [number, number];
  /** How far the hose may lie from where it is drawn, as it hangs [mm]. */
  readonly hangSpreadMm?: number;
  /** Where it passes through a part: from..to along the line that part does not count [mm]. */
  readonly crossings?: readonly { readonly part: string; readonly alongMm: readonly [number, number] }[];
  /** The line with its ends moved, as it hangs there; used where the ends stand on different movers. */
  readonly hung?: (from: RigidMotion, to: RigidMotion) => readonly Body[];
}

/** The least gap over the stretches of a line that have one limit to a part. */
export interface RegionGap {
  readonly near: boolean;
  readonly own: boolean;
  /** Nominal [mm]. */
  readonly gapMm: number;
  /** Nominal less both tolerances, relative movement and the spread of how the hose hangs [mm]. */
  readonly worstMm: number;
  readonly bestMm: number;
  /** The least over the poses of what moves, nothing else in doubt [mm]. */
  readonly movedMm: number;
  readonly keepOffMm: number;
  readonly atMm: Vec;
  readonly onMm: Vec;
}

export interface GapRow extends RegionGap {
  readonly part: string;
  readonly class: PartClass;
  /** The keep-off away from any port [mm]. */
  readonly ruleMm: number;
  /** Where the keep-off comes from. */
  readonly source: string;
  /** Where the least gap is near a port: the least one beyond; null else. */
  readonly beyond: RegionGap | null;
  /** Every region with a limit of its own. */
  readonly regions: readonly RegionGap[];
}

/** Gaps are right to this [mm]: a limit missed by less is met. */
export const GAP_KNOWN_MM = 0.05;

/**
 * The least gap to each part within `withinMm` at nominal, or whose keep-off fails at the worst of its movement; least margin
 * first. Movement is worked out at each pose with the solids moved, not bounded.
 */
export function gapsToParts(line: LineInBay, bay: Bay, withinMm = 150): readonly GapRow[] {
  const laid = laidOut(line, bay);
  const rows: GapRow[] = [];
  for (const part of bay.parts) {
    const row = gapRow(part, line, laid, bay, withinMm);
    if (row !== null) rows.push(row);
  }
  return rows.sort((a, b) => marginMm(a) - marginMm(b) || (a.part < b.part ? -1 : 1));
}

/** Gap less keep-off, the worst of the row's regions [mm]. */
export function marginMm(row: GapRow): number {
  return Math.min(...row.regions.map((r) => r.gapMm - r.keepOffMm));
}

export interface GapFault {
  readonly row: GapRow;
  readonly region: RegionGap;
  /** `nominal`: the limit is broken as drawn; `touched`: hot or moving is touched at worst; `worst`: broken only at worst. */
  readonly when: 'nominal' | 'touched' | 'worst';
}

/** Every limit of a row that is broken, nominal ones first. */
export function gapFaults(rows: readonly GapRow[]): readonly GapFault[] {
  const faults = rows.flatMap((row) =>
    row.regions.flatMap((region): GapFault[] => {
      if (region.gapMm < region.keepOffMm - GAP_KNOWN_MM) return [{ row, region, when: 'nominal' }];
      if (region.own) return [];
      if (row.class !== 'fixed' && region.worstMm < 0) return [{ row, region, when: 'touched' }];
      return region.worstMm < region.keepOffMm - GAP_KNOWN_MM ? [{ row, region, when: 'worst' }] : [];
    }),
  );
  const order = { nominal: 0, touched: 1, worst: 2 };
  return faults.sort(
    (a, b) =>
      order[a.when] - order[b.when] || a.region.gapMm - a.region.keepOffMm - (b.region.gapMm - b.region.keepOffMm),
  );
}

interface Laid extends LineEnds {
  readonly fromMover: string | null;
  readonly toMover: string | null;
  readonly knownToMm: number;
  /** The bodies with the ends moved; worked out once for each pose. */
  readonly at: (pose: JointPose) => readonly Body[];
}

function laidOut(line: LineInBay, bay: Bay): Laid {
  const from = bay.ports.get(line.from) ?? null;
  const to = bay.ports.get(line.to) ?? null;
  const mover = (port: BayPort | null): string | null =>
    port === null ? null : (bay.partById.get(port.partId)?.moverId ?? null);
  const hung = line.hung ?? ((a, b) => bridgedBodies(line.bodies, a, b, line.nearMm));
  const known: { readonly from: RigidMotion; readonly to: RigidMotion; readonly bodies: readonly Body[] }[] = [];
  return {
    bodies: line.bodies,
    lengthMm: lengthAlong(line.bodies),
    from,
    to,
    nearMm: line.nearMm,
    fromMover: mover(from),
    toMover: mover(to),
    knownToMm: Math.max(from?.knownToMm ?? 0, to?.knownToMm ?? 0),
    at: (pose) => {
      if (pose.from === pose.to) return line.bodies;
      const had = known.find((k) => k.from === pose.from && k.to === pose.to);
      if (had !== undefined) return had.bodies;
      const bodies = hung(pose.from, pose.to);
      known.push({ from: pose.from, to: pose.to, bodies });
      return bodies;
    },
  };
}

function gapRow(part: BayPart, line: LineInBay, laid: Laid, bay: Bay, withinMm: number): GapRow | null {
  if (part.solids.length === 0) return null;
  const rule = keepOff(bay, part, line.line);
  const skip = (line.crossings ?? []).filter((c) => c.part === part.id).map((c) => c.alongMm);
  const joint = jointPoses(bay.movers, { from: laid.fromMover, to: laid.toMover, part: part.moverId });
  const doubtMm = part.knownToMm + laid.knownToMm + (line.hangSpreadMm ?? 0);
  if (isFar(part, laid, joint, Math.max(withinMm, rule.mm + doubtMm))) return null;
  const stretches = regions(part, laid, rule.mm, skip);
  const found = byLimit(stretches).flatMap((group) => regionGap(group, part, laid, joint, doubtMm, withinMm));
  if (found.length === 0) return null;
  const least = found.reduce((a, b) => (b.gapMm < a.gapMm ? b : a));
  const failsAtWorst = found.some((r) => r.worstMm < r.keepOffMm);
  if (least.gapMm >= withinMm && !failsAtWorst) return null;
  return row(part, rule, least, found);
}

function row(part: BayPart, rule: KeepOffRule, least: RegionGap, found: readonly RegionGap[]): GapRow {
  const farther = found.filter((r) => !r.near);
  const beyond = least.near && farther.length > 0 ? farther.reduce((a, b) => (b.gapMm < a.gapMm ? b : a)) : null;
  const source = least.near ? `near a port (beyond: ${rule.mm} mm, ${rule.source})` : rule.source;
  return { part: part.id, class: part.class, ...least, ruleMm: rule.mm, source, beyond, regions: found };
}

/** Cheap: no pose brings part and line within `reachMm`. */
function isFar(part: BayPart, laid: Laid, joint: readonly JointPose[], reachMm: number): boolean {
  return joint.every((pose) => {
    const bodies = laid.at(pose);
    return solidsAt(part, laid, pose).every((solid) =>
      bodies.every((b) => boundsApart(bodyShape(b).bounds, solid.bounds) >= reachMm),
    );
  });
}

/** Regions of one kind and one limit, taken together. */
function byLimit(all: readonly Region[]): readonly (readonly Region[])[] {
  const groups = new Map<string, Region[]>();
  for (const r of all) {
    const key = `${r.near} ${r.own} ${r.limitMm}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [r]);
    else group.push(r);
  }
  return [...groups.values()];
}

/** A line whose ends go together stands still and the part moves past it; else everything moves as seen from the chassis. */
function solidsAt(part: BayPart, laid: Laid, pose: JointPose): readonly Solid[] {
  return solidsSeenFrom(part, laid.fromMover === laid.toMover ? pose.from : null, pose.part);
}

function regionGap(
  group: readonly Region[],
  part: BayPart,
  laid: Laid,
  joint: readonly JointPose[],
  doubtMm: number,
  withinMm: number,
): readonly RegionGap[] {
  const { near, own, limitMm } = group[0]!;
  // A port and its own part are measured as one: only its movement can bring them together, and it has none.
  const doubt = own ? 0 : doubtMm;
  const reach = Math.max(withinMm, limitMm + doubt);
  let nominal = leastOver(group, part, laid, joint[0]!, reach);
  let worst = nominal.gapMm;
  let best = nominal.gapMm;
  // What is near its own port goes with it, so no pose brings it nearer.
  for (const pose of own ? [] : joint.slice(1)) {
    const there = leastOver(group, part, laid, pose, reach + doubt).gapMm;
    worst = Math.min(worst, there);
    best = Math.max(best, there);
  }
  if (nominal.gapMm === Infinity) {
    if (worst - doubt >= limitMm) return [];
    nominal = leastOver(group, part, laid, joint[0]!, Infinity);
    worst = Math.min(worst, nominal.gapMm);
  }
  if (best === Infinity) best = Math.max(nominal.gapMm, reach);
  return [
    {
      near,
      own,
      gapMm: nominal.gapMm,
      worstMm: worst - doubt,
      bestMm: best + doubt,
      movedMm: worst,
      keepOffMm: limitMm,
      atMm: nominal.at,
      onMm: nominal.on,
    },
  ];
}

function leastOver(group: readonly Region[], part: BayPart, laid: Laid, pose: JointPose, beyondMm: number): BodyGap {
  const bodies = laid.at(pose);
  const longer = bodies === laid.bodies ? 0 : lengthAlong(bodies) - laid.lengthMm;
  // Lengths past the middle are counted from the other end, so that what is near that port stays near it.
  const along = (mm: number): number => (mm > laid.lengthMm / 2 ? mm + longer : mm);
  const solids = solidsAt(part, laid, pose);
  let least: BodyGap = { gapMm: Infinity, at: [0, 0, 0], on: [0, 0, 0] };
  for (const region of group) {
    for (const body of stretch(bodies, along(region.fromMm), along(region.toMm))) {
      for (const solid of solids) {
        const gap = bodyGap(body, solid, Math.min(beyondMm, least.gapMm));
        if (gap.gapMm < least.gapMm) least = gap;
      }
    }
  }
  return least;
}
