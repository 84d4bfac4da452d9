import type { Vec } from '#geometry';
import { fillsAt, type Mouth } from '../dry-sump/mouths.ts';
import type { CarG } from '../tank/level.ts';
import { Levels } from '../tank/level.ts';
import { discShare } from '../tank/outlet.ts';

/** Spacing of the surface's two angles; a bore's fills between are off by under a millilitre in 10 L. */
const STEP_DEG = 1.5;

/** Oil between the first air drawn and the last oil [m3], at least. */
const LEAST_BAND_M3 = 2e-5;

/**
 * Fills at which a mouth begins to draw oil, is half covered and wholly covered, over the angles of the surface along and
 * across the car: looked up once for each step of angle, linear between.
 */
export class CoverTable {
  private readonly nodes = new Map<number, readonly [number, number, number]>();
  private readonly levels: Levels;
  private readonly mouth: Mouth;

  constructor(mouth: Mouth) {
    this.mouth = mouth;
    this.levels = new Levels(mouth.tank);
  }

  /** Fills at a g, three numbers into `into` from `at`. */
  fills(g: CarG, into: Float64Array, at: number): void {
    const flat = Math.hypot(g.longitudinalG, g.lateralG);
    const tilt = (Math.atan2(flat, g.verticalG) * 180) / Math.PI / STEP_DEG;
    const [x, y] = flat === 0 ? [0, 0] : [(g.longitudinalG / flat) * tilt, (g.lateralG / flat) * tilt];
    const [i, k] = [Math.floor(x), Math.floor(y)];
    const [fx, fy] = [x - i, y - k];
    for (let n = 0; n < 3; n++) into[at + n] = 0;
    for (let corner = 0; corner < 4; corner++) {
      const weight = ((corner & 1) === 1 ? fx : 1 - fx) * (corner >> 1 === 1 ? fy : 1 - fy);
      if (weight === 0) continue;
      const node = this.node(i + (corner & 1), k + (corner >> 1));
      for (let n = 0; n < 3; n++) into[at + n]! += weight * node[n]!;
    }
    // A level bore is bared all at once by a still surface; a real one draws air a little before (our choice).
    const first = into[at]!;
    into[at + 1] = Math.max(into[at + 1]!, first + LEAST_BAND_M3 / 2);
    into[at + 2] = Math.max(into[at + 2]!, into[at + 1]! + LEAST_BAND_M3 / 2);
  }

  private node(i: number, k: number): readonly [number, number, number] {
    const key = (i + 500) * 1000 + k + 500;
    const had = this.nodes.get(key);
    if (had !== undefined) return had;
    const tilt = (Math.hypot(i, k) * STEP_DEG * Math.PI) / 180;
    const size = Math.hypot(i, k);
    const across = size === 0 ? 0 : Math.sin(tilt) / size;
    const up: Vec = [-i * across, k * across, Math.cos(tilt)];
    this.levels.lookAlong(up);
    const made = fillsAt(this.levels, this.mouth.outlet);
    this.nodes.set(key, made);
    return made;
  }
}

/** Share of a bore under oil at a fill, from the three fills that start, halve and end it. */
export function shareCovered(oilM3: number, first: number, half: number, whole: number): number {
  if (oilM3 >= whole) return 1;
  if (oilM3 <= first) return 0;
  return discShare(oilM3 < half ? (oilM3 - half) / (half - first) : (oilM3 - half) / (whole - half));
}
