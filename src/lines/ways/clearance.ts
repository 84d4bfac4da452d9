import type { CellGrid, Vec } from '#geometry';
import { COARSE_MM } from './bricks.ts';
import type { Span, SpanEnd } from './span.ts';
import { awayFrom } from './far-reading.ts';
import { faceDistances, nearSlack, nearestItem } from './tails.ts';

/** Slack of the hose's surface at a place: the near rules beside a port, the full keep-offs elsewhere [mm]. */
export interface Clearance {
  /** out = slack of the centreline less the hose's radius, and its gradient. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
  /** Slack less the hose's radius at the centre of the coarse cell that holds the place. */
  coarse(x: number, y: number, z: number): number;
}

/** How much of the near length counts as beside the port when only the place is known, not the length along the line. */
const BESIDE = 0.65;

/** The span's slack reading with both ports' near rules worked in. */
export function clearance(span: Span): Clearance {
  const radiusMm = span.odMm / 2;
  const other = new Float64Array(4);
  const lines = new Float64Array(4);
  /** What is not relaxed beside an end: the rest of the parts, and placed lines. */
  const besides = (end: SpanEnd, x: number, y: number, z: number): void => {
    other[0] = FAR_AWAY_MM + radiusMm;
    other.fill(0, 1);
    end.rest?.slackAndGradient(x, y, z, other);
    span.far.toLines?.(x, y, z, lines);
    if (span.far.toLines !== undefined && lines[0]! < other[0]!) other.set(lines);
  };
  const ends = [span.a, span.b].map((end) => ({ end, faces: faceDistances(end), reach: end.nearMm * BESIDE }));
  return {
    coarse(x, y, z) {
      let slack = span.far.coarse(x, y, z) - radiusMm;
      for (const { end, faces, reach } of ends) {
        const from = Math.hypot(x - end.at[0], y - end.at[1], z - end.at[2]);
        if (from >= reach) continue;
        besides(end, x, y, z);
        slack = Math.max(slack, Math.min(other[0]! - radiusMm, slackBeside(end, faces, [x, y, z], radiusMm, from)));
      }
      return slack;
    },
    slackAndGradient(x, y, z, out) {
      span.far.slackAndGradient(x, y, z, out);
      out[0] = out[0]! - radiusMm;
      for (let k = 0; k < 2; k++) {
        const { end, faces, reach } = ends[k]!;
        const dx = x - end.at[0];
        const dy = y - end.at[1];
        const dz = z - end.at[2];
        const square = dx * dx + dy * dy + dz * dz;
        if (square >= reach * reach) continue;
        const from = Math.sqrt(square);
        const along = Math.max(from, radiusMm);
        const { slackMm, item } = nearestItem(end.nearItems, faces, [x, y, z], radiusMm, along);
        if (slackMm <= out[0]!) continue;
        besides(end, x, y, z);
        if (other[0]! - radiusMm < slackMm) {
          if (other[0]! - radiusMm <= out[0]!) continue;
          out.set(other);
          out[0] = other[0]! - radiusMm;
          continue;
        }
        out[0] = Math.min(FAR_AWAY_MM, slackMm);
        if (item === null) out.fill(0, 1);
        else awayFrom(item.solid, x, y, z, out);
      }
    },
  };
}

const FAR_AWAY_MM = 120;

function slackBeside(end: SpanEnd, faces: readonly number[], point: Vec, radiusMm: number, alongMm: number): number {
  return Math.min(FAR_AWAY_MM, nearSlack(end.nearItems, faces, point, radiusMm, Math.max(alongMm, radiusMm)));
}

/** A grid over the part of the car round both ends, blocked where the hose does not fit; cells stand where all lines' cells do. */
export function corridorGrid(span: Span, clear: Clearance, roundMm: number, optimism = OPTIMISM): CellGrid {
  const cellMm = COARSE_MM;
  const low = ([0, 1, 2] as const).map((i) => Math.floor((Math.min(span.a.at[i], span.b.at[i]) - roundMm) / cellMm));
  const high = ([0, 1, 2] as const).map((i) => Math.ceil((Math.max(span.a.at[i], span.b.at[i]) + roundMm) / cellMm));
  const [nx, ny, nz] = low.map((l, i) => high[i]! - l) as [number, number, number];
  const blocked = new Uint8Array(nx * ny * nz);
  const toll = new Uint8Array(nx * ny * nz);
  const min = low.map((l) => l * cellMm) as [number, number, number];
  let cell = 0;
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++, cell++) {
        const slack = clear.coarse(
          min[0] + (i + 0.5) * cellMm,
          min[1] + (j + 0.5) * cellMm,
          min[2] + (k + 0.5) * cellMm,
        );
        if (slack < -cellMm * optimism) blocked[cell] = 1;
        else toll[cell] = Math.round(TIGHT_TOLL * Math.max(0, 1 - Math.max(0, slack) / TIGHT_MM));
      }
  return { min, cellMm, nx, ny, nz, blocked, toll };
}

/** A cell counts as open if its centre lacks no more than this share of a cell: the hose may pass beside the centre. */
const OPTIMISM = 0.5;

/** A corridor keeps this far from things if it costs little. */
const TIGHT_MM = 15;
/** Extra sixteenths of a step in the tightest cells: at most half as long again. */
const TIGHT_TOLL = 8;
