import { type FlatShape } from './flat-shape.ts';

/** A colour as light, 0 to 1 each. */
export type Light = readonly [number, number, number];

/** A thing lying on the bench: a flat shape of some thickness, with the colours of its face and of its sides. */
export interface Lying {
  readonly shape: FlatShape;
  readonly thicknessMm: number;
  readonly face: (x: number, y: number) => Light;
  readonly side: Light;
}

/** How a picture is taken. */
export interface Shot {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Camera axes in the world: right, down, forward. */
  readonly right: readonly [number, number, number];
  readonly down: readonly [number, number, number];
  readonly forward: readonly [number, number, number];
  readonly eye: readonly [number, number, number];
  /** Focal length [px]. */
  readonly focalPx: number;
  /** Middle of the lens off the middle of the picture [px]. */
  readonly offPx: readonly [number, number];
  /** The lens: how far a corner moves, as a share of the half diagonal, by one of two laws. */
  readonly bend: number;
  readonly law: 'polynomial' | 'division';
  readonly blurPx: number;
  readonly noise: number;
  readonly bench: (x: number, y: number) => Light;
  readonly things: readonly Lying[];
  /** Towards the lamp, of any length; its light is lost where a thing stands in the way. */
  readonly lamp: readonly [number, number, number];
  /** What is left of the light in the shadow, 0 to 1. */
  readonly shade: number;
  /** Somebody stands in the light: beyond this straight edge (x a + y b > c) everything is in shadow, the rim `softMm` wide. */
  readonly shadow?: { readonly a: number; readonly b: number; readonly c: number; readonly softMm: number };
  readonly exposure: number;
  readonly seed: number;
}

