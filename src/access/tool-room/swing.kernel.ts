import { cross, type Vec } from '#geometry';
import type { Look, Thing } from './things.ts';

/** Directions that a handle is told apart by, all round. */
export const STEPS = 1440;
const STEP_RAD = (2 * Math.PI) / STEPS;

/** The plane a tool turns in: where the axis meets it, and two unit vectors in it, square to each other. */
export interface TurnPlane {
  readonly at: Vec;
  readonly e1: Vec;
  readonly e2: Vec;
}

/** A flat bar that points straight out from the axis: its core, and the half thickness that rounds it off [mm]. */
export interface Bar {
  readonly fromMm: number;
  readonly toMm: number;
  readonly halfWidthMm: number;
  readonly halfThickMm: number;
}

/** The edge of what is in the way is found to this, or to this share of how far out it is, whichever is more [mm]. */
const EDGE_MM = 0.3;
const EDGE_SHARE = 0.003;

/** A turn that nothing bars. */
const nothing: readonly (Thing | null)[] = Array.from({ length: STEPS }, () => null);
const each: Int32Array = Int32Array.from({ length: STEPS + 1 }, (_, n) => n);

/**
 * The directions of a handle, and what stands in the way of each. A direction once barred stays barred: each barred one points on
 * towards the next free one, so that a stretch is walked over but once.
 */
export class Directions {
  readonly by: (Thing | null)[];
  private readonly next: Int32Array;

  constructor(from?: Directions) {
    this.by = (from?.by ?? nothing).slice();
    this.next = new Int32Array(from?.next ?? each);
  }

  /** The first free direction from here on; STEPS where there is none before the turn is full. */
  private free(step: number): number {
    const { next } = this;
    let root = step;
    while (next[root] !== root) root = next[root]!;
    while (next[step] !== root) {
      const onward = next[step]!;
      next[step] = root;
      step = onward;
    }
    return root;
  }

  /** Bars the directions from one angle to another [rad]. */
  bar(fromRad: number, toRad: number, by: Thing): void {
    const first = Math.ceil(fromRad / STEP_RAD);
    this.barSteps(first, Math.min(Math.floor(toRad / STEP_RAD), first + STEPS - 1), by);
  }

  private barSteps(first: number, last: number, by: Thing): void {
    if (last < first) return;
    const from = wrapped(first);
    const count = last - first;
    if (from + count >= STEPS) {
      this.barRow(from, STEPS - 1, by);
      this.barRow(0, from + count - STEPS, by);
    } else this.barRow(from, from + count, by);
  }

  private barRow(first: number, last: number, by: Thing): void {
    for (let n = this.free(first); n <= last; n = this.free(n + 1)) {
      this.by[n] = by;
      this.next[n] = n + 1;
    }
  }

  /** Nothing is free from one angle to another [rad]. */
  isBarred(fromRad: number, toRad: number): boolean {
    const first = Math.floor(fromRad / STEP_RAD);
    const last = Math.min(Math.ceil(toRad / STEP_RAD), first + STEPS - 1);
    const from = wrapped(first);
    const to = from + last - first;
    if (to < STEPS) return this.free(from) > to;
    return this.free(from) >= STEPS && this.free(0) > to - STEPS;
  }
}

const wrapped = (step: number): number => ((step % STEPS) + STEPS) % STEPS;

/**
 * A half of a cell is looked at from a middle no further off than the cell's spread, and less than one and a half times as far round as that:
 * what its look may ask of lies within so many spreads, and what it is thick, of the middle of the whole cell [-].
 */
const HALVES_REACH = 2.5;

/**
 * Bars every direction in which the bar would touch something.
 *
 * The bar is a rectangle in the plane with a ball of half its thickness run all over it. A place of the plane that is nearer to
 * something than that bars the directions whose rectangle covers it. The sector all round is cut into cells, large to small: a
 * cell whose middle lies farther from everything than its own spread bars nothing; a middle that is too near bars the directions
 * of the whole disc about it that must be too near as well (a distance changes by no more than one walks); the rest is cut in two.
 */
export function blockDirections(look: Look, plane: TurnPlane, bar: Bar, blocked: Directions): void {
  const { at, e1, e2 } = plane;
  const { fromMm, toMm, halfWidthMm: w, halfThickMm: h } = bar;
  const axis = cross(e1, e2);
  const cells: number[] = [];
  const SECTORS = 8;
  const whole = look.within(at[0], at[1], at[2], 3 * toMm + h);
  /** Of each cell: what can matter within it. */
  const looks: Look[] = [];
  for (let n = 0; n < SECTORS; n++) {
    cells.push(fromMm, toMm, (n * 2 * Math.PI) / SECTORS, ((n + 1) * 2 * Math.PI) / SECTORS);
    looks.push(whole);
  }
  // First in, first out: large cells first, whose discs spare the small ones.
  for (let next = 0; next < cells.length; next += 4) {
    const [r0, r1, f0, f1] = [cells[next]!, cells[next + 1]!, cells[next + 2]!, cells[next + 3]!];
    const r = (r0 + r1) / 2;
    const f = (f0 + f1) / 2;
    const side = Math.asin(Math.min(1, w / Math.max(r0, 1e-9)));
    if (blocked.isBarred(f0 - side, f1 + side)) continue;
    const c = Math.cos(f);
    const s = Math.sin(f);
    const half = (f1 - f0) / 2;
    const spread = Math.sqrt(Math.max(0, r1 * r1 + r * r - 2 * r * r1 * Math.cos(half)));
    const x = at[0] + r * (e1[0] * c + e2[0] * s);
    const y = at[1] + r * (e1[1] * c + e2[1] * s);
    const z = at[2] + r * (e1[2] * c + e2[2] * s);
    const about = looks[next / 4]!;
    const d = about.distance(x, y, z, h + spread);
    if (d >= h + spread) continue;
    if (d < h) {
      const met = about.met!;
      if (d < h - spread) {
        blocked.bar(f0 - side, f1 + side, met);
        continue;
      }
      const isWithin = r - (h - d) >= fromMm && r + (h - d) <= toMm;
      // The disc counts as far as it lies in the bar's own length.
      const reach = Math.asin(Math.min(1, (w + (isWithin ? Math.min(h - d, r) : 0)) / Math.max(r, 1e-9)));
      blocked.bar(f - reach, f + reach, met);
    } else if (about.isClear(x, y, z, axis, h, spread)) continue;
    if (spread <= Math.max(EDGE_MM, EDGE_SHARE * r)) continue;
    const closer = about.within(x, y, z, h + HALVES_REACH * spread);
    looks.push(closer, closer);
    if (r1 - r0 >= r * (f1 - f0)) cells.push(r0, r, f0, f1, r, r1, f0, f1);
    else cells.push(r0, r1, f0, f, r0, r1, f, f1);
  }
}

