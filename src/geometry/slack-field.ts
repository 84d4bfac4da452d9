import { type Bounds, distanceToBounds } from './bounds.ts';
import { GeometryError } from './geometry-error.ts';
import { sharedBytes } from './mesh-bvh.kernel.ts';
import type { Solid } from './solid.ts';
import { BRICK_CELLS, BRICK_VALUES, FLAG_WORDS, makeBrickFiller, readBrick } from './slack-brick.kernel.ts';

/** Something to keep off: a solid, and how far [mm]. */
export interface SlackItem {
  readonly solid: Solid;
  readonly keepOffMm: number;
}

export interface SlackFieldOptions {
  /** Where it will mostly be read. Outside it reads exactly, and slowly. */
  readonly bounds: Bounds;
  readonly cellMm: number;
  /** Slack above this counts as this: nobody asks how much more room there is. */
  readonly reachMm: number;
  readonly items: readonly SlackItem[];
  /** Memory of a field with the same options, made on another thread: both then fill and read one field. */
  readonly memory?: FieldMemory;
}

/** What threads share of a field. */
export interface FieldMemory {
  readonly state: Uint8Array;
  readonly values: Float32Array;
  readonly flags: Uint32Array;
}

/**
 * Slack = least over the items of distance - keep-off, read off a grid that is worked out where it is read.
 *
 * Outside solids a reading is at most `mostTooMuchMm` above the true slack, plus a tenth of what slack is lacking. It may be below it: by up to 0.87 cells (more
 * far from everything) on ridges, midway between two things; inside solids both ways. `exactSlack` has no such error.
 */
export interface GridSlackField {
  readonly bounds: Bounds;
  readonly cellMm: number;
  readonly reachMm: number;
  readonly mostTooMuchMm: number;
  readonly memory: FieldMemory;
  readonly bricks: number;
  slack(x: number, y: number, z: number): number;
  /** out[0] = slack [mm], out[1..3] = its gradient [-]. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
  /** The true slack, up to `reachMm`, off the solids themselves [mm]. */
  exactSlack(x: number, y: number, z: number): number;
  /** Works out bricks [from, to) now; false when `watch` called it off. The values are the same in whatever order and on however many threads. */
  fill(from: number, to: number, watch?: (done: number, total: number) => boolean): boolean;
}

/** Bricks up to this many: 400 M values. */
const MOST_BRICKS = 550_000;

const EMPTY = 0;
const FAR = 1;

export function slackField(options: SlackFieldOptions): GridSlackField {
  const { cellMm, reachMm, items } = options;
  const { min, counts } = checkedGrid(options);
  const brickMm = cellMm * BRICK_CELLS;
  const bricks = counts[0] * counts[1] * counts[2];
  const memory = options.memory ?? newMemory(bricks);
  const { state, values, flags } = memory;
  const [x0, y0, z0] = min;
  const [nx, ny, nz] = counts;
  const perCell = 1 / cellMm;
  const perBrick = 1 / brickMm;
  const filler = makeBrickFiller({ cellMm, reachMm, items, values, flags });
  const exactSlack = makeExactSlack(items, reachMm);
  const exactInto = makeExactGradient(items, reachMm);

  const filled = (brick: number): number => {
    const known = Atomics.load(state, brick);
    if (known !== EMPTY) return known;
    const i = brick % nx;
    const j = Math.floor(brick / nx) % ny;
    const k = Math.floor(brick / (nx * ny));
    const is = filler(brick, x0 + i * brickMm, y0 + j * brickMm, z0 + k * brickMm);
    // The values are written before the state says so; another thread at the same brick writes the same values.
    Atomics.store(state, brick, is);
    return is;
  };
  const brickAt = (x: number, y: number, z: number): number => {
    const i = Math.floor((x - x0) * perBrick);
    const j = Math.floor((y - y0) * perBrick);
    const k = Math.floor((z - z0) * perBrick);
    return i >= 0 && j >= 0 && k >= 0 && i < nx && j < ny && k < nz ? (k * ny + j) * nx + i : -1;
  };
  const read = (x: number, y: number, z: number, out: Float64Array): void => {
    const brick = brickAt(x, y, z);
    if (brick < 0) return exactInto(x, y, z, out);
    if (filled(brick) === FAR) {
      out[0] = reachMm;
      out[1] = out[2] = out[3] = 0;
      return;
    }
    const u = (x - x0) * perCell - (brick % nx) * BRICK_CELLS;
    const v = (y - y0) * perCell - (Math.floor(brick / nx) % ny) * BRICK_CELLS;
    const w = (z - z0) * perCell - Math.floor(brick / (nx * ny)) * BRICK_CELLS;
    if (readBrick(values, flags, brick, u, v, w, perCell, out)) return;
    exactInto(x, y, z, out);
  };
  const scratch = new Float64Array(4);
  return {
    bounds: { min, max: [x0 + nx * brickMm, y0 + ny * brickMm, z0 + nz * brickMm] },
    cellMm,
    reachMm,
    mostTooMuchMm: filler.mostTooMuchMm,
    memory,
    bricks,
    slack: (x, y, z) => {
      read(x, y, z, scratch);
      return scratch[0]!;
    },
    slackAndGradient: read,
    exactSlack,
    fill: (from, to, watch) => {
      for (let brick = from; brick < to; brick++) {
        filled(brick);
        if (watch !== undefined && (brick & 255) === 255 && !watch(brick - from + 1, to - from)) return false;
      }
      return true;
    },
  };
}

