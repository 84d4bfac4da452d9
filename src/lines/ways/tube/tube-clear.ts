import type { Clearance } from '../clearance.ts';
import { clearance } from '../clearance.ts';
import type { Span } from '../span.ts';
import { faceDistances, nearSlack } from '../tails.ts';

/** Slack of a tube's surface, value only. */
export interface TubeClear {
  slack(x: number, y: number, z: number): number;
  /** The same at the centre of the coarse cell that holds the place. */
  coarse(x: number, y: number, z: number): number;
}

/** How much of the near length counts as beside the port when only the place is known; as for a hose. */
const BESIDE = 0.85;
const FAR_AWAY_MM = 120;

/** A span's slack with both ends' near rules worked in: what `clearance` reads, without its gradient, which costs seven times as much. */
export function tubeClear(span: Span): TubeClear & Clearance {
  const radiusMm = span.odMm / 2;
  const full = clearance(span);
  const ends = [span.a, span.b].map((end) => ({ end, faces: faceDistances(end), reach: end.nearMm * BESIDE }));
  const out = new Float64Array(4);
  return {
    ...full,
    slack(x, y, z) {
      span.far.slackAndGradient(x, y, z, out);
      let slack = out[0]! - radiusMm;
      if (slack >= FAR_AWAY_MM - radiusMm) return slack;
      for (const { end, faces, reach } of ends) {
        const from = Math.hypot(x - end.at[0], y - end.at[1], z - end.at[2]);
        if (from >= reach) continue;
        const near = nearSlack(end.nearItems, faces, [x, y, z], radiusMm, Math.max(from, radiusMm));
        slack = Math.max(slack, Math.min(FAR_AWAY_MM, near));
      }
      return slack;
    },
  };
}
