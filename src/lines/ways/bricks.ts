import { type Body, type Bounds, type Solid, bodyField, bodyShape, distanceToBounds, grown, joined } from '#geometry';
import { CellValues } from './cell-values.ts';

/** Something to keep off: a distance that may stop at a limit, and bounds round it. */
export interface BrickItem {
  readonly solid: {
    readonly bounds: Bounds;
    distanceWithin(x: number, y: number, z: number, limitMm: number): number;
    closest?: Solid['closest'];
  };
  /** From its surface to the line's [mm]. */
  readonly keepOffMm: number;
}

/** Cells of the fine readings [mm] and cells along a brick's edge. */
const CELL_MM = 6;
const BRICK_CELLS = 8;
const CORNERS = BRICK_CELLS + 1;
const BRICK_MM = CELL_MM * BRICK_CELLS;
const HALF_DIAGONAL_MM = (BRICK_MM * Math.sqrt(3)) / 2;
/** Beyond this slack nothing matters to a planner [mm]. */
export const REACH_MM = 120;
/** Cells of the coarse readings, for corridors [mm]. */
export const COARSE_MM = 24;
/** Bricks and cells are numbered from here, so that a car anywhere within 90 m has whole numbers above 0. */
const ORIGIN = 2048;
const SPAN = 4096;

/** One brick's readings at its corners and what they can be of, or a single value where nothing is within reach. */
type Brick = { readonly corners: Float32Array; readonly close: readonly BrickItem[] } | number;

/**
 * Slack to a list of items, worked out where it is first asked for and kept: corner values in bricks, read trilinearly
 * (a few millimetres too generous at inside corners; what matters is judged on the true surfaces). The same place reads the
 * same whatever was asked before.
 */
export class SlackBricks {
  readonly items: readonly BrickItem[];
  private readonly bricks = new Map<number, Brick>();
  private readonly cells = new CellValues((i, j, k) =>
    slackOf(this.items, (i + 0.5) * COARSE_MM, (j + 0.5) * COARSE_MM, (k + 0.5) * COARSE_MM, REACH_MM),
  );
  private lastKey = -1;
  private last: Brick = REACH_MM;
  /** Round everything there is to keep off. */
  readonly bounds: Bounds;

  constructor(items: readonly BrickItem[]) {
    this.items = items;
    this.bounds = items.map((item) => grown(item.solid.bounds, item.keepOffMm)).reduce(joined, NOWHERE);
  }

  /**
   * Takes over what another has read, but for the places that these items can reach.
   *
   * @param changed - what is not the same in both: as it was there, and as it is here
   */
  takeOver(from: SlackBricks, changed: readonly BrickItem[]): void {
    const isFar = (x: number, y: number, z: number, reachMm: number): boolean =>
      changed.every((item) => distanceToBounds(item.solid.bounds, x, y, z) >= reachMm + item.keepOffMm);
    for (const [key, brick] of from.bricks) {
      const [bx, by, bz] = [key % SPAN, Math.floor(key / SPAN) % SPAN, Math.floor(key / SPAN / SPAN)];
      const centre = (b: number): number => (b - ORIGIN + 0.5) * BRICK_MM;
      if (isFar(centre(bx), centre(by), centre(bz), REACH_MM + HALF_DIAGONAL_MM)) this.bricks.set(key, brick);
    }
    const middle = (n: number): number => (n + 0.5) * COARSE_MM;
    this.cells.takeOver(from.cells, (i, j, k) => isFar(middle(i), middle(j), middle(k), REACH_MM));
  }

  /** out = slack and its gradient. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void {
    const bx = Math.floor(x / BRICK_MM);
    const by = Math.floor(y / BRICK_MM);
    const bz = Math.floor(z / BRICK_MM);
    const key = keyOf(bx, by, bz);
    if (key !== this.lastKey) {
      this.last = this.brick(key, bx, by, bz);
      this.lastKey = key;
    }
    if (typeof this.last === 'number') {
      out[0] = this.last;
      out.fill(0, 1);
      return;
    }
    read(
      this.last.corners,
      x / CELL_MM - bx * BRICK_CELLS,
      y / CELL_MM - by * BRICK_CELLS,
      z / CELL_MM - bz * BRICK_CELLS,
      out,
    );
  }

  /** out = slack and its gradient on the true surfaces; like `slackAndGradient` where nothing is within reach. */
  closely(x: number, y: number, z: number, out: Float64Array): void {
    this.slackAndGradient(x, y, z, out);
    if (typeof this.last === 'number') return;
    let nearest: BrickItem | null = null;
    let least = REACH_MM;
    for (const item of this.last.close) {
      const limit = least + item.keepOffMm;
      if (distanceToBounds(item.solid.bounds, x, y, z) >= limit) continue;
      const slack = item.solid.distanceWithin(x, y, z, limit) - item.keepOffMm;
      if (slack >= least) continue;
      least = slack;
      nearest = item;
    }
    out[0] = least;
    if (nearest?.solid.closest !== undefined) awayFrom(nearest.solid as Pick<Solid, 'closest'>, x, y, z, out);
  }

