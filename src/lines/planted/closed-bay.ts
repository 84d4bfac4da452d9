import { type Vec, distance } from '#geometry';
import { chance } from './chance.ts';
import { BayWork, type PlantedBay } from './planted-bay.ts';
import { plantedLine } from './planted-line.ts';
import type { CarShape } from './solid-distance.ts';

/** How a port is cut off: shut in a box, or behind a panel across a closed room. */
export type Shut = 'boxed in' | 'panel between';

const THICK_MM = 3;
/** From the line's farthest reach to the walls [mm]. */
const AROUND_MM = 40;
const TRIES = 60;

/** A bay with no way at all from port to port. */
export function closedBay(shut: Shut, seed: number): PlantedBay {
  const draw = chance(50_000 + 2 * seed + (shut === 'boxed in' ? 0 : 1));
  for (let n = 0; n < TRIES; n++) {
    const line = plantedLine(draw, [0, 0, 500]);
    const bay = new BayWork(draw, [line]);
    if (!bay.portsStand()) continue;
    const { from, to } = line;
    if (shut === 'boxed in') {
      // Room for any end to turn in, but the other port stands outside.
      const half = draw.between(150, 210);
      if ([0, 1, 2].every((k) => Math.abs(from.at[k]! - to.at[k]!) < half + 140)) continue;
      bay.addShapes(
        hollowBox(
          [to.at[0] - half, to.at[1] - half, to.at[2] - half],
          [to.at[0] + half, to.at[1] + half, to.at[2] + half],
        ),
        6,
      );
      return bay.bay(`closed, ${shut} ${seed}`);
    }
    const axis = ([0, 1, 2] as const).reduce((p, q) =>
      Math.abs(from.at[q] - to.at[q]) > Math.abs(from.at[p] - to.at[p]) ? q : p,
    );
    if (Math.abs(from.at[axis] - to.at[axis]) < 260 || distance(from.at, to.at) < 200) continue;
    const low = [0, 1, 2].map((k) => Math.min(...line.balls.map((b) => b.at[k]!)) - AROUND_MM - 110) as unknown as Vec;
    const high = [0, 1, 2].map((k) => Math.max(...line.balls.map((b) => b.at[k]!)) + AROUND_MM + 110) as unknown as Vec;
    const middle = (from.at[axis] + to.at[axis]) / 2;
    const panel = { box: { minMm: put(low, axis, middle), maxMm: put(high, axis, middle + THICK_MM) } };
    bay.addShapes([...hollowBox(low, high), panel], 6);
    return bay.bay(`closed, ${shut} ${seed}`);
  }
  throw new Error('closed bay: no line was drawn whose ports can be cut off');
}

const put = (v: Vec, axis: 0 | 1 | 2, value: number): Vec =>
  v.map((c, k) => (k === axis ? value : c)) as unknown as Vec;

/** Six walls, overlapping at their edges. */
function hollowBox(low: Vec, high: Vec): CarShape[] {
  return ([0, 1, 2] as const).flatMap((axis) => [
    { box: { minMm: put(low, axis, low[axis] - THICK_MM), maxMm: put(high, axis, low[axis]) } },
    { box: { minMm: put(low, axis, high[axis]), maxMm: put(high, axis, high[axis] + THICK_MM) } },
  ]);
}
