import { type CellGrid, type Vec, distance } from '#geometry';
import { COARSE_MM, awayFrom } from './bricks.ts';
import { CellValues } from './cell-values.ts';
import type { Span, SpanEnd } from './span.ts';
import { faceDistances, nearestItem } from './tails.ts';

/** Slack of the hose's surface at a place: the near rules beside a port, the full keep-offs elsewhere [mm]. */
export interface Clearance {
  /** out = slack of the centreline less the hose's radius, and its gradient. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
  /** The same, on the true surfaces where limits are met or nearly met. */
  closely(x: number, y: number, z: number, out: Float64Array): void;
  /** Slack less the hose's radius at the centre of the coarse cell that holds the place. */
  coarse(x: number, y: number, z: number): number;
}

/** How much of the near length counts as beside the port when only the place is known, not the length along the line. */
const BESIDE = 0.65;

/** The span's slack reading with both ports' near rules worked in. */
export function clearance(span: Span): Clearance {
  const radiusMm = span.odMm / 2;
  const exact = new Float64Array(4);
  const near = new NearEnds(span);
  const cells = new CellValues((i, j, k) => {
    const at: Vec = [(i + 0.5) * COARSE_MM, (j + 0.5) * COARSE_MM, (k + 0.5) * COARSE_MM];
    return near.slackAt(at, span.far.coarse(...at) - radiusMm);
  });
  return {
    slackAndGradient(x, y, z, out) {
      span.far.slackAndGradient(x, y, z, out);
      near.workIn(x, y, z, out);
    },
    closely(x, y, z, out) {
      span.far.slackAndGradient(x, y, z, out);
      const share = closeShare(out[0]! - radiusMm);
      if (share > 0) {
        span.far.closely(x, y, z, exact);
        for (let k = 0; k < 4; k++) out[k] = out[k]! + share * (exact[k]! - out[k]!);
      }
      near.workIn(x, y, z, out);
    },
    coarse: (x, y, z) => cells.at(Math.floor(x / COARSE_MM), Math.floor(y / COARSE_MM), Math.floor(z / COARSE_MM)),
  };
}

/** The rules beside both ports, which go before the full keep-offs there. */
class NearEnds {
  private readonly span: Span;
  private readonly radiusMm: number;
  private readonly ends: readonly {
    readonly end: SpanEnd;
    readonly faces: readonly number[];
    readonly reach: number;
  }[];
  private readonly other = new Float64Array(4);
  private readonly lines = new Float64Array(4);

  constructor(span: Span) {
    this.span = span;
    this.radiusMm = span.odMm / 2;
    this.ends = [span.a, span.b].map((end) => ({ end, faces: faceDistances(end), reach: end.nearMm * BESIDE }));
  }

  /** Takes the hose's radius off a reading, and puts the near rules in its place where they allow more. */
  workIn(x: number, y: number, z: number, out: Float64Array): void {
    const { radiusMm, other } = this;
    out[0] = out[0]! - radiusMm;
    for (const { end, faces, reach } of this.ends) {
      const dx = x - end.at[0];
      const dy = y - end.at[1];
      const dz = z - end.at[2];
      const square = dx * dx + dy * dy + dz * dz;
      if (square >= reach * reach) continue;
      const along = Math.max(Math.sqrt(square), radiusMm);
      const { slackMm, item } = nearestItem(end.nearItems, faces, [x, y, z], radiusMm, along);
      if (slackMm <= out[0]!) continue;
      this.besides(end, x, y, z);
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
  }

  /** The slack alone, from what it is by the full keep-offs. */
  slackAt(at: Vec, farMm: number): number {
    const { radiusMm, other } = this;
    let slack = farMm;
    for (const { end, faces, reach } of this.ends) {
      const from = distance(at, end.at);
      if (from >= reach) continue;
      this.besides(end, ...at);
      const beside = nearestItem(end.nearItems, faces, at, radiusMm, Math.max(from, radiusMm)).slackMm;
      slack = Math.max(slack, Math.min(other[0]! - radiusMm, beside, FAR_AWAY_MM));
    }
    return slack;
  }

  /** Into `other`: what is not relaxed beside an end, the rest of the parts and placed lines. */
  private besides(end: SpanEnd, x: number, y: number, z: number): void {
    const { other, lines } = this;
    other[0] = FAR_AWAY_MM + this.radiusMm;
    other.fill(0, 1);
    end.rest?.slackAndGradient(x, y, z, other);
    this.span.far.toLines?.(x, y, z, lines);
    if (this.span.far.toLines !== undefined && lines[0]! < other[0]!) other.set(lines);
  }
}

const FAR_AWAY_MM = 120;

/** Where limits are met or nearly met the true surfaces are read; from there on to the bricks over a few millimetres. */
const CLOSE_MM = [-4, 7] as const;
const CLOSE_EDGE_MM = 3;

function closeShare(slackMm: number): number {
  const outside = Math.max(CLOSE_MM[0] - slackMm, slackMm - CLOSE_MM[1]);
  return Math.max(0, Math.min(1, 1 - outside / CLOSE_EDGE_MM));
}

/** A grid over the part of the car round both ends, blocked where the hose does not fit; cells stand where all lines' cells do. */
export function corridorGrid(span: Span, clear: Clearance, roundMm: number, cellMm: number = COARSE_MM): CellGrid {
  const low = ([0, 1, 2] as const).map((i) => Math.floor((Math.min(span.a.at[i], span.b.at[i]) - roundMm) / cellMm));
  const high = ([0, 1, 2] as const).map((i) => Math.ceil((Math.max(span.a.at[i], span.b.at[i]) + roundMm) / cellMm));
  const [nx, ny, nz] = low.map((l, i) => high[i]! - l) as [number, number, number];
  const blocked = new Uint8Array(nx * ny * nz);
  const toll = new Uint8Array(nx * ny * nz);
  const min = low.map((l) => l * cellMm) as [number, number, number];
  const reading = new Float64Array(4);
  const slackAt = (x: number, y: number, z: number): number => {
    const about = clear.coarse(x, y, z);
    if (cellMm === COARSE_MM || Math.abs(about) > SURE_MM) return about;
    clear.slackAndGradient(x, y, z, reading);
    return reading[0]!;
  };
  let cell = 0;
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++, cell++) {
        const slack = slackAt(min[0] + (i + 0.5) * cellMm, min[1] + (j + 0.5) * cellMm, min[2] + (k + 0.5) * cellMm);
        if (slack < -cellMm * OPTIMISM) blocked[cell] = 1;
        else toll[cell] = Math.round(TIGHT_TOLL * Math.max(0, 1 - Math.max(0, slack) / TIGHT_MM));
      }
  return { min, cellMm, nx, ny, nz, blocked, toll };
}

/** Beyond this the coarse reading settles whether a place is open [mm]. */
const SURE_MM = 40;

/** A cell counts as open if its centre lacks no more than this share of a cell: the hose may pass beside the centre. */
const OPTIMISM = 0.5;

/** A corridor keeps this far from things if it costs little. */
const TIGHT_MM = 15;
/** Extra sixteenths of a step in the tightest cells: at most half as long again. */
const TIGHT_TOLL = 8;
