import type { BodyShape } from './body-shape.ts';
import type { Field } from './search-terms.ts';
import type { Vec } from './vec.ts';

/** Pieces in a leaf of the tree: few enough to try one by one, enough to keep the tree small. */
const LEAF = 4;

/**
 * A body as something to measure from: exact distance to its discs and mitres outside; inside, how deep a place lies under
 * the round side or a flat end, whichever is nearer. Pieces stand in a tree in path order, so it takes no sorting.
 */
export class BodyField implements Field {
  private readonly boxes: Float64Array;
  private readonly r: number;
  private bestD = Infinity;
  private kind: 'none' | 'piece' | 'ball' = 'none';
  private index = 0;
  private inside = -Infinity;
  private readonly shape: BodyShape;

  constructor(shape: BodyShape) {
    this.shape = shape;
    this.r = shape.radiusMm;
    this.boxes = new Float64Array(6 * 4 * Math.max(1, shape.pieces));
    this.build(1, 0, shape.pieces);
  }

  /** Distance from a place to the centreline less the radius, as if the ends were round [mm]; any value >= limit beyond it. */
  roundDistanceWithin(x: number, y: number, z: number, limitMm: number): number {
    this.bestD = Math.min(limitMm + this.r, this.offHint(x, y, z));
    this.kind = 'none';
    this.centreline(1, 0, this.shape.pieces, x, y, z);
    // The limit itself, not limit + r - r: one rounding below it would pass for a nearer line.
    return this.nearestKind() === 'none' ? limitMm : this.bestD - this.r;
  }

  /** No nearer than the nearest piece: a hair beyond the one that was nearest last, so that the search finds what it would without. */
  private offHint(x: number, y: number, z: number): number {
    const { points: p, tangents: t, along } = this.shape;
    const k = this.index;
    const wx = x - p[3 * k]!;
    const wy = y - p[3 * k + 1]!;
    const wz = z - p[3 * k + 2]!;
    const s = wx * t[3 * k]! + wy * t[3 * k + 1]! + wz * t[3 * k + 2]!;
    const a = Math.min(along[k + 1]! - along[k]!, Math.max(0, s));
    const ux = wx - t[3 * k]! * a;
    const uy = wy - t[3 * k + 1]! * a;
    const uz = wz - t[3 * k + 2]! * a;
    return Math.sqrt(ux * ux + uy * uy + uz * uz) * (1 + 1e-9) + 1e-9;
  }

  /** The nearest place of the centreline found by the last `roundDistanceWithin`, if any was within its limit. */
  nearestOnCentreline(x: number, y: number, z: number): Vec | null {
    if (this.kind === 'none') return null;
    const { points: p, tangents: t, along } = this.shape;
    const i = this.index;
    const [tx, ty, tz] = [t[3 * i]!, t[3 * i + 1]!, t[3 * i + 2]!];
    const s = (x - p[3 * i]!) * tx + (y - p[3 * i + 1]!) * ty + (z - p[3 * i + 2]!) * tz;
    const a = Math.min(along[i + 1]! - along[i]!, Math.max(0, s));
    return [p[3 * i]! + tx * a, p[3 * i + 1]! + ty * a, p[3 * i + 2]! + tz * a];
  }

  private nearestKind(): 'none' | 'piece' | 'ball' {
    return this.kind;
  }

  distance(x: number, y: number, z: number): number {
    return this.distanceWithin(x, y, z, Infinity);
  }

  distanceWithin(x: number, y: number, z: number, limitMm: number): number {
    // Below 0 only `inside` counts, so the outside search may stop there.
    this.bestD = Math.max(0, limitMm);
    this.kind = 'none';
    this.inside = -Infinity;
    this.discs(1, 0, this.shape.pieces, x, y, z);
    if (this.inside < 0) return this.bestD;
    return -Math.min(this.inside, this.endDepth(x, y, z));
  }

  closest(x: number, y: number, z: number): { readonly point: Vec; readonly distance: number } {
    const distance = this.distance(x, y, z);
    const point =
      distance < 0 ? this.wayOut(x, y, z) : this.kind === 'ball' ? this.onBall(x, y, z) : this.onPiece(x, y, z);
    return { point, distance };
  }

