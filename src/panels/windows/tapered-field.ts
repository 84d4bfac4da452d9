import { type Point2, type ReadyOutline, sideCrossings } from '#geometry';
import {
  type Clear,
  type FieldQuad,
  heightAt,
  inTheWay,
  quadArea,
  quadMiddle,
  raised,
  roomAbout,
  scaledQuad,
  type Slanted,
  square,
} from './field-quad.ts';
import { leaningQuad } from './leaning-ends.ts';
import type { WindowSpec } from './window-spec.ts';

/** The panel's two long edges above one another: samples of the clear stretch that a field may lie in. */
interface Taper {
  readonly us: readonly number[];
  readonly lows: readonly number[];
  readonly highs: readonly number[];
}

/** Samples along the panel: enough to see every edge of it, and their count is odd so that one is its middle. */
const SAMPLES = 33;

/** Heights at which a line square to the edge crosses the outline, in order. */
function crossings(panel: ReadyOutline, u: number): number[] {
  const [low, high] = [panel.box[1] - 1, panel.box[3] + 1];
  const upright = { a: [u, low] as Point2, b: [u, high] as Point2 };
  const found = panel.sides.flatMap((side, i) => {
    const box = panel.boxes[i]!;
    return box[0] > u || box[2] < u ? [] : sideCrossings(upright, side).map(({ one }) => low + one * (high - low));
  });
  return found.sort((a, b) => a - b);
}

/** The stretch of a line square to the edge that holds v; undefined where v lies outside. */
function stretchAt(panel: ReadyOutline, u: number, v: number): [number, number] | undefined {
  const heights = crossings(panel, u);
  for (let i = 0; i + 1 < heights.length; i++)
    if (heights[i]! < v && heights[i + 1]! > v && roomAbout([u, v], panel, 0, []) > 0)
      return [heights[i]!, heights[i + 1]!];
  return undefined;
}

/** Follows the panel's clear stretch both ways from a point inside it. */
function taperFrom(panel: ReadyOutline, [u0, v0]: Point2): Taper | undefined {
  const [least, most] = [panel.box[0], panel.box[2]];
  const from = stretchAt(panel, u0, v0);
  if (from === undefined) return undefined;
  const walked = (way: 1 | -1): [number, number, number][] => {
    const found: [number, number, number][] = [];
    let [v, far] = [(from[0] + from[1]) / 2, way > 0 ? most - u0 : u0 - least];
    far = Math.max(0, far - 1e-6);
    for (let k = 1; k <= (SAMPLES - 1) / 2; k++) {
      const u = u0 + (way * far * k) / ((SAMPLES - 1) / 2);
      const stretch = stretchAt(panel, u, v);
      if (stretch === undefined) break;
      found.push([u, ...stretch]);
      v = (stretch[0] + stretch[1]) / 2;
    }
    return found;
  };
  const rows = [...walked(-1).toReversed(), [u0, ...from] as const, ...walked(1)];
  return { us: rows.map(([u]) => u), lows: rows.map(([, low]) => low), highs: rows.map(([, , high]) => high) };
}

/** The line over samples i to j that follows a long edge: from end to end, no sample beyond it (`way` 1: samples lie below). */
function edgeLine(us: readonly number[], heights: readonly number[], i: number, j: number, way: 1 | -1): Slanted {
  const slope = i === j ? 0 : (heights[j]! - heights[i]!) / (us[j]! - us[i]!);
  let at0 = -way * Infinity;
  for (let k = i; k <= j; k++) {
    const here = heights[k]! - slope * us[k]!;
    at0 = way > 0 ? Math.max(at0, here) : Math.min(at0, here);
  }
  return { at0, slope };
}

/** The largest field between the panel's long edges over any stretch of the samples; about `u0` where that is given. */
function largestQuad({ us, lows, highs }: Taper, edgeMm: number, u0: number | undefined): FieldQuad | undefined {
  let best: FieldQuad | undefined;
  let most = 0;
  let off = Infinity;
  const middle = (us[0]! + us.at(-1)!) / 2;
  for (let i = 0; i < us.length; i++)
    for (let j = i + 1; j < us.length; j++) {
      const quad: FieldQuad = {
        left: square(us[i]! + edgeMm),
        right: square(us[j]! - edgeMm),
        low: raised(edgeLine(us, lows, i, j, 1), edgeMm),
        high: raised(edgeLine(us, highs, i, j, -1), -edgeMm),
      };
      const [now, offNow] = [quadArea(quad), Math.abs(quadMiddle(quad)[0] - (u0 ?? middle))];
      if (u0 !== undefined && offNow > (us[1]! - us[0]!) / 2 + 1e-6) continue;
      // Of two as large as one another the one nearer to the middle, so that a mirrored panel has mirrored windows.
      if (now > most * (1 + 1e-9) || (now > most * (1 - 1e-9) && offNow < off - 1e-6))
        [best, most, off] = [quad, now, offNow];
    }
  return best;
}

