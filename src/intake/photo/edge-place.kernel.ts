import { lightAt, type PhotoImage } from './light.kernel.ts';
import { solved } from '#geometry';

/** Where an edge is along a short line across it. */
export interface EdgePlace {
  /** From the place asked for, outwards [px]. */
  readonly offset: number;
  /** How far inside and outside lie apart, over what the places beside the edge scatter. */
  readonly contrast: number;
  /** Scatter of the light about the step, as a share of the step. */
  readonly misfit: number;
  /** How bright the side below the upper edge is, from outside (0) to face (1); what was expected where none is seen. */
  readonly sideShare: number;
}

/** What is asked: a line across the edge. */
export interface EdgeAsk {
  readonly x: number;
  readonly y: number;
  /** Outwards, of length one. */
  readonly nx: number;
  readonly ny: number;
  /** How far the edge may be off [px]. */
  readonly reach: number;
  /** How far outside the upper edge the foot of a visible side is seen [px]; 0 where no side is seen. */
  readonly side: number;
  /** How bright that side is expected to be, as a share of the face. */
  readonly sideShare: number;
  /** Lines averaged along the edge, an odd number; more where it is known to be straight. */
  readonly lines: number;
}

/** Cardboard's cut side before it has been looked at. From memory. */
export const USUAL_SIDE_SHARE = 0.55;
/** How far a side's brightness may be off what is expected, and the scatter of light on a step: one weighs the other. */
const SIDE_SPREAD = 0.12;
const STEP_SCATTER = 0.05;
const SIDE_PULL = (STEP_SCATTER / SIDE_SPREAD) ** 2;

/** Lines across the edge that are averaged lie this far apart. */
const APART_PX = 1.4;
const STEP_PX = 0.5;
/** Beyond the reach, the places that say what is inside and what outside [px]. */
const LEVEL_PX = 3;
/** Noise of the light, and how much light and shade change a colour along itself. */
const NOISE = 0.012;
const SHADE = 0.45;
const FACE_SHADE = 0.1;
/** Half width of a step [px] that an edge is compared with. A step seen too wide or too narrow stays where it is. */
const STEP_WIDTH_PX = 0.9;
const GRID_PX = 0.25;
/** Most that a step may be off, as a share of it (root mean square). */
export const MOST_MISFIT = 0.3;

const MOST_SAMPLES = 400;
const lights = new Float64Array(3 * MOST_SAMPLES);
const one = new Float64Array(3);
const shown = new Float64Array(MOST_SAMPLES);

/**
 * The place of an edge between two colours, to a part of a pixel. The light is looked at along that mixture of red, green
 * and blue which tells inside from outside best while light and shade count little (Fisher's linear discriminant), so that
 * the rim of a shadow on the bench hardly shows. On it a step is fitted, or two steps where the side of a thick thing is
 * seen below its upper edge: the second a known way further out, as high as the light says. Undefined where there is no edge.
 */
export function edgePlace(photo: PhotoImage, ask: EdgeAsk): EdgePlace | undefined {
  const inner = ask.reach + LEVEL_PX;
  const outer = ask.reach + ask.side + LEVEL_PX + 1;
  const n = Math.min(MOST_SAMPLES, Math.floor((inner + outer) / STEP_PX) + 1);
  if (!gathered(photo, ask, inner, n)) return undefined;
  const levelCount = Math.max(2, Math.round(LEVEL_PX / STEP_PX));
  const mix = mixture(n, levelCount);
  if (mix === undefined) return undefined;
  let scatter = 0;
  for (let i = 0; i < n; i++) {
    shown[i] = lights[3 * i]! * mix[0]! + lights[3 * i + 1]! * mix[1]! + lights[3 * i + 2]! * mix[2]! - mix[3]!;
    if (i < levelCount) scatter += (shown[i]! - 1) ** 2;
    if (i >= n - levelCount) scatter += shown[i]! ** 2;
  }
  const contrast = 1 / Math.sqrt(scatter / (2 * levelCount) + 1e-6);
  const best = bestStep(ask, inner, n);
  if (best === undefined) return undefined;
  return { offset: best.offset, contrast, misfit: Math.sqrt(best.sum / n), sideShare: best.share };
}

