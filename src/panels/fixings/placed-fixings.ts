import { panelFixing, sheetRule } from '#standards';
import { degOf, lineThrough, plus, rightOf } from '../flat/lines.ts';
import type { LaidEdge, PlacedFixing } from '../layout.ts';

/** Fixings along every edge that has them: equal steps, none longer than the pitch asked. */
export function placedFixings(edges: readonly LaidEdge[]): readonly PlacedFixing[] {
  const placed: PlacedFixing[] = [];
  for (const edge of edges) {
    const fixing = edge.spec?.fixing;
    if (fixing === undefined) continue;
    const row = panelFixing(fixing.kind, fixing.size);
    const holeMm = fixing.holeMm ?? row.holeMm;
    if (holeMm === 0) continue;
    const edgeMm = fixing.edgeMm ?? Math.max(sheetRule('edge-least').value * row.shankMm, 1.5 * holeMm);
    const endMm = fixing.endMm ?? edgeMm;
    const line = lineThrough(...edge.line);
    const span = edge.lengthMm - 2 * endMm;
    const steps = Math.max(1, Math.ceil(span / (fixing.pitchMm ?? row.pitchMm) - 1e-9));
    for (let i = 0; i <= steps; i++) {
      const at = plus(plus(line.at, line.along, endMm + (span * i) / steps), rightOf(line.along), -edgeMm);
      const nearest = Math.min(...placed.map((p) => Math.hypot(p.at[0] - at[0], p.at[1] - at[1])));
      if (nearest < sheetRule('rivet-pitch-least').value * row.shankMm) continue;
      placed.push({
        edge: edge.id,
        kind: fixing.kind,
        size: fixing.size ?? row.size,
        at,
        holeMm,
        turnDeg: degOf(line.along),
        ...(fixing.into === undefined ? {} : { into: fixing.into }),
      });
    }
  }
  return placed;
}
