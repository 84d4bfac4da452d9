import type { BayPart } from '#bay';
import type { Line } from '#car';
import { type Body, type Solid, type Vec, addScaled, scale, unit } from '#geometry';
import type { BulkheadFittingRow, HoseRow } from '#standards';
import { endMakeUps } from '../make-up/end-make-ups.ts';
import type { EndMakeUp } from '../make-up/end-make-up.ts';
import { type LinesWorld, portOf } from '../world.ts';
import { panelFlat } from './panel-flat.ts';
import type { Passage } from './far-reading.ts';
import { EASED_MM, beside, nearLengthMm, restOf, solidsBeside } from './near-items.ts';
import type { NearItem, SpanEnd } from './span.ts';

/** A fitting between two pieces, placed. */
export interface PlacedJoint {
  readonly kind: 'bulkhead-fitting' | 'tee' | 'grommet';
  readonly label: string;
  readonly part: string;
  readonly at: Vec;
  /** Direction of travel from the line's start to its end. */
  readonly direction: Vec;
  /** The fitting's own row; null for a grommet. */
  readonly row: BulkheadFittingRow | null;
  readonly holeRadiusMm: number;
  /** Of a part of the car that the line runs through: its ports, where the line comes in and where it goes on. */
  readonly ports?: readonly [string, string];
}

export type EndAnswer = { readonly end: SpanEnd } | { readonly missing: string };

/** A line's end at a port: every make-up the catalogue has for it, and what stands near. */
export function portEnd(world: LinesWorld, line: Line, ref: string, hose: HoseRow): EndAnswer {
  const port = portOf(world, ref);
  const restrictorMm = port.port.restrictorMm;
  const made = endMakeUps(
    { end: port.end, ...(restrictorMm === undefined ? {} : { restrictorMm }) },
    hose,
    world.shelf,
    {
      box: world.box,
      duty: line.duty,
    },
  );
  if ('missing' in made) return { missing: `${ref}: ${made.missing}` };
  const near = beside(world, port, line, widestFace(made.makeUps, hose));
  const end: SpanEnd = {
    label: ref,
    at: port.at,
    faces: port.faces,
    partId: port.partId,
    moverId: world.bay.partById.get(port.partId)?.moverId ?? null,
    makeUps: made.makeUps,
    nearItems: near.items,
    rest: near.rest,
    nearMm: nearLengthMm(port),
  };
  const eased = (): SpanEnd => {
    const { eased: _, rest: __, ...bare } = end;
    return { ...bare, nearItems: solidsBeside(world, port), nearMm: Math.max(end.nearMm, EASED_MM) };
  };
  return { end: { ...end, eased } };
}

/** Radius of what stands on the port face: the first fitting, or the hose itself where it is pushed over a spigot [mm]. */
const widestFace = (makeUps: readonly EndMakeUp[], hose: HoseRow): number =>
  Math.max(...makeUps.map((m) => (m.stages.find((s) => s.kind === 'straight')?.odMm ?? hose.odMm) / 2));

/** One side of a fitting between two pieces: `side` -1 looks back to the line's start, +1 on to its end. */
export function jointEnd(world: LinesWorld, line: Line, joint: PlacedJoint, hose: HoseRow, side: -1 | 1): EndAnswer {
  const row = joint.row!;
  const faces = scale(joint.direction, side);
  const made = endMakeUps({ end: side === -1 ? row.a : row.b }, hose, world.shelf, { box: world.box, duty: line.duty });
  if ('missing' in made) return { missing: `${joint.label}: ${made.missing}` };
  const at = addScaled(joint.at, faces, row.lengthMm / 2);
  const part = world.bay.partById.get(joint.part);
  const nearItems = part === undefined ? [] : ownItems(part);
  return {
    end: {
      label: sideLabel(joint, side),
      at,
      faces,
      partId: joint.part,
      moverId: part?.moverId ?? null,
      makeUps: made.makeUps,
      nearItems,
      rest: restOf(world, line, nearItems),
      nearMm: 60,
    },
  };
}

/** What one side of a joint is called: the port there, where it has one. */
export const sideLabel = ({ ports, label }: PlacedJoint, side: -1 | 1): string => ports?.[side === -1 ? 0 : 1] ?? label;

const ownItems = (part: BayPart): NearItem[] =>
  part.solids.map((solid) => ({ part: part.id, solid, keepOffMm: 0, own: true }));

/** The solid of a part that a line crosses: its thinnest. */
export function panelSolid(part: BayPart): Solid | null {
  let best: Solid | null = null;
  for (const solid of part.solids) {
    if (best === null || panelFlat(solid).halfThickness < panelFlat(best).halfThickness) best = solid;
  }
  return best;
}

/** Where a part does not count because the line passes it there. */
export const passageOf = (joint: PlacedJoint, odMm: number): Passage => ({
  part: joint.part,
  at: joint.at,
  zoneMm: Math.max(joint.holeRadiusMm, odMm / 2) + PASSAGE_MM + (joint.row === null ? 0 : joint.row.lengthMm / 2),
});

/** Beyond the hole a line needs this much to be clear of the panel's keep-off [mm]. */
const PASSAGE_MM = 12;

/** The body of a fitting, from one sealing face to the other. */
export function jointBody(joint: PlacedJoint): (Body & { readonly row: string }) | null {
  if (joint.row === null) return null;
  const half = joint.row.lengthMm / 2;
  const steps = Math.ceil((2 * half) / 2.95);
  const points: number[] = [];
  for (let n = 0; n <= steps; n++) points.push(...addScaled(joint.at, joint.direction, -half + (2 * half * n) / steps));
  return { part: joint.kind, row: joint.row.id, path: Float64Array.from(points), radiusMm: joint.row.bodyOdMm / 2 };
}

export const directionOf = (faces: Vec): Vec => unit(faces);

/** How well the end of a hose is known; joints inside the line are where the builder drills them. */
export function knownAt(world: LinesWorld, end: SpanEnd): { knownToMm: number; facingKnownDeg: number } {
  const port = world.bay.ports.get(end.label);
  return { knownToMm: port?.knownToMm ?? DRILLED_MM, facingKnownDeg: port?.facingKnownDeg ?? DRILLED_DEG };
}

/** A hole drilled to the plan [mm], and how square it is [deg]: common practice, no source. */
const DRILLED_MM = 2;
const DRILLED_DEG = 2;