/** The point with the most room about it, on a grid over the panel; of equals the one nearest to its middle. */
function roomiest(panel: ReadyOutline, edgeMm: number, clears: readonly Clear[]): Point2 | undefined {
  const [x0, y0, x1, y1] = panel.box;
  const n = 24;
  let best: Point2 | undefined;
  let [most, off] = [0, Infinity];
  for (let i = 0; i <= n; i++)
    for (let j = 0; j <= n; j++) {
      const p: Point2 = [x0 + ((x1 - x0) * i) / n, y0 + ((y1 - y0) * j) / n];
      const room = roomAbout(p, panel, edgeMm, clears, most - 1e-6);
      const offNow = Math.hypot(i - n / 2, j - n / 2);
      if (room > most + 1e-6 || (room > most - 1e-6 && offNow < off - 1e-9)) [best, most, off] = [p, room, offNow];
    }
  return best;
}

/** Halvings by which a side is found: to a thousandth of a millimetre on a metre. */
const HALVINGS = 20;

/** The largest share of 0 to 1 at which something holds that holds at 0. */
export function mostShare(holds: (share: number) => boolean, halvings = HALVINGS): number {
  if (holds(1)) return 1;
  let [low, high] = [0, 1];
  for (let k = 0; k < halvings; k++) {
    const mid = (low + high) / 2;
    if (holds(mid)) low = mid;
    else high = mid;
  }
  return low;
}

/** A field's lines some way towards another's that lean as they do; one share for both ends, or one for each. */
function mixed(a: FieldQuad, b: FieldQuad, ends: number, low: number, high: number, right = ends): FieldQuad {
  const line = (from: Slanted, to: Slanted, share: number): Slanted => ({
    at0: from.at0 + share * (to.at0 - from.at0),
    slope: from.slope,
  });
  return {
    left: line(a.left, b.left, ends),
    right: line(a.right, b.right, right),
    low: line(a.low, b.low, low),
    high: line(a.high, b.high, high),
  };
}

/**
 * The field that fills a panel clear of its outline and of `clears`: between its two long edges, shrunk until nothing is in its
 * way and then let out again side by side. A given middle stays the middle.
 */
export function fillingQuad(
  panel: ReadyOutline,
  edgeMm: number,
  clears: readonly Clear[],
  spec: Pick<WindowSpec, 'shape' | 'ends' | 'centreAlongMm' | 'centreAcrossMm'>,
): FieldQuad | { readonly why: string } {
  const { centreAlongMm: u0, centreAcrossMm: v0 } = spec;
  const deep = roomiest(panel, edgeMm, clears);
  if (deep === undefined) return { why: `nowhere on the panel is ${edgeMm.toFixed(1)} mm clear all round` };
  const seed: Point2 = seedPoint(panel, deep, u0, v0);
  const taper = taperFrom(panel, seed);
  if (taper === undefined)
    return { why: `its middle at ${seed[0].toFixed(1)}, ${seed[1].toFixed(1)} mm is not on the panel` };
  const wish = largestQuad(taper, edgeMm, u0) ?? largestQuad(taper, 0, u0);
  if (wish === undefined)
    return { why: `between the long edges there is less than two edge distances of ${edgeMm.toFixed(1)} mm` };
  const holds = (quad: FieldQuad): boolean => inTheWay(quad, panel, edgeMm, clears) === undefined;
  const isLeaning = (spec.ends ?? (spec.shape === 'trapezoid' ? 'leaning' : 'square')) === 'leaning';
  const leaning = isLeaning ? leaningQuad(wish, panel, edgeMm) : wish;
  const wishes = leaning.left.slope === 0 && leaning.right.slope === 0 ? [wish] : [leaning, wish];
  const [own] = wishes.map(quadMiddle);
  const middles: Point2[] = u0 === undefined && v0 === undefined ? [own!, deep] : [[u0 ?? own![0], v0 ?? own![1]]];
  let best: FieldQuad | undefined;
  for (const of of wishes)
    for (const middle of middles) {
      const about = aboutMiddle(of, middle);
      const share = mostShare((s) => s > 0 && holds(scaledQuad(about, middle, s)));
      if (share === 0) continue;
      const isFree = u0 === undefined && v0 === undefined;
      const quad = letOut(scaledQuad(about, middle, share), about, holds, isFree);
      if (best === undefined || quadArea(quad) > quadArea(best) * (1 + 1e-9)) best = quad;
    }
  return best ?? { why: `its middle at ${middles[0]!.map((x) => x.toFixed(1)).join(', ')} mm has no room about it` };
}

