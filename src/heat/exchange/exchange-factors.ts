import { type RayScene, rayScene } from '#geometry';
import { newRayPath, type RowAsk, type RowSums, takeRay, traceRay } from './exchange-row.kernel.ts';
import type { HeatSurface, Patch } from './patch.ts';
import { replicateError95, REPLICATES, zeroHitsError95 } from './ray-error.ts';
import { reversedSobol, seedOfName, stirred } from './sobol.kernel.ts';

/** What radiates to what. */
export interface ExchangeAsk {
  /** At most 16 000. */
  readonly surfaces: readonly HeatSurface[];
  readonly patches: readonly Patch[];
  /** Of each patch its place among all patches of its surface, where only some are asked for; absent: as they come. */
  readonly places?: Int32Array;
  /** Shared out to the replicates; a power of two spreads best. */
  readonly raysPerPatch: number;
  readonly seed: number;
  /** The surfaces as rays meet them, where that is known already. */
  readonly scene?: RayScene;
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
  /** True where `watch` stopped it: rows that were not reached are empty. */
  readonly stopped: boolean;
}

/**
 * Exchange factors by rays: how much of what each patch gives off (by the cosine law) each surface takes up, with everything in the way
 * and with diffuse reflections.
 */
export function exchangeFactors(ask: ExchangeAsk): Exchange {
  const { patches } = ask;
  const rowAsk = rowAskOf(ask);
  const seeds = patchSeeds(ask);
  const rows = new ExchangeRows(ask, rowAsk);
  const path = newRayPath();
  let stopped = false;
  for (let p = 0; p < patches.length && !stopped; p++) {
    const { pieces } = patches[p]!;
    for (let replicate = 0; replicate < REPLICATES; replicate++) {
      const base = stirred(seeds[p]!, replicate);
      for (let n = 0; n < rowAsk.rays; n++) {
        traceRay(rowAsk, pieces, base, n, path);
        rows.take(replicate, path.ends, 0, path.flights);
      }
    }
    rows.close();
    stopped = isStopped(ask, p);
  }
  return rows.exchange(stopped);
}

/** How many rows lie between two looks at `watch`. */
const LOOK_EVERY = 64;

export const isStopped = ({ watch, patches }: ExchangeAsk, p: number): boolean =>
  p % LOOK_EVERY === LOOK_EVERY - 1 && watch?.(p + 1, patches.length) === false;

/** Rows of exchange, filled ray by ray and closed one after the other. */
export class ExchangeRows {
  private readonly row: RowSums;
  private readonly starts: Uint32Array;
  private readonly covered: Float64Array;
  private readonly to: number[] = [];
  private readonly share: number[] = [];
  private readonly error95: number[] = [];
  private closed = 0;
  private flights = 0;

  private readonly ask: ExchangeAsk;
  private readonly rowAsk: RowAsk;

  constructor(ask: ExchangeAsk, rowAsk: RowAsk) {
    this.ask = ask;
    this.rowAsk = rowAsk;
    const surfaces = ask.surfaces.length;
    this.row = {
      sums: new Float64Array((surfaces + 1) * REPLICATES),
      met: new Int32Array(surfaces + 1),
      isMet: new Uint8Array(surfaces + 1),
      metCount: 0,
      covered: 0,
    };
    this.starts = new Uint32Array(ask.patches.length + 1);
    this.covered = new Float64Array(ask.patches.length);
  }

  /** One ray of the row that is open. */
  take(replicate: number, ends: Uint16Array, from: number, to: number): void {
    this.flights += to - from;
    takeRay(this.row, this.rowAsk, this.ask.patches[this.closed]!.surface, replicate, ends, from, to);
  }

  /** The row that is open, as it was before in another exchange of the same surfaces, `renumbered`. */
  takeOver(old: Exchange, p: number, renumbered: Int32Array, flights: number): void {
    const outside = renumbered.length;
    for (let k = old.starts[p]!; k < old.starts[p + 1]!; k++) {
      const to = old.to[k]!;
      this.to.push(to === outside ? this.ask.surfaces.length : renumbered[to]!);
      this.share.push(old.share[k]!);
      this.error95.push(old.error95[k]!);
    }
    this.covered[this.closed] = old.covered[p]!;
    this.flights += flights;
    this.starts[++this.closed] = this.to.length;
  }

  close(): void {
    const { row, rowAsk } = this;
    const met = row.met.slice(0, row.metCount).sort();
    for (const surface of met) {
      const sums = row.sums.subarray(surface * REPLICATES, (surface + 1) * REPLICATES);
      const { mean, error95 } = replicateError95(sums, rowAsk.rays);
      this.to.push(surface);
      this.share.push(mean);
      this.error95.push(error95);
      row.isMet[surface] = 0;
    }
    this.covered[this.closed] = row.covered / (rowAsk.rays * REPLICATES);
    row.metCount = 0;
    row.covered = 0;
    this.starts[++this.closed] = this.to.length;
  }

  exchange(stopped: boolean): Exchange {
    const rays = this.rowAsk.rays * REPLICATES;
    this.starts.fill(this.to.length, this.closed + 1);
    return {
      starts: this.starts,
      to: Uint16Array.from(this.to),
      share: Float64Array.from(this.share),
      error95: Float64Array.from(this.error95),
      unmetError95: zeroHitsError95(rays),
      covered: this.covered,
      raysShot: this.closed * rays,
      flights: this.flights,
      stopped,
    };
  }
}

export function rowAskOf({ surfaces, raysPerPatch, scene }: ExchangeAsk): RowAsk {
  const rays = Math.max(1, Math.ceil(raysPerPatch / REPLICATES));
  return {
    scene: scene ?? rayScene(surfaces),
    emissivity: Float64Array.from(surfaces, ({ emissivity }) => emissivity),
    backEmissivity: Float64Array.from(surfaces, ({ emissivity, backEmissivity }) => backEmissivity ?? emissivity),
    replicates: REPLICATES,
    rays,
    sobol: reversedSobol(rays),
  };
}

/** Of each patch its place among the patches of its surface. */
export function patchPlaces(surfaces: number, patches: readonly Patch[]): Int32Array {
  const counts = new Int32Array(surfaces);
  return Int32Array.from(patches, ({ surface }) => counts[surface]!++);
}

/** Each patch's chance hangs on its surface's name and its place among that surface's patches, never on what else there is. */
export function patchSeeds({ surfaces, patches, places, seed }: Omit<ExchangeAsk, 'raysPerPatch'>): Int32Array {
  const at = places ?? patchPlaces(surfaces.length, patches);
  return Int32Array.from(patches, ({ surface }, p) => seedOfName(`${surfaces[surface]!.id} ${at[p]!}`, seed));
}
