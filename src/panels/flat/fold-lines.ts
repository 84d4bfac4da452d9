import type { Point2 } from '#geometry';
import type { FoldLine } from '../flat-pattern.ts';
import type { LaidEdge } from '../layout.ts';
import type { CreaseBend } from '../surface/facets.ts';
import { outsideLine, plus } from './lines.ts';
import { type LaidStrip, stepLength } from './strip.ts';

/** Where a flank is at `d` beyond the tangent line. */
export function flankAt({ base }: Pick<LaidStrip, 'base'>, flank: readonly Point2[], d: number): Point2 {
  for (let i = 1; i < flank.length; i++) {
    const [a, b] = [outsideLine(base, flank[i - 1]!), outsideLine(base, flank[i]!)];
    if (d > b + 1e-9 && i < flank.length - 1) continue;
    const t = b === a ? 0 : (d - a) / (b - a);
    const [p, q] = [flank[i - 1]!, flank[i]!];
    return [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
  }
  return flank[0]!;
}

/** Every fold of a flat, as its mid line. */
export function foldLines(edges: readonly LaidEdge[], creases: readonly CreaseBend[]): readonly FoldLine[] {
  const strips = edges.flatMap((edge) =>
    [edge.strip, ...(edge.tabs ?? [])].flatMap((strip) => (strip === undefined ? [] : stripFolds(strip, edge.id))),
  );
  const across = creases.map((crease): FoldLine => {
    // From the mould line back to the middle of the bend.
    const back = crease.allowanceMm / 2 - crease.setbackMm;
    const [from, to] = crease.line.map((p) => plus(p, crease.across, back)) as [Point2, Point2];
    const { way, turnDeg, radiusMm, allowanceMm } = crease;
    return { from, to, way, turnDeg, radiusMm, allowanceMm, name: 'crease' };
  });
  return [...across, ...strips];
}

function stripFolds(strip: LaidStrip, name: string): FoldLine[] {
  let d = 0;
  const folds: FoldLine[] = [];
  for (const step of strip.steps) {
    if (step.kind === 'bend') {
      const { way, turnDeg, radiusMm, allowanceMm } = step;
      const [from, to] = [strip.start, strip.end].map((flank) => flankAt(strip, flank, d + allowanceMm / 2)) as [
        Point2,
        Point2,
      ];
      folds.push({ from, to, way, turnDeg, radiusMm, allowanceMm, name });
    }
    d += stepLength(step);
  }
  return folds;
}