  private build(node: number, i: number, j: number): void {
    const { points: p } = this.shape;
    const b = 6 * node;
    for (let k = 0; k < 3; k++) {
      let lo = Infinity;
      let hi = -Infinity;
      for (let m = i; m <= j; m++) {
        const v = p[3 * m + k]!;
        if (v < lo) lo = v;
        if (v > hi) hi = v;
      }
      this.boxes[b + k] = lo;
      this.boxes[b + 3 + k] = hi;
    }
    if (j - i <= LEAF) return;
    const m = (i + j) >> 1;
    this.build(2 * node, i, m);
    this.build(2 * node + 1, m, j);
  }

  private toBox(node: number, x: number, y: number, z: number): number {
    const b = this.boxes;
    const o = 6 * node;
    const dx = Math.max(b[o]! - x, 0, x - b[o + 3]!);
    const dy = Math.max(b[o + 1]! - y, 0, y - b[o + 4]!);
    const dz = Math.max(b[o + 2]! - z, 0, z - b[o + 5]!);
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  private centreline(node: number, i: number, j: number, x: number, y: number, z: number): void {
    if (j - i > LEAF) {
      const m = (i + j) >> 1;
      const l = this.toBox(2 * node, x, y, z);
      const r = this.toBox(2 * node + 1, x, y, z);
      if (l <= r) {
        if (l < this.bestD) this.centreline(2 * node, i, m, x, y, z);
        if (r < this.bestD) this.centreline(2 * node + 1, m, j, x, y, z);
      } else {
        if (r < this.bestD) this.centreline(2 * node + 1, m, j, x, y, z);
        if (l < this.bestD) this.centreline(2 * node, i, m, x, y, z);
      }
      return;
    }
    const { points: p, tangents: t, along } = this.shape;
    for (let k = i; k < j; k++) {
      const wx = x - p[3 * k]!;
      const wy = y - p[3 * k + 1]!;
      const wz = z - p[3 * k + 2]!;
      const s = wx * t[3 * k]! + wy * t[3 * k + 1]! + wz * t[3 * k + 2]!;
      const a = Math.min(along[k + 1]! - along[k]!, Math.max(0, s));
      const ux = wx - t[3 * k]! * a;
      const uy = wy - t[3 * k + 1]! * a;
      const uz = wz - t[3 * k + 2]! * a;
      const d = Math.sqrt(ux * ux + uy * uy + uz * uz);
      if (d < this.bestD) {
        this.bestD = d;
        this.index = k;
        this.kind = 'piece';
      }
    }
  }

  private discs(node: number, i: number, j: number, x: number, y: number, z: number): void {
    if (j - i > LEAF) {
      const m = (i + j) >> 1;
      const l = this.toBox(2 * node, x, y, z) - this.r;
      const r = this.toBox(2 * node + 1, x, y, z) - this.r;
      // Once inside, every piece that may hold the place counts: the deepest one tells how deep.
      const first = l <= r;
      for (const left of [first, !first]) {
        const d = left ? l : r;
        if (this.inside >= 0 ? d >= 0 : d >= this.bestD) continue;
        if (left) this.discs(2 * node, i, m, x, y, z);
        else this.discs(2 * node + 1, m, j, x, y, z);
      }
      return;
    }
    for (let k = i; k < j; k++) {
      this.onePiece(k, x, y, z);
      if (k > 0) this.oneCorner(k, x, y, z);
    }
  }

  private onePiece(k: number, x: number, y: number, z: number): void {
    const { points: p, tangents: t, along } = this.shape;
    const wx = x - p[3 * k]!;
    const wy = y - p[3 * k + 1]!;
    const wz = z - p[3 * k + 2]!;
    const s = wx * t[3 * k]! + wy * t[3 * k + 1]! + wz * t[3 * k + 2]!;
    const off = Math.sqrt(Math.max(0, wx * wx + wy * wy + wz * wz - s * s));
    const length = along[k + 1]! - along[k]!;
    const past = s < 0 ? -s : s > length ? s - length : 0;
    if (past === 0 && off <= this.r) {
      this.inside = Math.max(this.inside, this.r - off);
      return;
    }
    const out = Math.max(0, off - this.r);
    const d = Math.sqrt(past * past + out * out);
    if (d < this.bestD) {
      this.bestD = d;
      this.kind = 'piece';
      this.index = k;
    }
  }

  /** The mitre at path point k: only the part of the ball between the two discs counts. */
  private oneCorner(k: number, x: number, y: number, z: number): void {
    const { points: p, tangents: t } = this.shape;
    const wx = x - p[3 * k]!;
    const wy = y - p[3 * k + 1]!;
    const wz = z - p[3 * k + 2]!;
    if (wx * t[3 * k - 3]! + wy * t[3 * k - 2]! + wz * t[3 * k - 1]! < 0) return;
    if (wx * t[3 * k]! + wy * t[3 * k + 1]! + wz * t[3 * k + 2]! > 0) return;
    const d = Math.sqrt(wx * wx + wy * wy + wz * wz) - this.r;
    if (d <= 0) this.inside = Math.max(this.inside, -d);
    else if (d < this.bestD) {
      this.bestD = d;
      this.kind = 'ball';
      this.index = k;
    }
  }

  /** How far the nearer flat end's disc is from a place inside; no limit from an end that is farther than the radius. */
  private endDepth(x: number, y: number, z: number): number {
    return Math.min(this.toEnd(false, x, y, z), this.toEnd(true, x, y, z));
  }

  private toEnd(last: boolean, x: number, y: number, z: number): number {
    const { points: p, tangents: t, pieces } = this.shape;
    const i = 3 * (last ? pieces : 0);
    const k = 3 * (last ? pieces - 1 : 0);
    const wx = x - p[i]!;
    const wy = y - p[i + 1]!;
    const wz = z - p[i + 2]!;
    const s = Math.abs(wx * t[k]! + wy * t[k + 1]! + wz * t[k + 2]!);
    const out = Math.max(0, Math.sqrt(Math.max(0, wx * wx + wy * wy + wz * wz - s * s)) - this.r);
    return Math.sqrt(s * s + out * out);
  }

  private onPiece(x: number, y: number, z: number): Vec {
    const { points: p, tangents: t, along } = this.shape;
    const k = this.index;
    const [tx, ty, tz] = [t[3 * k]!, t[3 * k + 1]!, t[3 * k + 2]!];
    const wx = x - p[3 * k]!;
    const wy = y - p[3 * k + 1]!;
    const wz = z - p[3 * k + 2]!;
    const s = wx * tx + wy * ty + wz * tz;
    const a = Math.min(along[k + 1]! - along[k]!, Math.max(0, s));
    const off = Math.sqrt(Math.max(0, wx * wx + wy * wy + wz * wz - s * s));
    const f = off > this.r ? this.r / off : 1;
    return [
      p[3 * k]! + tx * a + (wx - tx * s) * f,
      p[3 * k + 1]! + ty * a + (wy - ty * s) * f,
      p[3 * k + 2]! + tz * a + (wz - tz * s) * f,
    ];
  }

  private onBall(x: number, y: number, z: number): Vec {
    const p = this.shape.points;
    const k = 3 * this.index;
    const d = Math.hypot(x - p[k]!, y - p[k + 1]!, z - p[k + 2]!);
    const f = d > 0 ? this.r / d : 0;
    return [p[k]! + (x - p[k]!) * f, p[k + 1]! + (y - p[k + 1]!) * f, p[k + 2]! + (z - p[k + 2]!) * f];
  }

  /** From inside: straight out of the side, or out of the flat end where that is nearer. */
  private wayOut(x: number, y: number, z: number): Vec {
    const side = -this.roundDistanceWithin(x, y, z, Infinity);
    const axis = this.nearestOnCentreline(x, y, z)!;
    const { points: p, tangents: t, pieces } = this.shape;
    const [first, last] = [this.toEnd(false, x, y, z), this.toEnd(true, x, y, z)];
    if (Math.min(first, last) < side) {
      const i = first <= last ? 0 : 3 * pieces;
      const k = first <= last ? 0 : 3 * (pieces - 1);
      const s = (x - p[i]!) * t[k]! + (y - p[i + 1]!) * t[k + 1]! + (z - p[i + 2]!) * t[k + 2]!;
      return [x - t[k]! * s, y - t[k + 1]! * s, z - t[k + 2]! * s];
    }
    const off = Math.hypot(x - axis[0], y - axis[1], z - axis[2]);
    if (off === 0) return [x, y, z + this.r];
    const f = this.r / off;
    return [axis[0] + (x - axis[0]) * f, axis[1] + (y - axis[1]) * f, axis[2] + (z - axis[2]) * f];
  }
}
