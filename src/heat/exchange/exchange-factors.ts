import { rayScene } from '#geometry';
import { type RowAsk, type RowSums, traceRow } from './exchange-row.kernel.ts';
import type { HeatSurface, Patch } from './patch.ts';
import { reversedSobol, seedOfName } from './sobol.kernel.ts';
import { zeroHitsError95, replicateError95, REPLICATES } from './ray-error.ts';

/** What radiates to what. */
export interface ExchangeAsk {
  readonly surfaces: readonly HeatSurface[];
  readonly patches: readonly Patch[];
  /** Shared out to the replicates; a power of two spreads best. */
  readonly raysPerPatch: number;
  readonly seed: number;
  readonly watch?: (done: number, total: number) => boolean;
}

/** For each patch the share of what it gives off that each surface takes up, at once or after reflections. */
export interface Exchange {
  /** Where the row of each patch begins in `to`, `share` and `error95`; one more at the end. */
  readonly starts: Uint32Array;
  /** Surfaces of a row in ascending order; `surfaces.length` stands for the surroundings. */
  readonly to: Uint16Array;
  /** The shares of a row sum to 1 [-]. */
  readonly share: Float64Array;
  /** Half the width of the 95 % interval of each share [-]. */
  readonly error95: Float64Array;
  /** The same for a surface that no ray of a row met [-]. */
  readonly unmetError95: number;
  /** Share of each patch that lies inside another solid: nothing gets out there, it counts as exchange with its own surface [-]. */
  readonly covered: Float64Array;
  readonly raysShot: number;
  /** Straight flights of those rays, reflections among them. */
  readonly flights: number;
}

/**
 * Exchange factors by rays: how much of what each patch gives off (by the cosine law) each surface takes up, with everything in the way
 * and with diffuse reflections.
 */
export function exchangeFactors(ask: ExchangeAsk): Exchange {
  const { surfaces, patches } = ask;
  const row = newRow(surfaces.length);
  const rowAsk = rowAskOf(ask);
  const starts = new Uint32Array(patches.length + 1);
  const covered = new Float64Array(patches.length);
  const rows = { to: [] as number[], share: [] as number[], error95: [] as number[] };
  const seeds = patchSeeds(ask);
  let raysShot = 0;
  for (let p = 0; p < patches.length; p++) {
    const patch = patches[p]!;
    traceRow(rowAsk, patch.pieces, patch.surface, seeds[p]!, row);
    covered[p] = row.covered / (rowAsk.rays * REPLICATES);
    raysShot += rowAsk.rays * REPLICATES;
    closeRow(row, rowAsk.rays, rows);
    starts[p + 1] = rows.to.length;
    if (p % 64 === 63 && ask.watch?.(p + 1, patches.length) === false) break;
  }
  return {
    starts,
    to: Uint16Array.from(rows.to),
    share: Float64Array.from(rows.share),
    error95: Float64Array.from(rows.error95),
    unmetError95: zeroHitsError95(rowAsk.rays * REPLICATES),
    covered,
    raysShot,
    flights: row.flights,
  };
}

const newRow = (surfaces: number): RowSums => ({
  sums: new Float64Array((surfaces + 1) * REPLICATES),
  met: new Int32Array(surfaces + 1),
  isMet: new Uint8Array(surfaces + 1),
  metCount: 0,
  covered: 0,
  flights: 0,
});

function rowAskOf({ surfaces, raysPerPatch }: ExchangeAsk): RowAsk {
  const rays = Math.max(1, Math.ceil(raysPerPatch / REPLICATES));
  return {
    scene: rayScene(surfaces),
    emissivity: Float64Array.from(surfaces, ({ emissivity }) => emissivity),
    backEmissivity: Float64Array.from(surfaces, ({ emissivity, backEmissivity }) => backEmissivity ?? emissivity),
    replicates: REPLICATES,
    rays,
    sobol: reversedSobol(rays),
  };
}

/** Each patch's chance hangs on its surface's name and its place among that surface's patches, never on what else there is. */
function patchSeeds({ surfaces, patches, seed }: ExchangeAsk): Int32Array {
  const counts = new Int32Array(surfaces.length);
  return Int32Array.from(patches, ({ surface }) => seedOfName(`${surfaces[surface]!.id} ${counts[surface]!++}`, seed));
}

function closeRow(row: RowSums, rays: number, rows: { to: number[]; share: number[]; error95: number[] }): void {
  const met = row.met.slice(0, row.metCount).sort();
  for (const surface of met) {
    const sums = row.sums.subarray(surface * REPLICATES, (surface + 1) * REPLICATES);
    const { mean, error95 } = replicateError95(sums, rays);
    rows.to.push(surface);
    rows.share.push(mean);
    rows.error95.push(error95);
    row.isMet[surface] = 0;
  }
}