/** A stretch of directions that nothing bars [deg]; `fromDeg` from e1 towards e2. */
export interface FreeArc {
  readonly fromDeg: number;
  readonly widthDeg: number;
}

/** The free stretches, widest first; one of 360 where nothing stands in the way. */
export function freeArcs({ by }: Directions): FreeArc[] {
  const first = by.findIndex((thing) => thing !== null);
  if (first < 0) return [{ fromDeg: 0, widthDeg: 360 }];
  const arcs: FreeArc[] = [];
  let length = 0;
  for (let n = 1; n <= STEPS; n++) {
    const step = wrapped(first + n);
    if (by[step] === null) {
      length++;
      continue;
    }
    // Free from the first free direction to the last: one less than their number.
    if (length > 1)
      arcs.push({ fromDeg: (wrapped(step - length) * 360) / STEPS, widthDeg: ((length - 1) * 360) / STEPS });
    length = 0;
  }
  return arcs.sort((a, b) => b.widthDeg - a.widthDeg || a.fromDeg - b.fromDeg);
}

/** What a ring of the plane comes nearest to: too near where the distance is below the half thickness [mm]. */
export function ringMeets(look: Look, plane: TurnPlane, ring: Omit<Bar, 'halfWidthMm'>): Thing | null {
  const { at, e1, e2 } = plane;
  const { fromMm, toMm, halfThickMm: h } = ring;
  if (toMm < fromMm) return null;
  const axis = cross(e1, e2);
  // The first looks are at half the ring from its middle: 3/4 of its width out, and so far again to its edge.
  const about = look.within(at[0], at[1], at[2], 3 * toMm + h);
  const stack: number[] = [fromMm, toMm, 0, Math.PI, fromMm, toMm, Math.PI, 2 * Math.PI];
  while (stack.length > 0) {
    const f1 = stack.pop()!;
    const f0 = stack.pop()!;
    const r1 = stack.pop()!;
    const r0 = stack.pop()!;
    const r = (r0 + r1) / 2;
    const f = (f0 + f1) / 2;
    const c = Math.cos(f);
    const s = Math.sin(f);
    const half = (f1 - f0) / 2;
    const spread = half >= Math.PI / 2 ? r + r1 : Math.sqrt(Math.max(0, r1 * r1 + r * r - 2 * r * r1 * Math.cos(half)));
    const x = at[0] + r * (e1[0] * c + e2[0] * s);
    const y = at[1] + r * (e1[1] * c + e2[1] * s);
    const z = at[2] + r * (e1[2] * c + e2[2] * s);
    const d = about.distance(x, y, z, h + spread);
    if (d < h) return about.met;
    if (d >= h + spread || spread <= EDGE_MM || about.isClear(x, y, z, axis, h, spread)) continue;
    if (r1 - r0 >= r * (f1 - f0)) stack.push(r0, r, f0, f1, r, r1, f0, f1);
    else stack.push(r0, r1, f0, f, r0, r1, f, f1);
  }
  return null;
}

/** What a round bar along the axis meets, round ends not counted: between two heights over `at` [mm]. */
export function columnMeets(
  look: Look,
  at: Vec,
  axis: Vec,
  [fromMm, toMm]: readonly [number, number],
  radiusMm: number,
): Thing | null {
  const stack: number[] = [fromMm, toMm];
  const middle = (fromMm + toMm) / 2;
  const [mx, my, mz] = [at[0] + axis[0] * middle, at[1] + axis[1] * middle, at[2] + axis[2] * middle];
  const about = look.within(mx, my, mz, Math.abs(toMm - fromMm) + radiusMm);
  while (stack.length > 0) {
    const b = stack.pop()!;
    const a = stack.pop()!;
    const z = (a + b) / 2;
    const half = (b - a) / 2;
    const d = about.distance(at[0] + axis[0] * z, at[1] + axis[1] * z, at[2] + axis[2] * z, radiusMm + half);
    if (d < radiusMm) return about.met;
    if (d >= radiusMm + half || half <= EDGE_MM) continue;
    stack.push(a, z, z, b);
  }
  return null;
}
