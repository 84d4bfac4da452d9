import { type Bounds, distanceToBounds } from './bounds.ts';
import { GeometryError } from './geometry-error.ts';
import { sharedBytes } from './mesh-bvh.kernel.ts';
import type { Solid } from './solid.ts';
import {
  BRICK_CELLS,
  BRICK_VALUES,
  FLAG_WORDS,
  makeBrickFiller,
  readBrick,
  type SlackItem,
} from './slack-brick.kernel.ts';

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
  const bricks = counts[0] * counts[1] * counts[2];
  const memory = options.memory ?? newMemory(bricks);
  const filler = makeBrickFiller({ cellMm, reachMm, items, ...memory });
  const filled = makeFilled(filler, memory.state, min, counts, cellMm * BRICK_CELLS);
  const read = makeReader(options, memory, min, counts, filled);
  const scratch = new Float64Array(4);
  const side = cellMm * BRICK_CELLS;
  return {
    bounds: { min, max: [min[0] + counts[0] * side, min[1] + counts[1] * side, min[2] + counts[2] * side] },
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
    exactSlack: makeExactSlack(items, reachMm),
    fill: (from, to, watch) => {
      for (let brick = from; brick < to; brick++) {
        filled(brick);
        if (watch !== undefined && (brick & 255) === 255 && !watch(brick - from + 1, to - from)) return false;
      }
      return true;
    },
  };
}

type Counts = readonly [number, number, number];

/** The state of a brick, which is worked out first if no thread has. */
function makeFilled(
  fill: (brick: number, x: number, y: number, z: number) => number,
  state: Uint8Array,
  min: Bounds['min'],
  [nx, ny]: Counts,
  brickMm: number,
) {
  return (brick: number): number => {
    const known = Atomics.load(state, brick);
    if (known !== EMPTY) return known;
    const i = brick % nx;
    const j = Math.floor(brick / nx) % ny;
    const k = Math.floor(brick / (nx * ny));
    const is = fill(brick, min[0] + i * brickMm, min[1] + j * brickMm, min[2] + k * brickMm);
    // The values are written before the state says so; another thread at the same brick writes the same values.
    Atomics.store(state, brick, is);
    return is;
  };
}

/** Slack and gradient off the grid; exactly where the grid ends, and in cells too near to something. */
function makeReader(
  { cellMm, reachMm, items }: SlackFieldOptions,
  { values, flags }: FieldMemory,
  [x0, y0, z0]: Bounds['min'],
  [nx, ny, nz]: Counts,
  filled: (brick: number) => number,
): GridSlackField['slackAndGradient'] {
  const perCell = 1 / cellMm;
  const perBrick = 1 / (cellMm * BRICK_CELLS);
  const exactInto = makeExactGradient(items, reachMm);
  return (x, y, z, out) => {
    const i = Math.floor((x - x0) * perBrick);
    const j = Math.floor((y - y0) * perBrick);
    const k = Math.floor((z - z0) * perBrick);
    if (!(i >= 0 && j >= 0 && k >= 0 && i < nx && j < ny && k < nz)) return exactInto(x, y, z, out);
    const brick = (k * ny + j) * nx + i;
    if (filled(brick) === FAR) {
      out[0] = reachMm;
      out[1] = out[2] = out[3] = 0;
      return;
    }
    const u = (x - x0) * perCell - i * BRICK_CELLS;
    const v = (y - y0) * perCell - j * BRICK_CELLS;
    const w = (z - z0) * perCell - k * BRICK_CELLS;
    if (!readBrick(values, flags, brick, u, v, w, perCell, out)) exactInto(x, y, z, out);
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