function gathered(photo: PhotoImage, ask: EdgeAsk, inner: number, n: number): boolean {
  for (let i = 0; i < n; i++) {
    const s = i * STEP_PX - inner;
    let [r, g, b] = [0, 0, 0];
    for (let k = 0; k < ask.lines; k++) {
      const t = (k - (ask.lines - 1) / 2) * APART_PX;
      if (!lightAt(photo, ask.x + s * ask.nx - t * ask.ny, ask.y + s * ask.ny + t * ask.nx, one, 0)) return false;
      r += one[0]!;
      g += one[1]!;
      b += one[2]!;
    }
    lights[3 * i] = r / ask.lines;
    lights[3 * i + 1] = g / ask.lines;
    lights[3 * i + 2] = b / ask.lines;
  }
  return true;
}

/** Factors of red, green, blue and what is taken off, so that inside gives 1 and outside 0. */
function mixture(n: number, levelCount: number): Float64Array | undefined {
  const inside = new Float64Array(3);
  const outside = new Float64Array(3);
  for (let i = 0; i < levelCount; i++)
    for (let c = 0; c < 3; c++) {
      inside[c]! += lights[3 * i + c]! / levelCount;
      outside[c]! += lights[3 * (n - 1 - i) + c]! / levelCount;
    }
  const gap = inside.map((value, c) => value - outside[c]!);
  const matrix = new Float64Array(9);
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      matrix[3 * i + j] =
        (i === j ? NOISE * NOISE : 0) +
        SHADE * SHADE * outside[i]! * outside[j]! +
        FACE_SHADE * FACE_SHADE * inside[i]! * inside[j]!;
  const w = solved(matrix, gap);
  if (w === undefined) return undefined;
  const height = w[0]! * gap[0]! + w[1]! * gap[1]! + w[2]! * gap[2]!;
  // below this the two colours are the same but for noise and shade
  if (!(height > 1)) return undefined;
  const foot = w[0]! * outside[0]! + w[1]! * outside[1]! + w[2]! * outside[2]!;
  return Float64Array.of(w[0]! / height, w[1]! / height, w[2]! / height, foot / height);
}

/** A smooth step from 1 to 0, near enough to a blurred edge. */
const step = (s: number): number => 1 / (1 + Math.exp((1.702 * s) / STEP_WIDTH_PX));

interface Step {
  readonly offset: number;
  readonly sum: number;
  readonly share: number;
}

function bestStep(ask: EdgeAsk, inner: number, n: number): Step | undefined {
  const hasSide = ask.side > 0.2;
  let share = ask.sideShare;
  const sumAt = (offset: number): number => {
    // shown = upper + share * (lower - upper), the share of light on the side between nought and one
    let [plain, cross, square] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      const s = i * STEP_PX - inner - offset;
      const upper = step(s);
      const off = shown[i]! - upper;
      plain += off * off;
      if (!hasSide) continue;
      const more = step(s - ask.side) - upper;
      cross += off * more;
      square += more * more;
    }
    if (!hasSide) return plain;
    share = Math.min(1, Math.max(0, (cross + SIDE_PULL * ask.sideShare) / (square + SIDE_PULL)));
    return plain - 2 * share * cross + share * share * square + SIDE_PULL * (share - ask.sideShare) ** 2;
  };
  const count = Math.floor((2 * ask.reach) / GRID_PX) + 1;
  let [at, least] = [-1, Number.POSITIVE_INFINITY];
  for (let k = 0; k < count; k++) {
    const sum = sumAt(k * GRID_PX - ask.reach);
    if (sum < least) [least, at] = [sum, k];
  }
  if (at <= 0 || at >= count - 1) return undefined;
  const middle = at * GRID_PX - ask.reach;
  const [a, c] = [sumAt(middle - GRID_PX), sumAt(middle + GRID_PX)];
  const bend = a + c - 2 * least;
  const shift = bend > 0 ? Math.max(-1, Math.min(1, (a - c) / (2 * bend))) : 0;
  const sum = sumAt(middle + shift * GRID_PX);
  return { offset: middle + shift * GRID_PX, sum, share };
}
