import type { SmallImage } from './light.kernel.ts';

/*
 * What is not bench. The rim of the picture shows the bench; its colours are gathered there. Light that falls on the bench
 * less (a shadow) makes it darker and leaves its colour, so a place that is the bench's colour and a part as bright is
 * bench too: an edge of a shadow is no edge of a thing. Source: colour ratios, as in finlayson-2006.
 */

/** The picture's rim that is taken for bench, as a share of its shorter side. */
const RIM_SHARE = 0.035;
/** Colours of bench told apart. */
const CLUSTERS = 3;
const ROUNDS = 8;
/** Added to light before its logarithm, so that the noise of the dark does not count as colour. */
const DARK = 0.012;
/** Shadow leaves at least this share of the light, and no place is brighter than the rim by more than this. */
const SHADE_LEAST = 0.36;
const BRIGHT_MOST = 1.35;
/** Least spread of a bench's colour, in logarithms of ratios of light. */
const LEAST_SPREAD = 0.045;
/** Spread of brightness beyond shadow. */
const BRIGHT_SPREAD = 0.1;
/** This many spreads off the bench is not bench. */
export const OFF_BENCH = 3;

/** How far each place is from being bench, in spreads. */
export function offBench(image: SmallImage): Float32Array {
  const { width, height } = image;
  const n = width * height;
  const colour = logColours(image);
  const rim = Math.max(3, Math.round(RIM_SHARE * Math.min(width, height)));
  const places: number[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      if (x < rim || y < rim || x >= width - rim || y >= height - rim) places.push(y * width + x);
  const means = clusters(colour, places, n);
  const low = Math.log(SHADE_LEAST);
  const high = Math.log(BRIGHT_MOST);
  const out = new Float32Array(n);
  for (let i = 0; i < n; i++) {
    let best = Number.POSITIVE_INFINITY;
    for (const m of means) {
      const a = (colour[i]! - m.a) / m.spreadA;
      const b = (colour[n + i]! - m.b) / m.spreadB;
      const l = colour[2 * n + i]! - m.l;
      const beyond = l < low ? low - l : l > high ? l - high : 0;
      best = Math.min(best, a * a + b * b + (beyond / BRIGHT_SPREAD) ** 2);
    }
    out[i] = Math.sqrt(best);
  }
  return out;
}

interface Cluster {
  a: number;
  b: number;
  l: number;
  spreadA: number;
  spreadB: number;
}

/** Logarithms of red over green, blue over green, and of the light as a whole. */
function logColours({ light, width, height }: SmallImage): Float32Array {
  const n = width * height;
  const out = new Float32Array(3 * n);
  for (let i = 0; i < n; i++) {
    const r = Math.log(light[i]! + DARK);
    const g = Math.log(light[n + i]! + DARK);
    const b = Math.log(light[2 * n + i]! + DARK);
    out[i] = r - g;
    out[n + i] = b - g;
    out[2 * n + i] = (r + g + b) / 3;
  }
  return out;
}

/** Few means round which the rim's colours lie; begun at even ranks of brightness, so that no chance comes in. */
function clusters(colour: Float32Array, places: readonly number[], n: number): Cluster[] {
  const byLight = [...places].sort((p, q) => colour[2 * n + p]! - colour[2 * n + q]!);
  const means: Cluster[] = Array.from({ length: CLUSTERS }, (_, k) => {
    const at = byLight[Math.floor(((k + 0.5) / CLUSTERS) * byLight.length)]!;
    return { a: colour[at]!, b: colour[n + at]!, l: colour[2 * n + at]!, spreadA: 1, spreadB: 1 };
  });
  for (let round = 0; round < ROUNDS; round++) {
    const sums = means.map(() => [0, 0, 0, 0, 0, 0]);
    for (const at of places) {
      const [a, b, l] = [colour[at]!, colour[n + at]!, colour[2 * n + at]!];
      let best = 0;
      let least = Number.POSITIVE_INFINITY;
      means.forEach((m, k) => {
        const d = 9 * (a - m.a) ** 2 + 9 * (b - m.b) ** 2 + (l - m.l) ** 2;
        if (d < least) [least, best] = [d, k];
      });
      const s = sums[best]!;
      s[0]! += 1;
      s[1]! += a;
      s[2]! += b;
      s[3]! += l;
      s[4]! += a * a;
      s[5]! += b * b;
    }
    sums.forEach(([count = 0, a = 0, b = 0, l = 0, aa = 0, bb = 0], k) => {
      if (count === 0) return;
      const [ma, mb] = [a / count, b / count];
      means[k] = {
        a: ma,
        b: mb,
        l: l / count,
        spreadA: Math.max(LEAST_SPREAD, Math.sqrt(Math.max(0, aa / count - ma * ma))),
        spreadB: Math.max(LEAST_SPREAD, Math.sqrt(Math.max(0, bb / count - mb * mb))),
      };
    });
  }
  return means;
}