/** Where the panel's long edges are looked for from. */
function seedPoint(panel: ReadyOutline, deep: Point2, u0: number | undefined, v0: number | undefined): Point2 {
  if (u0 === undefined && v0 === undefined) return deep;
  const u = u0 ?? deep[0];
  if (v0 !== undefined) return [u, v0];
  const heights = crossings(panel, u);
  let seed: Point2 = [u, deep[1]];
  let wide = 0;
  for (let i = 0; i + 1 < heights.length; i++) {
    const [v, now] = [(heights[i]! + heights[i + 1]!) / 2, heights[i + 1]! - heights[i]!];
    if (now > wide && roomAbout([u, v], panel, 0, []) > 0) [seed, wide] = [[u, v], now];
  }
  return seed;
}

/** The largest field within another's sides whose middle is a given point. */
function aboutMiddle(quad: FieldQuad, [u, v]: Point2): FieldQuad {
  const long = [heightAt(quad.left, v), heightAt(quad.right, v)] as const;
  const half = Math.min(Math.abs(u - long[0]), Math.abs(long[1] - u)) || (long[1] - long[0]) / 2;
  const high = Math.min(Math.abs(heightAt(quad.high, u) - v), Math.abs(v - heightAt(quad.low, u)));
  return {
    left: { at0: u - half - quad.left.slope * v, slope: quad.left.slope },
    right: { at0: u + half - quad.right.slope * v, slope: quad.right.slope },
    low: { at0: v - high - quad.low.slope * u, slope: quad.low.slope },
    high: { at0: v + high - quad.high.slope * u, slope: quad.high.slope },
  };
}

/** Lets the sides out towards a wish again, ends first together and then each alone; both ends alone only where both can. */
function letOut(quad: FieldQuad, wish: FieldQuad, holds: (quad: FieldQuad) => boolean, isFree: boolean): FieldQuad {
  const ends = mostShare((s) => holds(mixed(quad, wish, s, 0, 0)));
  let now = mixed(quad, wish, ends, 0, 0);
  const both = mostShare((s) => holds(mixed(now, wish, 0, s, s)));
  now = mixed(now, wish, 0, both, both);
  if (!isFree) return now;
  const [low, high] = [
    mostShare((s) => holds(mixed(now, wish, 0, s, 0))),
    mostShare((s) => holds(mixed(now, wish, 0, 0, s))),
  ];
  if (holds(mixed(now, wish, 0, low, high))) now = mixed(now, wish, 0, low, high);
  const [left, right] = [
    mostShare((s) => holds(mixed(now, wish, s, 0, 0, 0))),
    mostShare((s) => holds(mixed(now, wish, 0, 0, 0, s))),
  ];
  const out = mixed(now, wish, left, 0, 0, right);
  return holds(out) ? out : now;
}

/** A field of a given size about its middle; its sides and ends lie between the slants of those that fill the panel. */
export function sizedQuad(filling: FieldQuad, [u, v]: Point2, [along, across]: readonly [number, number]): FieldQuad {
  const lineAt = (a: Slanted, b: Slanted, here: number, over: number): Slanted => {
    const [from, to] = [heightAt(a, here), heightAt(b, here)];
    const share = Math.min(1, Math.max(0, (over - from) / (to - from)));
    const slope = a.slope + share * (b.slope - a.slope);
    return { at0: over - slope * here, slope };
  };
  return {
    left: lineAt(filling.left, filling.right, v, u - along / 2),
    right: lineAt(filling.left, filling.right, v, u + along / 2),
    low: lineAt(filling.low, filling.high, u, v - across / 2),
    high: lineAt(filling.low, filling.high, u, v + across / 2),
  };
}