  /** Slack on the true surfaces; any value beyond `reachMm`. */
  exactly(x: number, y: number, z: number, reachMm: number): number {
    return slackOf(this.items, x, y, z, reachMm);
  }

  /** Exact slack at the centre of the coarse cell that holds the place. */
  coarse(x: number, y: number, z: number): number {
    return this.cells.at(Math.floor(x / COARSE_MM), Math.floor(y / COARSE_MM), Math.floor(z / COARSE_MM));
  }

  private brick(key: number, bx: number, by: number, bz: number): Brick {
    const kept = this.bricks.get(key);
    if (kept !== undefined) return kept;
    const made = this.filled(bx * BRICK_MM, by * BRICK_MM, bz * BRICK_MM);
    this.bricks.set(key, made);
    return made;
  }

  private filled(x0: number, y0: number, z0: number): Brick {
    const [cx, cy, cz] = [x0 + BRICK_MM / 2, y0 + BRICK_MM / 2, z0 + BRICK_MM / 2];
    const near = this.items.filter(
      (item) => distanceToBounds(item.solid.bounds, cx, cy, cz) < HALF_DIAGONAL_MM + REACH_MM + item.keepOffMm,
    );
    if (near.length === 0) return REACH_MM;
    const centre = slackOf(near, cx, cy, cz, REACH_MM + HALF_DIAGONAL_MM);
    if (centre >= REACH_MM + HALF_DIAGONAL_MM) return REACH_MM;
    // What is a whole brick further off than the nearest can be nearest nowhere in it.
    const close = near.filter(
      (item) =>
        item.solid.distanceWithin(cx, cy, cz, centre + 2 * HALF_DIAGONAL_MM + item.keepOffMm) - item.keepOffMm <
        centre + 2 * HALF_DIAGONAL_MM,
    );
    const corners = new Float32Array(CORNERS ** 3);
    let n = 0;
    for (let k = 0; k < CORNERS; k++)
      for (let j = 0; j < CORNERS; j++)
        for (let i = 0; i < CORNERS; i++)
          corners[n++] = slackOf(close, x0 + i * CELL_MM, y0 + j * CELL_MM, z0 + k * CELL_MM, REACH_MM);
    return { corners, close };
  }
}

const NOWHERE: Bounds = {
  min: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  max: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
};

const keyOf = (i: number, j: number, k: number): number => i + ORIGIN + SPAN * (j + ORIGIN + SPAN * (k + ORIGIN));

function slackOf(items: readonly BrickItem[], x: number, y: number, z: number, reachMm: number): number {
  let least = reachMm;
  for (const item of items) {
    const limit = least + item.keepOffMm;
    if (distanceToBounds(item.solid.bounds, x, y, z) >= limit) continue;
    const slack = item.solid.distanceWithin(x, y, z, limit) - item.keepOffMm;
    if (slack < least) least = slack;
  }
  return least;
}

/** Trilinear value and gradient at a place in cells from the brick's low corner. */
function read(corners: Float32Array, u: number, v: number, w: number, out: Float64Array): void {
  const i = Math.min(BRICK_CELLS - 1, Math.floor(u));
  const j = Math.min(BRICK_CELLS - 1, Math.floor(v));
  const k = Math.min(BRICK_CELLS - 1, Math.floor(w));
  const [a, b, c] = [u - i, v - j, w - k];
  const at = i + CORNERS * (j + CORNERS * k);
  const row = CORNERS;
  const layer = CORNERS * CORNERS;
  const c000 = corners[at]!;
  const c100 = corners[at + 1]!;
  const c010 = corners[at + row]!;
  const c110 = corners[at + row + 1]!;
  const c001 = corners[at + layer]!;
  const c101 = corners[at + layer + 1]!;
  const c011 = corners[at + layer + row]!;
  const c111 = corners[at + layer + row + 1]!;
  const x00 = c000 + (c100 - c000) * a;
  const x10 = c010 + (c110 - c010) * a;
  const x01 = c001 + (c101 - c001) * a;
  const x11 = c011 + (c111 - c011) * a;
  const y0 = x00 + (x10 - x00) * b;
  const y1 = x01 + (x11 - x01) * b;
  out[0] = y0 + (y1 - y0) * c;
  const gx0 = (c100 - c000) * (1 - b) + (c110 - c010) * b;
  const gx1 = (c101 - c001) * (1 - b) + (c111 - c011) * b;
  out[1] = (gx0 + (gx1 - gx0) * c) / CELL_MM;
  out[2] = ((x10 - x00) * (1 - c) + (x11 - x01) * c) / CELL_MM;
  out[3] = (y1 - y0) / CELL_MM;
}

