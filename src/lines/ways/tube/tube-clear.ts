import type { Clearance } from '../clearance.ts';
import { clearance } from '../clearance.ts';
import type { Span } from '../span.ts';

/** Slack of a tube's surface, value only. */
export interface TubeClear {
  slack(x: number, y: number, z: number): number;
  /** The same at the centre of the coarse cell that holds the place. */
  coarse(x: number, y: number, z: number): number;
}

/** A span's slack with both ends' near rules worked in: what `clearance` reads. */
export function tubeClear(span: Span): TubeClear & Clearance {
  const full = clearance(span);
  const out = new Float64Array(4);
  return {
    ...full,
    slack(x, y, z) {
      full.slackAndGradient(x, y, z, out);
      return out[0]!;
    },
  };
}
