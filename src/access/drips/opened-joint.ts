import type { Solid, Vec } from '#geometry';
import { boreLitres } from './held.ts';

/** A line as it holds fluid, from the joint that is opened to its other end. */
export interface OpenedLine {
  /** Its centreline, from the opened joint on [mm]. */
  readonly path: readonly Vec[];
  readonly boreMm: number;
}

/** What stands in a vessel: how much lies below a height. */
export interface VesselLevel {
  readonly fillL: number;
  /** Fluid below this height [L]. */
  readonly belowL: (heightMm: number) => number;
}

/** What runs from one opened joint. */
export interface Drip {
  /** From the line itself [L]. */
  readonly lineL: number;
  /** From the vessel at its other end [L]. */
  readonly farVesselL: number;
}

/**
 * What runs from an opened end of a line: all of it that lies as high as anything between it and the opening. What lies behind a hump
 * stays in its trough; air is taken to get in behind what runs.
 *
 * @param far - the vessel at its other end, if there is one
 */
export function dripFrom({ path, boreMm }: OpenedLine, far: VesselLevel | null): Drip {
  let highest = -Infinity;
  let runsMm = 0;
  path.forEach((at, i) => {
    const was = path[i - 1];
    if (was === undefined) {
      highest = at[2];
      return;
    }
    const length = Math.hypot(at[0] - was[0], at[1] - was[1], at[2] - was[2]);
    const [low, high] = [was[2], at[2]];
    if (high >= highest) {
      // Of a piece that rises past the highest place so far, only what lies above that runs.
      const above = high === low ? 1 : Math.min(1, (high - Math.max(low, highest)) / Math.abs(high - low));
      runsMm += high === low || low >= highest ? length : length * above;
      highest = high;
    }
  });
  const stays = far === null || path.length === 0 ? 0 : far.belowL(highest);
  return {
    lineL: path.length < 2 ? 0 : boreLitres(boreMm, runsMm),
    farVesselL: far === null ? 0 : Math.max(0, far.fillL - stays),
  };
}

/** What runs from a vessel whose mouth at this height is opened [L]. */
export const dripFromMouth = ({ fillL, belowL }: VesselLevel, mouthMm: number): number =>
  Math.max(0, fillL - belowL(mouthMm));

/** Slices and places in each at which the inside of a vessel is looked at. */
const SLICES = 60;
const ACROSS = 24;

/**
 * The levels of a vessel drawn as solids: shares of its inside are counted slice by slice, and stand for shares of what it holds.
 *
 * @param volumeL - what it holds to the brim; null: as drawn
 */
export function levelsOf(solids: readonly Solid[], volumeL: number | null, fillL: number): VesselLevel {
  const main = solids[0];
  if (main === undefined) return { fillL, belowL: () => 0 };
  const { min, max } = main.bounds;
  const step = [0, 1].map((k) => (max[k]! - min[k]!) / ACROSS);
  const high = (max[2] - min[2]) / SLICES;
  const slices = Array.from({ length: SLICES }, (_, n) => {
    let inside = 0;
    for (let i = 0; i < ACROSS; i++)
      for (let k = 0; k < ACROSS; k++)
        if (main.distance(min[0] + (i + 0.5) * step[0]!, min[1] + (k + 0.5) * step[1]!, min[2] + (n + 0.5) * high) <= 0)
          inside++;
    return inside * step[0]! * step[1]! * high * 1e-6;
  });
  const drawn = slices.reduce((sum, slice) => sum + slice, 0);
  const scale = volumeL === null || drawn === 0 ? 1 : volumeL / drawn;
  return {
    fillL,
    belowL: (heightMm) => {
      let sum = 0;
      for (let n = 0; n < SLICES; n++) {
        const share = Math.min(1, Math.max(0, (heightMm - min[2] - n * high) / high));
        sum += share * slices[n]! * scale;
      }
      return Math.min(fillL, sum);
    },
  };
}