/** The gradient of a signed distance: away from the surface outside, towards it inside. */
export function awayFrom(solid: Pick<Solid, 'closest'>, x: number, y: number, z: number, out: Float64Array): void {
  const { point, distance } = solid.closest(x, y, z);
  const sign = distance < 0 ? -1 : 1;
  const d = Math.max(1e-9, Math.hypot(x - point[0], y - point[1], z - point[2]));
  out[1] = (sign * (x - point[0])) / d;
  out[2] = (sign * (y - point[1])) / d;
  out[3] = (sign * (z - point[2])) / d;
}

/** Lines whose readings are kept by what they are: twice those of a large car. */
const MOST_ALIKE = 96;

/** What two items of a part must have in common to read the same. */
interface NamedItem extends BrickItem {
  readonly part: string;
  readonly moved: boolean;
}

/** What was read in the car before a change, and which parts the change touched. */
export interface BricksBefore {
  readonly shelf: BrickShelf;
  readonly changed: ReadonlySet<string>;
}

/** Readings by what they keep off: lines with the same rules share them, and a placed line is read the same until it is moved. */
export class BrickShelf {
  private readonly kept = new Map<string, { readonly items: readonly NamedItem[]; readonly bricks: SlackBricks }>();
  private readonly lines = new WeakMap<readonly Body[], SlackBricks>();
  /** The same by what the bodies are, for a car that was handed over anew; and those of the car before the change. */
  private readonly alike = new Map<string, SlackBricks>();
  private readonly alikeBefore: ReadonlyMap<string, SlackBricks>;
  /** Readings of the car before the change, by what did not change. */
  private readonly before: ReadonlyMap<string, { readonly items: readonly NamedItem[]; readonly bricks: SlackBricks }>;
  private readonly changed: ReadonlySet<string>;

  constructor(before?: BricksBefore) {
    this.changed = before?.changed ?? new Set();
    this.alikeBefore = before?.shelf.alike ?? new Map();
    this.before = new Map(
      [...(before?.shelf.kept.values() ?? [])].map((kept) => [keyOfItems(kept.items, this.changed), kept]),
    );
  }

  bricks(items: readonly NamedItem[]): SlackBricks {
    const key = keyOfItems(items);
    const kept = this.kept.get(key);
    if (kept !== undefined) return kept.bricks;
    const bricks = new SlackBricks(items);
    const had = this.before.get(keyOfItems(items, this.changed));
    if (had !== undefined) {
      const isChanged = ({ part }: NamedItem): boolean => this.changed.has(part);
      bricks.takeOver(had.bricks, [...had.items.filter(isChanged), ...items.filter(isChanged)]);
    }
    this.kept.set(key, { items, bricks });
    return bricks;
  }

  /** Slack to the bodies of one placed line, its ends taken as round. */
  line(bodies: readonly Body[], keepOffMm: number): SlackBricks {
    const kept = this.lines.get(bodies);
    if (kept !== undefined) return kept;
    const key = `${keepOffMm} ${bodies.map(({ radiusMm, path }) => `${radiusMm} ${path.join(' ')}`).join('|')}`;
    const bricks =
      this.alike.get(key) ??
      this.alikeBefore.get(key) ??
      new SlackBricks(bodies.map((body) => ({ solid: roundBody(body), keepOffMm })));
    this.lines.set(bodies, bricks);
    this.alike.set(key, bricks);
    for (const oldest of this.alike.keys()) {
      if (this.alike.size <= MOST_ALIKE) break;
      this.alike.delete(oldest);
    }
    return bricks;
  }
}

function roundBody(body: Body): BrickItem['solid'] {
  const field = bodyField(body);
  return {
    bounds: grown(bodyShape(body).bounds, body.radiusMm),
    distanceWithin: (x, y, z, limitMm) => field.roundDistanceWithin(x, y, z, limitMm),
  };
}

const boundsKey = ({ solid }: BrickItem): string => `${solid.bounds.min.join(' ')} ${solid.bounds.max.join(' ')}`;

const keyOfItems = (items: readonly NamedItem[], without?: ReadonlySet<string>): string =>
  items
    .filter((item) => without?.has(item.part) !== true)
    .map((item) => `${item.part} ${item.keepOffMm} ${item.moved ? boundsKey(item) : ''}`)
    .join('|');