function checkedGrid(options: SlackFieldOptions): { min: Bounds['min']; counts: [number, number, number] } {
  const { bounds, cellMm, reachMm } = options;
  if (!(cellMm > 0 && Number.isFinite(cellMm))) throw new GeometryError('field cellMm', cellMm, 'a length above 0 mm');
  if (!(reachMm > 0 && Number.isFinite(reachMm)))
    throw new GeometryError('field reachMm', reachMm, 'a length above 0 mm');
  const brickMm = cellMm * BRICK_CELLS;
  const counts = [0, 1, 2].map((i) => {
    const side = bounds.max[i]! - bounds.min[i]!;
    if (!(side >= 0 && Number.isFinite(side))) throw new GeometryError(`field bounds side ${i}`, side, '0 mm or more');
    return Math.max(1, Math.ceil(side / brickMm));
  }) as [number, number, number];
  const bricks = counts[0] * counts[1] * counts[2];
  if (bricks > MOST_BRICKS) throw new GeometryError('field bricks', bricks, `${MOST_BRICKS}: use larger cells`);
  return { min: bounds.min, counts };
}

/** Untouched pages of it cost nothing. */
function newMemory(bricks: number): FieldMemory {
  return {
    state: new Uint8Array(sharedBytes(bricks)),
    values: new Float32Array(sharedBytes(bricks * BRICK_VALUES * 4)),
    flags: new Uint32Array(sharedBytes(bricks * FLAG_WORDS * 4)),
  };
}

function makeExactSlack(items: readonly SlackItem[], reachMm: number) {
  return (x: number, y: number, z: number): number => {
    let best = reachMm;
    for (const { solid, keepOffMm } of items) {
      if (distanceToBounds(solid.bounds, x, y, z) - keepOffMm >= best) continue;
      const slack = solid.distanceWithin(x, y, z, best + keepOffMm) - keepOffMm;
      if (slack < best) best = slack;
    }
    return best;
  };
}

function makeExactGradient(items: readonly SlackItem[], reachMm: number) {
  return (x: number, y: number, z: number, out: Float64Array): void => {
    let best = reachMm;
    let nearest: Solid | null = null;
    for (const { solid, keepOffMm } of items) {
      if (distanceToBounds(solid.bounds, x, y, z) - keepOffMm >= best) continue;
      const slack = solid.distanceWithin(x, y, z, best + keepOffMm) - keepOffMm;
      if (slack >= best) continue;
      best = slack;
      nearest = solid;
    }
    out[0] = best;
    out[1] = out[2] = out[3] = 0;
    if (nearest === null) return;
    const { point, distance } = nearest.closest(x, y, z);
    const per = distance === 0 ? 0 : 1 / distance;
    out[1] = (x - point[0]) * per;
    out[2] = (y - point[1]) * per;
    out[3] = (z - point[2]) * per;
  };
}