/** A small generator of its own (mulberry32), so that the renderer shares nothing with what it checks. */
export function chance(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const bell = (next: () => number): number => Math.sqrt(-2 * Math.log(next() + 1e-12)) * Math.cos(2 * Math.PI * next());

/** The straight ray behind a pixel, in half diagonals, by halving: slow and plain. */
function straightened(seen: number, shot: Shot): number {
  if (shot.law === 'division') return seen / (1 + shot.bend * seen * seen);
  let [low, high] = [0, 2];
  for (let i = 0; i < 40; i++) {
    const mid = (low + high) / 2;
    if (mid * (1 + shot.bend * mid * mid) < seen) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

const LEVELS = 2048;

/** A table of the lens over the radius: halving once for each level, not for each ray. */
function lensTable(shot: Shot): Float64Array {
  return Float64Array.from({ length: LEVELS + 2 }, (_, i) => straightened((i * 1.2) / LEVELS, shot));
}

function rayAt(shot: Shot, table: Float64Array, px: number, py: number): [number, number, number] {
  const half = Math.hypot(shot.widthPx, shot.heightPx) / 2;
  const dx = (px - shot.widthPx / 2 - shot.offPx[0]) / half;
  const dy = (py - shot.heightPx / 2 - shot.offPx[1]) / half;
  const seen = Math.hypot(dx, dy);
  const place = (seen / 1.2) * LEVELS;
  const i = Math.min(LEVELS, Math.floor(place));
  const straight = table[i]! + (place - i) * (table[i + 1]! - table[i]!);
  const share = seen > 1e-9 ? straight / seen : 1;
  const [mx, my] = [(dx * share * half) / shot.focalPx, (dy * share * half) / shot.focalPx];
  const { right: r, down: d, forward: f } = shot;
  return [r[0] * mx + d[0] * my + f[0], r[1] * mx + d[1] * my + f[1], r[2] * mx + d[2] * my + f[2]];
}

/** What a ray meets, and how near to an edge that is [mm]. */
function met(shot: Shot, ray: readonly [number, number, number]): { light: Light; near: number } {
  let near = Number.POSITIVE_INFINITY;
  const [ex, ey, ez] = shot.eye;
  const [sx, sy] = [ray[0] / ray[2], ray[1] / ray[2]];
  const [bx, by] = [ex - ez * sx, ey - ez * sy];
  for (const thing of shot.things) {
    const [x, y] = [bx + thing.thicknessMm * sx, by + thing.thicknessMm * sy];
    const onFace = thing.shape.at(x, y);
    near = Math.min(near, Math.abs(onFace));
    if (onFace <= 0) return { light: lit(shot, thing.face(x, y), x, y, thing.thicknessMm), near };
    // between face and bench the ray may go in through a side
    const steps = Math.max(2, Math.ceil(Math.hypot(bx - x, by - y) / 0.25));
    for (let k = 1; k <= steps && thing.thicknessMm > 0; k++) {
      const d = thing.shape.at(x + ((bx - x) * k) / steps, y + ((by - y) * k) / steps);
      near = Math.min(near, Math.abs(d));
      if (d <= 0) return { light: thing.side, near };
    }
  }
  return { light: lit(shot, shot.bench(bx, by), bx, by, 0), near };
}

/** Three rays to the lamp, a little apart: a shadow with a soft rim. */
const LAMP_SPREAD = [-0.12, 0, 0.12];

function lit(shot: Shot, full: Light, x: number, y: number, z: number): Light {
  let light = full;
  if (shot.shadow !== undefined) {
    const over = (x * shot.shadow.a + y * shot.shadow.b - shot.shadow.c) / shot.shadow.softMm;
    const share = 1 - (1 - shot.shade) * Math.min(1, Math.max(0, 0.5 + over));
    light = [full[0] * share, full[1] * share, full[2] * share];
  }
  const slope = (1.2 * Math.hypot(shot.lamp[0], shot.lamp[1])) / shot.lamp[2];
  let isOpen = true;
  for (const thing of shot.things) isOpen &&= thing.shape.at(x, y) > slope * (thing.thicknessMm - z);
  if (isOpen) return light;
  let free = 0;
  for (const spread of LAMP_SPREAD) {
    let isShaded = false;
    for (const thing of shot.things) {
      for (let k = 1; k <= 4 && !isShaded; k++) {
        const up = z + ((thing.thicknessMm - z) * k) / 4;
        if (thing.thicknessMm <= z) break;
        const s = (up - z) / shot.lamp[2];
        isShaded =
          thing.shape.at(
            x + s * (shot.lamp[0] + spread * shot.lamp[1]),
            y + s * (shot.lamp[1] - spread * shot.lamp[0]),
          ) <= 0;
      }
    }
    free += isShaded ? shot.shade : 1;
  }
  const share = free / LAMP_SPREAD.length;
  return [light[0] * share, light[1] * share, light[2] * share];
}

const NEAR_EDGE_MM = 3;
const FINE = 4;

/** The picture, RGBA. Rays are cast closer where an edge is near; then the lens's blur, the sensor's noise, the usual curve. */
export function renderPhoto(shot: Shot): { width: number; height: number; data: Uint8Array } {
  const { widthPx: w, heightPx: h } = shot;
  const table = lensTable(shot);
  const light = [0, 1, 2].map(() => new Float32Array(w * h));
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const one = met(shot, rayAt(shot, table, x + 0.5, y + 0.5));
      let sum: number[] = [...one.light];
      if (one.near < NEAR_EDGE_MM) {
        sum = [0, 0, 0];
        for (let k = 0; k < FINE * FINE; k++) {
          const px = x + ((k % FINE) + 0.5) / FINE;
          const py = y + (Math.floor(k / FINE) + 0.5) / FINE;
          const fine = met(shot, rayAt(shot, table, px, py)).light;
          for (let c = 0; c < 3; c++) sum[c]! += fine[c]! / (FINE * FINE);
        }
      }
      for (let c = 0; c < 3; c++) light[c]![y * w + x] = sum[c]!;
    }
  const next = chance(shot.seed);
  const data = new Uint8Array(4 * w * h).fill(255);
  light.forEach((plane, c) => {
    const soft = blurred(plane, w, h, shot.blurPx);
    for (let i = 0; i < w * h; i++) {
      const value = soft[i]! * shot.exposure;
      const noisy = value + shot.noise * Math.sqrt(0.05 + value) * bell(next);
      data[4 * i + c] = Math.round(255 * curve(Math.min(1, Math.max(0, noisy))));
    }
  });
  return { width: w, height: h, data };
}

/** The sRGB curve. */
const curve = (v: number): number => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

function blurred(plane: Float32Array, w: number, h: number, sigma: number): Float32Array {
  if (sigma <= 0) return plane;
  const reach = Math.ceil(3 * sigma);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)));
  const total = kernel.reduce((a, b) => a + b, 0);
  const pass = (from: Float32Array, stepX: number, stepY: number): Float32Array => {
    const out = new Float32Array(w * h);
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++) {
        let sum = 0;
        for (let k = -reach; k <= reach; k++) {
          const at = Math.min(w - 1, Math.max(0, x + k * stepX)) + w * Math.min(h - 1, Math.max(0, y + k * stepY));
          sum += kernel[k + reach]! * from[at]!;
        }
        out[y * w + x] = sum / total;
      }
    return out;
  };
  return pass(pass(plane, 1, 0), 0, 1);
}
