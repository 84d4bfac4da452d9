import type { Point2 } from '#geometry';
import { type PanelFixingRow, panelFixing, sheetRule } from '#standards';
import { flankAt } from '../flat/fold-lines.ts';
import { cross2, type FlatLine, lineThrough, minus, movedOut, plus, rightOf } from '../flat/lines.ts';
import type { LaidEdge } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';

/** A straight line of fixings on the drawing. */
export interface FixingLine {
  readonly edge: LaidEdge;
  readonly row: PanelFixingRow;
  readonly holeMm: number;
  /** From the centres to the edge of the sheet [mm]. */
  readonly edgeMm: number;
  /** Along the measured edge, moved to where the fixings stand; `from` and `to` of their span on it [mm]. */
  readonly line: FlatLine;
  readonly from: number;
  readonly to: number;
  readonly pitchMm: number;
}

/** A hole and a half clear of the edge, and never nearer than the rule. */
const HOLES_TO_EDGE = 1.5;

/** Usual distance of a fixing from the edge of the sheet [mm]: the middle of what it goes through where that is wide enough. */
export function usualEdge(edge: LaidEdge, row: PanelFixingRow, holeMm: number): number {
  const least = Math.max(sheetRule('edge-least').value * row.shankMm, HOLES_TO_EDGE * holeMm);
  return Math.max(least, (edge.strip?.landMm ?? Math.max(0, edge.reachMm)) / 2);
}

/** The line of fixings of an edge; undefined where none are drilled. Tabs take one each, in their middle. */
export function fixingLine(
  edges: readonly LaidEdge[],
  k: number,
  radii: readonly number[],
  sheet: PanelSheet,
): FixingLine | undefined {
  const edge = edges[k]!;
  const fixing = edge.spec?.fixing;
  if (fixing === undefined || edge.curve !== undefined) return undefined;
  const row = panelFixing(fixing.kind, fixing.size);
  const holeMm = fixing.holeMm ?? row.holeMm;
  if (holeMm === 0) return undefined;
  const edgeMm = fixing.edgeMm ?? usualEdge(edge, row, holeMm);
  const measured = lineThrough(...edge.line);
  const beyond = edge.strip === undefined ? edge.reachMm - edgeMm : edge.reachMm + edge.strip.reachMm - edgeMm;
  const line = movedOut(measured, beyond);
  const shared = { edge, row, holeMm, edgeMm, line, pitchMm: fixing.pitchMm ?? row.pitchMm };
  if (edge.strip !== undefined) {
    const d = edge.strip.reachMm - edgeMm;
    const [from, to] = [edge.strip.start, edge.strip.end].map((flank) => alongOf(line, flankAt(edge.strip!, flank, d)));
    const end = fixing.endMm ?? edgeMm;
    return { ...shared, from: from! + end, to: to! - end };
  }
  const [before, after] = [edges[(k + edges.length - 1) % edges.length]!, edges[(k + 1) % edges.length]!];
  const endAt = (neighbour: LaidEdge, radiusMm: number) => {
    const sheetLine = movedOut(lineThrough(...neighbour.line), neighbour.reachMm);
    const bend = neighbour.strip?.steps[0];
    // From a bend: two thicknesses and its radius to the rim. From an edge with its own fixings: where the two lines cross.
    const fromBend =
      bend?.kind === 'bend' ? sheetRule('hole-to-bend').value * sheet.thicknessMm + bend.radiusMm + holeMm / 2 : 0;
    const square = Math.max(neighbourEdge(neighbour) ?? edgeMm, fromBend, edgeMm < radiusMm ? radiusMm : 0);
    const sine = Math.max(0.2, Math.abs(cross2(line.along, sheetLine.along)));
    return { at: crossAlong(line, sheetLine), in: fixing.endMm ?? square / sine };
  };
  const first = endAt(before, radii[k] ?? 0);
  const last = endAt(after, radii[(k + 1) % edges.length] ?? 0);
  return { ...shared, from: first.at + first.in, to: last.at - last.in };
}

/** How far in a neighbour's own fixings stand, where they stand in the sheet itself and not in a flange. */
function neighbourEdge(edge: LaidEdge): number | undefined {
  const fixing = edge.spec?.fixing;
  if (fixing === undefined || edge.strip !== undefined) return undefined;
  const row = panelFixing(fixing.kind, fixing.size);
  const holeMm = fixing.holeMm ?? row.holeMm;
  return holeMm === 0 ? undefined : (fixing.edgeMm ?? usualEdge(edge, row, holeMm));
}

const alongOf = (line: FlatLine, p: Point2): number =>
  (p[0] - line.at[0]) * line.along[0] + (p[1] - line.at[1]) * line.along[1];

/** How far along `line` it crosses `other`. */
function crossAlong(line: FlatLine, other: FlatLine): number {
  const sine = cross2(line.along, other.along);
  return Math.abs(sine) < 1e-6 ? 0 : cross2(minus(other.at, line.at), other.along) / sine;
}

/** One fixing in the middle of each tab. */
export function tabSpots(edge: LaidEdge): readonly Point2[] {
  return (edge.tabs ?? []).map(({ base, start, end, reachMm, landMm }) => {
    const [a, b] = [start[0]!, end[0]!];
    return plus([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], rightOf(base.along), reachMm - landMm / 2);
  });
}
