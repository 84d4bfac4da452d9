import { type CellGrid, type Vec, cellCentre } from '#geometry';
import { type Span, type SpanEnd } from './span.ts';
import { faceDistances, nearSlack } from './tails.ts';

/** Slack of the hose's surface at a place: the near rules beside a port, the full keep-offs elsewhere [mm]. */
export interface Clearance {
  /** out = slack of the centreline less the hose's radius, and its gradient. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
}

/** How much of the near length counts as beside the port when only the place is known, not the length along the line. */
const BESIDE = 0.85;
const STEP_MM = 0.5;

/** The span's slack reading with both ports' near rules worked in. */
export function clearance(span: Span): Clearance {
  const radiusMm = span.odMm / 2;
  const ends = [span.a, span.b].map((end) => ({ end, faces: faceDistances(end), reach: end.nearMm * BESIDE }));
  return {
    slackAndGradient(x, y, z, out) {
      span.far.slackAndGradient(x, y, z, out);
      out[0] = out[0]! - radiusMm;
      for (const { end, faces, reach } of ends) {
        const from = Math.hypot(x - end.at[0], y - end.at[1], z - end.at[2]);
        if (from >= reach) continue;
        const at = (px: number, py: number, pz: number) => slackBeside(end, faces, [px, py, pz], radiusMm, from);
        const slack = at(x, y, z);
        if (slack <= out[0]!) continue;
        out[0] = slack;
        out[1] = (at(x + STEP_MM, y, z) - at(x - STEP_MM, y, z)) / (2 * STEP_MM);
        out[2] = (at(x, y + STEP_MM, z) - at(x, y - STEP_MM, z)) / (2 * STEP_MM);
        out[3] = (at(x, y, z + STEP_MM) - at(x, y, z - STEP_MM)) / (2 * STEP_MM);
      }
    },
  };
}

const FAR_AWAY_MM = 120;

function slackBeside(end: SpanEnd, faces: readonly number[], point: Vec, radiusMm: number, alongMm: number): number {
  return Math.min(FAR_AWAY_MM, nearSlack(end.nearItems, faces, point, radiusMm, Math.max(alongMm, radiusMm)));
}

/** A grid over the part of the car round both ends, blocked where the hose does not fit. */
export function corridorGrid(span: Span, clear: Clearance, cellMm: number, roundMm: number, clearMm: number): CellGrid {
  const at = [span.a.at, span.b.at];
  const low = [0, 1, 2].map((i) => Math.min(at[0]![i]!, at[1]![i]!) - roundMm);
  const n = [0, 1, 2].map((i) => Math.max(1, Math.ceil((Math.abs(at[0]![i]! - at[1]![i]!) + 2 * roundMm) / cellMm)));
  const [nx, ny, nz] = n as [number, number, number];
  const blocked = new Uint8Array(nx * ny * nz);
  const toll = new Uint8Array(nx * ny * nz);
  const grid: CellGrid = { min: low as [number, number, number], cellMm, nx, ny, nz, blocked, toll };
  const out = new Float64Array(4);
  for (let cell = 0; cell < blocked.length; cell++) {
    const [x, y, z] = cellCentre(grid, cell);
    clear.slackAndGradient(x, y, z, out);
    const slack = out[0]! - clearMm;
    if (slack < 0) blocked[cell] = 1;
    else toll[cell] = Math.round(TIGHT_TOLL * Math.max(0, 1 - slack / TIGHT_MM));
  }
  return grid;
}

/** A corridor keeps this far from things if it costs little. */
const TIGHT_MM = 15;
/** Extra sixteenths of a step in the tightest cells: at most half as long again. */
const TIGHT_TOLL = 8;
