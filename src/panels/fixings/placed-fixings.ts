import type { Point2 } from '#geometry';
import { panelFixing, sheetRule } from '#standards';
import { degOf, plus } from '../flat/lines.ts';
import type { FoldLine } from '../flat-pattern.ts';
import { holeBody, toStraight } from '../holes/hole-body.ts';
import type { LaidEdge, PlacedFixing, PlacedHole } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { spotsOnCurve } from './curved-fixings.ts';
import { type FixingLine, fixingLine, tabSpots } from './fixing-line.ts';
import { spotsAlong, type Stretch } from './spots-along.ts';

/** What fixings keep away from. */
export interface FixingRoom {
  readonly edges: readonly LaidEdge[];
  /** Radius of the corner at which each edge begins [mm]. */
  readonly radii: readonly number[];
  readonly folds: readonly FoldLine[];
  readonly holes: readonly PlacedHole[];
  readonly sheet: PanelSheet;
}

/** Fixings along every edge that has them: equal steps, none longer than the pitch asked, clear of folds, holes and each other. */
export function placedFixings(room: FixingRoom): readonly PlacedFixing[] {
  const placed: PlacedFixing[] = [];
  room.edges.forEach((edge, k) => {
    const fixing = edge.spec?.fixing;
    if (fixing === undefined) return;
    const row = panelFixing(fixing.kind, fixing.size);
    const holeMm = fixing.holeMm ?? row.holeMm;
    if (holeMm === 0) return;
    for (const { at, along } of spotsOf(room, k)) {
      const nearest = Math.min(...placed.map((p) => Math.hypot(p.at[0] - at[0], p.at[1] - at[1])));
      // Two lines of fixings share the one in the corner between them.
      if (nearest < sheetRule('rivet-pitch-least').value * row.shankMm) continue;
      placed.push({
        edge: edge.id,
        kind: fixing.kind,
        size: fixing.size ?? row.size,
        at,
        holeMm,
        turnDeg: degOf(along),
        ...(fixing.into === undefined ? {} : { into: fixing.into }),
      });
    }
  });
  return placed;
}

function spotsOf(room: FixingRoom, k: number): readonly { readonly at: Point2; readonly along: Point2 }[] {
  const edge = room.edges[k]!;
  const fixing = edge.spec!.fixing!;
  if (edge.tabs !== undefined) return tabSpots(edge).map((at) => ({ at, along: edge.tabs![0]!.base.along }));
  if (edge.curve !== undefined) {
    const row = panelFixing(fixing.kind, fixing.size);
    const edgeMm = fixing.edgeMm ?? sheetRule('edge-least').value * row.shankMm + row.shankMm / 2;
    return spotsOnCurve(edge.curve, edgeMm - edge.reachMm, fixing.endMm ?? edgeMm, fixing.pitchMm ?? row.pitchMm);
  }
  const line = fixingLine(room.edges, k, room.radii, room.sheet)!;
  return spotsAlong(line.from, line.to, line.pitchMm, takenOn(line, room)).map((s) => ({
    at: plus(line.line.at, line.line.along, s),
    along: line.line.along,
  }));
}

/** Stretches of a line that folds and holes take, with what must stay between. */
function takenOn(line: FixingLine, { folds, holes, sheet }: FixingRoom): readonly Stretch[] {
  const rim = line.holeMm / 2;
  const ligament = Math.max(
    sheetRule('ligament-thicknesses').value * sheet.thicknessMm,
    sheetRule('ligament-least').value,
  );
  const byFold = folds
    .filter(({ name }) => name !== line.edge.id)
    .map((fold) => {
      const clear = fold.allowanceMm / 2 + sheetRule('hole-to-bend').value * sheet.thicknessMm + fold.radiusMm + rim;
      return nearSegment(line, fold.from, fold.to, clear);
    });
  const byHole = holes.flatMap((hole) => {
    const { straights, radiusMm } = holeBody(hole);
    return straights.map(([a, b]) => nearSegment(line, a, b, radiusMm + ligament + rim));
  });
  return [...byFold, ...byHole].flatMap((stretch) => (stretch === undefined ? [] : [stretch]));
}

/** The stretch of the line nearer than `clear` to a straight piece: the distance to it is convex along the line. */
function nearSegment({ line, from, to }: FixingLine, a: Point2, b: Point2, clear: number): Stretch | undefined {
  const gap = (s: number) => toStraight(plus(line.at, line.along, s), [a, b]) - clear;
  let [low, high] = [from - clear, to + clear];
  for (let i = 0; i < 80; i++) {
    const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
    if (gap(p) < gap(q)) high = q;
    else low = p;
  }
  const nearest = (low + high) / 2;
  if (gap(nearest) >= 0) return undefined;
  return [edgeOf(gap, nearest, from - 2 * clear - 1), edgeOf(gap, nearest, to + 2 * clear + 1)];
}

/** Where the gap opens again between a place within and one far out; the far one where it never does. */
function edgeOf(gap: (s: number) => number, within: number, far: number): number {
  if (gap(far) < 0) return far;
  let [a, b] = [within, far];
  for (let i = 0; i < 60; i++) {
    const m = (a + b) / 2;
    if (gap(m) < 0) a = m;
    else b = m;
  }
  return b;
}
